//! What would make it fit: each lever alone, the mix that cuts least, and what would have to change instead where neither
//! will do; each to be tried on the car in one step.
//!
//! While a trial is on the car, the answers stay those of the car before it, so that it can be compared and taken back.

use std::sync::Arc;

use geometry::answers::{
    Answer, AnswersWork, Last, LastWork, Mix, MixWork, Outcome, Preferences, Remedy,
};
use geometry::car::Car;
use geometry::model::Model;
use geometry::units::format_length;
use leptos::html::Section;
use leptos::prelude::*;

use super::listen::press;
use super::preferences::PreferencesForm;
use super::said::Said;
use super::store::Bench;
use crate::browser::later::{Pieces, later};
use crate::browser::sight::in_sight;
use crate::state::trying::{self, Row, Trial};

/// What the answers are of.
#[derive(Debug, Clone, PartialEq)]
struct Asked {
    car: Arc<Car>,
    preferences: Preferences,
}

/// The section.
#[component]
pub fn Answers(bench: Bench) -> impl IntoView {
    let section: NodeRef<Section> = NodeRef::new();
    let seen = in_sight(section);
    let tried = Memo::new(move |_| {
        bench.history.with(|history| {
            trying::on_the_car(history).map(|(trial, before)| (trial, Arc::clone(&before.car)))
        })
    });
    let asked = Memo::new(move |_| {
        let car = match tried.get() {
            Some((_, before)) => before,
            None => Arc::new(bench.model.get()?.car.clone()),
        };
        let preferences = bench.settings.with(|settings| settings.preferences.clone());
        Some(Asked { car, preferences })
    });
    let model = Memo::new(move |_| asked.get().and_then(|asked| Model::new(&asked.car).ok()));
    let on_car = Memo::new(move |_| tried.get().map(|(trial, _)| trial));

    let levers = later(asked, seen.into(), |asked: &Asked| {
        pieces(asked, AnswersWork::begin, AnswersWork::step)
    });
    let mix_wanted = Signal::derive(move || seen.get() && levers.with(Option::is_some));
    let mix = later(asked, mix_wanted, |asked: &Asked| {
        pieces(asked, MixWork::begin, MixWork::step)
    });
    let nearest = move || match mix.get().as_deref() {
        Some(Some(Mix::Cannot(nearest))) => Some(nearest.clone()),
        _ => None,
    };
    let last_wanted = Signal::derive(move || seen.get() && nearest().is_some());
    let last = later(asked, last_wanted, move |asked: &Asked| {
        let nearest = untrack(nearest).flatten();
        let begin = move |model: &Model, preferences: &Preferences| {
            LastWork::begin(model, nearest, preferences)
        };
        pieces(asked, begin, LastWork::step)
    });

    view! {
        <section node_ref=section class="answers" aria-labelledby="answers-title">
            <h2 id="answers-title">"What would make it fit"</h2>
            <Levers bench=bench model=model answers=levers on_car=on_car />
            <MixPart bench=bench mix=mix on_car=on_car />
            <LastPart bench=bench model=model last=last wanted=last_wanted on_car=on_car />
            <Show when=move || mix.with(|mix| mix.as_deref() != Some(&Some(Mix::Nothing)))>
            <p class="caution">
                "Geometry, not approval. A moved seam or a raised roof cuts structure; another axle, wheel, ride height or bump "
                "stop changes how the car drives and what rules it falls under. Ask your local rules and, where they "
                "want one, a licensed engineer."
            </p>
            </Show>
            <PreferencesForm bench=bench />
        </section>
    }
}

/// A work's pieces; of a car that is none, nothing comes.
fn pieces<W: 'static, T: 'static>(
    asked: &Asked,
    begin: impl FnOnce(&Model, &Preferences) -> W,
    step: fn(&mut W) -> Option<T>,
) -> Pieces<Option<T>> {
    match Model::new(&asked.car) {
        Ok(model) => {
            let mut work = begin(&model, &asked.preferences);
            Box::new(move || step(&mut work).map(Some))
        }
        Err(_) => Box::new(|| Some(None)),
    }
}

/// What is worked out, of the state that is asked for.
type Found<T> = Memo<Option<Arc<Option<T>>>>;

/// Each lever alone.
#[component]
fn Levers(
    bench: Bench,
    model: Memo<Option<Model>>,
    answers: Found<Vec<Answer>>,
    on_car: Memo<Option<Trial>>,
) -> impl IntoView {
    let rows = Memo::new(move |_| {
        let (found, model) = (answers.get()?, model.get()?);
        let found = found.as_ref().as_ref()?;
        Some(trying::rows(&model, found, &[], bench.notation.get()))
    });
    let is_needed = Memo::new(move |_| {
        let is_nothing = |answer: &Answer| answer.outcome == Outcome::Nothing;
        answers.with(|found| {
            let found = found.as_deref().and_then(Option::as_deref);
            found.is_none_or(|answers| !answers.iter().all(is_nothing))
        })
    });
    let lead = move || {
        if answers.with(Option::is_none) {
            "What each lever alone would take is being worked out."
        } else if !is_needed.get() {
            "Nothing: every target is met as the car stands."
        } else if on_car.get().is_some() {
            "What each lever alone would take on the car as it was before the trial."
        } else {
            "What each lever alone would take to bring both sides to their targets; a seam, its own side."
        }
    };
    view! {
        <p class="lead">{lead}</p>
        <Said words=Signal::derive(move || lead().to_owned()) />
        <Show when=move || is_needed.get()>
            <Rows bench=bench rows=rows on_car=on_car />
        </Show>
    }
}

/// Answers, a remedy a row.
#[component]
fn Rows(bench: Bench, rows: Memo<Option<Vec<Row>>>, on_car: Memo<Option<Trial>>) -> impl IntoView {
    let remedies = Memo::new(move |_| {
        rows.with(|rows| {
            let rows = rows.iter().flatten();
            rows.map(|row| row.remedy).collect::<Vec<_>>()
        })
    });
    view! {
        <ul class="rows">
            <For each=move || remedies.get() key=|remedy| *remedy let:remedy>
                <AnswerRow bench=bench remedy=remedy rows=rows on_car=on_car />
            </For>
        </ul>
    }
}

#[component]
fn AnswerRow(
    bench: Bench,
    remedy: Remedy,
    rows: Memo<Option<Vec<Row>>>,
    on_car: Memo<Option<Trial>>,
) -> impl IntoView {
    let row = Memo::new(move |last: Option<&Option<Row>>| {
        let newest = rows.with(|rows| {
            let mut rows = rows.iter().flatten();
            rows.find(|row| row.remedy == remedy).cloned()
        });
        newest.or_else(|| last.cloned().flatten())
    });
    let of_row = move |tell: fn(&Row) -> &str| {
        move || {
            row.with(|row| {
                row.as_ref()
                    .map_or(String::new(), |row| tell(row).to_owned())
            })
        }
    };
    let can = move || row.with(|row| row.as_ref().is_some_and(|row| row.can));
    let changes = Signal::derive(move || {
        row.with(|row| row.as_ref().map_or(Vec::new(), |row| row.changes.clone()))
    });
    view! {
        <li class:clears=can class:hits=move || !can()>
            <p class="lever"><strong>{remedy.label()}</strong><small>"now " {of_row(|row| &row.now)}</small></p>
            <p class="told"><i class="swatch" aria-hidden="true"></i>{of_row(|row| &row.told)}</p>
            <TryButton bench=bench trial=Trial::One(remedy) changes=changes on_car=on_car />
        </li>
    }
}

/// Tries changes on the car, and takes them back.
#[component]
fn TryButton(
    bench: Bench,
    trial: Trial,
    changes: Signal<Vec<geometry::answers::Change>>,
    on_car: Memo<Option<Trial>>,
) -> impl IntoView {
    let is_on = move || on_car.get() == Some(trial);
    let what = match trial {
        Trial::One(remedy) => remedy.label().to_lowercase(),
        Trial::Mix => "the mix".to_owned(),
    };
    let turn = move || {
        let (is_on, changes) = (untrack(is_on), changes.get_untracked());
        // Another trial that is on the car makes way: answers are of the car before it.
        if on_car.get_untracked().is_some() {
            bench.undo();
        }
        if !is_on {
            bench.commit(&trial.step(), |car| trying::put_on(&changes, car));
        }
    };
    view! {
        <Show when=move || is_on() || !changes.with(Vec::is_empty)>
            <p class="try" class:is-on=is_on>
                <Show when=is_on><em>"On the car."</em></Show>
                <button
                    type="button"
                    class="quiet"
                    aria-label={
                        let what = what.clone();
                        move || if is_on() { format!("Take it back: {what}") } else { format!("Try it: {what}") }
                    }
                    on:click=press(turn)
                >
                    {move || if is_on() { "Take it back" } else { "Try it" }}
                </button>
            </p>
        </Show>
    }
}

/// The mix that cuts least.
#[component]
fn MixPart(bench: Bench, mix: Found<Mix>, on_car: Memo<Option<Trial>>) -> impl IntoView {
    let found = Memo::new(move |_| mix.get().and_then(|mix| mix.as_ref().clone()));
    let changes = Signal::derive(move || match found.get() {
        Some(Mix::Works(changes)) => changes,
        _ => Vec::new(),
    });
    let parts = move || trying::parts(&changes.get(), bench.notation.get());
    let finding = move || match found.get() {
        None => "It is being worked out.".to_owned(),
        Some(Mix::Nothing) => String::new(),
        Some(Mix::Works(changes)) if trying::cuts(&changes) => {
            "It takes this much cutting: with less, a surface stays short of its target.".to_owned()
        }
        Some(Mix::Works(_)) => "Nothing is cut.".to_owned(),
        Some(Mix::Cannot(nearest)) => {
            let say = |length: f64| format_length(length, bench.notation.get());
            bench.model.with(|model| {
                model.as_ref().map_or(String::new(), |model| {
                    trying::sentence(&drawing::answers::mix(model, &Mix::Cannot(nearest), &say))
                })
            })
        }
    };
    let can = move || !changes.with(Vec::is_empty);
    let cannot = move || matches!(found.get(), Some(Mix::Cannot(_)));
    view! {
        <Show when=move || found.get() != Some(Mix::Nothing)>
            <div class="mix" class:clears=can class:hits=cannot>
                <h3>"All together, with the least cutting"</h3>
                <ul>{move || parts().into_iter().map(|part| view! { <li>{part}</li> }).collect_view()}</ul>
                <p class="told">
                    <Show when=move || can() || cannot()><i class="swatch" aria-hidden="true"></i></Show>
                    {finding}
                </p>
                <Said words=Signal::derive(finding) />
                <TryButton bench=bench trial=Trial::Mix changes=changes on_car=on_car />
            </div>
        </Show>
    }
}

/// What would have to change instead.
#[component]
fn LastPart(
    bench: Bench,
    model: Memo<Option<Model>>,
    last: Found<Last>,
    wanted: Signal<bool>,
    on_car: Memo<Option<Trial>>,
) -> impl IntoView {
    let found = Memo::new(move |_| last.get().and_then(|last| last.as_ref().clone()));
    let rows = Memo::new(move |_| {
        let (found, model) = (found.get()?, model.get()?);
        let (answers, besides) = (&found.answers, &found.besides);
        Some(trying::rows(&model, answers, besides, bench.notation.get()))
    });
    let head = move || match found.get() {
        None => "It is being worked out.".to_owned(),
        Some(last) => {
            let say = |length: f64| format_length(length, bench.notation.get());
            drawing::answers::last(&last, &say)
        }
    };
    view! {
        <Show when=move || wanted.get() || found.with(Option::is_some)>
            <div class="last">
                <h3>"What would instead"</h3>
                <p class="lead">{head}</p>
                <Said words=Signal::derive(head) />
                <Rows bench=bench rows=rows on_car=on_car />
            </div>
        </Show>
    }
}
