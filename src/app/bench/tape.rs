//! The tape readings, side by side, with which of them are still guesses.

use drawing::sheets::LETTERS;
use geometry::body::tape::{READING_ERROR, Reading, TAPE_FIELDS, TapeField};
use geometry::car::Car;
use geometry::side::Side;
use leptos::prelude::*;

use super::dial::Help;
use super::listen::{press, tick};
use super::store::Bench;
use super::typed_box::{NumberBox, TypedBox};
use crate::browser::reveal::reveal;
use crate::state::{figures, tape};

/// The readings of both sides.
#[component]
pub fn TapePanel(bench: Bench) -> impl IntoView {
    let guesses = move || bench.work.with(|work| tape::guesses(&work.car));
    let errors = RwSignal::new(false);
    let usual = move || {
        bench
            .work
            .with(|work| tape::error_words(&work.car, bench.notation.get()))
    };
    view! {
        <details class="panel">
            <summary>
                "Tape readings "
                <span class="count">{move || tape::count_words(guesses())}</span>
            </summary>
            <p class="lead">
                "Wheel off, car level at ride height. Each has its letter of the tape sheet. A guess stands in where nobody has measured yet: type what the tape reads over it. With a G behind it, what you type is a guess as well."
            </p>
            <p class="lead">
                {usual}
                " "
                <button type="button" class="quiet" on:click=press(|| reveal("number-tape_error-measured"))>"Change these"</button>
            </p>
            <label class="tick">
                <input type="checkbox" prop:checked=errors on:change=tick(move |shown| errors.set(shown)) />
                "Show how far each reading may be off"
            </label>
            <div class="wide" tabindex="0" role="region" aria-label="Tape readings">
                <table class="numbers">
                    <thead>
                        <tr>
                            <th scope="col">"Reading"</th>
                            <th scope="col">"Left"</th>
                            <th scope="col">"Right"</th>
                        </tr>
                    </thead>
                    <tbody>
                        {TAPE_FIELDS
                            .iter()
                            .zip(LETTERS)
                            .map(|(field, letter)| view! { <TapeRow bench=bench field=field letter=letter errors=errors /> })
                            .collect_view()}
                    </tbody>
                </table>
            </div>
        </details>
    }
}

#[component]
fn TapeRow(
    bench: Bench,
    field: &'static TapeField,
    /// Its letter on the tape sheet.
    letter: char,
    errors: RwSignal<bool>,
) -> impl IntoView {
    let bound = field.field.bound;
    view! {
        <tr>
            <th scope="row">
                <span class="named"><b class="letter">{letter.to_string()}</b>{bound.label}<Help label=bound.label text=bound.help /></span>
            </th>
            {Side::BOTH.map(|side| view! {
                <td>
                    <ReadingBox bench=bench field=field side=side />
                    <Show when=move || errors.get()>
                        <ErrorBox bench=bench field=field side=side />
                    </Show>
                </td>
            })}
        </tr>
    }
}

#[component]
fn ReadingBox(bench: Bench, field: &'static TapeField, side: Side) -> impl IntoView {
    let bound = field.field.bound;
    let reading = Memo::new(move |_| {
        bench
            .work
            .with(|work| (field.reading)(&work.car.sides.get(side).tape))
    });
    let id = format!("tape-{}-{}", side.word(), bound.key);
    let what = format!("{}, {}", bound.label, side.word());
    let label = what.clone();
    let shown = Signal::derive(move || {
        figures::shown(reading.get().value, bound.quantity, bench.notation.get())
    });
    let accept = move |text: String| {
        // What is shown is rounded: handing it in untouched must not round the value.
        if text == shown.get_untracked() {
            return Ok(());
        }
        let (is_guess, number) = tape::unmarked(&text);
        let value = figures::understood(number, &bound, bench.notation.get_untracked())?;
        bench.commit(&what, |car: &mut Car| {
            let tape = &mut car.sides.get_mut(side).tape;
            let reading = if is_guess {
                Reading::guessed(value)
            } else {
                (field.reading)(tape).retaken(value)
            };
            tape.retake(field, reading);
        });
        Ok(())
    };
    let class = move || {
        if reading.get().guess {
            "reading is-guess"
        } else {
            "reading"
        }
    };
    view! {
        <span class=class>
            <label class="heard" for=id.clone()>{label}</label>
            <TypedBox id=id shown=shown accept=accept />
            <Show when=move || reading.get().guess><small>"guess"</small></Show>
        </span>
    }
}

/// How far one reading may be off; an emptied box takes its own error away.
#[component]
fn ErrorBox(bench: Bench, field: &'static TapeField, side: Side) -> impl IntoView {
    let bound = field.field.bound;
    let error = Memo::new(move |_| bench.work.with(|work| tape::error(&work.car, side, field)));
    let id = format!("error-{}-{}", side.word(), bound.key);
    let label = format!("How far {}, {} may be off", bound.label, side.word());
    let what = format!("Tape error, {}, {}", bound.label, side.word());
    let set = move |error: Option<f64>| {
        bench.commit(&what, |car| {
            let tape = &mut car.sides.get_mut(side).tape;
            (field.set_reading)(tape, (field.reading)(tape).within(error));
        });
    };
    let clear = {
        let set = set.clone();
        Callback::new(move |()| set(None))
    };
    let commit = move |value| set(Some(value));
    view! {
        <span class="reading off">
            <span aria-hidden="true">"±"</span>
            <label class="heard" for=id.clone()>{label}</label>
            <NumberBox id=id value=Signal::derive(move || Some(error.get().0)) bound=READING_ERROR notation=bench.notation commit=commit clear=clear />
            <Show when=move || error.get().1><small>"its own"</small></Show>
        </span>
    }
}
