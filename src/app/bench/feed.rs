//! Will the wheel go on: the verdict, the wheel on its way past the lip, and what can be changed about it.

use std::sync::Arc;

use drawing::{MountOptions, Scene, mount_finding, mount_here, mount_spoken, mount_view};
use geometry::car::fields::{DROOP, STUD_LENGTH};
use geometry::model::Model;
use geometry::mount::Mounting;
use geometry::side::Side;
use geometry::units::Notation;
use leptos::prelude::*;
use leptos::svg;

use super::listen::{entry, press};
use super::numbers::FixedNumber;
use super::picture::{SceneGroup, group_ids};
use super::said::Said;
use super::store::{Bench, Same};
use crate::browser::later::later;
use crate::browser::motion;
use crate::browser::sight::in_sight;
use crate::browser::size::width_of;
use crate::state::feed::{self, MARKS};
use crate::state::scrub::HOLD;

/// Width of the picture before it is measured, CSS pixels.
const FIRST_WIDTH: f64 = 560.0;
/// Places of the search that are looked at in one piece of work: one may take some milliseconds.
const PLACES: usize = 1;
/// What is said while the way is searched.
const WORKING: &str = "The way on is being searched.";
/// What keeps the picture's place before there is one.
const AWAITED: &str = "0 0 4 3";

/// The section of one side: the one that is looked at, or else the worse one.
#[component]
pub fn Feed(bench: Bench) -> impl IntoView {
    let sheet: NodeRef<svg::Svg> = NodeRef::new();
    let width = width_of(sheet, FIRST_WIDTH);
    let seen = in_sight(sheet);
    let side = bench.side();
    let input = Memo::new(move |_| Some((Same(bench.model.get()?), side.get())));
    let found = later(input, seen.into(), |(model, side): &(Same, Side)| {
        let mut work = Mounting::begin(&model.0, *side);
        Box::new(move || work.step(PLACES))
    });
    let moved = RwSignal::new(None::<f64>);
    let way = Way {
        bench,
        found,
        share: Memo::new(move |_| {
            found.with(|found| {
                found
                    .as_deref()
                    .map_or(1.0, |found| feed::standing(moved.get(), found))
            })
        }),
        moved,
        plays: RwSignal::new(false),
    };
    // The last picture stays, faint and without its words, until the next one is there.
    let scene = Memo::new(move |last: Option<&Option<Arc<Scene>>>| {
        let fresh = || {
            let (model, found) = (bench.model.get()?, found.get()?);
            let options = MountOptions {
                width: width.get(),
                notation: bench.notation.get(),
            };
            Some(Arc::new(mount_view(
                &model,
                &found,
                way.share.get(),
                &options,
            )))
        };
        if seen.get() { fresh() } else { None }.or_else(|| last.cloned().flatten())
    });
    let is_stale = Memo::new(move |_| found.with(Option::is_none));
    let class = move || {
        found.with(|found| {
            found
                .as_ref()
                .map_or("verdict", |found| feed::class(found.finding))
        })
    };
    let finding = move || {
        way.told(mount_finding)
            .unwrap_or_else(|| WORKING.to_owned())
    };
    let goes = Memo::new(move |_| {
        found.with(|found| found.as_ref().is_some_and(|found| !found.way.is_empty()))
    });
    view! {
        <section class="feed" aria-labelledby="feed-title">
            <h2 id="feed-title">{move || format!("Will the {} wheel go on?", side.get().word())}</h2>
            <div class=class>
                <i class="swatch" aria-hidden="true"></i>
                <span>{finding}</span>
            </div>
            <Said words=Signal::derive(finding) />
            <FeedPicture sheet=sheet scene=scene is_stale=is_stale />
            <Show when=move || goes.get()>
                <WaySlider way=way />
            </Show>
            <p class="lead">
                "The axle hangs at full droop, the body stands still. Neither the tire nor the metal gives. "
                "Taking the wheel off is the same way backward."
            </p>
            <p class="caution">"Put the body on stands, never on a jack alone."</p>
            <div class="feed-numbers">
                <FixedNumber bench=bench field=&STUD_LENGTH place="feed" />
                <FixedNumber bench=bench field=&DROOP place="feed" />
            </div>
        </section>
    }
}

/// The way that was found and where on it the wheel is.
#[derive(Clone, Copy)]
struct Way {
    bench: Bench,
    found: Memo<Option<Arc<Mounting>>>,
    /// 0 outside, 1 on the flange.
    share: Memo<f64>,
    /// Where the reader moved it.
    moved: RwSignal<Option<f64>>,
    plays: RwSignal<bool>,
}

impl Way {
    /// Something told of the way; nothing while it is searched.
    fn told(self, tell: impl Fn(&Model, &Mounting, Notation) -> String) -> Option<String> {
        let (model, found) = (self.bench.model.get()?, self.found.get()?);
        Some(tell(&model, &found, self.bench.notation.get()))
    }

    /// Holds the wheel somewhere by hand, which ends the playing.
    fn hold(self, share: f64) {
        self.plays.set(false);
        self.moved.set(Some(share));
    }

    /// Back to the tightest spot, where the slider stood at first.
    fn hold_tightest(self) {
        self.plays.set(false);
        self.moved.set(None);
    }

    /// Plays from where the wheel is, or from outside once it is on; stops where it plays.
    fn play(self) {
        let playing = !self.plays.get_untracked();
        self.plays.set(playing);
        if playing {
            let from = feed::from(self.share.get_untracked());
            self.moved.set(Some(from));
            if motion::is_reduced() {
                self.hold_next();
            } else {
                self.glide(js_sys::Date::now(), from);
            }
        }
    }

    fn glide(self, began: f64, from: f64) {
        request_animation_frame(move || {
            if self.goes_on(feed::gliding(js_sys::Date::now() - began, from)) {
                self.glide(began, from);
            }
        });
    }

    fn hold_next(self) {
        let next = move || {
            let share = self.share.try_get_untracked();
            if share.is_some_and(|share| self.goes_on(feed::next_held(share))) {
                self.hold_next();
            }
        };
        set_timeout(next, HOLD);
    }

    /// Moves the wheel while it plays; whether there is more to play.
    fn goes_on(self, share: f64) -> bool {
        // Nothing plays on a page that was left.
        if self.plays.try_get_untracked() != Some(true) {
            return false;
        }
        self.moved.set(Some(share));
        if share >= 1.0 {
            self.plays.set(false);
        }
        share < 1.0
    }
}

/// The picture, or the place that it will take.
#[component]
fn FeedPicture(
    sheet: NodeRef<svg::Svg>,
    scene: Memo<Option<Arc<Scene>>>,
    is_stale: Memo<bool>,
) -> impl IntoView {
    let ids = Memo::new(move |_| scene.with(|scene| group_ids(scene.as_ref())));
    let of_scene = move |tell: fn(&Scene) -> String, without: &'static str| {
        move || scene.with(|scene| scene.as_deref().map_or(without.to_owned(), tell))
    };
    let name = move || {
        if is_stale.get() {
            WORKING.to_owned()
        } else {
            of_scene(|scene| scene.description.clone(), "")()
        }
    };
    view! {
        <div
            class="sheet"
            class:is-stale=is_stale
            style=("aspect-ratio", of_scene(|scene| format!("{} / {}", scene.view.width, scene.view.height), "4 / 3"))
        >
            <svg
                node_ref=sheet
                class="scene"
                role="img"
                aria-label=name
                viewBox=of_scene(|scene| scene.view.view_box(), AWAITED)
            >
                <For each=move || ids.get() key=Clone::clone let:id>
                    <SceneGroup id=id scene=scene />
                </For>
            </svg>
            <Show when=move || is_stale.get()>
                <p class="working" aria-hidden="true">{WORKING}</p>
            </Show>
        </div>
    }
}

/// Moves the wheel along its way, plays it, and says where it is.
#[component]
fn WaySlider(way: Way) -> impl IntoView {
    let slid = move |text: String| {
        if let Some(share) = feed::share(&text) {
            way.hold(share);
        }
    };
    let at = move |tell: fn(&Model, &Mounting, f64, Notation) -> String| {
        way.told(|model, found, notation| tell(model, found, way.share.get(), notation))
    };
    let class = move || {
        if way.plays.get() {
            "play is-playing"
        } else {
            "play"
        }
    };
    let word = move || if way.plays.get() { "Pause" } else { "Play" };
    view! {
        <div class="feed-way">
            <button type="button" class=class on:click=press(move || way.play())>
                <i aria-hidden="true"></i>
                {word}
                <span class="heard">" the wheel's way on"</span>
            </button>
            <button type="button" class="quiet" on:click=press(move || way.hold_tightest())>"Tightest spot"</button>
            <div class="feed-slide">
                <label for="feed-way">"The way on"</label>
                <input
                    type="range"
                    id="feed-way"
                    min="0"
                    max=MARKS.to_string()
                    step="1"
                    prop:value=move || feed::mark(way.share.get()).to_string()
                    aria-valuetext=move || at(|_, found, share, notation| mount_spoken(found, share, notation))
                    on:input=entry(slid)
                />
            </div>
        </div>
        <p class="spot-words">{move || at(mount_here)}</p>
    }
}
