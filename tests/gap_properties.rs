//! What the certified gap promises, on random tires, axles and pieces of metal aimed at trouble.

mod random;

use geometry::chain::{Arc, Chain};
use geometry::gap::{
    Face, Gap, Limits, Meeting, Part, Patch, PoseDomain, Poses, ROUNDING, certify, certify_below,
};
use geometry::locator::{Locator, PivotOn};
use geometry::motion::Motion;
use geometry::side::Side;
use geometry::solid::Revolved;
use geometry::space::{Vec2, Vec3, vec2, vec3};
use geometry::tire::{ShapeInputs, TireShape};
use geometry::travel::Pose;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use random::locator;

/// The accuracy asked for, mm.
const ACCURACY: f64 = 0.05;
/// The ordinary test tries the same cases each time; the long run in DEVELOPERS.md sets another seed.
const SEED: u64 = 20;
/// Boxes that no case below needs, so that the width promised can be asked of each.
const BOXES: usize = 400_000;
/// Room for the rounding of two ways to the same number, mm.
const SAME: f64 = 1e-7;

/// The usual number of cases, always the same; `PROPTEST_CASES` and `PROPTEST_RNG_SEED` ask for others.
fn config() -> ProptestConfig {
    let config = ProptestConfig {
        failure_persistence: None,
        ..ProptestConfig::default()
    };
    match config.rng_seed {
        RngSeed::Random => ProptestConfig {
            rng_seed: RngSeed::Fixed(SEED),
            ..config
        },
        RngSeed::Fixed(_) => config,
    }
}

/// A tire on an axle that moves.
#[derive(Debug, Clone)]
struct Case {
    motion: Motion,
    domain: PoseDomain,
    body: Revolved,
    give: f64,
}

impl Case {
    fn gap(&self, faces: &[Face]) -> Gap {
        self.gap_to(faces, ACCURACY)
    }

    fn gap_to(&self, faces: &[Face], accuracy: f64) -> Gap {
        let body = self.widened();
        certify(
            &mut Poses::new(self.motion, self.domain),
            &[&body],
            faces,
            self.give,
            Limits {
                accuracy,
                boxes: BOXES,
            },
        )
        .expect("a face and a tire")
    }

    fn widened(&self) -> Revolved {
        Revolved {
            chain: self.body.chain.widened(self.give),
            ..self.body.clone()
        }
    }

    /// The signed distance of one body point in one pose, by the plain definition.
    fn distance(&self, point: Vec3, pose: Pose) -> f64 {
        self.body
            .distance(self.motion.at(pose).axle_from_body(point))
    }
}

fn case() -> impl Strategy<Value = Case> {
    let tire = (200.0..380.0, 0.25..0.6, 13.0..20.0, 0.6..0.98).prop_filter_map(
        "a tire",
        |(width, aspect, rim_code, rim_share): (f64, f64, f64, f64)| {
            let rim_diameter = 25.4 * rim_code;
            TireShape::new(ShapeInputs {
                section_width: width,
                diameter: rim_diameter + 2.0 * aspect * width,
                rim_diameter,
                rim_width: rim_share * width,
                flange_height: 17.3,
                tread_width: None,
                shoulder_radius: None,
                widest_at: 0.5,
            })
            .ok()
        },
    );
    // No travel, no roll at all, and roll limited so far that the pose box is a sliver: all have their turn.
    let travel = prop_oneof![1 => Just((0.0, 0.0)), 8 => (0.0..120.0, 0.0..120.0)];
    let apart = prop_oneof![1 => Just(0.0), 2 => Just(f64::INFINITY), 2 => 1.0..200.0];
    let give = prop_oneof![Just(0.0), 0.0..12.0];
    (
        tire,
        locator(),
        travel,
        apart,
        give,
        1200.0..1700.0,
        (-60.0..60.0, -40.0..40.0, -0.03..0.03),
        any::<bool>(),
    )
        .prop_map(
            |(tire, locator, (droop, bump), apart, give, track, (ride, ahead, yaw), left)| Case {
                motion: Motion::new(locator, track, ride, ahead, yaw),
                domain: PoseDomain {
                    low: -droop,
                    high: bump,
                    apart,
                },
                body: Revolved {
                    part: Part::Tire,
                    chain: tire.chain,
                    side: if left { Side::Left } else { Side::Right },
                    center_plane: track / 2.0,
                },
                give,
            },
        )
}

/// A point near the tire's surface, inside or outside, all round the wheel, and now and then on the axle's line.
fn point(case: &Case) -> impl Strategy<Value = Vec3> + use<> {
    let (side, plane) = (case.body.side.sign(), case.body.center_plane);
    let widest = case.body.chain.support(vec2(1.0, 0.0));
    let tallest = case.body.chain.support(vec2(0.0, 1.0));
    let radius = prop_oneof![1 => Just(0.0), 9 => 0.3..1.4];
    (-1.6..1.6, radius, -3.2..3.2).prop_map(move |(across, radius, angle): (f64, f64, f64)| {
        let direction = Vec2::at_angle(angle);
        vec3(
            tallest * radius * direction.x,
            side * (plane + widest * across),
            tallest * radius * direction.y,
        )
    })
}

/// A case with three points: a piece of metal, which may be a sliver or fold back on itself.
fn case_and_points() -> impl Strategy<Value = (Case, [Vec3; 3])> {
    case().prop_flat_map(|case| {
        let first = point(&case);
        let near = (
            -120.0..120.0,
            -80.0..80.0,
            -120.0..120.0,
            prop_oneof![Just(0.0), Just(1.0), Just(1e-9)],
        );
        (Just(case), first, near.clone(), near).prop_map(|(case, a, b, c)| {
            let other = |(x, y, z, k): (f64, f64, f64, f64)| a + vec3(x, y, z) * k;
            (case, [a, other(b), other(c)])
        })
    })
}

/// A case with a piece of wheelhouse between two stations, near the tire, flat now and then or without width.
fn case_and_patch() -> impl Strategy<Value = (Case, Patch)> {
    case().prop_flat_map(|case| {
        let (side, plane) = (case.body.side, case.body.center_plane);
        let widest = case.body.chain.support(vec2(1.0, 0.0));
        let tallest = case.body.chain.support(vec2(0.0, 1.0));
        let end = (-1.6..1.6, 0.3..1.4).prop_map(move |(across, radius): (f64, f64)| {
            vec2(plane + widest * across, tallest * radius)
        });
        let step = (-60.0..60.0, -60.0..60.0).prop_map(|(x, y): (f64, f64)| vec2(x, y));
        let turn = prop_oneof![1 => Just(0.0), 9 => 0.01..1.2];
        let around = (-3.2..3.2, turn).prop_map(|(from, turn): (f64, f64)| [from, from + turn]);
        let width = prop_oneof![1 => Just(0.0), 9 => Just(1.0)];
        (
            Just(case),
            around,
            end,
            [step.clone(), step.clone(), step],
            width,
        )
            .prop_map(
                move |(case, angles, first, [along, across, twist], width)| {
                    // No sheet lies on the axle's line or beyond it, and one station alone has but one section.
                    let sheet = |p: Vec2| vec2(p.x, p.y.max(1.0));
                    let two = if angles[0] < angles[1] { 1.0 } else { 0.0 };
                    let second = first + across * width;
                    let far = second + (along + twist * width) * two;
                    let ends =
                        [[first, first + along * two], [second, far]].map(|end| end.map(sheet));
                    (case, Patch::new(side, angles, ends[0], ends[1]))
                },
            )
    })
}

/// Poses spread over the domain, its corners and edges among them.
fn poses_of(case: &Case) -> Vec<Pose> {
    const GRID: u32 = 12;
    let at = |k: u32| {
        case.domain.low + (case.domain.high - case.domain.low) * f64::from(k) / f64::from(GRID)
    };
    let mut poses = Vec::new();
    for i in 0..=GRID {
        for j in 0..=GRID {
            for give in [-case.give, 0.0, case.give] {
                if (at(i) - at(j)).abs() <= case.domain.apart {
                    poses.push(Pose {
                        left: at(i),
                        right: at(j),
                        give,
                    });
                }
            }
        }
    }
    poses
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn no_pose_comes_below_the_interval((case, points) in case_and_points()) {
        let [a, b, c] = points;
        let gap = case.gap(&[Face::triangle(a, b, c)]);
        prop_assert!(gap.low <= gap.high && gap.high - gap.low <= ACCURACY + 2.0 * ROUNDING, "{gap:?}");
        for pose in poses_of(&case) {
            for (s, t) in [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (0.3, 0.3), (0.5, 0.5), (0.1, 0.7)] {
                let p = a + (b - a) * s + (c - a) * t;
                let there = case.distance(p, pose);
                prop_assert!(there >= gap.low, "{pose:?} at {p:?}: {there} below {}", gap.low);
            }
        }
    }

    #[test]
    fn the_witness_attains_the_upper_end((case, [a, b, c]) in case_and_points()) {
        let gap = case.gap(&[Face::triangle(a, b, c)]);
        let there = case.distance(gap.witness.at_body, gap.witness.pose);
        prop_assert!((there - gap.high).abs() <= SAME, "{there} is not {}", gap.high);
        let between = (gap.witness.at_tire - gap.witness.at_body).length();
        prop_assert!((between - gap.high.abs()).abs() <= SAME, "the points stand {between} apart, the gap is {}", gap.high);
        let on_face = Face::triangle(a, b, c).nearest(gap.witness.at_body);
        prop_assert!((on_face - gap.witness.at_body).length() <= 1e-6);
        let pose = gap.witness.pose;
        prop_assert!(pose.left >= case.domain.low - SAME && pose.left <= case.domain.high + SAME);
        prop_assert!((pose.left - pose.right).abs() <= case.domain.apart + SAME);
    }

    #[test]
    fn no_pose_comes_below_the_interval_of_a_curved_patch((case, patch) in case_and_patch()) {
        const STEPS: u32 = 4;
        let gap = case.gap(&[Face::from(patch)]);
        prop_assert!(gap.low <= gap.high && gap.high - gap.low <= ACCURACY + 2.0 * ROUNDING, "{gap:?}");
        let attained = case.distance(gap.witness.at_body, gap.witness.pose);
        prop_assert!((attained - gap.high).abs() <= SAME, "{attained} is not {}", gap.high);
        prop_assert!((patch.near(gap.witness.at_body) - gap.witness.at_body).length() <= 1e-6, "{gap:?} is not on {patch:?}, {:?}", patch.near(gap.witness.at_body));
        for pose in poses_of(&case) {
            let placement = case.motion.at(pose);
            for (i, j) in (0..=STEPS).flat_map(|i| (0..=STEPS).map(move |j| (i, j))) {
                let p = patch.at(f64::from(i) / f64::from(STEPS), f64::from(j) / f64::from(STEPS));
                let there = case.body.distance(placement.axle_from_body(p));
                prop_assert!(there >= gap.low, "{pose:?} at {p:?}: {there} below {}", gap.low);
            }
        }
    }

    #[test]
    fn a_patch_cut_in_pieces_gives_the_same((case, patch) in case_and_patch()) {
        let whole = Face::from(patch);
        let pieces: Vec<Face> = whole.halves().iter().flat_map(Face::halves).collect();
        let (one, many) = (case.gap(&[whole]), case.gap(&pieces));
        prop_assert!(one.low <= many.high + SAME && many.low <= one.high + SAME, "{one:?} and {many:?}");
    }

    #[test]
    fn a_point_moved_changes_the_gap_by_no_more((case, [a, b, _]) in case_and_points()) {
        let (at_a, at_b) = (case.gap(&[Face::point(a)]), case.gap(&[Face::point(b)]));
        let moved = (a - b).length();
        prop_assert!(at_a.low - at_b.high <= moved + SAME && at_b.low - at_a.high <= moved + SAME);
    }

    #[test]
    fn more_travel_give_or_tire_never_leaves_more_room((case, [a, b, c]) in case_and_points(), more in 0.0..30.0) {
        let face = [Face::triangle(a, b, c)];
        let base = case.gap(&face);
        let wider = Case { domain: PoseDomain { low: case.domain.low - more, high: case.domain.high + more, apart: case.domain.apart + more }, ..case.clone() };
        prop_assert!(wider.gap(&face).low <= base.high + SAME);
        let looser = Case { give: case.give + more, ..case.clone() };
        prop_assert!(looser.gap(&face).low <= base.high + SAME);
        let bigger = Case { body: Revolved { chain: case.body.chain.grown(more), ..case.body.clone() }, ..case.clone() };
        let grown = bigger.gap(&face);
        prop_assert!(grown.low <= base.high - more + SAME && grown.high >= base.low - more - SAME);
    }

    #[test]
    fn the_mirrored_car_has_the_mirrored_answer((case, [a, b, c]) in case_and_points()) {
        let flip = |p: Vec3| vec3(p.x, -p.y, p.z);
        let (body, motion) = (&case.body, &case.motion);
        let side = if body.side == Side::Left { Side::Right } else { Side::Left };
        let mirrored = Case { motion: motion.mirrored(), body: Revolved { side, ..body.clone() }, ..case.clone() };
        let (here, there) = (case.gap(&[Face::triangle(a, b, c)]), mirrored.gap(&[Face::triangle(flip(a), flip(b), flip(c))]));
        prop_assert!(here.low <= there.high + SAME && there.low <= here.high + SAME, "{here:?} and {there:?}");
    }

    #[test]
    fn no_travel_gives_the_distance_at_rest((case, [a, _, _]) in case_and_points()) {
        let still = Case { domain: PoseDomain { low: 0.0, high: 0.0, apart: f64::INFINITY }, give: 0.0, ..case.clone() };
        let expected = case.distance(a, Pose::RIDE);
        let gap = still.gap(&[Face::point(a)]);
        prop_assert!(gap.low <= expected + SAME && (gap.high - expected).abs() <= SAME, "{gap:?} is not {expected}");
        let rest = certify(&mut Poses::at(case.motion, Pose::RIDE), &[&case.body], &[Face::point(a)], 0.0, Limits::accuracy(ACCURACY)).expect("a point and a tire");
        prop_assert!((rest.high - expected).abs() <= SAME);
    }

    #[test]
    fn a_surface_cut_in_pieces_gives_the_same((case, [a, b, c]) in case_and_points()) {
        let whole = Face::triangle(a, b, c);
        let pieces: Vec<Face> = whole.halves().iter().flat_map(Face::halves).collect();
        let (one, many) = (case.gap(&[whole]), case.gap(&pieces));
        prop_assert!(one.low <= many.high + SAME && many.low <= one.high + SAME, "{one:?} and {many:?}");
    }

    // The two searches go different ways, and both intervals hold the truth: so they nest to the tighter accuracy.
    #[test]
    fn a_tighter_accuracy_lies_inside_a_looser_one((case, [a, b, c]) in case_and_points()) {
        let (face, fine) = ([Face::triangle(a, b, c)], 0.01);
        let (loose, tight) = (case.gap_to(&face, 1.0), case.gap_to(&face, fine));
        prop_assert!(tight.low >= loose.low - fine - SAME && tight.high <= loose.high + fine + SAME, "{tight:?} outside {loose:?}");
    }

    #[test]
    fn a_search_that_ends_early_still_tells_the_truth((case, [a, b, c]) in case_and_points(), off in -60.0..60.0f64) {
        let face = [Face::triangle(a, b, c)];
        let (body, limits) = (case.widened(), Limits { accuracy: 0.01, boxes: BOXES });
        let full = case.gap_to(&face, 0.01);
        let below = full.low + off;
        let meeting = Meeting { solids: &[&body], faces: &face };
        let early = certify_below(&mut Poses::new(case.motion, case.domain), &[meeting], case.give, limits, below).expect("a face and a tire");
        prop_assert!(early.low <= full.high + SAME && early.high >= full.low - SAME, "{early:?} and {full:?}");
        // Whichever it is, it is settled: the gap is known, or known not to lie below.
        prop_assert!(early.high - early.low <= 0.01 + SAME || early.low >= below - SAME, "{early:?}, {below}");
    }

    #[test]
    fn a_capped_search_says_so_by_its_width((case, [a, b, c]) in case_and_points(), boxes in 0_usize..40) {
        let face = [Face::triangle(a, b, c)];
        let body = case.widened();
        let limits = Limits { accuracy: 0.001, boxes };
        let capped = certify(&mut Poses::new(case.motion, case.domain), &[&body], &face, case.give, limits).expect("a face and a tire");
        let full = case.gap_to(&face, 0.01);
        prop_assert!(capped.low <= full.high + SAME && capped.high >= full.low - SAME, "{capped:?} and {full:?}");
    }
}

/// A long run found it: the search went on halving poses that were a point already, for it never asked the plane in the
/// nearest place alone.
#[test]
fn a_piece_under_a_rim_that_was_halved_for_ever_is_certified() {
    let arc = |x: f64, y: f64, radius: f64, from: (f64, f64)| Arc {
        center: vec2(x, y),
        radius,
        from: vec2(from.0, from.1),
    };
    let (bead, side) = (0.773_353_831_650_320_2, 0.756_547_601_057_205_6);
    let (bead_up, side_up) = (-0.633_974_645_448_671_1, 0.653_938_626_580_956_1);
    let (crown, crown_up) = (0.1, 0.994_987_437_106_62);
    let (low, high) = (234.463_539_129_947_63, 253.669_187_545_646_76);
    let chain = Chain::new(vec![
        arc(
            92.051_787_226_866_85,
            212.230_798_945_142_86,
            0.0,
            (0.0, -1.0),
        ),
        arc(
            64.931_184_008_060_11,
            low,
            35.068_815_991_939_89,
            (bead, bead_up),
        ),
        arc(
            54.130_809_016_262_454,
            low,
            45.869_190_983_737_546,
            (1.0, 0.0),
        ),
        arc(76.350_000_000_000_01, high, 16.5, (side, side_up)),
        arc(0.0, -506.003_720_685_257_6, 780.0, (crown, crown_up)),
        arc(-76.350_000_000_000_01, high, 16.5, (-crown, crown_up)),
        arc(
            -54.130_809_016_262_454,
            low,
            45.869_190_983_737_546,
            (-side, side_up),
        ),
        arc(
            -64.931_184_008_060_11,
            low,
            35.068_815_991_939_89,
            (-1.0, 0.0),
        ),
        arc(
            -92.051_787_226_866_85,
            212.230_798_945_142_86,
            0.0,
            (-bead, bead_up),
        ),
    ])
    .expect("a tire's section");
    let case = Case {
        motion: Motion::new(
            Locator::WattLink {
                height: -63.384_777_409,
                pivot_on: PivotOn::Body,
            },
            1_361.754_697_897_810_3,
            -27.984_895_503_536_04,
            -26.942_683_330_196_243,
            geometry::math::asin(-0.019_088_055_794_008_667),
        ),
        domain: PoseDomain {
            low: -44.813_184_649_309_66,
            high: 74.555_515_616_028_42,
            apart: 72.429_061_953_075,
        },
        body: Revolved {
            part: Part::Tire,
            chain,
            side: Side::Right,
            center_plane: 680.877_348_949_051_3,
        },
        give: 0.0,
    };
    let (a, b) = (
        vec3(
            -310.364_272_134_562_44,
            -699.081_490_451_863_8,
            23.301_912_764_730_01,
        ),
        vec3(
            -307.801_248_459_966_25,
            -654.923_297_837_614_3,
            -95.544_411_696_044_82,
        ),
    );
    let gap = case.gap(&[Face::triangle(a, a, b)]);
    assert!(gap.high - gap.low <= ACCURACY + 2.0 * ROUNDING, "{gap:?}");
}
