//! Looking round the wheel: the angle of the rear view's section, and poses in words.

use geometry::field::{Bound, Quantity};
use geometry::math;
use geometry::space::Vec3;
use geometry::travel::Pose;
use geometry::units::{Notation, degrees, radians};

use super::figures::directed;

/// What the section's angle may be.
pub const SECTION: Bound = Bound {
    key: "section",
    label: "Section at",
    help: "Angle of the rear view's section from straight up; ahead of the axle is positive.",
    quantity: Quantity::Angle,
    least: -FRAC_PI_2,
    most: FRAC_PI_2,
    usual: Some(0.0),
};

const FRAC_PI_2: f64 = std::f64::consts::FRAC_PI_2;

/// Wheels nearer to their ride height than this, mm, stand at it.
const AT_RIDE: f64 = 0.5;

/// An angle that the section can have: on a whole degree, and as far round as it goes.
pub fn on_degree(angle: f64) -> f64 {
    if angle.is_finite() {
        SECTION.clamp(radians(degrees(angle).round()))
    } else {
        0.0
    }
}

/// Where round the wheel a spot of the body is, as far as the section goes.
pub fn of_spot(spot: Vec3) -> f64 {
    let angle = math::atan2(spot.x, spot.z);
    if angle.is_finite() {
        SECTION.clamp(angle)
    } else {
        0.0
    }
}

/// The angle as a screen reader says it.
pub fn spoken(angle: f64) -> String {
    let whole = degrees(angle).round();
    if whole == 0.0 {
        return "straight up".to_owned();
    }
    let word = if whole > 0.0 { "ahead of" } else { "behind" };
    let unit = if whole.abs() > 1.0 {
        "degrees"
    } else {
        "degree"
    };
    format!("{:.0} {unit} {word} straight up", whole.abs())
}

/// The angle that a key asks for; `forward` is the key that points to the front.
pub fn keyed(key: &str, angle: f64, forward: &str) -> Option<f64> {
    let step = match key {
        "ArrowLeft" | "ArrowRight" if key == forward => 1.0,
        "ArrowUp" => 1.0,
        "ArrowLeft" | "ArrowRight" | "ArrowDown" => -1.0,
        "PageUp" => 10.0,
        "PageDown" => -10.0,
        "Home" => -180.0,
        "End" => 180.0,
        _ => return None,
    };
    Some(on_degree(angle + radians(step)))
}

/// A pose in words: where the wheels stand, and how far the axle has given way sideways.
pub fn pose_words(pose: Pose, notation: Notation) -> String {
    let wheel = |height: f64| {
        if height.abs() < AT_RIDE {
            "at ride height".to_owned()
        } else {
            directed(height, ("up", "down"), notation)
        }
    };
    let wheels = if (pose.left - pose.right).abs() < AT_RIDE {
        format!("both wheels {}", wheel(pose.left))
    } else {
        format!(
            "left wheel {}, right wheel {}",
            wheel(pose.left),
            wheel(pose.right)
        )
    };
    if pose.give.abs() < AT_RIDE {
        wheels
    } else {
        let give = directed(pose.give, ("to the left", "to the right"), notation);
        format!("{wheels}, pushed {give}")
    }
}

#[cfg(test)]
mod tests {
    use geometry::space::vec3;

    use super::*;

    #[test]
    fn angles_land_on_degrees_and_end_at_level() {
        assert!((degrees(on_degree(radians(-34.6))) + 35.0).abs() < 1e-9);
        assert!((on_degree(9.0) - FRAC_PI_2).abs() < 1e-12);
        assert!(on_degree(f64::NAN).abs() < 1e-12);
        assert!((of_spot(vec3(-100.0, 700.0, -300.0)) + FRAC_PI_2).abs() < 1e-12);
    }

    #[test]
    fn keys_move_the_line_the_way_they_point() {
        let moved = |key, forward| keyed(key, 0.0, forward).map(|angle| degrees(angle).round());
        assert_eq!(moved("ArrowLeft", "ArrowLeft"), Some(1.0));
        assert_eq!(moved("ArrowLeft", "ArrowRight"), Some(-1.0));
        assert_eq!(moved("PageDown", "ArrowLeft"), Some(-10.0));
        assert_eq!(moved("End", "ArrowLeft"), Some(90.0));
        assert_eq!(moved("Tab", "ArrowLeft"), None);
    }

    #[test]
    fn poses_are_told_in_words() {
        let pose =
            |left, right, give| pose_words(Pose { left, right, give }, Notation::InchFractions);
        assert_eq!(pose(0.0, 0.0, 0.0), "both wheels at ride height");
        assert_eq!(pose(50.8, 50.8, 0.0), "both wheels 2 in up");
        assert_eq!(
            pose(50.8, -25.4, -3.175),
            "left wheel 2 in up, right wheel 1 in down, pushed 1/8 in to the right"
        );
        assert_eq!(spoken(radians(-35.0)), "35 degrees behind straight up");
    }
}
