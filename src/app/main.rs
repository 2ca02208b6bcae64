//! The page: mounts the Bench into the shell that `index.html` lays out.

mod bench;
mod browser;
mod figure;
mod sheets;
mod site;
mod state;
mod taking;
mod walk_round;
mod write_up;

use leptos::prelude::*;

fn main() {
    browser::crash::set_hook();
    browser::starting::end();
    mount_to_body(|| view! { <site::Page /> });
}
