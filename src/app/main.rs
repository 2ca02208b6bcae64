//! The page: mounts the app into the shell that `index.html` lays out.

use leptos::prelude::*;

fn main() {
    console_error_panic_hook::set_once();
    mount_to_body(|| {
        view! {
            <main>
                <h1>"Lip to Rail"</h1>
            </main>
        }
    });
}
