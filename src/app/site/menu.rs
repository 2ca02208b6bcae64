//! The car menu: the invented cars, the reader's own, files in and out.

use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{DragEvent, File, FileList};
use leptos::{ev, web_sys};
use wasm_bindgen_futures::JsFuture;

use crate::bench::listen::press;
use crate::bench::store::{Bench, Refused};
use crate::bench::typed_box::TypedBox;
use crate::browser::download;
use crate::browser::storage::{self, Slot};
use crate::state::naming::named;
use crate::state::work::{Source, Work, file_name};
use crate::state::{kept, opening};

/// Larger files are not read, bytes: a car file is some thousand, and work that was put aside no more than a browser
/// keeps, which is some five million letters.
const LARGEST_FILE: f64 = 20e6;

/// The button with the car's name, and the list that it opens.
#[component]
pub fn CarMenu(bench: Bench) -> impl IntoView {
    let name = move || bench.work.with(|work| work.car.name.clone());
    let changed = move || {
        bench.work.with(|work| {
            if work.car == work.opened {
                ""
            } else {
                "changed"
            }
        })
    };
    let list: NodeRef<html::Div> = NodeRef::new();
    let pick = move |work: Option<Work>| {
        if let Some(work) = work {
            bench.open(work);
        }
        if let Some(list) = list.get_untracked() {
            // A list that is closed already stays so.
            let _ = list.hide_popover();
        }
    };
    // Nothing is put aside without a word.
    let is_aside = Memo::new(move |_| {
        bench.notice.track();
        storage::read(Slot::Aside).is_some()
    });
    let forget_aside = move || {
        storage::forget(Slot::Aside);
        bench.notice.set(None);
    };
    let begin = move || {
        let from = bench.settled().car;
        let mut others = bench.aside.get_untracked();
        others.push(bench.settled());
        pick(Some(opening::begun(&from, &others)));
        bench.notice.set(Some(opening::begun_words(&from.name)));
    };
    view! {
        <button type="button" class="car-button" popovertarget="cars">
            <span class="over">"Car"</span>
            <span class="car-name">{name}</span>
            <span class="changed">{changed}</span>
        </button>
        <div id="cars" class="cars" popover="auto" node_ref=list role="group" aria-label="Cars">
            <h2>"This car"</h2>
            <CarName bench=bench />
            <h2>"Your cars"</h2>
            <ul>
                <CarEntry
                    name="Start a car of your own".to_owned()
                    purpose="Its numbers are this one's until you type yours over them.".to_owned()
                    on_pick=begin
                />
                <Show when=move || bench.aside.with(Vec::is_empty)>
                    <li class="none">"Cars that you changed or opened from a file are kept here when you take another."</li>
                </Show>
                <For each=move || bench.aside.get() key=|work| format!("{:?}{}", work.source, work.car.name) let:work>
                    <CarEntry name=work.car.name.clone() purpose=origin(&work) on_pick=move || pick(Some(work.clone())) />
                </For>
                <Show when=move || is_aside.get()>
                    <li>
                        <button type="button" class="car" on:click=press(move || save_aside(bench))>
                            <b>"Save what was put aside"</b>
                            <span>"Work of an earlier visit that could not be opened, as it was kept."</span>
                        </button>
                    </li>
                    <li>
                        <button type="button" class="car" on:click=press(forget_aside)>
                            <b>"Forget what was put aside"</b>
                            <span>"Once you have it as a file."</span>
                        </button>
                    </li>
                </Show>
            </ul>
            <h2>"Invented cars"</h2>
            <ul>
                {(0..carfile::SCENARIOS.len())
                    .filter_map(opening::invented)
                    .map(|work| view! {
                        <CarEntry
                            name=work.car.name.clone()
                            purpose=work.car.purpose.clone()
                            on_pick=move || pick(Some(work.clone()))
                        />
                    })
                    .collect_view()}
            </ul>
        </div>
    }
}

#[component]
fn CarName(bench: Bench) -> impl IntoView {
    let shown = Signal::derive(move || bench.work.with(|work| work.car.name.clone()));
    let accept = move |text: String| {
        let name = named(&text, "car")?;
        bench.commit("Name", |car| car.name = name);
        Ok(())
    };
    view! {
        <p class="number">
            <label for="car-name">"Name"</label>
            <TypedBox id="car-name".to_owned() shown=shown accept=accept class="name" />
        </p>
    }
}

/// One car of the list.
#[component]
fn CarEntry(name: String, purpose: String, on_pick: impl Fn() + 'static) -> impl IntoView {
    view! {
        <li>
            <button type="button" class="car" on:click=press(on_pick)>
                <b>{name}</b>
                <span>{purpose}</span>
            </button>
        </li>
    }
}

fn origin(work: &Work) -> String {
    match work.source {
        Source::File => "From a file of yours.".to_owned(),
        Source::Link => "From a link.".to_owned(),
        Source::Begun => "Begun here.".to_owned(),
        Source::Invented(_) => format!("{}, as you changed it.", work.opened.name),
    }
}

fn save_aside(bench: Bench) {
    let text = storage::read(Slot::Aside).unwrap_or_default();
    if !download::save("put-aside.txt", &text) {
        bench
            .notice
            .set(Some("The browser did not take the file.".to_owned()));
    }
}

/// Open and save.
#[component]
pub fn FileButtons(bench: Bench) -> impl IntoView {
    let input: NodeRef<html::Input> = NodeRef::new();
    let ask = move |_| {
        if let Some(input) = input.get_untracked() {
            // The same file may be chosen again after it was mended.
            input.set_value("");
            input.click();
        }
    };
    let chosen = move |_| open_first(bench, input.get_untracked().and_then(|input| input.files()));
    let save = move |_| {
        let (name, text) = bench.history.with_untracked(|history| {
            let car = &history.settled().car;
            (
                file_name(&car.name, ".toml"),
                carfile::write(car, bench.notation.get_untracked()),
            )
        });
        if !download::save(&name, &text) {
            bench
                .notice
                .set(Some("The browser did not take the file.".to_owned()));
        }
    };
    view! {
        <div class="pair files">
            <button type="button" class="quiet" on:click=ask>"Open"</button>
            <button type="button" class="quiet" on:click=save>"Save"</button>
            <input type="file" class="hidden" accept=".toml,text/plain" aria-label="Car file" tabindex="-1" node_ref=input on:change=chosen />
        </div>
    }
}

/// Opens a file that is dropped anywhere on the page.
pub fn listen_for_drops(bench: Bench) {
    let over = window_event_listener(ev::dragover, |drag: DragEvent| drag.prevent_default());
    let dropped = window_event_listener(ev::drop, move |drop: DragEvent| {
        drop.prevent_default();
        open_first(bench, drop.data_transfer().and_then(|held| held.files()));
    });
    on_cleanup(move || {
        over.remove();
        dropped.remove();
    });
}

fn open_first(bench: Bench, files: Option<FileList>) {
    let Some(file) = files.and_then(|files| files.get(0)) else {
        return;
    };
    spawn_local(async move {
        let name = file.name();
        match text_of(&file).await.and_then(|text| cars_of(&text)) {
            Ok(works) => {
                bench.refused.set(None);
                for work in works {
                    bench.open(work);
                }
            }
            Err(faults) => bench.refused.set(Some(Refused { name, faults })),
        }
    });
}

async fn text_of(file: &File) -> Result<String, Vec<String>> {
    if file.size() > LARGEST_FILE {
        return Err(vec![format!(
            "The file has {:.1} MB; a car file has some thousand bytes. Choose a file that this page saved.",
            file.size() / 1e6
        )]);
    }
    let blob: &web_sys::Blob = file.unchecked_ref();
    let text = JsFuture::from(blob.text())
        .await
        .ok()
        .and_then(|text| text.as_string());
    text.ok_or_else(|| vec!["The browser could not read the file.".to_owned()])
}

/// The car of a car file, or the cars of a file of work that was put aside, the one to open last.
fn cars_of(text: &str) -> Result<Vec<Work>, Vec<String>> {
    match kept::salvaged(text) {
        Some(works) if works.is_empty() => Err(vec![
            "This version of the page can read no car in it. Keep the file: a newer version may."
                .to_owned(),
        ]),
        Some(works) => Ok(works),
        None => carfile::read(text)
            .map(|car| vec![Work::open(car, Source::File)])
            .map_err(|faults| faults.iter().map(ToString::to_string).collect()),
    }
}
