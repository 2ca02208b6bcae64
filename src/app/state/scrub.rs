//! The travel scrubber: where the axle is held, and the round it makes when it plays.

use std::f64::consts::PI;
use std::time::Duration;

use geometry::math;
use geometry::travel::{Pose, TravelSpec};

/// Where the axle is held, mm: both wheels by `heave`, then the left up and the right down by `tilt`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Scrub {
    /// Both wheels above ride height.
    pub heave: f64,
    /// The left wheel up, the right wheel down by as much.
    pub tilt: f64,
    /// Sideways give taken up, positive to the left.
    pub give: f64,
}

impl Scrub {
    /// The axle where the car stands.
    pub const RIDE: Scrub = Scrub {
        heave: 0.0,
        tilt: 0.0,
        give: 0.0,
    };

    /// The scrubber that holds the axle in `pose`.
    pub fn at(pose: Pose) -> Self {
        Self {
            heave: f64::midpoint(pose.left, pose.right),
            tilt: (pose.left - pose.right) / 2.0,
            give: pose.give,
        }
    }

    /// The pose, each wheel stopped by its own stops.
    pub fn pose(self, travel: &TravelSpec) -> Pose {
        Pose {
            left: (self.heave + self.tilt).clamp(-travel.droop, travel.bump),
            right: (self.heave - self.tilt).clamp(-travel.droop, travel.bump),
            give: self.give.clamp(-travel.give, travel.give),
        }
    }
}

/// How far the tilt goes either way, mm a wheel: the stops' own limit or the roll limit's.
pub fn most_tilt(travel: &TravelSpec, track_width: f64) -> f64 {
    let by_stops = f64::midpoint(travel.bump, travel.droop);
    match travel.roll_limit {
        Some(limit) => by_stops.min(math::sin(limit) * track_width / 2.0),
        None => by_stops,
    }
}

/// The axle's roll in `pose`, radians, positive when the left wheel is up.
pub fn roll(pose: Pose, track_width: f64) -> f64 {
    math::asin((pose.left - pose.right) / track_width)
}

/// How long one round of bump, droop and roll takes, ms.
pub const ROUND: f64 = 9000.0;

/// How long a held pose stands when motion is to be reduced.
pub const HOLD: Duration = Duration::from_millis(1500);

/// The stations of one round: heave as a share of bump (positive) or droop (negative), and the tilt's share.
const STATIONS: [(f64, f64); 8] = [
    (0.0, 0.0),
    (1.0, 0.0),
    (0.0, 0.0),
    (-1.0, 0.0),
    (0.0, 0.0),
    (0.0, 1.0),
    (0.0, 0.0),
    (0.0, -1.0),
];

/// Where the axle is at `time` ms into playing, gliding from station to station.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a share of a round is neither negative nor large"
)]
pub fn gliding(time: f64, travel: &TravelSpec, track_width: f64) -> Scrub {
    let progress = (time.max(0.0) / ROUND).fract() * STATIONS.len() as f64;
    let from = progress as usize;
    let eased = (1.0 - math::cos(PI * progress.fract())) / 2.0;
    let before = station(from, travel, track_width);
    let after = station(from + 1, travel, track_width);
    Scrub {
        heave: before.heave + (after.heave - before.heave) * eased,
        tilt: before.tilt + (after.tilt - before.tilt) * eased,
        give: 0.0,
    }
}

/// The `index`-th pose of the round, for those who asked for less motion.
pub fn station(index: usize, travel: &TravelSpec, track_width: f64) -> Scrub {
    let (heave, tilt) = STATIONS[index % STATIONS.len()];
    Scrub {
        heave: if heave > 0.0 {
            heave * travel.bump
        } else {
            heave * travel.droop
        },
        tilt: tilt * most_tilt(travel, track_width),
        give: 0.0,
    }
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "what is held comes back bit for bit")]
mod tests {
    use super::*;

    const TRAVEL: TravelSpec = TravelSpec {
        bump: 80.0,
        droop: 60.0,
        roll_limit: None,
        give: 3.0,
        ride_change: 0.0,
    };
    const TRACK: f64 = 1500.0;

    #[test]
    fn a_pose_is_held_as_it_was_given() {
        let pose = Pose {
            left: 30.0,
            right: -10.0,
            give: -2.0,
        };
        assert_eq!(Scrub::at(pose).pose(&TRAVEL), pose);
    }

    #[test]
    fn no_wheel_leaves_its_stops() {
        let pose = Scrub {
            heave: 70.0,
            tilt: 50.0,
            give: 9.0,
        }
        .pose(&TRAVEL);
        assert_eq!(
            pose,
            Pose {
                left: 80.0,
                right: 20.0,
                give: 3.0
            }
        );
    }

    #[test]
    fn the_roll_limit_holds_the_tilt() {
        let limited = TravelSpec {
            roll_limit: Some(0.02),
            ..TRAVEL
        };
        let tilt = most_tilt(&limited, TRACK);
        let pose = Scrub {
            tilt,
            ..Scrub::RIDE
        }
        .pose(&limited);
        assert!((roll(pose, TRACK) - 0.02).abs() < 1e-12);
        assert_eq!(most_tilt(&TRAVEL, TRACK), 70.0);
    }

    #[test]
    fn a_round_visits_both_stops_and_both_tilts_and_never_jumps() {
        let mut last = gliding(0.0, &TRAVEL, TRACK);
        let (mut highest, mut lowest, mut tilts) = (0.0_f64, 0.0_f64, (0.0_f64, 0.0_f64));
        for frame in 1..=1080 {
            let next = gliding(f64::from(frame) * ROUND / 1080.0, &TRAVEL, TRACK);
            assert!((next.heave - last.heave).abs() < 2.0 && (next.tilt - last.tilt).abs() < 2.0);
            highest = highest.max(next.heave);
            lowest = lowest.min(next.heave);
            tilts = (tilts.0.min(next.tilt), tilts.1.max(next.tilt));
            last = next;
        }
        assert!((highest - 80.0).abs() < 1e-9 && (lowest + 60.0).abs() < 1e-9);
        assert!((tilts.0 + 70.0).abs() < 1e-9 && (tilts.1 - 70.0).abs() < 1e-9);
        assert!(
            last.heave.abs() < 1e-9 && last.tilt.abs() < 1e-9,
            "a round ends where it began"
        );
    }

    #[test]
    fn a_car_without_travel_stays_where_it_is() {
        let still = TravelSpec {
            bump: 0.0,
            droop: 0.0,
            ..TRAVEL
        };
        assert_eq!(gliding(1234.0, &still, TRACK).pose(&still), Pose::RIDE);
    }
}
