//! Whose work it is: the shop's name and notes, which stand in the car's file, and a photo, which stays in this browser.

use geometry::car::{Car, Shop};
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::bench::listen::{entry, press};
use crate::bench::store::Bench;
use crate::browser::photo::made_small;
use crate::browser::storage::{self, Slot};

/// The photo that this browser keeps, behind the name of the car that it belongs to.
pub fn kept() -> RwSignal<String> {
    RwSignal::new(storage::read(Slot::Photo).unwrap_or_default())
}

/// The photo that is kept for the car on the bench.
pub fn photo_of(bench: Bench, kept: RwSignal<String>) -> Memo<Option<String>> {
    Memo::new(move |_| {
        let name = bench.work.with(|work| work.car.name.clone());
        kept.with(|kept| {
            let (of, photo) = kept.split_once('\n')?;
            (of == name).then(|| photo.to_owned())
        })
    })
}

/// What the page opens with, where the shop said anything.
#[component]
pub fn ShopHead(bench: Bench, photo: Memo<Option<String>>) -> AnyView {
    let shop = Memo::new(move |_| bench.work.with(|work| work.car.shop.clone()));
    (move || {
        let Shop { name, notes } = shop.get();
        let is_empty = name.is_empty() && notes.is_empty() && photo.with(Option::is_none);
        (!is_empty).then(|| {
            view! {
                <div class="shop-head">
                    {move || photo.get().map(|photo| view! { <img src=photo alt="The shop's photo" /> })}
                    <div>
                        {(!name.is_empty()).then(|| view! { <p class="shop-name">{name}</p> })}
                        {(!notes.is_empty()).then(|| view! { <p class="shop-notes">{notes}</p> })}
                    </div>
                </div>
            }
        })
    })
    .into_any()
}

/// Where the shop says it.
#[component]
pub fn ShopForm(bench: Bench, kept: RwSignal<String>, photo: Memo<Option<String>>) -> AnyView {
    let shop = move || bench.work.with(|work| work.car.shop.clone());
    let short = |text: String, most: usize| text.trim().chars().take(most).collect::<String>();
    let set_name = move |text: String| {
        bench.commit("Shop's name", |car| {
            car.shop.name = short(text, Car::LONGEST_NAME);
        });
    };
    let set_notes = move |text: String| {
        bench.commit("Shop's notes", |car| {
            car.shop.notes = short(text, Car::LONGEST_NOTES);
        });
    };
    let input: NodeRef<html::Input> = NodeRef::new();
    let add = move |_| {
        let file = input
            .get_untracked()
            .and_then(|input| input.files()?.get(0));
        let Some(file) = file else { return };
        spawn_local(async move {
            match made_small(&file).await {
                Some(photo) => kept.set(keep(bench, &photo)),
                None => bench.notice.set(Some(
                    "The photo was not taken: the file is no picture that this browser knows, or it is too large. A JPEG or PNG would be accepted.".to_owned(),
                )),
            }
        });
    };
    let drop_photo = move || {
        storage::forget(Slot::Photo);
        kept.set(String::new());
        if let Some(input) = input.get_untracked() {
            input.set_value("");
        }
    };
    view! {
        <details class="panel shop-form">
            <summary>"For the shop: name, notes and photo"</summary>
            <p class="lead">
                "They stand at the head of this page. Name and notes are kept in the car's file, so they go wherever you give it or its link. "
                "The photo is kept in this browser only, one at a time. This page sends nothing."
            </p>
            <label for="shop-name">"Shop"</label>
            <input
                type="text"
                id="shop-name"
                data-typing=""
                autocomplete="organization"
                maxlength=Car::LONGEST_NAME.to_string()
                prop:value=move || shop().name
                on:change=entry(set_name)
            />
            <label for="shop-notes">"Notes for the owner"</label>
            <textarea
                id="shop-notes"
                rows="5"
                maxlength=Car::LONGEST_NOTES.to_string()
                prop:value=move || shop().notes
                on:change=entry(set_notes)
            ></textarea>
            <label for="shop-photo">"Photo"</label>
            <input type="file" id="shop-photo" accept="image/*" node_ref=input on:change=add />
            {move || photo.with(Option::is_some).then(|| view! {
                <button type="button" class="quiet" on:click=press(drop_photo)>"Take the photo away"</button>
            })}
        </details>
    }
    .into_any()
}

/// Keeps a photo for the car on the bench; gives what is kept.
fn keep(bench: Bench, photo: &str) -> String {
    let name = bench.work.with_untracked(|work| work.car.name.clone());
    let text = format!("{name}\n{photo}");
    if !storage::write(Slot::Photo, &text) {
        bench.notice.set(Some(
            "This browser does not let the page keep the photo: it is shown until you leave."
                .to_owned(),
        ));
    }
    text
}
