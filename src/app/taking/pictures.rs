//! Pictures as SVG and PNG, at a chosen width, on light or dark paper.

use drawing::svg::Scheme;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::drawn::{drawn, shape};
use crate::bench::listen::{entry, press};
use crate::bench::store::Bench;
use crate::bench::typed_box::TypedBox;
use crate::browser::sight::in_sight;
use crate::browser::{download, raster};
use crate::state::passing::{FIGURES, Figure, PAPERS, WIDTHS, width as read_width};
use crate::state::settings::{chosen, stored};
use crate::state::work::file_name;

/// What stands for a picture that is not there yet.
const WORKING: &str = "Being drawn.";

/// Which picture, how wide, on which paper; the picture itself; its files.
#[component]
pub fn Pictures(bench: Bench) -> impl IntoView {
    let figure = RwSignal::new(Figure::Rear);
    let paper = RwSignal::new(Scheme::Light);
    let width = RwSignal::new(WIDTHS.2);
    let frame: NodeRef<html::Div> = NodeRef::new();
    let seen = in_sight(frame);
    let shown = Signal::derive(move || bench.settings.with(|settings| settings.shown));
    let scene = drawn(bench, figure, shown, width.into(), seen.into());
    let file = Memo::new(move |_| Some(scene.get()?.file_in(paper.get(), width.get())));
    let source = move || file.with(|file| file.as_deref().map_or(String::new(), raster::address));
    let title = move || {
        scene.with(|scene| {
            scene
                .as_deref()
                .map_or(WORKING.to_owned(), |scene| scene.title.clone())
        })
    };
    let shape = move || scene.with(|scene| shape(scene.as_deref()));
    let accept = move |text: String| match read_width(&text) {
        Some(found) => {
            width.set(found);
            Ok(())
        }
        None => Err(format!(
            "{} to {} pixels would be accepted",
            WIDTHS.0, WIDTHS.1
        )),
    };
    let name = move |ending: &str| {
        let view = stored(&FIGURES, figure.get_untracked());
        bench
            .work
            .with_untracked(|work| file_name(&work.car.name, &format!("-{view}{ending}")))
    };
    let refused = move || {
        bench
            .notice
            .set(Some("The browser did not take the picture.".to_owned()));
    };
    let save_svg = move || {
        let Some(text) = file.get_untracked() else {
            return;
        };
        if !download::save(&name(".svg"), &text) {
            refused();
        }
    };
    let save_png = move || {
        let Some(text) = file.get_untracked() else {
            return;
        };
        spawn_local(async move {
            let picture = raster::png(&text, width.get_untracked()).await;
            if !picture.is_ok_and(|picture| download::save_blob(&name(".png"), &picture)) {
                refused();
            }
        });
    };
    view! {
        <section class="take" aria-labelledby="pictures-title">
            <h2 id="pictures-title">"Pictures"</h2>
            <p class="lead">"As you last looked at it on the Bench: the same side, section and place in travel."</p>
            <div class="picture-order">
                <label for="figure">"Picture"</label>
                <select id="figure" on:change=entry(move |word| figure.update(|figure| *figure = chosen(&FIGURES, &word).unwrap_or(*figure)))>
                    {FIGURES.into_iter().map(|(word, name, one)| view! { <option value=word selected=move || figure.get() == one>{name}</option> }).collect_view()}
                </select>
                <label for="paper">"On paper"</label>
                <select id="paper" on:change=entry(move |word| paper.update(|paper| *paper = chosen(&PAPERS, &word).unwrap_or(*paper)))>
                    {PAPERS.into_iter().map(|(word, name, one)| view! { <option value=word selected=move || paper.get() == one>{name}</option> }).collect_view()}
                </select>
                <label for="pixels">"Width, pixels"</label>
                <TypedBox id="pixels".to_owned() shown=Signal::derive(move || width.get().to_string()) accept=Callback::new(accept) />
            </div>
            <div class="preview" class:is-stale=move || file.with(Option::is_none) node_ref=frame>
                <img src=source alt=title style=("aspect-ratio", shape) />
            </div>
            <p class="to-do">
                <button type="button" class="quiet" aria-disabled=move || file.with(Option::is_none).to_string() on:click=press(save_svg)>"Save as SVG"</button>
                <button type="button" class="quiet" aria-disabled=move || file.with(Option::is_none).to_string() on:click=press(save_png)>"Save as PNG"</button>
            </p>
        </section>
    }
}
