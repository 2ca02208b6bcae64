//! One figure alone, to stand in another page: it keeps nothing, and tells that page how high it is.

use drawing::Shown;
use leptos::html;
use leptos::prelude::*;

use super::page::wear;
use crate::bench::store::Bench;
use crate::browser::size::{on_resize, width_of};
use crate::browser::{address, parent, raster};
use crate::state::address::{Address, Place};
use crate::state::desk::Desk;
use crate::state::history::History;
use crate::state::opening;
use crate::state::passing::{FIGURES, Figure, link};
use crate::state::settings::{Settings, THEMES, Theme, chosen};
use crate::state::words;
use crate::state::work::Work;
use crate::state::write_up::{Chapter, chapters};
use crate::taking::{drawn, shape};
use crate::write_up::ChapterAlone;

/// Width of the figure before it is measured, CSS pixels.
const FIRST_WIDTH: f64 = 640.0;
/// Below this width only the side that is spoken of is shown: of both, no name would have room, CSS pixels.
const NARROW: f64 = 480.0;

/// What can stand alone.
#[derive(Clone, Copy)]
pub enum Alone {
    /// A picture of a car.
    Picture(Figure),
    /// A figure of the Write-up.
    Chapter(Chapter),
}

/// The figure that the address asks for alone, if it asks for one that there is.
pub fn asked() -> Option<(Alone, Address)> {
    let address = Address::read(&address::fragment());
    let word = address.figure.as_deref()?;
    let alone = match address.place {
        Place::WriteUp => {
            let chapter = chapters().into_iter().find(|one| one.word == word)?;
            Alone::Chapter(chapter)
        }
        _ => Alone::Picture(chosen(&FIGURES, word)?),
    };
    Some((alone, address))
}

/// The figure, what is said of it, and the way to the whole page.
#[component]
pub fn Embedded(alone: Alone, address: Address) -> impl IntoView {
    let colors = address.colors.as_deref();
    let theme = colors.and_then(|word| chosen(&THEMES, word));
    let theme = theme.unwrap_or_default();
    wear(theme);
    let all: NodeRef<html::Main> = NodeRef::new();
    // The page around makes room for what is drawn.
    on_resize(all, |all| {
        parent::tell_height(all.get_bounding_client_rect().height());
    });
    let inside = match alone {
        Alone::Chapter(chapter) => {
            name_the_page(chapter.title);
            let notation = Settings::default().notation;
            view! { <ChapterAlone chapter=chapter notation=notation /> }.into_any()
        }
        Alone::Picture(figure) => match work(address) {
            Ok(work) => {
                name_the_page(&work.car.name);
                view! { <Picture work=work figure=figure theme=theme all=all /> }.into_any()
            }
            Err(why) => view! { <p role="alert">{why}</p> }.into_any(),
        },
    };
    view! { <main class="embedded" node_ref=all>{inside}</main> }
}

fn name_the_page(name: &str) {
    document().set_title(&format!("{name} \u{b7} Lip to Rail"));
}

/// The car that the address carries, or the first invented one where it carries none.
fn work(address: Address) -> Result<Work, String> {
    match address.car.map(|token| carfile::from_token(&token)) {
        Some(Ok(car)) => Ok(opening::linked(car)),
        // Another car in the place of the one that was meant would mislead.
        Some(Err(fault)) => Err(fault.sentences().join(" ")),
        None => opening::invented(0)
            .ok_or_else(|| "The page was put together without its cars.".to_owned()),
    }
}

/// A picture of a car, and its finding.
#[component]
fn Picture(work: Work, figure: Figure, theme: Theme, all: NodeRef<html::Main>) -> impl IntoView {
    let name = work.car.name.clone();
    let whole = link(&address::page(), Place::Bench, &work.car);
    let bench = Bench::new(Desk {
        history: History::new(work),
        own: Vec::new(),
        settings: Settings::default(),
    });
    let width = width_of(all, FIRST_WIDTH);
    let shown = Signal::derive(move || {
        let check = bench.check.get().filter(|_| width.get() < NARROW);
        let worst = check.and_then(|check| check.worst().map(|(side, _)| side));
        worst.map_or(Shown::Both, Shown::One)
    });
    let scene = drawn(
        bench,
        RwSignal::new(figure),
        shown,
        width.into(),
        Signal::stored(true),
    );
    let source = move || {
        scene.with(|scene| {
            scene.as_deref().map_or(String::new(), |scene| {
                let file = theme
                    .scheme()
                    .map_or_else(|| scene.file(), |scheme| scene.file_in(scheme, width.get()));
                raster::address(&file)
            })
        })
    };
    let title = move || {
        scene.with(|scene| {
            scene
                .as_deref()
                .map_or(String::new(), |scene| scene.title.clone())
        })
    };
    let shape = move || scene.with(|scene| shape(scene.as_deref()));
    let finding = move || {
        let found = bench.model.get().zip(bench.check.get());
        let verdict = found.map_or(String::new(), |(model, check)| {
            words::verdict(&check, &model.car.tire, bench.notation.get())
        });
        if figure == Figure::Travel {
            // The chart is of both wheels together; what decides may be a tilt.
            format!(
                "{} With tilt and sideways give as well: {}",
                title(),
                verdict
            )
        } else {
            verdict
        }
    };
    view! {
        <h1 class="heard">{name.clone()}</h1>
        <img src=source alt=title style=("aspect-ratio", shape) />
        <p>
            <b>{name}</b>
            " "
            <a href=whole target="_blank" rel="noopener">"Open it in Lip to Rail"</a>
            " "
            <span>{finding}</span>
            " Geometry, not approval."
        </p>
    }
}
