//! The tire's meridian section: crown, shoulders, sidewalls as tangent arcs.
//!
//! ```text
//!            crown
//!        _____________        radial
//!     shoulder      shoulder    ^
//!    (               )          |      upper sidewall: shoulder to widest point
//!    |    section    |          |      lower sidewall: widest point to rim flange
//!     \_           _/           +---> axial, from the center plane
//!       |_________|   closed by a straight line between the flanges
//! ```

use crate::chain::{Arc, Chain, ChainFault};
use crate::field::Fault;
use crate::math;
use crate::space::{Vec2, vec2};

/// Tread width as a share of the section width, where it was not measured (common practice, no source).
pub const TREAD_SHARE: f64 = 0.78;
/// Shoulder radius as a share of the overhang of the section beside the tread, where it was not measured
/// (common practice, no source).
pub const SHOULDER_SHARE: f64 = 0.75;
/// Radius of the crown as a multiple of the tread width (common practice, no source).
pub const CROWN_SHARE: f64 = 5.0;
/// The lowest sidewall that is still a tire, mm above the rim flange.
const LEAST_SIDEWALL: f64 = 10.0;
/// Where the section stands out beside the rim by less than this, mm, the tire counts as stretched:
/// its widest point is then at the flange.
const STRETCHED: f64 = 0.5;

/// What a section is made from, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShapeInputs {
    /// Section width on the rim that is fitted.
    pub section_width: f64,
    /// Overall diameter.
    pub diameter: f64,
    /// Nominal diameter of the rim.
    pub rim_diameter: f64,
    /// Width of the rim between its flanges.
    pub rim_width: f64,
    /// Height of the rim flange above the nominal diameter.
    pub flange_height: f64,
    /// Tread width, if measured.
    pub tread_width: Option<f64>,
    /// Shoulder radius, if measured.
    pub shoulder_radius: Option<f64>,
    /// Height of the widest point as a share of the section height.
    pub widest_at: f64,
}

/// A meridian section, in `(axial, radial)` coordinates from the tire's center plane and its axis.
#[derive(Debug, Clone, PartialEq)]
pub struct TireShape {
    /// The section's outline.
    pub chain: Chain,
    /// What it was made from.
    pub inputs: ShapeInputs,
    /// The tread width used, mm.
    pub tread_width: f64,
    /// The shoulder radius used, mm.
    pub shoulder_radius: f64,
    /// Radius at which the section is widest, mm.
    pub widest_radius: f64,
    /// Radius at which the sidewall leaves the rim flange, mm.
    pub bead_radius: f64,
    /// Radius at which shoulder and upper sidewall meet, mm.
    pub shoulder_end: f64,
}

impl TireShape {
    /// Makes the section.
    ///
    /// # Errors
    /// Says which number does not go with the others; nothing is mended.
    pub fn new(inputs: ShapeInputs) -> Result<Self, Fault> {
        let tread_width = inputs
            .tread_width
            .unwrap_or(TREAD_SHARE * inputs.section_width);
        Self::with_crown(inputs, tread_width, CROWN_SHARE * tread_width)
    }

    pub(super) fn with_crown(
        inputs: ShapeInputs,
        tread_width: f64,
        crown_radius: f64,
    ) -> Result<Self, Fault> {
        let half = inputs.section_width / 2.0;
        let bead_radius = inputs.rim_diameter / 2.0 + inputs.flange_height;
        if inputs.diameter / 2.0 - bead_radius < LEAST_SIDEWALL {
            return Err(refuse::low_tire(&inputs, bead_radius));
        }
        let stretched = half - inputs.rim_width / 2.0 < STRETCHED;
        let widest_radius = if stretched {
            bead_radius
        } else {
            let height = (inputs.diameter - inputs.rim_diameter) / 2.0;
            inputs.rim_diameter / 2.0 + inputs.widest_at * height
        };

        let edge = tread_width / (2.0 * crown_radius);
        let crown_end = vec2(edge, (1.0 - edge * edge).max(0.0).sqrt());
        let crown = Arc {
            center: vec2(0.0, inputs.diameter / 2.0 - crown_radius),
            radius: crown_radius,
            from: crown_end,
        };
        let overhang = (half - tread_width / 2.0).max(0.0);
        let shoulder_radius = inputs.shoulder_radius.unwrap_or(SHOULDER_SHARE * overhang);
        let shoulder_center = crown.center + crown_end * (crown_radius - shoulder_radius);

        let widest = vec2(half, widest_radius);
        let upper = upper_sidewall(widest, shoulder_center, shoulder_radius)
            .ok_or_else(|| refuse::wide_tread(&inputs, tread_width, shoulder_radius))?;
        let shoulder = Arc {
            center: shoulder_center,
            radius: shoulder_radius,
            from: unit(shoulder_center - upper.center),
        };
        let bead = vec2(
            if stretched {
                half
            } else {
                inputs.rim_width / 2.0
            },
            bead_radius,
        );
        let lower = if stretched {
            None
        } else {
            Some(
                lower_sidewall(widest, bead)
                    .ok_or_else(|| refuse::narrow_rim(&inputs, widest_radius - bead_radius))?,
            )
        };

        let right: Vec<Arc> = lower.into_iter().chain([upper, shoulder]).collect();
        let chain = closed(bead, &right, crown).map_err(|_| refuse::not_convex(shoulder_radius))?;
        let shoulder_end = (shoulder.center + shoulder.from * shoulder_radius).y;
        Ok(Self {
            chain,
            inputs,
            tread_width,
            shoulder_radius,
            widest_radius,
            bead_radius,
            shoulder_end,
        })
    }
}

/// The arc that is upright at the widest point and touches the shoulder's circle from outside.
fn upper_sidewall(widest: Vec2, shoulder: Vec2, shoulder_radius: f64) -> Option<Arc> {
    let reach = widest.x - shoulder.x;
    let rise = shoulder.y - widest.y;
    let overhang = reach - shoulder_radius;
    if overhang <= 0.0 || rise <= overhang {
        return None;
    }
    let radius =
        (reach * reach + rise * rise - shoulder_radius * shoulder_radius) / (2.0 * overhang);
    Some(Arc {
        center: vec2(widest.x - radius, widest.y),
        radius,
        from: vec2(1.0, 0.0),
    })
}

/// The arc that is upright at the widest point and ends at the bead.
fn lower_sidewall(widest: Vec2, bead: Vec2) -> Option<Arc> {
    let (overhang, drop) = (widest.x - bead.x, widest.y - bead.y);
    if overhang > drop {
        return None;
    }
    let radius = (overhang * overhang + drop * drop) / (2.0 * overhang);
    let center = vec2(widest.x - radius, widest.y);
    Some(Arc {
        center,
        radius,
        from: unit(bead - center),
    })
}

/// The chain of bead, the right side's arcs, the crown, and the right side's mirror image.
fn closed(bead: Vec2, right: &[Arc], crown: Arc) -> Result<Chain, ChainFault> {
    let mut arcs = vec![Arc {
        center: bead,
        radius: 0.0,
        from: vec2(0.0, -1.0),
    }];
    arcs.extend(right);
    arcs.push(crown);
    // An arc that began at one normal on the right ends at its mirror image on the left.
    let mut ends = right
        .iter()
        .skip(1)
        .map(|arc| arc.from)
        .chain([crown.from])
        .collect::<Vec<_>>();
    for arc in right.iter().rev() {
        let end = ends.pop().unwrap_or(crown.from);
        arcs.push(Arc {
            center: mirrored(arc.center),
            radius: arc.radius,
            from: mirrored(end),
        });
    }
    let bead_normal = right.first().map_or(crown.from, |arc| arc.from);
    arcs.push(Arc {
        center: mirrored(bead),
        radius: 0.0,
        from: mirrored(bead_normal),
    });
    Chain::new(arcs)
}

/// What a section refuses, and what it would accept.
mod refuse {
    use super::{LEAST_SIDEWALL, ShapeInputs};
    use crate::field::Fault;
    use crate::units::in_both;

    pub fn low_tire(inputs: &ShapeInputs, bead_radius: f64) -> Fault {
        Fault::new(
            "tire.overall_diameter",
            format!(
                "the tire is {} in diameter, and its rim flange reaches {}",
                in_both(inputs.diameter),
                in_both(2.0 * bead_radius)
            ),
            format!(
                "a diameter of at least {} would be accepted",
                in_both(2.0 * (bead_radius + LEAST_SIDEWALL))
            ),
        )
    }

    pub fn wide_tread(inputs: &ShapeInputs, tread_width: f64, shoulder_radius: f64) -> Fault {
        Fault::new(
            "tire.tread_width",
            format!(
                "a tread of {} with shoulders of {} radius does not go with a section of {}",
                in_both(tread_width),
                in_both(shoulder_radius),
                in_both(inputs.section_width)
            ),
            format!(
                "tread width plus twice the shoulder radius below {}, with the widest point below the shoulder, would be accepted",
                in_both(inputs.section_width)
            ),
        )
    }

    pub fn narrow_rim(inputs: &ShapeInputs, drop: f64) -> Fault {
        let overhang = (inputs.section_width - inputs.rim_width) / 2.0;
        Fault::new(
            "wheel.rim_width",
            format!(
                "a section of {} stands out beside a rim of {} by {} on each side, which is {} more than its lower sidewall is high",
                in_both(inputs.section_width),
                in_both(inputs.rim_width),
                in_both(overhang),
                in_both(overhang - drop)
            ),
            format!(
                "a rim of at least {}, or a section of at most {}, would be accepted",
                in_both(inputs.section_width - 2.0 * drop),
                in_both(inputs.rim_width + 2.0 * drop)
            ),
        )
    }

    pub fn not_convex(shoulder_radius: f64) -> Fault {
        Fault::new(
            "tire.shoulder_radius",
            format!(
                "crown, shoulder ({}) and sidewall do not make one convex section",
                in_both(shoulder_radius)
            ),
            "a smaller shoulder radius or a narrower tread would be accepted",
        )
    }
}

fn mirrored(v: Vec2) -> Vec2 {
    vec2(-v.x, v.y)
}

fn unit(v: Vec2) -> Vec2 {
    v * (1.0 / math::hypot(v.x, v.y))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inputs() -> ShapeInputs {
        ShapeInputs {
            section_width: 300.0,
            diameter: 711.0,
            rim_diameter: 381.0,
            rim_width: 254.0,
            flange_height: 17.3,
            tread_width: None,
            shoulder_radius: None,
            widest_at: 0.5,
        }
    }

    #[test]
    fn the_section_is_as_wide_and_as_high_as_asked() {
        let shape = TireShape::new(inputs()).expect("an ordinary tire");
        assert!((shape.chain.support(vec2(1.0, 0.0)) - 150.0).abs() < 1e-9);
        assert!((shape.chain.support(vec2(-1.0, 0.0)) - 150.0).abs() < 1e-9);
        assert!((shape.chain.support(vec2(0.0, 1.0)) - 355.5).abs() < 1e-9);
        assert!((shape.chain.near(vec2(150.0, shape.widest_radius)).distance).abs() < 1e-9);
    }

    #[test]
    fn a_stretched_tire_is_widest_at_the_flange() {
        let shape = TireShape::new(ShapeInputs {
            section_width: 250.0,
            ..inputs()
        })
        .expect("a stretched tire");
        assert!(
            shape
                .chain
                .near(vec2(125.0, shape.bead_radius))
                .distance
                .abs()
                < 1e-9
        );
    }

    #[test]
    fn what_does_not_go_together_is_refused() {
        let check = |at: &str, inputs: ShapeInputs| {
            assert_eq!(TireShape::new(inputs).expect_err(at).at, at);
        };
        check(
            "tire.overall_diameter",
            ShapeInputs {
                diameter: 400.0,
                ..inputs()
            },
        );
        check(
            "tire.tread_width",
            ShapeInputs {
                tread_width: Some(320.0),
                ..inputs()
            },
        );
        check(
            "wheel.rim_width",
            ShapeInputs {
                rim_width: 80.0,
                ..inputs()
            },
        );
    }
}
