//! What can be changed so that a tire fits, each as one number: which way it helps, how far it goes, in which steps it comes.

use crate::car::{Before, Car, Lever, fields};
use crate::field::{Bound, Quantity};
use crate::model::Model;
use crate::side::Side;

/// One number that may be changed on its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Remedy {
    /// How far inboard one side's tub is re-set. It is judged by the surfaces of that side, the only ones it moves.
    Seam(Side),
    /// Mounting face to the rim's inboard edge.
    Backspacing,
    /// Between the tires' center planes; the axle changes, the wheel does not.
    TrackWidth,
    /// Section width of the tire.
    SectionWidth,
    /// Bump travel, which a bump stop takes away.
    Bump,
    /// Height of the body over the axle.
    RideHeight,
    /// Where the axle sits in its opening, fore and aft.
    Ahead,
    /// Overall diameter of the tire.
    Diameter,
    /// How far one side's roof is raised. It is judged by the surfaces of that side.
    Roof(Side),
}

impl Remedy {
    /// Those that are always asked, in the order in which they are told.
    pub const ALL: [Remedy; 7] = [
        Remedy::Backspacing,
        Remedy::TrackWidth,
        Remedy::Bump,
        Remedy::RideHeight,
        Remedy::SectionWidth,
        Remedy::Seam(Side::Left),
        Remedy::Seam(Side::Right),
    ];

    /// Those that are asked when the others will not do, alone or together.
    pub const LAST: [Remedy; 4] = [
        Remedy::Ahead,
        Remedy::Diameter,
        Remedy::Roof(Side::Left),
        Remedy::Roof(Side::Right),
    ];

    /// What it is called, and what it may be.
    #[must_use]
    pub fn bound(self) -> Bound {
        match self {
            Remedy::Seam(Side::Left) => fields::LEFT_SEAM_MOVE.bound,
            Remedy::Seam(Side::Right) => fields::RIGHT_SEAM_MOVE.bound,
            Remedy::Backspacing => fields::BACKSPACING.bound,
            Remedy::TrackWidth => Lever::TrackWidth.bound(),
            Remedy::SectionWidth => Lever::SectionWidth.bound(),
            Remedy::Bump => fields::BUMP.bound,
            Remedy::RideHeight => fields::RIDE_CHANGE.bound,
            Remedy::Ahead => fields::AHEAD.bound,
            Remedy::Diameter => Lever::OverallDiameter.bound(),
            Remedy::Roof(Side::Left) => fields::LEFT_ROOF_RAISE.bound,
            Remedy::Roof(Side::Right) => fields::RIGHT_ROOF_RAISE.bound,
        }
    }

    /// What it is called.
    #[must_use]
    pub fn label(self) -> &'static str {
        self.bound().label
    }

    /// The name that programs may rely on.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Remedy::Seam(Side::Left) => "left_seam_move",
            Remedy::Seam(Side::Right) => "right_seam_move",
            Remedy::Backspacing => "backspacing",
            Remedy::TrackWidth => "track_width",
            Remedy::SectionWidth => "section_width",
            Remedy::Bump => "bump",
            Remedy::RideHeight => "ride_change",
            Remedy::Ahead => "axle_ahead",
            Remedy::Diameter => "overall_diameter",
            Remedy::Roof(Side::Left) => "left_roof_raise",
            Remedy::Roof(Side::Right) => "right_roof_raise",
        }
    }

    /// Whether sheet metal is cut for it.
    #[must_use]
    pub fn cuts(self) -> bool {
        matches!(self, Remedy::Seam(_) | Remedy::Roof(_))
    }

    /// The sides whose surfaces it has to bring to their targets.
    pub(super) fn sides(self) -> &'static [Side] {
        match self {
            Remedy::Seam(side) | Remedy::Roof(side) => match side {
                Side::Left => &[Side::Left],
                Side::Right => &[Side::Right],
            },
            _ => &Side::BOTH,
        }
    }

    /// Its value on this car, mm. Section width and diameter are those that the gaps are computed with.
    #[must_use]
    pub fn get(self, car: &Car) -> f64 {
        match self {
            Remedy::Seam(side) => car.sides.get(side).seam_move,
            Remedy::Roof(side) => car.sides.get(side).roof_raise,
            Remedy::Backspacing => car.wheel.backspacing,
            Remedy::TrackWidth => car.track_width(),
            Remedy::SectionWidth => car.section_width(),
            Remedy::Bump => car.travel.bump,
            Remedy::RideHeight => car.travel.ride_change,
            Remedy::Ahead => car.axle.ahead,
            Remedy::Diameter => car.overall_diameter(),
        }
    }

    /// Sets it, mm; the bound is not checked here.
    pub fn set(self, car: &mut Car, value: f64) {
        match self {
            Remedy::Seam(side) => car.sides.get_mut(side).seam_move = value,
            Remedy::Roof(side) => car.sides.get_mut(side).roof_raise = value,
            Remedy::Backspacing => car.wheel.backspacing = value,
            Remedy::TrackWidth => Lever::TrackWidth.set(car, value),
            Remedy::SectionWidth => Lever::SectionWidth.set(car, value),
            Remedy::Bump => car.travel.bump = value,
            Remedy::RideHeight => car.travel.ride_change = value,
            Remedy::Ahead => car.axle.ahead = value,
            // Growth at speed comes on top of what is set.
            Remedy::Diameter => Lever::OverallDiameter.set(car, value - car.tire.growth),
        }
    }

    /// Keeps what it is on this car as what was there before a plan, unless something is kept already.
    pub(super) fn keep(self, car: &Car, before: &mut Before) {
        let (kept, now) = match self {
            // Counted from where the factory put it.
            Remedy::Seam(_) | Remedy::Roof(_) => return,
            Remedy::Backspacing => (&mut before.backspacing, car.wheel.backspacing),
            Remedy::TrackWidth => (&mut before.axle_width, car.axle.width),
            Remedy::Bump => (&mut before.bump, car.travel.bump),
            Remedy::RideHeight => (&mut before.ride_change, car.travel.ride_change),
            Remedy::Ahead => (&mut before.ahead, car.axle.ahead),
            Remedy::SectionWidth => (&mut before.section_width, Lever::SectionWidth.get(car)),
            Remedy::Diameter => (&mut before.diameter, Lever::OverallDiameter.get(car)),
        };
        kept.get_or_insert(now);
    }

    /// The same car with it at `value`, mm.
    #[must_use]
    pub fn applied(self, car: &Car, value: f64) -> Car {
        let mut changed = car.clone();
        self.set(&mut changed, value);
        changed
    }

    /// How far down and up it may go and still make sense, mm, the present value within: a tub only goes inboard and a
    /// roof up, a tire's center plane stays between rail and lip (beyond, it is no longer in the wheelhouse), bump travel
    /// only shrinks, a tire only gets smaller and stays wider than its rim (a stretched tire is no answer; common
    /// practice, no source).
    pub(super) fn range(self, model: &Model) -> [f64; 2] {
        let car = &model.car;
        let (present, bound) = (self.get(car), self.bound());
        let [least, most] = match self {
            Remedy::Seam(side) => [present, bound.most.min(*model.seam_limit.get(side))],
            Remedy::Roof(_) => [present, bound.most],
            Remedy::Bump => [bound.least, present],
            Remedy::Diameter => [car.tire.rim_diameter(), present],
            Remedy::SectionWidth => [car.wheel.rim_width + Self::BESIDE_RIM, present],
            Remedy::Backspacing => {
                let [inner, outer] = between(model)
                    .map(|plane| car.wheel.backspacing_for(car.axle.mounting_face() - plane));
                [
                    bound.least.max(outer),
                    bound.most.min(car.wheel.overall_width()).min(inner),
                ]
            }
            Remedy::TrackWidth => {
                let [inner, outer] = between(model);
                [bound.least.max(2.0 * inner), bound.most.min(2.0 * outer)]
            }
            Remedy::RideHeight | Remedy::Ahead => [bound.least, bound.most],
        };
        [least.min(present), most.max(present)]
    }

    /// How much wider than the rim a tire stays, mm: 1/16 in.
    const BESIDE_RIM: f64 = 1.5875;

    /// The value nearest to `end` of which a model can be made, found by halving.
    pub(super) fn last_accepted(self, car: &Car, end: f64) -> f64 {
        let accepted = |value: f64| Model::new(&self.applied(car, value)).is_ok();
        if accepted(end) {
            return end;
        }
        let (mut good, mut bad) = (self.get(car), end);
        while (bad - good).abs() > 1e-3 {
            let middle = f64::midpoint(good, bad);
            if accepted(middle) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        good
    }

    /// A value that lies on the steps, mm: whole steps of the axle's width flange to flange, of tire sizes from the present
    /// one, and of everything else itself.
    pub(super) fn origin(self, car: &Car) -> f64 {
        match self {
            Remedy::TrackWidth => car.track_width() - car.axle.width,
            Remedy::SectionWidth | Remedy::Diameter => self.get(car),
            _ => 0.0,
        }
    }

    /// What kind of number it is.
    #[must_use]
    pub fn quantity(self) -> Quantity {
        self.bound().quantity
    }
}

/// Between which planes, out from the car's center plane, the tires' center planes stay, mm: outside both rails and inside
/// both quarter lips.
fn between(model: &Model) -> [f64; 2] {
    let lip = |side: Side| {
        let points = model.stock.get(side).points.first();
        points.map_or(f64::INFINITY, |lip| lip.x)
    };
    let rail = |side: Side| model.rails.get(side).face;
    [
        rail(Side::Left).max(rail(Side::Right)),
        lip(Side::Left).min(lip(Side::Right)),
    ]
}
