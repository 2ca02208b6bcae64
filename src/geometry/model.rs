//! The model: a car's numbers made into shapes and motion, or everything that is wrong with them.

mod faces;
mod faults;
mod section;

use crate::body::rail::Rail;
use crate::body::{Station, StationTable, Surface, SurfaceId};
use crate::car::{Car, SideSpec};
use crate::chain::Chain;
use crate::field::Fault;
use crate::gap::{Part, PoseDomain};
use crate::math;
use crate::motion::Motion;
use crate::side::{Side, Sides};
use crate::solid::Revolved;
use crate::space::vec2;
use crate::tire::{ShapeInputs, TireShape, load};

pub use crate::envelope::EnvelopeSection;
pub use faces::SurfaceFaces;
pub use section::WheelSection;

/// Radius of a rim flange's edge, mm (J flange, from memory); less where the flange is thinner.
const FLANGE_EDGE: f64 = 6.0;

/// A tire and a wheel as solids, with and without the axle's sideways give.
#[derive(Debug, Clone, PartialEq)]
pub struct Solids {
    /// The tire as it is away from the ground.
    pub tire: Revolved,
    /// The tire as it is at the ground.
    pub loaded: Revolved,
    /// The wheel.
    pub wheel: Revolved,
}

/// A car made computable.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    /// The car that it was made from.
    pub car: Car,
    /// The tire's section away from the ground.
    pub tire: TireShape,
    /// The tire's section at the ground.
    pub loaded: TireShape,
    /// Static deflection of the tire at ride height, mm.
    pub deflection: f64,
    /// How the axle moves.
    pub motion: Motion,
    /// The wheelhouse straight up as the factory made it.
    pub stock: Sides<Station>,
    /// The same with the seam moved and the roof raised.
    pub moved: Sides<Station>,
    /// All stations round the wheels as the factory made the wheelhouses.
    pub stock_wheelhouses: Sides<StationTable>,
    /// All stations round the wheels, with the seam moved and the roof raised.
    pub wheelhouses: Sides<StationTable>,
    /// The frame rails.
    pub rails: Sides<Rail>,
    /// How far the seam can move before tub and rail meet, mm.
    pub seam_limit: Sides<f64>,
    /// Tire and wheel as they stand.
    pub solids: Sides<Solids>,
    /// Tire and wheel widened by the axle's sideways give.
    pub given: Sides<Solids>,
}

impl Model {
    /// Makes the model.
    ///
    /// # Errors
    /// Every fault of the car at once: numbers out of bounds, and numbers that do not go together.
    pub fn new(car: &Car) -> Result<Self, Vec<Fault>> {
        let mut faults = faults::out_of_bounds(car);
        if !faults.is_empty() {
            return Err(faults);
        }
        faults.extend(faults::misfits(car));

        let shapes = tire_shapes(car);
        let face = car.axle.measured_face();
        let wheelhouses = Sides::each(|side| wheelhouse(car.sides.get(side), face));
        let ((tire, loaded, deflection), left, right) =
            match (shapes, wheelhouses.left, wheelhouses.right) {
                (Ok(shapes), Ok(left), Ok(right)) => (shapes, left, right),
                (shapes, left, right) => {
                    faults.extend(shapes.err());
                    faults.extend(left.err().map(|fault| faults::on_side(Side::Left, fault)));
                    faults.extend(right.err().map(|fault| faults::on_side(Side::Right, fault)));
                    return Err(faults);
                }
            };

        let stock = Sides {
            left: left.1,
            right: right.1,
        };
        let stock_wheelhouses = Sides {
            left: left.0,
            right: right.0,
        };
        let rails = Sides::each(|side| Rail::from_tape(&car.sides.get(side).tape, face));
        let seam_limit = Sides::each(|side| seam_limit(stock.get(side), rails.get(side)));
        for side in Side::BOTH {
            faults.extend(faults::beyond_rail(car, side, *seam_limit.get(side)));
        }
        if !faults.is_empty() {
            return Err(faults);
        }

        let plan = |side: Side| {
            (
                car.sides.get(side).seam_move,
                car.sides.get(side).roof_raise,
            )
        };
        let moved = Sides::each(|side| stock.get(side).moved(plan(side).0, plan(side).1));
        let wheelhouses = Sides::each(|side| {
            stock_wheelhouses
                .get(side)
                .moved(plan(side).0, plan(side).1)
        });
        let motion = Motion::new(
            car.locator,
            car.track_width(),
            -car.travel.ride_change,
            car.axle.ahead,
            car.axle.yaw,
        );
        let wheel = wheel_chain(car).map_err(|_| vec![faults::wheel(car)])?;
        let solids = |give: f64| {
            Sides::each(|side| {
                let revolved = |part: Part, chain: &Chain| Revolved {
                    part,
                    chain: if give > 0.0 {
                        chain.widened(give)
                    } else {
                        chain.clone()
                    },
                    side,
                    center_plane: motion.track_width / 2.0,
                };
                Solids {
                    tire: revolved(Part::Tire, &tire.chain),
                    loaded: revolved(Part::Tire, &loaded.chain),
                    wheel: revolved(Part::Wheel, &wheel),
                }
            })
        };
        let (rigid, given) = (solids(0.0), solids(car.travel.give));
        Ok(Self {
            car: car.clone(),
            tire,
            loaded,
            deflection,
            motion,
            stock,
            moved,
            stock_wheelhouses,
            wheelhouses,
            rails,
            seam_limit,
            solids: rigid,
            given,
        })
    }

    /// All poses through travel.
    #[must_use]
    pub fn pose_domain(&self) -> PoseDomain {
        let travel = &self.car.travel;
        let apart = travel.roll_limit.map_or(f64::INFINITY, |limit| {
            self.motion.track_width * math::sin(limit)
        });
        PoseDomain {
            low: -travel.droop,
            high: travel.bump,
            apart,
        }
    }

    /// Height of the ground under the tires at ride height, mm above the measured axle's center (negative).
    #[must_use]
    pub fn ground(&self) -> f64 {
        self.motion.ride - (self.tire.inputs.diameter / 2.0 - self.deflection)
    }

    /// What a surface is called on this car.
    #[must_use]
    pub fn name(&self, id: SurfaceId) -> String {
        match self.car.obstacles.get(id.index) {
            Some(obstacle) if id.surface == Surface::Obstacle => obstacle.name.clone(),
            _ => id.surface.label().to_owned(),
        }
    }
}

/// The tire's section away from the ground, the one at the ground, and the static deflection between them.
fn tire_shapes(car: &Car) -> Result<(TireShape, TireShape, f64), Fault> {
    let inputs = shape_inputs(car);
    let loading = load::Loading {
        load: car.tire.load,
        pressure: car.tire.pressure,
        construction: car.tire.designation.construction,
        section_width: inputs.section_width,
        diameter: inputs.diameter,
        rim_diameter: inputs.rim_diameter,
    };
    let deflection = car.tire.deflection.unwrap_or_else(|| loading.deflection());
    let tire = TireShape::new(inputs)?;
    let loaded = load::loaded(&tire, deflection)?;
    Ok((tire, loaded, deflection))
}

/// What the section of a car's tire is made from.
pub(crate) fn shape_inputs(car: &Car) -> ShapeInputs {
    ShapeInputs {
        section_width: car.section_width(),
        diameter: car.overall_diameter(),
        rim_diameter: car.tire.rim_diameter(),
        rim_width: car.wheel.rim_width,
        flange_height: car.wheel.flange_height,
        tread_width: car.tire.tread_width,
        shoulder_radius: car.tire.shoulder_radius,
        widest_at: car.tire.widest_at,
    }
}

/// A side's stations, measured ones before those that the tape readings stand for, and the section straight up.
fn wheelhouse(spec: &SideSpec, face: f64) -> Result<(StationTable, Station), Fault> {
    let table = match &spec.stations {
        Some(measured) => measured.clone(),
        None => StationTable::from_tape(&spec.tape, face)?,
    };
    let straight_up = table.at(0.0).ok_or_else(|| {
        Fault::new(
            "station",
            "the stations do not reach straight up",
            "a station behind straight up and one ahead of it, or one at 0 degrees, would be accepted",
        )
    })?;
    Ok((table, straight_up))
}

/// How far the tub can move before it comes within the rail's margin, mm; endless where it stands above or below it.
fn seam_limit(station: &Station, rail: &Rail) -> f64 {
    let heights = station
        .points
        .iter()
        .map(|p| p.y)
        .chain([rail.bottom, rail.top]);
    heights
        .filter(|up| (rail.bottom..=rail.top).contains(up))
        .filter_map(|up| station.wall_at(up))
        .map(|wall| wall - rail.face - crate::body::rail::RAIL_MARGIN)
        .fold(f64::INFINITY, f64::min)
        .max(0.0)
}

/// The wheel: a disc with rounded flange edges.
fn wheel_chain(car: &Car) -> Result<Chain, crate::chain::ChainFault> {
    let half = vec2(
        car.wheel.overall_width() / 2.0,
        car.tire.rim_diameter() / 2.0 + car.wheel.flange_height,
    );
    Chain::rounded_rectangle(half, FLANGE_EDGE.min(car.wheel.flange_thickness / 2.0))
}
