//! Dragging in the picture: where a handle was taken hold of, and the value it is dragged to.

use geometry::space::Vec2;

use super::dial::Scale;

/// A handle in somebody's hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drag {
    /// The value when it was taken hold of.
    pub from: f64,
    /// Where the pointer was then, on the sheet. Not where the handle was: it must not jump to the pointer.
    pub grabbed: Vec2,
    /// Unit vector on the sheet along which the value rises.
    pub axis: Vec2,
    /// How much it rises per unit moved along the axis.
    pub rate: f64,
    /// The marks it lands on.
    pub scale: Scale,
}

impl Drag {
    /// The value with the pointer at `pointer`, on a mark and inside the scale.
    pub fn value(&self, pointer: Vec2) -> f64 {
        let along = (pointer - self.grabbed).dot(self.axis);
        let value = self.from + along * self.rate;
        self.scale.value(
            self.scale
                .position(if value.is_finite() { value } else { self.from }),
        )
    }
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "marks are whole numbers")]
mod tests {
    use geometry::space::vec2;

    use super::*;

    const DRAG: Drag = Drag {
        from: 50.0,
        grabbed: vec2(-700.0, -300.0),
        axis: vec2(1.0, 0.0),
        rate: 2.0,
        scale: Scale {
            mark: 5.0,
            least: 0.0,
            most: 20.0,
        },
    };

    #[test]
    fn taking_hold_changes_nothing() {
        assert_eq!(DRAG.value(DRAG.grabbed), 50.0);
    }

    #[test]
    fn only_the_way_along_the_axis_counts_and_it_lands_on_marks() {
        assert_eq!(DRAG.value(vec2(-690.0, -300.0)), 70.0);
        assert_eq!(DRAG.value(vec2(-690.0, -900.0)), 70.0);
        assert_eq!(DRAG.value(vec2(-698.6, -300.0)), 55.0);
    }

    #[test]
    fn the_scale_ends_the_drag() {
        assert_eq!(DRAG.value(vec2(5000.0, 0.0)), 100.0);
        assert_eq!(DRAG.value(vec2(-5000.0, 0.0)), 0.0);
        assert_eq!(DRAG.value(vec2(f64::NAN, 0.0)), 50.0);
    }
}
