//! The wheel fed past the lip: the slider's marks, and how it plays once from outside to the flange.

use geometry::mount::{Finding, Mounting};

/// Marks of the slider from outside to the flange.
pub const MARKS: f64 = 100.0;

/// How long the whole way takes when it plays, ms.
const WHOLE: f64 = 6000.0;

/// Places that are held one after the other where motion is to be reduced, from outside to the flange.
const HELD: u8 = 6;

/// The mark of a share of the way.
pub fn mark(share: f64) -> f64 {
    (share.clamp(0.0, 1.0) * MARKS).round()
}

/// The share of the way that a mark stands for; nothing for what is no mark.
pub fn share(mark: &str) -> Option<f64> {
    let mark: f64 = mark.parse().ok()?;
    mark.is_finite().then_some((mark / MARKS).clamp(0.0, 1.0))
}

/// Where playing begins that is asked for at `share`: there, or outside again once the wheel is on.
pub fn from(share: f64) -> f64 {
    if share < 1.0 { share } else { 0.0 }
}

/// The share after playing for `time` ms from the share `from`; 1 once the wheel is on.
pub fn gliding(time: f64, from: f64) -> f64 {
    (from + time.max(0.0) / WHOLE).min(1.0)
}

/// The next place after `share` that is held, for those who asked for less motion; 1 once the wheel is on.
pub fn next_held(share: f64) -> f64 {
    let held = (1..HELD).map(|k| f64::from(k) / f64::from(HELD - 1));
    // Beyond the share by more than a mark, or the same picture would be held twice.
    held.into_iter()
        .find(|held| *held > share + 1.0 / MARKS)
        .unwrap_or(1.0)
}

/// The verdict in a class of the page's signs: it goes on, it takes more droop, it does not.
pub fn class(finding: Finding) -> &'static str {
    match finding {
        Finding::GoesOn => "verdict clears",
        Finding::WithDroop(_) => "verdict tight",
        Finding::NoWay { .. } => "verdict hits",
    }
}

/// Where the slider stands that nobody moved: at the tightest spot.
pub fn standing(moved: Option<f64>, mounting: &Mounting) -> f64 {
    moved.unwrap_or_else(|| mounting.tightest_share())
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "marks and shares come back bit for bit")]
mod tests {
    use geometry::model::Model;
    use geometry::side::Side;

    use super::*;
    use crate::state::opening;

    #[test]
    fn every_mark_comes_back_from_its_share() {
        for k in 0..=100 {
            let share = share(&k.to_string()).expect("a mark");
            assert_eq!(mark(share), f64::from(k));
        }
        assert_eq!(share("NaN"), None);
        assert_eq!(share("wide"), None);
        assert_eq!((share("-3"), share("300")), (Some(0.0), Some(1.0)));
        assert_eq!((mark(-1.0), mark(7.0)), (0.0, MARKS));
    }

    #[test]
    fn playing_goes_on_from_where_the_wheel_is_and_ends_on_the_flange() {
        assert_eq!((from(0.4), from(1.0)), (0.4, 0.0));
        let mut last = gliding(0.0, 0.25);
        assert_eq!(last, 0.25);
        for frame in 1..400 {
            let next = gliding(f64::from(frame) * 1000.0 / 60.0, 0.25);
            assert!(next >= last && next - last < 0.01);
            last = next;
        }
        assert_eq!(last, 1.0);
        assert_eq!(gliding(-5.0, 0.5), 0.5);
    }

    #[test]
    fn held_places_come_to_the_flange_and_never_stand_still() {
        let (mut share, mut steps) = (0.0, 0);
        while share < 1.0 {
            let next = next_held(share);
            assert!(mark(next) > mark(share));
            (share, steps) = (next, steps + 1);
        }
        assert_eq!(steps, 5);
        assert_eq!(next_held(0.995), 1.0);
    }

    #[test]
    fn the_slider_stands_at_the_tightest_spot_until_it_is_moved() {
        let work = opening::invented(0).expect("the first invented car opens");
        let model = Model::new(&work.car).expect("it has a model");
        let mounting = Mounting::whole(&model, Side::Right);
        let tightest = mounting.tightest().expect("there is a way");
        let there = mounting.at(standing(None, &mounting));
        let nearest = mounting.nearest_stop(there).expect("there is a way");
        assert_eq!(nearest, tightest);
        assert_eq!(standing(Some(0.3), &mounting), 0.3);
    }
}
