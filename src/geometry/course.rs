//! The course of the work, for whoever pays for it: how the car stands in the wheelhouses as the factory made them, what
//! was tried before cutting, and what will be done. Nothing is found here that the gap list and the answers did not find.

use crate::answers::{
    Answer, AnswersWork, Change, Last, LastWork, Mix, MixWork, Nearest, Preferences, Remedy,
};
use crate::car::Car;
use crate::check::{ACCURACY, Check, Verdict, check};
use crate::model::Model;
use crate::side::Side;

/// A car and the gaps found on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The car, made computable.
    pub model: Model,
    /// Its gap list, certified to [`ACCURACY`].
    pub check: Check,
}

impl Found {
    /// The gaps of a model.
    #[must_use]
    pub fn of(model: Model) -> Self {
        let check = check(&model, ACCURACY);
        Self { model, check }
    }

    /// The car before any plan: its wheelhouses as the factory made them, wheel, axle, stops and height as they were. Where
    /// there is none such, the car as it is.
    #[must_use]
    pub fn bare(model: &Model) -> Self {
        let was = model.car.before.put_back(&model.car);
        Self::of(Model::new(&uncut(&was)).unwrap_or_else(|_| model.clone()))
    }

    /// The same car with its wheelhouses as the factory made them, and nothing else changed. Where there is none such, the
    /// car as it is.
    #[must_use]
    pub fn uncut(model: &Model) -> Self {
        Self::of(Model::new(&uncut(&model.car)).unwrap_or_else(|_| model.clone()))
    }

    /// Whether every target is met.
    #[must_use]
    pub fn is_met(&self) -> bool {
        self.check.verdict() == Verdict::Clears
    }

    /// Whether metal is cut on this car.
    #[must_use]
    pub fn is_cut(&self) -> bool {
        self.model.car.is_cut()
    }
}

/// A car with its wheelhouses as the factory made them.
fn uncut(car: &Car) -> Car {
    let mut uncut = car.clone();
    for side in Side::BOTH {
        Remedy::Seam(side).set(&mut uncut, 0.0);
        Remedy::Roof(side).set(&mut uncut, 0.0);
    }
    uncut
}

/// What will be done.
#[derive(Debug, Clone, PartialEq)]
pub enum Plan {
    /// Nothing: it fits in the wheelhouses as the factory made them.
    Nothing,
    /// What is on the car already meets every target.
    Stands(Box<Found>),
    /// The mix that cuts least is put on it.
    Mix(Box<Found>),
    /// No mix within the preferences will do; what came nearest, and what would do instead.
    Cannot(Option<Nearest>, Last),
}

/// The course of the work.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// The car before any plan.
    pub bare: Found,
    /// What each remedy alone would take there, in the order of [`Remedy::ALL`]; empty where nothing is needed.
    pub tried: Vec<Answer>,
    /// What will be done.
    pub plan: Plan,
}

impl Course {
    /// The car as it will be, or as it is where nothing will do.
    #[must_use]
    pub fn done(&self) -> &Found {
        match &self.plan {
            Plan::Stands(done) | Plan::Mix(done) => done,
            Plan::Nothing | Plan::Cannot(..) => &self.bare,
        }
    }

    /// What makes the car as it will be of the car before any plan.
    #[must_use]
    pub fn changes(&self) -> Vec<Change> {
        Change::between(&self.bare.model.car, &self.done().model.car)
    }

    /// Whether metal will be cut.
    #[must_use]
    pub fn cuts(&self) -> bool {
        self.done().is_cut()
    }
}

/// What is being worked out.
#[derive(Debug, Clone)]
enum Phase {
    Bare,
    Tried(Box<AnswersWork>),
    Mix(Box<MixWork>),
    Last(Option<Nearest>, Box<LastWork>),
}

/// The course being worked out.
#[derive(Debug, Clone)]
pub struct CourseWork {
    model: Model,
    preferences: Preferences,
    bare: Option<Found>,
    tried: Vec<Answer>,
    phase: Phase,
}

impl CourseWork {
    /// Begins the course for one state.
    #[must_use]
    pub fn begin(model: &Model, preferences: &Preferences) -> Self {
        Self {
            model: model.clone(),
            preferences: preferences.clone(),
            bare: None,
            tried: Vec::new(),
            phase: Phase::Bare,
        }
    }

    /// Does a little more; gives the course with the last.
    pub fn step(&mut self) -> Option<Course> {
        match &mut self.phase {
            Phase::Bare => {
                let bare = Found::bare(&self.model);
                let (is_met, model) = (bare.is_met(), bare.model.clone());
                self.bare = Some(bare);
                if is_met {
                    return self.end(Plan::Nothing);
                }
                let work = AnswersWork::begin(&model, &self.preferences);
                self.phase = Phase::Tried(Box::new(work));
                None
            }
            Phase::Tried(work) => {
                self.tried = work.step()?;
                let stands = Found::of(self.model.clone());
                if stands.is_met() {
                    return self.end(Plan::Stands(Box::new(stands)));
                }
                let work = MixWork::begin(&self.model, &self.preferences);
                self.phase = Phase::Mix(Box::new(work));
                None
            }
            Phase::Mix(work) => {
                let mix = work.step()?;
                let nearest = match mix {
                    Mix::Nothing => {
                        let stands = Found::of(self.model.clone());
                        return self.end(Plan::Stands(Box::new(stands)));
                    }
                    Mix::Works(changes) => {
                        let changed = Change::all_planned(&changes, &self.model.car);
                        if let Ok(model) = Model::new(&changed) {
                            let done = Found::of(model);
                            return self.end(Plan::Mix(Box::new(done)));
                        }
                        None
                    }
                    Mix::Cannot(nearest) => nearest,
                };
                let work = LastWork::begin(&self.model, nearest.clone(), &self.preferences);
                self.phase = Phase::Last(nearest, Box::new(work));
                None
            }
            Phase::Last(nearest, work) => {
                let last = work.step()?;
                let nearest = nearest.take();
                self.end(Plan::Cannot(nearest, last))
            }
        }
    }

    /// Works out all that is left at once.
    #[must_use]
    pub fn whole(mut self) -> Course {
        loop {
            if let Some(course) = self.step() {
                return course;
            }
        }
    }

    fn end(&mut self, plan: Plan) -> Option<Course> {
        let bare = self.bare.take()?;
        Some(Course {
            bare,
            tried: std::mem::take(&mut self.tried),
            plan,
        })
    }
}
