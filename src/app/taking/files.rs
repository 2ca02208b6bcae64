//! Tables and files.

use drawing::post::gaps_csv;
use leptos::prelude::*;

use crate::bench::listen::press;
use crate::bench::store::Bench;
use crate::browser::download;
use crate::state::work::file_name;

/// The gap list for a spreadsheet, and the car file.
#[component]
pub fn Files(bench: Bench) -> impl IntoView {
    let save = move |ending: &str, text: String| {
        let name = bench
            .work
            .with_untracked(|work| file_name(&work.car.name, ending));
        if !download::save(&name, &text) {
            bench
                .notice
                .set(Some("The browser did not take the file.".to_owned()));
        }
    };
    let gaps = move || {
        if let Some(check) = bench.check.get_untracked() {
            save("-gaps.csv", gaps_csv(&check));
        }
    };
    let car = move || {
        let text = bench.history.with_untracked(|history| {
            carfile::write(&history.settled().car, bench.notation.get_untracked())
        });
        save(".toml", text);
    };
    view! {
        <section class="take" aria-labelledby="files-title">
            <h2 id="files-title">"Tables and files"</h2>
            <p class="lead">"The gap list opens in any spreadsheet. The car file opens here again, and in a text editor."</p>
            <p class="to-do">
                <button type="button" class="quiet" on:click=press(gaps)>"Save the gap list (CSV)"</button>
                <button type="button" class="quiet" on:click=press(car)>"Save the car file"</button>
            </p>
        </section>
    }
}
