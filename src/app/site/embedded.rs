//! One figure alone, to stand in another page: it keeps nothing, and tells that page how high it is.

use leptos::html;
use leptos::prelude::*;

use crate::bench::store::Bench;
use crate::browser::size::width_of;
use crate::browser::{address, parent, raster};
use crate::state::address::{Address, Place};
use crate::state::desk::Desk;
use crate::state::history::History;
use crate::state::opening;
use crate::state::passing::{FIGURES, Figure, link};
use crate::state::settings::{Settings, chosen};
use crate::state::words;
use crate::taking::drawn;

/// Width of the figure before it is measured, CSS pixels.
const FIRST_WIDTH: f64 = 640.0;

/// The figure that the address asks for alone, if it asks for one that there is.
pub fn asked() -> Option<(Figure, Address)> {
    let address = Address::read(&address::fragment());
    let figure = chosen(&FIGURES, address.figure.as_deref()?)?;
    Some((figure, address))
}

/// The figure, its finding, and the way to the whole page.
#[component]
pub fn Embedded(figure: Figure, address: Address) -> impl IntoView {
    let work = match address.car.map(|token| carfile::from_token(&token)) {
        Some(Ok(car)) => Some(opening::linked(car)),
        // Another car in the place of the one that was meant would mislead.
        Some(Err(fault)) => {
            return view! { <main class="embedded"><p role="alert">{fault.sentences().join(" ")}</p></main> }.into_any();
        }
        None => opening::invented(0),
    };
    let Some(work) = work else {
        return view! { <main class="embedded"><p role="alert">"The page was put together without its cars."</p></main> }.into_any();
    };
    let name = work.car.name.clone();
    let whole = link(&address::page(), Place::Bench, &work.car);
    let bench = Bench::new(Desk {
        history: History::new(work),
        own: Vec::new(),
        settings: Settings::default(),
    });
    let all: NodeRef<html::Main> = NodeRef::new();
    let width = width_of(all, FIRST_WIDTH);
    let scene = drawn(
        bench,
        RwSignal::new(figure),
        width.into(),
        Signal::stored(true),
    );
    let source = move || {
        scene.with(|scene| {
            scene
                .as_deref()
                .map_or(String::new(), |scene| raster::address(&scene.file()))
        })
    };
    let title = move || {
        scene.with(|scene| {
            scene
                .as_deref()
                .map_or(String::new(), |scene| scene.title.clone())
        })
    };
    let shape = move || {
        scene.with(|scene| {
            scene.as_deref().map_or("16 / 9".to_owned(), |scene| {
                format!("{} / {}", scene.view.width, scene.view.height)
            })
        })
    };
    let finding = move || {
        let check = bench.check.get();
        check.map_or(String::new(), |check| {
            words::verdict(&check, bench.notation.get())
        })
    };
    // The page around makes room for what is drawn.
    Effect::new(move |_| {
        let _ = (width.get(), scene.get());
        request_animation_frame(move || {
            if let Some(all) = all.get_untracked() {
                parent::tell_height(all.get_bounding_client_rect().height());
            }
        });
    });
    document().set_title(&format!("{name} · Lip to Rail"));
    view! {
        <main class="embedded" node_ref=all>
            <h1 class="heard">{name.clone()}</h1>
            <img src=source alt=title style=("aspect-ratio", shape) />
            <p>
                <b>{name}</b>
                " "
                <span>{finding}</span>
                " "
                <a href=whole target="_blank" rel="noopener">"Open it in Lip to Rail"</a>
            </p>
        </main>
    }
    .into_any()
}
