//! The live figure: what it began with, where its lever is, and what comes of it.

use std::sync::Arc;

use drawing::walk_round::piece;
use drawing::{Dimensions, MountOptions, RearOptions, Scene, Shown, mount_view, rear_view};
use geometry::check::{ACCURACY, at_pose};
use geometry::course::Found;
use geometry::mount::Mounting;
use geometry::side::{Side, Sides};
use geometry::travel::Pose;
use geometry::units::Notation;
use leptos::prelude::*;
use leptos::svg;

use super::sheet::{Sheet, WORKING};
use crate::bench::listen::press;
use crate::bench::said::Said;
use crate::bench::scrubber::{PlayButton, Way, play};
use crate::browser::later::later;
use crate::browser::print::printing;
use crate::browser::size::width_of;
use crate::state::dial::Scale;
use crate::state::exhibit::{Exhibit, Gaps, Seen, View};
use crate::state::figures::{shown, spoken};
use crate::state::scrub::Scrub;
use crate::state::words::unbroken;
use crate::state::write_up::{nearest, spot_angle};

/// Width of a figure before it is measured, CSS pixels.
const FIRST_WIDTH: f64 = 560.0;
/// Below this width a figure shows one gap a side, CSS pixels.
const NARROW: f64 = 420.0;

/// What stands in the place of a strip that is not made.
const NO_PIECE: &str = "The seam is where it was: there is no strip to make.";

/// A figure.
#[derive(Clone, Copy)]
pub struct Figure {
    /// Unique on its page.
    id: &'static str,
    exhibit: Signal<Exhibit>,
    notation: Memo<Notation>,
    /// The car that it began with.
    base: Memo<Option<Arc<Found>>>,
    /// Where the reader moved the lever.
    moved: RwSignal<Option<f64>>,
    /// Where the wheels are held as it begins.
    start: Memo<Scrub>,
    /// Where the wheels are held, where the lever moves them.
    scrub: RwSignal<Scrub>,
    playing: RwSignal<bool>,
    found: Memo<Option<Arc<Found>>>,
    held: Memo<Option<Arc<Gaps>>>,
    pose: Memo<Pose>,
    mounting: Memo<Option<Arc<Mounting>>>,
}

impl Figure {
    /// A figure that begins with `base`, once there is one; a new one puts the lever back.
    pub fn new(
        id: &'static str,
        base: Memo<Option<Arc<Found>>>,
        exhibit: Signal<Exhibit>,
        notation: Memo<Notation>,
    ) -> Self {
        let (moved, scrub) = (RwSignal::new(None), RwSignal::new(Scrub::RIDE));
        let found = Memo::new(move |last: Option<&Option<Arc<Found>>>| {
            let base = base.get()?;
            let Some(value) = moved.get() else {
                return Some(base);
            };
            // A car that cannot be leaves the last one to be seen.
            let changed = exhibit.get().knob.moved(&base, value).map(Arc::new);
            changed.or_else(|| last.cloned().flatten())
        });
        let pose = Memo::new(move |_| {
            found.with(|found| {
                found.as_ref().map_or(Pose::RIDE, |found| {
                    scrub.get().pose(&found.model.car.travel)
                })
            })
        });
        let held = Memo::new(move |_| {
            let (found, pose) = (found.get()?, pose.get());
            (pose != Pose::RIDE).then(|| Arc::new(at_pose(&found.model, pose, ACCURACY)))
        });
        let way: OfWheel = Memo::new(move |_| match exhibit.get().view {
            View::Mount(side) => Some((found.get()?, side)),
            _ => None,
        });
        let searched = later(way, Signal::stored(true), |(found, side)| {
            let mut work = Mounting::begin(&found.model, *side);
            Box::new(move || work.step(1))
        });
        let for_paper = searched_for_paper(way, searched);
        let mounting = Memo::new(move |_| searched.get().or_else(|| for_paper.get()));
        let start = Memo::new(move |_| {
            base.with(|base| {
                base.as_ref()
                    .map_or(Scrub::RIDE, |base| (exhibit.get().start)(base))
            })
        });
        Effect::new(move |_| {
            base.track();
            moved.set(None);
            scrub.set(start.get());
        });
        Self {
            id,
            start,
            exhibit,
            notation,
            base,
            moved,
            scrub,
            playing: RwSignal::new(false),
            found,
            held,
            pose,
            mounting,
        }
    }

    /// Something told of what is to be seen; nothing while there is nothing.
    pub fn told<T>(self, tell: impl Fn(&Seen) -> T) -> Option<T> {
        let (base, found) = (self.base.get()?, self.found.get()?);
        let (held, mounting) = (self.held.get(), self.mounting.get());
        Some(tell(&Seen {
            base: &base,
            found: &found,
            pose: self.pose.get(),
            held: held.as_deref(),
            mounting: mounting.as_deref(),
            notation: self.notation.get(),
        }))
    }

    fn value(self) -> f64 {
        let knob = self.exhibit.get().knob;
        if let Some(value) = knob.on_axle(self.scrub.get()) {
            return value;
        }
        let began = || self.told(|seen| knob.value(&seen.base.model.car));
        self.moved.get().or_else(began).unwrap_or(0.0)
    }

    fn slide(self, value: f64) {
        self.playing.set(false);
        let knob = self.exhibit.get_untracked().knob;
        match knob.axle(value, self.start.get_untracked()) {
            Some(scrub) => self.scrub.set(scrub),
            None => self.moved.set(Some(value)),
        }
    }

    /// Puts the lever where it was.
    fn put_back(self) {
        self.playing.set(false);
        self.moved.set(None);
        self.scrub.set(self.start.get_untracked());
    }

    fn is_moved(self) -> bool {
        self.moved.get().is_some() || self.scrub.get() != self.start.get()
    }

    fn draw(self, width: f64) -> Option<Arc<Scene>> {
        let found = self.found.get()?;
        let notation = self.notation.get();
        match self.exhibit.get().view {
            View::Rear {
                shown,
                dimensions,
                room,
            } => {
                let held = self.held.get();
                let margin = found.model.car.targets.travel;
                let room = room
                    .then(|| Sides::each(|side| found.model.envelope_section(side, margin, 0.0)));
                let options = RearOptions {
                    pose: self.pose.get(),
                    shown,
                    width,
                    notation,
                    dimensions,
                    gaps: if width < NARROW || shown == Shown::Both {
                        1
                    } else {
                        2
                    },
                    envelope: room.as_ref(),
                    at_pose: held.as_deref(),
                    ..RearOptions::default()
                };
                Some(Arc::new(rear_view(&found.model, &found.check, &options)))
            }
            View::Nearest => {
                let (side, surface) = nearest(&found)?;
                let pose = surface.travel.witness.pose;
                let held = at_pose(&found.model, pose, ACCURACY);
                let options = RearOptions {
                    pose,
                    angle: spot_angle(surface),
                    shown: Shown::One(side),
                    width,
                    notation,
                    dimensions: Dimensions::Gaps,
                    gaps: 1,
                    at_pose: Some(&held),
                    ..RearOptions::default()
                };
                Some(Arc::new(rear_view(&found.model, &found.check, &options)))
            }
            View::Mount(_) => {
                let way = self.mounting.get()?;
                let options = MountOptions { width, notation };
                let share = way.tightest_share();
                Some(Arc::new(mount_view(&found.model, &way, share, &options)))
            }
            View::Piece(side) => piece(&found.model, side, width, notation).map(Arc::new),
        }
    }
}

/// The way of the wheel that the figure shows, with whose it is.
type OfWheel = Memo<Option<(Arc<Found>, Side)>>;

/// The same searched at once when the page is printed before it was found: paper does not wait.
fn searched_for_paper(
    way: OfWheel,
    searched: Memo<Option<Arc<Mounting>>>,
) -> Memo<Option<Arc<Mounting>>> {
    let printing = printing();
    Memo::new(move |_| {
        let (found, side) = way.get().filter(|_| searched.with(Option::is_none))?;
        printing
            .get()
            .then(|| Arc::new(Mounting::whole(&found.model, side)))
    })
}

/// The figure: its drawing, its lever, its sentence.
#[component]
pub fn FigureView(
    figure: Figure,
    /// Whether it is looked at: else it does no work.
    #[prop(default = Signal::stored(true))]
    seen: Signal<bool>,
    /// The drawing's place on the page.
    sheet: NodeRef<svg::Svg>,
    /// How wide it is drawn for paper, pixels, where that is another width than the screen's.
    #[prop(optional)]
    on_paper: Option<f64>,
) -> AnyView {
    let (measured, printing) = (width_of(sheet, FIRST_WIDTH), printing());
    let width = Memo::new(move |_| match on_paper {
        Some(paper) if printing.get() => paper,
        _ => measured.get(),
    });
    let scene = Memo::new(move |last: Option<&Option<Arc<Scene>>>| {
        if seen.get() {
            figure.draw(width.get())
        } else {
            last.cloned().flatten()
        }
    });
    let instead = Signal::derive(move || {
        let is_piece = matches!(figure.exhibit.get().view, View::Piece(_));
        if is_piece && figure.found.with(Option::is_some) {
            NO_PIECE
        } else {
            WORKING
        }
    });
    let knob = move || figure.exhibit.get().knob;
    let scale = Memo::new(move |_| {
        let scale = figure.told(|seen| knob().scale(&seen.base.model, seen.notation));
        scale.unwrap_or(Scale::between(0.0, 0.0, figure.notation.get()))
    });
    let value = Signal::derive(move || figure.value());
    let reading = move |say: fn(f64, geometry::field::Quantity, Notation) -> String| {
        Signal::derive(move || say(value.get(), knob().quantity(), figure.notation.get()))
    };
    let words = Memo::new(move |_| {
        let words = figure.told(|seen| (figure.exhibit.get().say)(seen));
        words.map_or_else(|| WORKING.to_owned(), |words| unbroken(&words))
    });
    let travel = Memo::new(move |_| {
        figure.told(|seen| {
            let car = &seen.found.model.car;
            (car.travel, car.track_width())
        })
    });
    play(figure.playing, figure.scrub, travel, || ());
    let plays = move || {
        knob()
            .on_axle(Scrub::RIDE)
            .is_some()
            .then(|| view! { <PlayButton playing=figure.playing /> })
    };
    view! {
        <figure class="live">
            <Sheet sheet=sheet scene=scene instead=instead />
            <div class="live-lever">
                {plays}
                <Way
                    id=format!("{}-lever", figure.id)
                    label=Signal::derive(move || knob().label())
                    scale=scale
                    value=value
                    shown=reading(shown)
                    spoken=reading(spoken)
                    slide=move |value| figure.slide(value)
                />
                <button
                    type="button"
                    class="quiet"
                    aria-disabled=move || (!figure.is_moved()).to_string()
                    on:click=press(move || figure.put_back())
                >
                    "Put back"
                </button>
            </div>
            <figcaption>{words}</figcaption>
            <Said words=words />
        </figure>
    }
    .into_any()
}
