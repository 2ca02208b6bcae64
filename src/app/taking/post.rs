//! Text for a forum post.

use drawing::post::{Markup, Post, post};
use leptos::prelude::*;

use super::link::link_of;
use super::text::CopiedText;
use crate::bench::store::Bench;
use crate::browser::address;
use crate::state::address::Place;
use crate::state::passing::MARKUPS;
use crate::state::words;

/// The post, marked up as the forum wants it.
#[component]
pub fn PostPart(bench: Bench) -> impl IntoView {
    let markup = RwSignal::new(Markup::BbCode);
    let link = link_of(bench, Place::Bench);
    let text = Memo::new(move |_| {
        let (model, check) = bench.model.get().zip(bench.check.get())?;
        let notation = bench.notation.get();
        let link = if address::is_on_disk() {
            String::new()
        } else {
            link.get()
        };
        let what = Post {
            car: &model.car,
            check: &check,
            finding: &words::verdict(&check, &model.car.tire, notation),
            remedy: None,
            link: &link,
            notation,
        };
        Some(post(&what, markup.get()))
    });
    let option = move |(word, name, one): (&'static str, &'static str, Markup)| {
        view! {
            <label>
                <input type="radio" name="markup" value=word prop:checked=move || markup.get() == one on:change=move |_| markup.set(one) />
                <span>{name}</span>
            </label>
        }
    };
    view! {
        <section class="take" aria-labelledby="post-title">
            <h2 id="post-title">"For a forum"</h2>
            <fieldset class="choice">
                <legend>"Marked up as"</legend>
                {MARKUPS.into_iter().map(option).collect_view()}
            </fieldset>
            <CopiedText id="post-text" label="Post" button="Copy post" rows="10" text=Signal::derive(move || text.get().unwrap_or_default()) />
        </section>
    }
}
