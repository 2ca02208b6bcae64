//! One gap with its place and its pose held: what each measurement does to it there.

use super::place::{Body, Place};
use super::{Measurement, STEP, Share, planes, saddle};
use crate::body::rail::Rail;
use crate::body::tape::TAPE_FIELDS;
use crate::body::{Reading, StationTable, Surface, SurfaceId, Tape};
use crate::car::Car;
use crate::gap::{Gap, Part, PoseDomain};
use crate::model::{Model, Solids};
use crate::motion::Motion;
use crate::side::{Side, Sides};
use crate::solid::Revolved;
use crate::space::{Vec2, Vec3, vec2, vec3};
use crate::tire::MeasuredWidth;

/// What everything would be were a measurement a step less or a step more.
pub(super) struct Variants {
    bodies: Vec<Variant<Body>>,
    wholes: Vec<Variant<Whole>>,
    /// What counts across the sheet, wherever it is: stations and parts.
    normals: Vec<(Measurement, f64)>,
}

/// A measurement, how far it may be off, mm, and what is a step below it and a step above it.
type Variant<T> = (Measurement, f64, [(f64, T); 2]);

/// A measurement of the whole car, and how it is changed.
type Change = (Measurement, fn(&mut Car, f64));

/// A whole car's shapes and motion.
struct Whole {
    bodies: Sides<Body>,
    motion: Motion,
    domain: PoseDomain,
    given: Sides<Solids>,
    rigid: Sides<Solids>,
}

impl Whole {
    fn of(model: Model) -> Self {
        Self {
            bodies: Sides::each(|side| body_of(&model, side)),
            domain: model.pose_domain(),
            motion: model.motion,
            given: model.given,
            rigid: model.solids,
        }
    }
}

fn body_of(model: &Model, side: Side) -> Body {
    Body {
        table: model.wheelhouses.get(side).clone(),
        rail: *model.rails.get(side),
    }
}

impl Variants {
    /// One side's readings.
    pub fn of_side(model: &Model, side: Side) -> Self {
        let car = &model.car;
        let spec = car.sides.get(side);
        let face = car.axle.measured_face();
        let body = |tape: &Tape| -> Option<Body> {
            let rail = Rail::from_tape(tape, face);
            // Measured stations do not hang on the readings.
            let table = if spec.stations.is_some() {
                model.wheelhouses.get(side).clone()
            } else {
                StationTable::from_tape(tape, face)
                    .ok()?
                    .moved(spec.seam_move, spec.roof_raise)
            };
            Some(Body { table, rail })
        };
        let bodies = TAPE_FIELDS.iter().map(|field| {
            let reading = (field.reading)(&spec.tape);
            // At the edge of what makes sense the difference is taken to one side.
            let ends = [-STEP, STEP].map(|step| {
                let mut tape = spec.tape;
                let value = reading.value + step;
                // What a guess leans on moves the guess; a guess of its own error moves alone.
                tape.retake(field, Reading { value, ..reading });
                body(&tape).map_or_else(|| (0.0, body_of(model, side)), |body| (step, body))
            });
            (
                Measurement::Reading(side, field.field.bound.key),
                car.tape_error.of(reading),
                ends,
            )
        });
        let stations = spec
            .stations
            .is_some()
            .then_some(Measurement::Stations(side));
        let parts = (0..car.obstacles.len()).map(Measurement::Obstacle);
        let normals = stations
            .into_iter()
            .chain(parts)
            .map(|measurement| (measurement, measurement.error(car)));
        Self {
            bodies: bodies.collect(),
            wholes: Vec::new(),
            normals: normals.collect(),
        }
    }

    /// What counts for the whole car: the axle, and the tire where it was measured.
    pub fn of_car(model: &Model) -> Self {
        let car = &model.car;
        let mut measured: Vec<Change> = vec![(Measurement::Axle, |car, step| {
            car.axle.correct_measured(step);
        })];
        if car.tire.width_is_measured() {
            measured.push((Measurement::SectionWidth, |car, step| {
                car.tire.section_width = car.tire.section_width.map(|measured| MeasuredWidth {
                    width: measured.width + step,
                    ..measured
                });
            }));
        }
        if car.tire.diameter_is_measured() {
            measured.push((Measurement::Diameter, |car, step| {
                car.tire.overall_diameter = car.tire.overall_diameter.map(|d| d + step);
            }));
        }
        let wholes = measured.into_iter().map(|(measurement, change)| {
            let ends = [-STEP, STEP].map(|step| {
                let mut car = car.clone();
                change(&mut car, step);
                Model::new(&car).map_or_else(
                    |_| (0.0, Whole::of(model.clone())),
                    |model| (step, Whole::of(model)),
                )
            });
            (measurement, measurement.error(car), ends)
        });
        Self {
            bodies: Vec::new(),
            wholes: wholes.collect(),
            normals: Vec::new(),
        }
    }
}

/// A gap's place, pose and planes, all held.
pub(super) struct Frozen {
    side: Side,
    id: SurfaceId,
    place: Place,
    /// Heights of the wheels; the sideways give is in the solids.
    pose: Vec2,
    domain: PoseDomain,
    /// Whether the gap is through travel, and the solids those with the give.
    travel: bool,
    solid: Which,
    planes: Vec<Held>,
}

/// A plane that touches the tire.
struct Held {
    weight: f64,
    /// Unit normal in the meridian plane.
    meridian: Vec2,
    /// Unit normal from the tire to the metal, car frame.
    normal: Vec3,
}

/// Which of the solids comes nearest.
#[derive(Debug, Clone, Copy)]
enum Which {
    Tire,
    Loaded,
    Wheel,
}

impl Which {
    fn of(self, solids: &Solids) -> &Revolved {
        match self {
            Self::Tire => &solids.tire,
            Self::Loaded => &solids.loaded,
            Self::Wheel => &solids.wheel,
        }
    }
}

impl Frozen {
    pub fn new(model: &Model, side: Side, id: SurfaceId, gap: &Gap, travel: bool) -> Option<Self> {
        let witness = &gap.witness;
        let body = body_of(model, side);
        let place = Place::of(&body, side, id, witness.at_body)?;
        let solids = if travel { &model.given } else { &model.solids }.get(side);
        let pose = vec2(witness.pose.left, witness.pose.right);
        let placement = model.motion.placement(pose.x, pose.y);
        let q = placement.axle_from_body(witness.at_body);
        let misses = |which: Which| (which.of(solids).distance(q) - gap.high).abs();
        let solid = match witness.part {
            Part::Wheel => Which::Wheel,
            Part::Tire if misses(Which::Loaded) < misses(Which::Tire) => Which::Loaded,
            Part::Tire => Which::Tire,
        };
        let mut frozen = Self {
            side,
            id,
            place,
            pose,
            domain: model.pose_domain(),
            travel,
            solid,
            planes: Vec::new(),
        };
        let point = solid.of(solids).meridian(q).0;
        let normals = planes::active(&solid.of(solids).chain, point);
        let one = normals.first().map(|&normal| (normal, 1.0)).into_iter();
        frozen.hold(model, solids, q, one.collect());
        if normals.len() > 1 {
            frozen.settle(model, &body, solids, &normals)?;
        }
        Some(frozen)
    }

    /// Holds planes by their normals in the meridian plane, each with its weight, where the tire comes nearest at `q`.
    fn hold(&mut self, model: &Model, solids: &Solids, q: Vec3, normals: Vec<(Vec2, f64)>) {
        let placement = model.motion.placement(self.pose.x, self.pose.y);
        let direction = self.solid.of(solids).meridian(q).1;
        let sign = self.side.sign();
        let plane = |(meridian, weight): (Vec2, f64)| {
            let normal = vec3(
                meridian.y * direction.x,
                sign * meridian.x,
                meridian.y * direction.y,
            );
            Held {
                weight,
                meridian,
                normal: placement.body_from_axle(q) - placement.body_from_axle(q - normal),
            }
        };
        self.planes = normals.into_iter().map(plane).collect();
    }

    /// Moves place and pose from where the search left them, which is only as near as its accuracy, to where the planes
    /// that are equally far out balance, and holds these. Where that is not near, they are mixed where they are.
    fn settle(
        &mut self,
        model: &Model,
        body: &Body,
        solids: &Solids,
        normals: &[Vec2],
    ) -> Option<()> {
        let ways = self.place.ways(body);
        let poses = if self.travel {
            self.pose_ways()
        } else {
            Vec::new()
        };
        let rooms = ways.iter().map(|way| way.room);
        let rooms: Vec<[f64; 2]> = rooms.chain(poses.iter().map(|way| way.1)).collect();
        let (place, pose) = (self.place, self.pose);
        let at = |moves: &[f64]| {
            let (on_sheet, heights) = moves.split_at(ways.len());
            let by = ways.iter().zip(on_sheet);
            let place = by.fold(place, |place, (&way, &by)| place.moved(way, by));
            let by = poses.iter().zip(heights);
            let pose = by.fold(pose, |pose, (&(way, _), &by)| pose + way * by);
            (place, pose)
        };
        let meets = |(place, pose): (Place, Vec2)| {
            let placement = model.motion.placement(pose.x, pose.y);
            Some(placement.axle_from_body(place.on(body, self.side)?))
        };
        let solid = self.solid.of(solids);
        let peaks = |moves: &[f64]| -> Option<Vec<(f64, Vec2)>> {
            let point = solid.meridian(meets(at(moves))?).0;
            let peak = |&before: &Vec2| planes::followed(&solid.chain, point, before);
            normals.iter().map(peak).collect()
        };
        let heights = |moves: &[f64]| -> Option<Vec<f64>> {
            Some(peaks(moves)?.into_iter().map(|peak| peak.0).collect())
        };
        let (moves, weights) = saddle::within(&rooms, normals.len(), heights)?;
        let held = peaks(&moves)?.into_iter().zip(weights);
        let held: Vec<(Vec2, f64)> = held.map(|((_, normal), weight)| (normal, weight)).collect();
        let (place, pose) = at(&moves);
        let q = meets((place, pose))?;
        (self.place, self.pose) = (place, pose);
        self.hold(model, solids, q, held);
        Some(())
    }

    /// The ways in which the pose may move, each with the room to either side before a stop.
    fn pose_ways(&self) -> Vec<(Vec2, [f64; 2])> {
        let Vec2 { x: left, y: right } = self.pose;
        let room = |up: f64| [self.domain.low - up, self.domain.high - up];
        let limit = self.domain.apart;
        if !limit.is_finite() || planes::is_free(left - right, [limit, -limit]) {
            vec![(vec2(1.0, 0.0), room(left)), (vec2(0.0, 1.0), room(right))]
        } else {
            // Held by the roll limit, both wheels rise together.
            let (left, right) = (room(left), room(right));
            let both = [left[0].max(right[0]), left[1].min(right[1])];
            vec![(vec2(1.0, 1.0), both)]
        }
    }

    /// What each of the measurements does to the gap.
    pub fn shares<'a>(&'a self, variants: &'a Variants) -> impl Iterator<Item = Share> + 'a {
        let bodies = variants.bodies.iter().map(|(measurement, error, ends)| {
            let normal = self.planes.iter().fold(Vec3::default(), |sum, plane| {
                sum + plane.normal * plane.weight
            });
            let at = |body: &Body| Some(normal.dot(self.place.on(body, self.side)?));
            (*measurement, *error, slope(ends, at))
        });
        let wholes = variants.wholes.iter().map(|(measurement, error, ends)| {
            (
                *measurement,
                *error,
                slope(ends, |whole| self.distance(whole)),
            )
        });
        let normals = variants.normals.iter().map(|&(measurement, error)| {
            let counts = match (measurement, self.id.surface) {
                (Measurement::Obstacle(index), Surface::Obstacle) => index == self.id.index,
                (Measurement::Stations(_), surface) => {
                    !matches!(surface, Surface::Obstacle | Surface::FrameRail)
                }
                _ => false,
            };
            (measurement, error, f64::from(u8::from(counts)))
        });
        bodies
            .chain(wholes)
            .chain(normals)
            .map(|(measurement, error, rate)| Share {
                measurement,
                rate,
                error,
            })
    }

    /// The distance in the same place and pose of another car.
    fn distance(&self, whole: &Whole) -> Option<f64> {
        let solids = if self.travel {
            &whole.given
        } else {
            &whole.rigid
        };
        let pose = self.pose_in(&whole.domain);
        let point = self.place.on(whole.bodies.get(self.side), self.side)?;
        let q = whole.motion.placement(pose.x, pose.y).axle_from_body(point);
        let solid = self.solid.of(solids.get(self.side));
        let point = solid.meridian(q).0;
        // Held normals, and what the solid's support does at them.
        let of = |plane: &Held| {
            plane.weight * (plane.meridian.dot(point) - solid.chain.support(plane.meridian))
        };
        Some(self.planes.iter().map(of).sum())
    }

    /// The pose; where it is the roll limit that holds it, it stays at the limit, and a wheel at its stop stays there.
    fn pose_in(&self, domain: &PoseDomain) -> Vec2 {
        const AT: f64 = 1e-9;
        let Vec2 { x: left, y: right } = self.pose;
        let apart = left - right;
        if !self.domain.apart.is_finite() || apart.abs() < self.domain.apart - AT {
            return self.pose;
        }
        let apart = apart.signum() * domain.apart;
        let at_stop = |up: f64| up <= self.domain.low + AT || up >= self.domain.high - AT;
        if at_stop(left) {
            vec2(left, left - apart)
        } else if at_stop(right) {
            vec2(right + apart, right)
        } else {
            let middle = f64::midpoint(left, right);
            vec2(middle + apart / 2.0, middle - apart / 2.0)
        }
    }
}

/// The central difference, or nothing where there is no room for a step.
fn slope<T>(ends: &[(f64, T); 2], value: impl Fn(&T) -> Option<f64>) -> f64 {
    let [(from, low), (to, high)] = ends;
    match (value(low), value(high)) {
        (Some(low), Some(high)) if to > from => (high - low) / (to - from),
        _ => 0.0,
    }
}
