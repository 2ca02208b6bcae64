//! The travel scrubber: holds the axle anywhere in its travel, and plays bump, droop and roll.

use geometry::field::Quantity;
use geometry::travel::{Pose, TravelSpec};
use geometry::units::Notation;
use leptos::prelude::*;

use super::listen::{entry, press};
use super::store::Bench;
use crate::browser::motion;
use crate::state::dial::Scale;
use crate::state::figures::{directed, shown, spoken};
use crate::state::scrub::{HOLD, Scrub, gliding, most_tilt, roll, station};

/// The scrubber.
#[component]
pub fn Scrubber(bench: Bench) -> impl IntoView {
    let travel = Memo::new(move |_| {
        bench.model.with(|model| {
            model
                .as_ref()
                .map(|model| (model.car.travel, model.car.track_width()))
        })
    });
    let heave_scale = Memo::new(move |_| {
        let (travel, _) = travel.get().unwrap_or(NO_TRAVEL);
        Scale::between(-travel.droop, travel.bump, bench.notation.get())
    });
    let tilt_scale = Memo::new(move |_| {
        let (travel, track) = travel.get().unwrap_or(NO_TRAVEL);
        let most = most_tilt(&travel, track);
        Scale::between(-most, most, bench.notation.get())
    });
    let heave = Signal::derive(move || bench.scrub.get().heave);
    let tilt = Signal::derive(move || bench.scrub.get().tilt);
    let say_heave = move || directed_spoken(heave.get(), ("up", "down"), bench.notation.get());
    let say_tilt = move || tilt_words(bench, true);
    let at_rest = move || bench.scrub.get() == Scrub::RIDE;

    play(bench.playing, bench.scrub, travel, move || {
        bench.picked.set(None);
    });
    view! {
        <section class="scrubber" aria-label="Travel">
            <PlayButton playing=bench.playing />
            <Way
                id="heave"
                label="Both wheels"
                scale=heave_scale
                value=heave
                shown=Signal::derive(move || directed(heave.get(), ("up", "down"), bench.notation.get()))
                spoken=Signal::derive(say_heave)
                slide=move |heave| bench.hold(Scrub { heave, ..bench.scrub.get_untracked() })
            />
            <Way
                id="tilt"
                label="Roll"
                scale=tilt_scale
                value=tilt
                shown=Signal::derive(move || tilt_words(bench, false))
                spoken=Signal::derive(say_tilt)
                slide=move |tilt| bench.hold(Scrub { tilt, ..bench.scrub.get_untracked() })
            />
            <button
                type="button"
                class="quiet"
                aria-disabled=move || at_rest().to_string()
                on:click=press(move || bench.hold(Scrub::RIDE))
            >
                "To ride height"
            </button>
        </section>
    }
}

/// What a scrubber moves when there is no car.
const NO_TRAVEL: (TravelSpec, f64) = (
    TravelSpec {
        bump: 0.0,
        droop: 0.0,
        roll_limit: None,
        give: 0.0,
        ride_change: 0.0,
    },
    1.0,
);

/// One way of moving the axle.
#[component]
pub fn Way(
    #[prop(into)] id: String,
    #[prop(into)] label: Signal<&'static str>,
    scale: Memo<Scale>,
    value: Signal<f64>,
    shown: Signal<String>,
    spoken: Signal<String>,
    slide: impl Fn(f64) + 'static,
) -> impl IntoView {
    let slid = move |text: String| {
        if let Ok(position) = text.parse() {
            slide(scale.get_untracked().value(position));
        }
    };
    view! {
        <div class="way">
            <label for=id.clone()>{label}</label>
            <input
                type="range"
                id=id
                min=move || scale.get().least.to_string()
                max=move || scale.get().most.to_string()
                step="1"
                prop:value=move || scale.get().position(value.get()).to_string()
                aria-valuetext=spoken
                on:input=entry(slid)
            />
            <span class="reading" aria-hidden="true">{shown}</span>
        </div>
    }
}

/// Starts and ends the playing.
#[component]
pub fn PlayButton(playing: RwSignal<bool>) -> impl IntoView {
    let word = move || {
        if playing.get() {
            "Pause"
        } else {
            "Play travel"
        }
    };
    let class = move || {
        if playing.get() {
            "play is-playing"
        } else {
            "play"
        }
    };
    view! {
        <button type="button" class=class on:click=move |_| playing.update(|playing| *playing = !*playing)>
            <i aria-hidden="true"></i>
            {word}
        </button>
    }
}

/// Where the axle of a car goes, and how far apart its wheels are.
type Travel = Option<(TravelSpec, f64)>;

/// Runs the axle through its round while it plays: gliding, or from pose to pose where motion is to be reduced.
pub fn play(
    playing: RwSignal<bool>,
    scrub: RwSignal<Scrub>,
    travel: Memo<Travel>,
    begins: impl Fn() + 'static,
) {
    // Nothing plays on a page that was left.
    on_cleanup(move || playing.set(false));
    let round = Round {
        playing,
        scrub,
        travel,
    };
    Effect::new(move |_| {
        if playing.get() {
            begins();
            if motion::is_reduced() {
                round.hold_next(1);
            } else {
                round.glide(None);
            }
        }
    });
}

/// What plays.
#[derive(Clone, Copy)]
struct Round {
    playing: RwSignal<bool>,
    scrub: RwSignal<Scrub>,
    travel: Memo<Travel>,
}

impl Round {
    /// Not so either once the page is gone.
    fn goes_on(self) -> bool {
        self.playing.try_get_untracked() == Some(true)
    }

    fn glide(self, began: Option<f64>) {
        request_animation_frame(move || {
            if !self.goes_on() {
                return;
            }
            let now = js_sys::Date::now();
            let began = began.unwrap_or(now);
            if let Some((travel, track)) = self.travel.get_untracked() {
                self.scrub.set(gliding(now - began, &travel, track));
            }
            self.glide(Some(began));
        });
    }

    fn hold_next(self, index: usize) {
        if let Some((travel, track)) = self.travel.get_untracked() {
            self.scrub.set(station(index, &travel, track));
        }
        set_timeout(
            move || {
                if self.goes_on() {
                    self.hold_next(index + 1);
                }
            },
            HOLD,
        );
    }
}

/// The tilt in words: which wheel is up, and the angle.
fn tilt_words(bench: Bench, aloud: bool) -> String {
    let (pose, track) = (
        bench.pose.get(),
        bench
            .model
            .with(|model| model.as_ref().map_or(1.0, |model| model.car.track_width())),
    );
    let angle = roll(pose, track).abs();
    let say = if aloud { spoken } else { shown };
    let size = say(angle, Quantity::Angle, bench.notation.get());
    match side_up(pose) {
        Some(side) => format!("{size}, {side} up"),
        None => "level".to_owned(),
    }
}

fn side_up(pose: Pose) -> Option<&'static str> {
    let difference = pose.left - pose.right;
    if difference.abs() < LEVEL {
        return None;
    }
    Some(if difference > 0.0 { "left" } else { "right" })
}

/// Wheels whose heights differ by less stand level, mm.
const LEVEL: f64 = 0.5;

fn directed_spoken(value: f64, words: (&str, &str), notation: Notation) -> String {
    let size = spoken(value.abs(), Quantity::Length, notation);
    if value.abs() < LEVEL {
        "at ride height".to_owned()
    } else {
        format!("{size} {}", if value > 0.0 { words.0 } else { words.1 })
    }
}
