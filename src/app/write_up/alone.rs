//! A chapter's figure without the chapter, to stand in another page.

use geometry::units::Notation;
use leptos::prelude::*;
use leptos::svg;

use super::page::figure_of;
use crate::browser::address;
use crate::figure::FigureView;
use crate::state::address::{Address, Place};
use crate::state::write_up::Chapter;

/// The figure with its lever and its sentence, whose car it is of, and the way to the chapter.
#[component]
pub fn ChapterAlone(chapter: Chapter, notation: Notation) -> AnyView {
    let sheet: NodeRef<svg::Svg> = NodeRef::new();
    let always = Signal::stored(true);
    let figure = figure_of(chapter, always, Memo::new(move |_| notation));
    let there = Address {
        place: Place::WriteUp,
        ..Address::default()
    };
    let whole = format!("{}{}", address::page(), there.part(chapter.word));
    view! {
        <h1 class="heard">{chapter.title}</h1>
        <FigureView figure=figure seen=always sheet=sheet />
        <p>
            <b>{chapter.title}</b>
            " "
            <span>{format!("{}.", chapter.car_name())}</span>
            " "
            <a href=whole target="_blank" rel="noopener">"Read on in Lip to Rail"</a>
            " Geometry, not approval."
        </p>
    }
    .into_any()
}
