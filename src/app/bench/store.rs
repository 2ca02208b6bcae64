//! The one store of the page: the inputs, how they change, and what is derived from them.
//!
//! Everything below the inputs is a memo at a stage boundary: the car, its model, its gap list. What is
//! drawn or listed reads those; nothing is copied from one signal into another.

use std::sync::Arc;

use drawing::Shown;
use geometry::body::SurfaceId;
use geometry::car::Car;
use geometry::check::{ACCURACY, Check, check};
use geometry::field::Fault;
use geometry::gap::Witness;
use geometry::model::Model;
use geometry::side::Side;
use geometry::travel::Pose;
use geometry::units::Notation;
use leptos::prelude::*;

use crate::browser::frame::NextFrame;
use crate::state::around;
use crate::state::desk::Desk;
use crate::state::dial;
use crate::state::history::History;
use crate::state::scrub::Scrub;
use crate::state::settings::Settings;
use crate::state::work::{self, Work};

/// A file that could not be opened.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// The file's name.
    pub name: String,
    /// Everything that is wrong with it, a line each.
    pub faults: Vec<String>,
}

/// The store.
#[derive(Clone, Copy)]
pub struct Bench {
    /// The car being worked on, and every step back.
    pub history: RwSignal<History<Work>>,
    /// The reader's own cars that were put aside.
    pub aside: RwSignal<Vec<Work>>,
    /// How the reader wants to see things.
    pub settings: RwSignal<Settings>,
    /// Where the scrubber holds the axle.
    pub scrub: RwSignal<Scrub>,
    /// Whether the scrubber plays.
    pub playing: RwSignal<bool>,
    /// Angle of the rear view's section from straight up, radians, positive toward the front.
    pub angle: RwSignal<f64>,
    /// The surface picked in the gap list.
    pub picked: RwSignal<Option<(Side, SurfaceId)>>,
    /// Something the reader should know, in a sentence.
    pub notice: RwSignal<Option<String>>,
    /// A file that could not be opened.
    pub refused: RwSignal<Option<Refused>>,

    /// What is on the bench.
    pub work: Memo<Work>,
    /// The car made computable, or everything that is wrong with it.
    pub trial: Memo<Result<Arc<Model>, Vec<Fault>>>,
    /// The last car that could be computed: what is to be seen.
    pub model: Memo<Option<Arc<Model>>>,
    /// Its gap list.
    pub check: Memo<Option<Arc<Check>>>,
    /// Where the wheels stand in the picture.
    pub pose: Memo<Pose>,
    /// How lengths are written.
    pub notation: Memo<Notation>,

    next: NextFrame<Work>,
}

impl Bench {
    /// The store for a desk.
    pub fn new(desk: Desk) -> Self {
        let history = RwSignal::new(desk.history);
        let settings = RwSignal::new(desk.settings);
        let scrub = RwSignal::new(Scrub::RIDE);
        let work = Memo::new(move |_| history.with(|history| history.present().clone()));
        let trial = Memo::new(move |_| Model::new(&work.get().car).map(Arc::new));
        let of = StoredValue::new(None::<Arc<Car>>);
        let model = Memo::new(move |last: Option<&Option<Arc<Model>>>| {
            let opened = work.with(|work| Arc::clone(&work.opened));
            let is_same_car = of.with_value(|of| of.as_ref() == Some(&opened));
            of.set_value(Some(Arc::clone(&opened)));
            match trial.get() {
                Ok(model) => Some(model),
                Err(_) => last
                    .filter(|_| is_same_car)
                    .cloned()
                    .flatten()
                    .or_else(|| history.with_untracked(|history| last_sound(history, &opened))),
            }
        });
        let check = Memo::new(move |_| model.get().map(|model| Arc::new(check(&model, ACCURACY))));
        let pose = Memo::new(move |_| {
            let scrub = scrub.get();
            model.with(|model| {
                model
                    .as_ref()
                    .map_or(Pose::RIDE, |model| scrub.pose(&model.car.travel))
            })
        });
        Self {
            history,
            aside: RwSignal::new(desk.own),
            settings,
            scrub,
            playing: RwSignal::new(false),
            angle: RwSignal::new(0.0),
            picked: RwSignal::new(None),
            notice: RwSignal::new(None),
            refused: RwSignal::new(None),
            work,
            trial,
            model,
            check,
            pose,
            notation: Memo::new(move |_| settings.get().notation),
            next: NextFrame::new(),
        }
    }

    /// Whether each seam is moved on its own: because it was asked for, or because they differ.
    pub fn seams_apart(self) -> bool {
        self.settings.with(|settings| settings.apart)
            || self.work.with(|work| dial::seams_differ(&work.car))
    }

    /// The side that is looked at: the one that is shown, or else the one picked, or else the worse one.
    pub fn side(self) -> Memo<Side> {
        Memo::new(move |_| match self.settings.get().shown {
            Shown::One(side) => side,
            Shown::Both => self
                .picked
                .get()
                .map_or_else(|| self.worse_side(), |(side, _)| side),
        })
    }

    fn worse_side(self) -> Side {
        self.check.with(|check| {
            let worst = check.as_deref().and_then(Check::worst);
            worst.map_or(Side::Left, |(side, _)| side)
        })
    }

    /// Shows a change before it is made; at most once a frame.
    pub fn preview(self, change: impl FnOnce(&mut Car)) {
        let work = self
            .history
            .with_untracked(|history| history.settled().with(change));
        self.next.put(work, move |work| {
            self.history.update(|history| history.preview(work));
        });
    }

    /// Makes a change, as a step called `what`.
    pub fn commit(self, what: &str, change: impl FnOnce(&mut Car)) {
        self.put(what, self.settled().with(change));
    }

    /// The work that a change starts from.
    pub fn settled(self) -> Work {
        self.history
            .with_untracked(|history| history.settled().clone())
    }

    /// Makes `work` the present, as a step called `what`.
    pub fn put(self, what: &str, work: Work) {
        self.next.take();
        self.history
            .update(|history| history.commit(what, work, now()));
    }

    /// Puts another car on the bench; the one that was there is kept.
    pub fn open(self, work: Work) {
        self.playing.set(false);
        self.picked.set(None);
        self.scrub.set(Scrub::RIDE);
        self.angle.set(0.0);
        let before = self.settled();
        self.aside.update(|aside| work::put_aside(aside, &before));
        let what = format!("Open {}", work.car.name);
        self.put(&what, work);
    }

    /// Puts the car of a link on the bench. In place of an invented car that nobody touched: there is nothing to go back to.
    pub fn open_link(self, work: Work) {
        let is_first = self
            .history
            .with_untracked(|history| history.past().is_empty() && !history.settled().is_own());
        if is_first {
            self.history.set(History::new(work));
        } else {
            self.open(work);
        }
    }

    /// Takes the last step back.
    pub fn undo(self) {
        self.next.take();
        self.history.update(History::undo);
    }

    /// Does again what was taken back.
    pub fn redo(self) {
        self.next.take();
        self.history.update(History::redo);
    }

    /// Holds the axle by hand, which ends the playing.
    pub fn hold(self, scrub: Scrub) {
        self.playing.set(false);
        self.picked.set(None);
        self.scrub.set(scrub);
    }

    /// Shows where a surface's gap is least: in the section and the pose in which it is.
    pub fn show_witness(self, side: Side, surface: SurfaceId, witness: &Witness) {
        self.hold(Scrub::at(witness.pose));
        self.angle.set(around::of_spot(witness.at_body));
        self.picked.set(Some((side, surface)));
    }
}

/// A model that is compared by whether it is the very same one.
#[derive(Debug, Clone)]
pub struct Same(pub Arc<Model>);

impl PartialEq for Same {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

/// The newest state of a car that can be computed, as it was opened if none of its steps can: when the page opens on one
/// that cannot.
fn last_sound(history: &History<Work>, opened: &Arc<Car>) -> Option<Arc<Model>> {
    let past = history.past().iter().rev().map(|step| &step.state);
    past.filter(|work| work.opened == *opened)
        .map(|work| &work.car)
        .chain([opened])
        .find_map(|car| Model::new(car).ok())
        .map(Arc::new)
}

/// A running clock, ms.
fn now() -> f64 {
    js_sys::Date::now()
}
