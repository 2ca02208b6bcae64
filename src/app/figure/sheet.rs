//! A drawing on its sheet, where nothing is dragged.

use std::sync::Arc;

use drawing::Scene;
use leptos::prelude::*;
use leptos::svg;

use crate::bench::picture::{SceneGroup, group_ids};

/// What keeps the drawing's place before there is one.
const AWAITED: &str = "0 0 4 3";

/// What is said instead of the drawing while it is being worked out.
pub const WORKING: &str = "This is being worked out.";

/// The drawing, or the place that it will take with what is said `instead`.
#[component]
pub fn Sheet(
    sheet: NodeRef<svg::Svg>,
    scene: Memo<Option<Arc<Scene>>>,
    instead: Signal<&'static str>,
) -> AnyView {
    let ids = Memo::new(move |_| scene.with(|scene| group_ids(scene.as_ref())));
    let of_scene = move |tell: fn(&Scene) -> String, without: Signal<&'static str>| {
        move || scene.with(|scene| scene.as_deref().map_or(without.get().to_owned(), tell))
    };
    let shape = of_scene(
        |scene| format!("{} / {}", scene.view.width, scene.view.height),
        Signal::stored("4 / 3"),
    );
    view! {
        <div class="sheet" style=("aspect-ratio", shape)>
            <svg
                node_ref=sheet
                class="scene"
                role="img"
                aria-label=of_scene(|scene| scene.title.clone(), instead)
                viewBox=of_scene(|scene| scene.view.view_box(), Signal::stored(AWAITED))
            >
                <For each=move || ids.get() key=Clone::clone let:id>
                    <SceneGroup id=id scene=scene />
                </For>
            </svg>
            {move || scene.with(Option::is_none).then(|| view! { <p class="working" aria-hidden="true">{instead}</p> })}
        </div>
    }
    .into_any()
}
