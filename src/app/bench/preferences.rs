//! What the reader rather changes than what, how far, and in which steps: the mix obeys it.

use geometry::answers::{MOST, Preferences, STEP_SIZE};
use leptos::prelude::*;

use super::listen::press;
use super::store::Bench;
use super::typed_box::NumberBox;
use crate::state::settings::Settings;
use crate::state::wishes::{self, Wish};

/// The form, folded away.
#[component]
pub fn PreferencesForm(bench: Bench) -> impl IntoView {
    let keys = Memo::new(move |_| {
        bench.settings.with(|settings| {
            let list = wishes::list(&settings.preferences);
            list.iter().map(Wish::key).collect::<Vec<_>>()
        })
    });
    let is_changed = Memo::new(move |_| bench.settings.with(Settings::has_wishes));
    let reset = move || {
        bench
            .settings
            .update(|settings| settings.preferences = Preferences::default());
    };
    view! {
        <details class="wishes">
            <summary>"What may be changed, and in which order"</summary>
            <p class="lead">
                "The mix changes what stands higher before what stands lower. “Most” is how far it may go: 0 leaves a thing alone, "
                "an empty box lets it go as far as it can. Of the bump travel it never takes more than a third."
            </p>
            <ol>
                <For each=move || keys.get() key=|key| *key let:key>
                    <WishRow bench=bench key=key />
                </For>
            </ol>
            <button type="button" class="quiet" aria-disabled=move || (!is_changed.get()).to_string() on:click=press(reset)>
                "Back to the usual order and steps"
            </button>
        </details>
    }
}

#[component]
fn WishRow(bench: Bench, key: &'static str) -> impl IntoView {
    let wish = Memo::new(move |last: Option<&Option<Wish>>| {
        let list = bench
            .settings
            .with(|settings| wishes::list(&settings.preferences));
        let place = list.iter().position(|wish| wish.key() == key);
        place
            .and_then(|place| list.get(place).cloned())
            .or_else(|| last.cloned().flatten())
    });
    let label = wish.with_untracked(|wish| wish.as_ref().map_or("", |wish| wish.label));
    let size = Signal::derive(move || wish.with(|wish| wish.as_ref().map(|wish| wish.size)));
    let most = Signal::derive(move || wish.with(|wish| wish.as_ref().and_then(|wish| wish.most)));
    let change = move |change: Box<dyn FnOnce(&mut Wish)>| {
        bench.settings.update(|settings| {
            settings.preferences = wishes::with(&settings.preferences, key, change);
        });
    };
    let go = move |sooner: bool| {
        bench.settings.update(|settings| {
            settings.preferences = wishes::moved(&settings.preferences, key, sooner);
        });
    };
    let set_size = move |size: f64| change(Box::new(move |wish| wish.size = size));
    let set_most = move |most: f64| change(Box::new(move |wish| wish.most = Some(most)));
    let clear = Callback::new(move |()| change(Box::new(|wish| wish.most = None)));
    let (size_id, most_id) = (format!("wish-{key}-size"), format!("wish-{key}-most"));
    let name = label.to_lowercase();
    view! {
        <li>
            <span class="name">{label}</span>
            <span class="order">
                <button type="button" class="quiet" aria-label=format!("Rather {name}: one place up") on:click=press(move || go(true))>"Up"</button>
                <button type="button" class="quiet" aria-label=format!("Rather not {name}: one place down") on:click=press(move || go(false))>"Down"</button>
            </span>
            <span class="number">
                <label for=size_id.clone()>"Step"<span class="heard">{format!(" of {name}")}</span></label>
                <NumberBox id=size_id value=size bound=STEP_SIZE notation=bench.notation commit=set_size />
            </span>
            <span class="number">
                <label for=most_id.clone()>"Most"<span class="heard">{format!(" change of {name}")}</span></label>
                <NumberBox id=most_id value=most bound=MOST notation=bench.notation commit=set_most clear=clear />
            </span>
        </li>
    }
}
