//! The tire under load: how far it is pressed in, and how much its sidewall bulges at the ground.

use super::designation::Construction;
use super::section::{ShapeInputs, TireShape};
use crate::field::Fault;
use crate::math;
use crate::units::in_both;

/// A circular arc of fixed length over a chord.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SidewallArc {
    /// Half the angle that the arc turns through, radians.
    pub half_angle: f64,
    /// Radius, mm.
    pub radius: f64,
    /// Height over the chord, mm.
    pub sagitta: f64,
}

impl SidewallArc {
    /// The arc of `length` over `chord`: `phi / sin phi = length / chord`, radius = length / 2 phi,
    /// sagitta = radius (1 - cos phi). Straight where the chord is as long as the arc or longer.
    ///
    /// ```
    /// # use geometry::tire::load::SidewallArc;
    /// let half_circle = SidewallArc::over(50.0 * std::f64::consts::PI, 100.0);
    /// assert!((half_circle.sagitta - 50.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn over(length: f64, chord: f64) -> Self {
        if chord >= length {
            return Self {
                half_angle: 0.0,
                radius: f64::INFINITY,
                sagitta: 0.0,
            };
        }
        // phi / sin phi rises from 1 without end over (0, pi), so halving the bracket always ends.
        let (mut low, mut high) = (0.0, std::f64::consts::PI);
        for _ in 0..60 {
            let phi = f64::midpoint(low, high);
            if phi * chord < length * math::sin(phi) {
                low = phi;
            } else {
                high = phi;
            }
        }
        let half_angle = f64::midpoint(low, high);
        let radius = length / (2.0 * half_angle);
        Self {
            half_angle,
            radius,
            sagitta: radius * (1.0 - math::cos(half_angle)),
        }
    }

    /// Length of the arc of this sagitta over this chord, mm.
    #[must_use]
    pub fn length_of(chord: f64, sagitta: f64) -> f64 {
        if sagitta <= 0.0 {
            return chord;
        }
        let half_angle = 2.0 * math::atan2(2.0 * sagitta, chord);
        let radius = (chord * chord / 4.0 + sagitta * sagitta) / (2.0 * sagitta);
        2.0 * half_angle * radius
    }
}

/// What the estimate of the static deflection is made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loading {
    /// Load on the tire, kg.
    pub load: f64,
    /// Inflation pressure, kPa.
    pub pressure: f64,
    /// How the carcass is built.
    pub construction: Construction,
    /// Section width, mm.
    pub section_width: f64,
    /// Overall diameter, mm.
    pub diameter: f64,
    /// Nominal diameter of the rim, mm.
    pub rim_diameter: f64,
}

impl Loading {
    /// Estimated static deflection, mm. A measured axle height beats it.
    #[must_use]
    pub fn deflection(&self) -> f64 {
        match self.construction {
            Construction::Radial => self.load / self.radial_stiffness(),
            Construction::Bias | Construction::Belted => self.bias_deflection(),
        }
    }

    /// Vertical stiffness of a radial tire, kg/mm.
    ///
    /// Rhyne, "Development of a vertical stiffness relationship for belted radial tires", Tire Science
    /// and Technology 33(3), 2005 (from memory).
    #[must_use]
    pub fn radial_stiffness(&self) -> f64 {
        let width = self.section_width;
        let aspect = 100.0 * self.section_height() / width;
        let under_root =
            ((1.03 - 0.004 * aspect) * width * (width * aspect / 50.0 + self.rim_diameter))
                .max(0.0);
        0.00028 * self.pressure * under_root.sqrt() + 3.45
    }

    /// Load that presses a bias tire in by `deflection` mm, kg.
    ///
    /// NASA TR R-64 (from memory): `F = (p + 0.08 pr) w sqrt(w d) f(x)`, `x = deflection / w`, in inches,
    /// psi and pounds; the rated pressure `pr` is taken as the inflation pressure.
    #[must_use]
    pub fn bias_load(&self, deflection: f64) -> f64 {
        const MM_PER_INCH: f64 = 25.4;
        const KPA_PER_PSI: f64 = 6.894_757_293_168;
        const KG_PER_POUND: f64 = 0.453_592_37;
        let x = deflection / self.section_width;
        let f = if x >= 0.1 {
            2.4 * (x - 0.03)
        } else {
            0.96 * x + 7.2 * x * x
        };
        let (w, d) = (
            self.section_width / MM_PER_INCH,
            self.diameter / MM_PER_INCH,
        );
        1.08 * self.pressure / KPA_PER_PSI * w * (w * d).sqrt() * f * KG_PER_POUND
    }

    fn section_height(&self) -> f64 {
        (self.diameter - self.rim_diameter) / 2.0
    }

    fn bias_deflection(&self) -> f64 {
        let (mut low, mut high) = (0.0, self.section_height());
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if self.bias_load(middle) < self.load {
                low = middle;
            } else {
                high = middle;
            }
        }
        low
    }
}

/// How much wider one sidewall stands out at the ground when the tire is pressed in by `deflection` mm.
///
/// The sidewall keeps its length and loses `deflection` of its chord.
#[must_use]
pub fn bulge(shape: &TireShape, deflection: f64) -> f64 {
    let chord = shape.shoulder_end - shape.bead_radius;
    let ends = f64::midpoint(shape.inputs.rim_width / 2.0, shape.tread_width / 2.0);
    let sagitta = (shape.inputs.section_width / 2.0 - ends).max(0.0);
    let length = SidewallArc::length_of(chord, sagitta);
    SidewallArc::over(length, (chord - deflection).max(0.0)).sagitta - sagitta
}

/// The section at the ground: pressed in by `deflection` mm, flat in the crown, bulged in the sidewalls.
///
/// # Errors
/// A deflection that the sidewall cannot take.
pub fn loaded(shape: &TireShape, deflection: f64) -> Result<TireShape, Fault> {
    /// Radius of the flattened crown, mm: flat for every purpose of a drawing, and still an arc.
    const FLAT: f64 = 1e5;
    let inputs = ShapeInputs {
        section_width: shape.inputs.section_width + 2.0 * bulge(shape, deflection),
        diameter: shape.inputs.diameter - 2.0 * deflection,
        shoulder_radius: Some(shape.shoulder_radius),
        tread_width: Some(shape.tread_width),
        ..shape.inputs
    };
    TireShape::with_crown(inputs, shape.tread_width, FLAT).map_err(|fault| {
        Fault::new(
            "tire.deflection",
            format!(
                "pressed in by {} at the ground, the sidewall does not go with the rest: {}",
                in_both(deflection),
                fault.found
            ),
            format!(
                "a smaller deflection, less load or more pressure, or {}",
                fault.accepted
            ),
        )
    })
}
