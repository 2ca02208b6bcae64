//! The page: the whole in one sentence, then panel by panel, then whose work it is.

use std::sync::Arc;

use drawing::walk_round::{Panel, in_short, questions};
use geometry::answers::Preferences;
use geometry::car::{Car, Shop};
use geometry::course::{Course, CourseWork, Found};
use geometry::model::Model;
use leptos::prelude::*;

use super::panel::PanelView;
use super::shop::{self, ShopForm, ShopHead};
use crate::bench::said::Said;
use crate::bench::store::Bench;
use crate::browser::later::later;
use crate::site::TITLE;
use crate::state::words::unbroken;

/// A model by the numbers of its car: neither whose work it is nor what a mock-up showed changes one.
#[derive(Debug, Clone)]
struct Numbers(Arc<Model>);

impl PartialEq for Numbers {
    fn eq(&self, other: &Self) -> bool {
        let nameless = |model: &Model| Car {
            found: Vec::new(),
            shop: Shop::default(),
            ..model.car.clone()
        };
        Arc::ptr_eq(&self.0, &other.0) || nameless(&self.0) == nameless(&other.0)
    }
}

/// The owner's page of the car on the bench.
#[component]
pub fn WalkRound(bench: Bench) -> AnyView {
    let numbers = Memo::new(move |_| bench.model.get().map(Numbers));
    let bare = Memo::new(move |_| numbers.get().map(|model| Arc::new(Found::bare(&model.0))));
    let asked = Memo::new(move |_| {
        let preferences = bench.settings.with(|settings| settings.preferences.clone());
        Some((numbers.get()?, preferences))
    });
    let course: Memo<Option<Arc<Course>>> = later(
        asked,
        Signal::stored(true),
        |(model, preferences): &(Numbers, Preferences)| {
            let mut work = CourseWork::begin(&model.0, preferences);
            Box::new(move || work.step())
        },
    );
    let name = move || bench.work.with(|work| work.car.name.clone());
    let short = move || {
        course.with(|course| {
            course.as_ref().map_or_else(
                || "What it takes is being worked out.".to_owned(),
                |course| unbroken(&in_short(course, bench.notation.get())),
            )
        })
    };
    let asked_first = move || {
        let asked = course.with(|course| {
            let course = course.as_deref()?;
            Some(questions(course, bench.notation.get()))
        });
        let asked = asked.into_iter().flatten();
        asked
            .map(|one| view! { <li>{unbroken(&one)}</li> })
            .collect_view()
    };
    let kept = shop::kept();
    let photo = shop::photo_of(bench, kept);
    let panels = Panel::ALL
        .map(|panel| view! { <PanelView bench=bench panel=panel bare=bare course=course /> });
    view! {
        <header class="walk-head">
            <ShopHead bench=bench photo=photo />
            <h1 id=TITLE tabindex="-1">{move || format!("Walk-round: {}", name())}</h1>
            <p class="in-short">{short}</p>
            <Said words=Signal::derive(short) />
            <p class="lead only-screen">"The levers under the pictures are there to play with. They change nothing on the car."</p>
        </header>
        <div class="panels">
            {panels.into_iter().collect_view()}
            <section class="walk-panel" aria-labelledby="walk-end">
                <div class="walk-words">
                    <h2 id="walk-end">"Before you say yes"</h2>
                    <p>"What is not clear here, ask the shop. Ask these too, and have what your local rules say settled, before anything is ordered or cut."</p>
                    <ul class="told-lines">{asked_first}</ul>
                </div>
            </section>
        </div>
        <ShopForm bench=bench kept=kept photo=photo />
    }
    .into_any()
}
