//! Published tire sizes: what a printed size must come to, with each value's source.

use geometry::tire::size::{largest_factors, nominal_rim_diameter};
use geometry::tire::{
    Arrival, Construction, Designation, MeasuredWidth, NominalSize, TireSpec, nominal_size,
};
use geometry::units::MM_PER_INCH;

/// What a size must come to on a rim: whole millimeters.
struct Expected {
    size: &'static str,
    rim_inches: f64,
    section_width: f64,
    overall_diameter: f64,
}

#[track_caller]
fn check(expected: &Expected) {
    let size = read(expected.size);
    let width = size.section_width_on(expected.rim_inches * MM_PER_INCH);
    assert_eq!(
        (width, size.overall_diameter),
        (expected.section_width, expected.overall_diameter),
        "{} on a {} in rim",
        expected.size,
        expected.rim_inches
    );
}

#[track_caller]
fn read(size: &str) -> NominalSize {
    nominal_size(&Designation::parse(size).unwrap_or_else(|fault| panic!("{size}: {fault}")))
}

#[track_caller]
fn spec(size: &str, arrival: Arrival) -> TireSpec {
    TireSpec {
        designation: Designation::parse(size).unwrap_or_else(|fault| panic!("{size}: {fault}")),
        section_width: None,
        overall_diameter: None,
        tread_width: None,
        shoulder_radius: None,
        widest_at: 0.5,
        arrival,
        growth: 0.0,
        load: 400.0,
        pressure: 200.0,
        deflection: None,
    }
}

#[test]
fn metric_sizes() {
    let on = |size, rim_inches, section_width, overall_diameter| {
        check(&Expected {
            size,
            rim_inches,
            section_width,
            overall_diameter,
        });
    };
    // T3: Tire and Rim Association design guide, as quoted by a tire engineer: 8.23 in and 24.69 in (seen).
    on("P205/60R15", 6.0, 209.0, 627.0);
    // T4: UN Regulation No. 30, 6.1.1.1 and 6.1.2 (formula seen, values computed); H = 157.5 rounds to 158.
    on("225/70R15", 6.5, 228.0, 697.0);
    on("225/70R15", 8.0, 243.0, 697.0);
    // T5: the same.
    on("275/60R15", 8.0, 279.0, 711.0);
    on("275/60R15", 9.0, 289.0, 711.0);
    on("275/60R15", 10.0, 300.0, 711.0);
    // T6: the same; H = 162.5 rounds half up, so the diameter is 707 and not 705.
    on("325/50R15", 10.0, 336.0, 707.0);
    // T10: UN Regulation No. 54, annex 5 (memory); x = 0.80, half an inch under the printed diameter.
    on("31x10.50R15LT", 8.5, 268.0, 775.0);
}

#[test]
fn section_width_formula() {
    // T1: UN Regulation No. 30, 6.1.1.1 (seen): S = S1 + 0.4 (A - A1), A1 = x S1.
    // T2: x = 0.70 for an aspect of 50 and more, 0.85 below: ISO 4000-1 (memory, confirmed by T3).
    for (size, stated, x) in [
        ("275/60R15", 275.0, 0.70),
        ("325/50R15", 325.0, 0.70),
        ("245/45R17", 245.0, 0.85),
        ("345/30R20", 345.0, 0.85),
    ] {
        let read = read(size);
        assert!((read.theoretical_rim - x * stated).abs() < 1e-9, "{size}");
        for half_inches in 10..24 {
            let rim = f64::from(half_inches) * MM_PER_INCH / 2.0;
            let exact = stated + 0.4 * (rim - x * stated);
            assert!(
                (read.section_width_on(rim) - exact).abs() <= 0.5 + 1e-6,
                "{size} on {rim}"
            );
        }
    }
}

#[test]
fn nominal_rim_diameters() {
    // T7: UN Regulation No. 30, section 2, table of codes (memory).
    for (code, millimeters) in [
        (14.0, 356.0),
        (15.0, 381.0),
        (16.0, 406.0),
        (17.0, 432.0),
        (18.0, 457.0),
        (19.0, 483.0),
        (20.0, 508.0),
        (22.0, 559.0),
    ] {
        assert!(
            (nominal_rim_diameter(code) - millimeters).abs() < 1e-9,
            "code {code}"
        );
    }
}

#[test]
fn the_largest_that_may_arrive() {
    // T8: UN Regulation No. 30, 6.1.4 and 6.1.5 (memory).
    assert_eq!(largest_factors(Construction::Radial), (1.04, 1.04));
    assert_eq!(largest_factors(Construction::Bias), (1.06, 1.08));
    assert_eq!(largest_factors(Construction::Belted), (1.06, 1.08));
    // T9: T8 computed, to a tenth of a millimeter.
    for (size, width, diameter) in [("275/60R15", 290.2, 724.2), ("275/60-15", 295.7, 737.4)] {
        let tire = spec(size, Arrival::Largest);
        let on_measuring_rim = tire.section_width_on(8.0 * MM_PER_INCH);
        assert!(
            (on_measuring_rim - width).abs() <= 0.05,
            "{size}: {on_measuring_rim}"
        );
        assert!(
            (tire.diameter() - diameter).abs() <= 0.05,
            "{size}: {}",
            tire.diameter()
        );
    }
}

#[test]
fn another_rim_brings_four_tenths() {
    // T11: UN Regulation No. 30, 6.1.1.1, and common practice: 0.2 in of section for half an inch of rim.
    let mut tire = spec("275/60R15", Arrival::Nominal);
    tire.section_width = Some(MeasuredWidth {
        width: 281.0,
        on_rim: 8.0 * MM_PER_INCH,
    });
    for half_inches in 1..8 {
        let rim = (8.0 + f64::from(half_inches) / 2.0) * MM_PER_INCH;
        let expected = 281.0 + f64::from(half_inches) * 0.2 * MM_PER_INCH;
        assert!((tire.section_width_on(rim) - expected).abs() < 1e-9);
    }
}

#[test]
fn measuring_rims() {
    // T12: ETRTO (memory, confirmed on published sizes).
    for (size, inches) in [
        ("225/70R15", 6.5),
        ("225/55R16", 7.0),
        ("205/60R15", 6.0),
        ("275/60R15", 8.0),
        ("31x10.50R15LT", 8.5),
        ("7.75-14", 5.5),
    ] {
        let measuring_rim = read(size).measuring_rim / MM_PER_INCH;
        assert!(
            (measuring_rim - inches).abs() < 1e-9,
            "{size}: {measuring_rim}"
        );
    }
}

#[test]
fn a_drag_slick_grows() {
    // T13: 1 to 1.5 in of diameter at speed: common practice, no source. What is said is what is added.
    for inches in [1.0, 1.5] {
        let mut tire = spec("28.0/10.5-15", Arrival::AtSpeed);
        tire.growth = inches * MM_PER_INCH;
        assert!((tire.diameter() - tire.design_diameter() - inches * MM_PER_INCH).abs() < 1e-9);
    }
}
