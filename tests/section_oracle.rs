//! The section's certified gaps against a general collision library over brute poses.
//!
//! The library sees the tire as a polygon of many corners, placed in one pose after another over a fine grid.
//! It knows nothing of support planes, power series or branch and bound.

use geometry::chain::Chain;
use geometry::gap::{Face, Limits, Part, PoseDomain, Poses, certify};
use geometry::locator::{Locator, PivotOn};
use geometry::motion::Motion;
use geometry::side::Side;
use geometry::solid::Revolved;
use geometry::space::{Vec2, vec2, vec3};
use geometry::travel::Pose;
use parry2d_f64::math::{Pose as Isometry, Vector};
use parry2d_f64::query;
use parry2d_f64::shape::{ConvexPolygon, Segment};

/// How far the polygon's chords stay inside the tire, mm.
const SAGITTA: f64 = 0.002;
/// How exact the library's own distance search is, mm: its relative tolerance is the square root of the rounding
/// of its numbers, 1.5e-8, on lengths below 1e3.
const SEARCH: f64 = 2e-5;
/// Poses along each wheel's travel.
const GRID: u32 = 40;

#[test]
fn no_brute_pose_comes_nearer_than_the_interval_says() {
    let bar = Locator::TrackBar {
        axle_end: vec2(-430.0, 40.0),
        body_end: vec2(470.0, 15.0),
    };
    let locators = [
        bar,
        Locator::WattLink {
            height: 90.0,
            pivot_on: PivotOn::Body,
        },
        Locator::AngledLinks { height: 140.0 },
        Locator::LeafSprings { height: -60.0 },
    ];
    let tire = tire();
    for (i, locator) in locators.into_iter().enumerate() {
        for side in Side::BOTH {
            let motion = Motion::new(
                locator,
                1480.0,
                10.0 - 15.0 * f64::from(u32::try_from(i).unwrap_or(0)),
                0.0,
                0.0,
            );
            let domain = PoseDomain {
                low: -85.0,
                high: 95.0,
                apart: f64::INFINITY,
            };
            let body = Revolved {
                part: Part::Tire,
                chain: tire.clone(),
                side,
                center_plane: 740.0,
            };
            for (from, to) in walls() {
                check(motion, domain, &body, from, to);
            }
        }
    }
}

/// Segments round the tire's upper section, `(out, up)`: an upright wall, a leaning one, roofs, corners, a short lip.
fn walls() -> [(Vec2, Vec2); 7] {
    [
        (vec2(560.0, 60.0), vec2(560.0, 420.0)),
        (vec2(530.0, 60.0), vec2(575.0, 430.0)),
        (vec2(560.0, 470.0), vec2(940.0, 455.0)),
        (vec2(555.0, 380.0), vec2(640.0, 480.0)),
        (vec2(915.0, 330.0), vec2(915.0, 352.0)),
        (vec2(900.0, 200.0), vec2(930.0, 210.0)),
        (vec2(505.0, 150.0), vec2(505.0, 290.0)),
    ]
}

#[track_caller]
fn check(motion: Motion, domain: PoseDomain, body: &Revolved, from: Vec2, to: Vec2) {
    let accuracy = 0.01;
    let sign = body.side.sign();
    let wall = Face::segment(
        vec3(0.0, sign * from.x, from.y),
        vec3(0.0, sign * to.x, to.y),
    );
    let gap = certify(
        &mut Poses::new(motion, domain),
        &[body],
        &[wall],
        0.0,
        Limits::accuracy(accuracy),
    )
    .expect("a wall and a tire");
    assert!(
        gap.high - gap.low <= accuracy + 1e-6,
        "{:?}, wall {from:?} to {to:?}: {gap:?} is wider than asked",
        body.side
    );

    let library = Library::new(body, from, to);
    let mut least = f64::INFINITY;
    for i in 0..=GRID {
        for j in 0..=GRID {
            let along =
                |k: u32| domain.low + (domain.high - domain.low) * f64::from(k) / f64::from(GRID);
            least = least.min(library.distance(
                &motion,
                Pose {
                    left: along(i),
                    right: along(j),
                    give: 0.0,
                },
            ));
        }
    }
    let what = format!("{:?} side, wall {from:?} to {to:?}", body.side);
    if gap.high > SEARCH {
        assert!(
            least >= gap.low - SEARCH,
            "{what}: the library finds {least}, below {}",
            gap.low
        );
        let there = library.distance(&motion, gap.witness.pose);
        assert!(
            (gap.low - SEARCH..=gap.high + SAGITTA + SEARCH).contains(&there),
            "{what}: at the witness the library finds {there}, not {} to {}",
            gap.low,
            gap.high
        );
    } else if gap.high < -SEARCH {
        assert!(
            library.distance(&motion, gap.witness.pose) <= SEARCH,
            "{what}: the library sees no overlap at the witness"
        );
    }
}

/// One tire and one wall in the general library, in the rear view's plane.
struct Library {
    tire: ConvexPolygon,
    wall: Segment,
}

impl Library {
    fn new(body: &Revolved, from: Vec2, to: Vec2) -> Self {
        let outline: Vec<Vector> = body
            .chain
            .outline(SAGITTA)
            .into_iter()
            .map(|p| vector(body.side.sign() * (body.center_plane + p.x), p.y))
            .collect();
        let tire = ConvexPolygon::from_convex_hull(&outline).expect("a convex outline");
        let sign = body.side.sign();
        Self {
            tire,
            wall: Segment::new(vector(sign * from.x, from.y), vector(sign * to.x, to.y)),
        }
    }

    fn distance(&self, motion: &Motion, pose: Pose) -> f64 {
        let placement = motion.at(pose);
        let center = placement.body_from_axle(vec3(0.0, 0.0, 0.0));
        let across = placement.body_from_axle(vec3(0.0, 1.0, 0.0)) - center;
        let roll = geometry::math::atan2(across.z, across.y);
        let at = Isometry::new(vector(center.y, center.z), roll);
        query::distance(&at, &self.tire, &Isometry::IDENTITY, &self.wall)
            .expect("both shapes are supported")
            .distance
    }
}

fn vector(x: f64, y: f64) -> Vector {
    Vector::new(x, y)
}

/// A tire without inward normals: crown, shoulders and upright walls, so that its section and its solid agree.
fn tire() -> Chain {
    Chain::rounded_rectangle(vec2(145.0, 352.0), 38.0).expect("a rounded rectangle is convex")
}
