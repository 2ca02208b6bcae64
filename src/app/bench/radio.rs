//! A choice between a few, side by side.

use leptos::prelude::*;

use crate::state::settings::Choice;

/// Radio buttons for a choice; the reader of a screen hears the legend.
#[component]
pub fn RadioMenu<T>(
    /// What is chosen, for ears alone.
    legend: &'static str,
    /// What the buttons are called together in the page.
    name: &'static str,
    choices: &'static [Choice<T>],
    #[prop(into)] now: Signal<T>,
    #[prop(into)] choose: Callback<T>,
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let option = move |&(word, shown, choice): &Choice<T>| {
        view! {
            <label>
                <input
                    type="radio"
                    name=name
                    value=word
                    prop:checked=move || now.get() == choice
                    on:change=move |_| choose.run(choice)
                />
                <span>{shown}</span>
            </label>
        }
    };
    view! {
        <fieldset class="shown">
            <legend class="heard">{legend}</legend>
            {choices.iter().map(option).collect_view()}
        </fieldset>
    }
}
