//! The tire's shape and its load against derived and published values (rows S1, S5, S6).

use geometry::tire::Construction;
use geometry::tire::load::{Loading, SidewallArc};

#[track_caller]
fn check(what: &str, got: f64, expected: f64, tolerance: f64) {
    assert!(
        (got - expected).abs() <= tolerance,
        "{what}: {got} is not {expected}"
    );
}

/// S1, derived: phi / sin phi = L / c, radius = L / 2 phi, sagitta = radius (1 - cos phi).
#[test]
fn a_sidewall_of_fixed_length_bulges_as_its_chord_shrinks() {
    check(
        "half circle",
        SidewallArc::over(50.0 * std::f64::consts::PI, 100.0).sagitta,
        50.0,
        1e-9,
    );
    check(
        "chord 140",
        SidewallArc::over(150.0, 140.0).sagitta,
        23.156,
        0.5e-3,
    );
    check(
        "chord 120",
        SidewallArc::over(150.0, 120.0).sagitta,
        38.083,
        0.5e-3,
    );
    let arc = SidewallArc::over(150.0, 120.0);
    check(
        "length back",
        SidewallArc::length_of(120.0, arc.sagitta),
        150.0,
        1e-9,
    );
}

/// S6: Rhyne, Tire Science and Technology 33(3), 2005 (from memory): 240 kPa, 225/60R16 gives 26.751 kg/mm.
#[test]
fn vertical_stiffness_of_a_radial() {
    // DR is the rim's 16 in, 406.4 mm; the section height follows from the aspect.
    let loading = Loading {
        load: 450.0,
        pressure: 240.0,
        construction: Construction::Radial,
        section_width: 225.0,
        diameter: 406.4 + 2.0 * 0.6 * 225.0,
        rim_diameter: 406.4,
    };
    check("stiffness", loading.radial_stiffness(), 26.751, 0.5e-3);
    check("deflection", loading.deflection(), 450.0 / 26.751, 1e-3);
}

/// S5: NASA TR R-64 (from memory), `F = (p + 0.08 pr) w sqrt(w d) f(x)`; the two branches of f meet at x = 0.1, and the
/// deflection found carries the load asked for.
#[test]
fn load_and_deflection_of_a_bias_tire() {
    let loading = Loading {
        load: 500.0,
        pressure: 180.0,
        construction: Construction::Bias,
        section_width: 250.0,
        diameter: 700.0,
        rim_diameter: 381.0,
    };
    // Worked out in the formula's own units: 26.1068 psi, w 9.8425 in, d 27.5591 in, x = 0.1 so f = 0.168.
    let pounds = 1.08 * 26.106_8 * 9.842_52 * (9.842_52_f64 * 27.559_06).sqrt() * 0.168;
    check(
        "load at a tenth of the width",
        loading.bias_load(25.0) * 2.204_622_6,
        pounds,
        0.05,
    );
    let above = loading.bias_load(25.0 + 1e-6);
    let below = loading.bias_load(25.0 - 1e-6);
    check("branches meet", above, below, 1e-3);
    check(
        "load found",
        loading.bias_load(loading.deflection()),
        500.0,
        1e-6,
    );
}
