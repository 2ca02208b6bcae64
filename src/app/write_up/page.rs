//! The page: a long read, chapter by chapter, each with a figure whose numbers stand in its sentences.

use std::sync::Arc;

use geometry::course::Found;
use geometry::units::Notation;
use leptos::prelude::*;
use leptos::svg;

use crate::bench::listen::press;
use crate::bench::store::Bench;
use crate::browser::reveal::reveal;
use crate::browser::sight::comes_in_sight;
use crate::figure::{Figure, FigureView};
use crate::site::TITLE;
use crate::state::address::{Address, Place};
use crate::state::opening;
use crate::state::passing::chapter_alone;
use crate::state::words::unbroken;
use crate::state::write_up::{Chapter, chapters};
use crate::taking::Snippet;

/// What the page opens with.
const LEDE: &str = "A wide tire under an old car is a question of room. The room lies between the quarter lip, which you \
     can see, and the frame rail, which you can't, and a sheet-metal box stands in the middle of it. This page walks \
     through what stops a tire in the order in which it is worth finding out: measure, move the wheel, think about \
     travel, and only then think about metal. Every picture is of a car that we made up. Move the lever beneath it and \
     the bold numbers in the text move with it.";

/// The club's page. It is about invented cars; the one on the bench stays as it is.
#[component]
pub fn WriteUp(bench: Bench, address: RwSignal<Address>) -> AnyView {
    let chapters = StoredValue::new(chapters());
    let contents = move || {
        let links = chapters.get_value().into_iter().map(|chapter| {
            let to = move || address.with(|address| address.part(chapter.word).to_string());
            view! { <li><a href=to>{chapter.title}</a></li> }
        });
        links.collect_view()
    };
    begin_at_part(address);
    let parts = chapters.get_value().into_iter();
    let parts =
        parts.map(|chapter| view! { <ChapterView bench=bench chapter=chapter address=address /> });
    view! {
        <article class="read">
            <h1 id=TITLE tabindex="-1">"More tire than the car was built for"</h1>
            <p class="lede">{LEDE}</p>
            <nav aria-label="Chapters"><ol>{contents}</ol></nav>
            {parts.collect_view()}
        </article>
    }
    .into_any()
}

/// Begins at the part that the address asks for, once it is there.
fn begin_at_part(address: RwSignal<Address>) {
    Effect::new(move |_| {
        let Some(part) = address.with(|address| address.at.clone()) else {
            return;
        };
        // After the page's own heading, which whoever comes from another page begins at.
        request_animation_frame(move || {
            request_animation_frame(move || reveal(&format!("at-{part}")));
        });
    });
}

/// A chapter.
#[component]
fn ChapterView(bench: Bench, chapter: Chapter, address: RwSignal<Address>) -> AnyView {
    let sheet: NodeRef<svg::Svg> = NodeRef::new();
    let seen = comes_in_sight(sheet);
    let figure = figure_of(chapter, seen.into(), bench.notation);
    let mut blocks = chapter.blocks().into_iter().map(|block| {
        let filled = Memo::new(move |_| {
            // A block without numbers does not wait for any.
            if !block.contains('{') {
                return unbroken(block);
            }
            let filled = figure.told(|seen| chapter.filled(block, Some(seen)));
            unbroken(&filled.unwrap_or_else(|| chapter.filled(block, None)))
        });
        view! { <div class="block" inner_html=move || filled.get()></div> }.into_any()
    });
    let first = blocks.next();
    let id = format!("at-{}", chapter.word);
    // As the figure shows it, wherever its lever stands.
    let take = move || {
        let shown = untrack(|| figure.told(|seen| seen.found.model.car.clone()));
        if let Some(work) = opening::invented(chapter.car) {
            bench.open(work.with(|car| {
                if let Some(shown) = shown {
                    *car = shown;
                }
            }));
        }
    };
    view! {
        <section class="chapter" aria-labelledby=id.clone()>
            <h2 id=id.clone() tabindex="-1">{chapter.title}</h2>
            {first}
            <FigureView figure=figure seen=seen.into() sheet=sheet />
            <p class="made-up">
                {format!("{}. ", chapter.car_name())}
                <a href=move || address.with(|address| address.on(Place::Bench).to_string()) on:click=press(take)>"Open it on the Bench"</a>
            </p>
            {blocks.collect::<Vec<_>>()}
            <details class="panel">
                <summary>"Put this figure into a page of your own"</summary>
                <p class="lead">"With its lever and its sentence, as wide as your page allows."</p>
                <Snippet id=chapter.word alone=Signal::stored(Some(chapter_alone(chapter.word))) name=Signal::stored(chapter.title.to_owned()) />
            </details>
        </section>
    }
    .into_any()
}

/// A chapter's figure, for those who have `seen` it once: what is scrolled past need not be made again.
pub(super) fn figure_of(chapter: Chapter, seen: Signal<bool>, notation: Memo<Notation>) -> Figure {
    let base = Memo::new(move |last: Option<&Option<Arc<Found>>>| match last {
        Some(Some(base)) => Some(Arc::clone(base)),
        _ => seen.get().then(|| chapter.base().map(Arc::new)).flatten(),
    });
    let exhibit = Signal::stored(chapter.exhibit);
    Figure::new(chapter.word, base, exhibit, notation)
}
