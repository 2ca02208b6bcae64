//! Lines without the corners that nobody can see: a picture is written, read and painted by its corners.

use geometry::space::Vec2;

/// A line with the fewest of its own corners, from its start on, that every corner left out lies no further than `within`
/// from; its ends stay.
pub fn thin(line: &[Vec2], within: f64) -> Vec<Vec2> {
    let mut kept: Vec<Vec2> = line.first().copied().into_iter().collect();
    let mut from = 0;
    for to in 1..line.len() {
        let is_straight = line[from + 1..to]
            .iter()
            .all(|&corner| away(corner, line[from], line[to]) <= within);
        if !is_straight {
            from = to - 1;
            kept.push(line[from]);
        }
    }
    kept.extend(line.last().filter(|_| line.len() > 1));
    kept
}

/// How far a point is from a stretch of straight line.
fn away(point: Vec2, from: Vec2, to: Vec2) -> f64 {
    let (along, reach) = (to - from, point - from);
    let share = reach.dot(along) / along.dot(along);
    // A stretch without a length is its own nearest point.
    let share = if share.is_nan() {
        0.0
    } else {
        share.clamp(0.0, 1.0)
    };
    (reach - along * share).length()
}

#[cfg(test)]
mod tests {
    use geometry::math;
    use geometry::space::vec2;
    use geometry::units::degrees;

    use super::*;

    fn circle(corners: u16, radius: f64) -> Vec<Vec2> {
        (0..=corners)
            .map(|k| {
                Vec2::at_angle(std::f64::consts::TAU * f64::from(k) / f64::from(corners)) * radius
            })
            .collect()
    }

    #[test]
    fn corners_of_a_straight_line_go_and_its_ends_stay() {
        let line = [0.0, 1.0, 5.0, 9.0].map(|x| vec2(x, 2.0 * x));
        assert_eq!(thin(&line, 1e-9), [line[0], line[3]]);
    }

    #[test]
    fn what_is_left_out_is_near_what_is_kept() {
        let (line, within) = (circle(360, 350.0), 0.1);
        let kept = thin(&line, within);
        // A chord stays so near the circle over 2 acos(1 - within / radius); of that, up to the degree between two corners
        // is lost. Beside the chords there are the two ends.
        let span = degrees(2.0 * math::acos(1.0 - within / 350.0));
        assert!(kept.len() as f64 <= 2.0 + 360.0 / (span - 1.0));
        for &corner in &line {
            let nearest = kept.windows(2).map(|ends| away(corner, ends[0], ends[1]));
            assert!(nearest.fold(f64::INFINITY, f64::min) <= within);
        }
    }

    #[test]
    fn a_line_that_turns_back_on_itself_keeps_its_turn() {
        let line = [vec2(0.0, 0.0), vec2(10.0, 0.0), vec2(0.0, 0.0)];
        assert_eq!(thin(&line, 0.5), line);
    }

    #[test]
    fn what_is_hardly_a_line_stays_as_it_is() {
        assert!(thin(&[], 1.0).is_empty());
        assert_eq!(thin(&[vec2(1.0, 2.0)], 1.0), [vec2(1.0, 2.0)]);
        let twice = [vec2(1.0, 2.0); 2];
        assert_eq!(thin(&twice, 1.0), twice);
    }
}
