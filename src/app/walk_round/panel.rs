//! One panel: its picture with a lever, and what is told beside it.

use std::sync::Arc;

use drawing::walk_round::{Panel, Telling};
use geometry::course::{Course, Found};
use leptos::prelude::*;
use leptos::svg;

use crate::bench::store::Bench;
use crate::figure::{Figure, FigureView};
use crate::state::exhibit::of_panel;
use crate::state::words::unbroken;

/// For how many pixels a figure is drawn that is printed small: its lettering stays legible.
const ON_PAPER: f64 = 320.0;

/// The panel.
#[component]
pub fn PanelView(
    bench: Bench,
    panel: Panel,
    /// The car on the bench in the wheelhouses as the factory made them.
    bare: Memo<Option<Arc<Found>>>,
    /// The course of the work, once it is known.
    course: Memo<Option<Arc<Course>>>,
) -> AnyView {
    let is_early = matches!(panel, Panel::Want | Panel::Stops | Panel::Tried);
    let base = Memo::new(move |_| {
        if is_early {
            bare.get()
        } else {
            course.get().map(|course| Arc::new(course.done().clone()))
        }
    });
    let exhibit = Signal::derive(move || {
        let course = course.get();
        // Without a car there is nothing to be seen, and the figure is not asked.
        bare.with(|bare| {
            let bare = bare.as_deref();
            bare.map(|bare| of_panel(panel, bare, course.as_deref()))
        })
        .unwrap_or(crate::state::exhibit::NOTHING)
    });
    let telling = Memo::new(move |_| {
        let notation = bench.notation.get();
        match (course.get(), bare.get()) {
            (Some(course), _) => panel.told(&course, notation),
            (None, Some(bare)) => panel.told_early(&bare, notation),
            (None, None) => Telling::default(),
        }
    });
    let figure = Figure::new(panel.word(), base, exhibit, bench.notation);
    let sheet: NodeRef<svg::Svg> = NodeRef::new();
    let words = move || {
        let telling = telling.get();
        let sentences = telling
            .sentences
            .into_iter()
            .map(|words| view! { <p>{unbroken(&words)}</p> });
        let lines = telling.lines.into_iter().map(|(name, words)| {
            view! { <li><b>{name}</b>": "{unbroken(&words)}</li> }
        });
        let is_waiting = sentences.len() == 0;
        view! {
            {sentences.collect_view()}
            {is_waiting.then(|| view! { <p class="lead">"This is being worked out."</p> })}
            <ul class="told-lines">{lines.collect_view()}</ul>
        }
        .into_any()
    };
    let title = format!("walk-{}", panel.word());
    view! {
        <section class=format!("walk-panel is-{}", panel.word()) aria-labelledby=title>
            <div class="walk-words">
                <h2 id=title.clone()>{move || telling.with(|telling| telling.heading)}</h2>
                {words}
            </div>
            <FigureView figure=figure sheet=sheet on_paper=ON_PAPER />
        </section>
    }
    .into_any()
}
