//! A box that is typed into: it keeps what was typed and says in words what was not understood.

use geometry::field::Bound;
use geometry::units::Notation;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

use super::listen::entry;
use crate::state::draft::Draft;
use crate::state::figures;

/// A text box with its fault below it. The label is the caller's, by `for`.
#[component]
pub fn TypedBox(
    /// The box's id.
    id: String,
    /// What the box holds while nobody types.
    #[prop(into)]
    shown: Signal<String>,
    /// Takes what was typed, or says what is wrong with it.
    #[prop(into)]
    accept: Callback<String, Result<(), String>>,
    /// Class of the box: how wide it is.
    #[prop(default = "figure")]
    class: &'static str,
) -> impl IntoView {
    let draft = RwSignal::new(None::<Draft>);
    // Boxes are many, and a step of a lever changes few: what reads a text wakes only where the text is another.
    let shown = Memo::new(move |_| shown.get());
    let held = move || draft.with(|draft| Draft::text(draft.as_ref(), &shown.get()).to_owned());
    let fault = Memo::new(move |_| {
        draft.with(|draft| Draft::fault(draft.as_ref(), &shown.get()).map(str::to_owned))
    });
    let fault_id = format!("{id}-fault");

    let typed = move |text: String| {
        // A fault that was told stays until the text is handed in again: no word changes while one types.
        let fault = fault.get_untracked();
        draft.set(Some(Draft {
            text,
            over: shown.get_untracked(),
            fault,
        }));
    };
    let handed_in = move |text: String| {
        let fault = accept.run(text.clone()).err();
        draft.set(fault.map(|fault| Draft {
            text,
            over: shown.get_untracked(),
            fault: Some(fault),
        }));
    };
    let on_key = move |key: KeyboardEvent| {
        if key.key() == "Escape" {
            draft.set(None);
        }
    };

    let described_by = {
        let fault_id = fault_id.clone();
        move || fault.with(Option::is_some).then(|| fault_id.clone())
    };
    view! {
        <span class="typed">
            <input
                type="text"
                class=class
                id=id
                autocomplete="off"
                spellcheck="false"
                prop:value=held
                data-typing=move || draft.with(Option::is_some).then(String::new)
                aria-invalid=move || fault.with(Option::is_some).then(|| "true".to_owned())
                aria-describedby=described_by
                on:input=entry(typed)
                on:change=entry(handed_in)
                on:keydown=on_key
            />
            <span class="fault" id=fault_id role="status">{move || fault.get()}</span>
        </span>
    }
}

/// A box for a number, read in any unit and shown in the chosen one.
#[component]
pub fn NumberBox(
    /// The box's id.
    id: String,
    /// The number; `None` shows an empty box.
    #[prop(into)]
    value: Signal<Option<f64>>,
    /// What it may be.
    bound: Bound,
    /// How lengths are written.
    #[prop(into)]
    notation: Signal<Notation>,
    /// Takes the number.
    #[prop(into)]
    commit: Callback<f64>,
    /// What an emptied box means, where it may be empty.
    #[prop(optional_no_strip, into)]
    clear: Option<Callback<()>>,
) -> impl IntoView {
    let value = Memo::new(move |_| value.get());
    let shown = Signal::derive(move || {
        value.get().map_or(String::new(), |value| {
            figures::shown(value, bound.quantity, notation.get())
        })
    });
    let accept = move |text: String| {
        if text.trim().is_empty()
            && let Some(clear) = clear
        {
            clear.run(());
            return Ok(());
        }
        // What is shown is rounded: handing it in untouched must not round the value.
        if text == shown.get_untracked() {
            return Ok(());
        }
        commit.run(figures::understood(
            &text,
            &bound,
            notation.get_untracked(),
        )?);
        Ok(())
    };
    view! { <TypedBox id=id shown=shown accept=accept /> }
}
