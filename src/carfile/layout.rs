//! What a car file is made of: its words, its keys and the bounds of what the car's own tables do not bound.

use geometry::body::Surface;
use geometry::body::tape::TAPE_FIELDS;
use geometry::car::fields::{OPTIONAL_FIELDS, RIM_WIDTH};
use geometry::car::{CAR_FIELDS, Car, PlugPractice};
use geometry::field::{Bound, Quantity};
use geometry::locator::PivotOn;
use geometry::side::Side;
use geometry::tire::Arrival;
use geometry::units::LengthUnit;

/// The tables of a car that are there once, in the order of a file.
pub(crate) const TABLES: [&str; 11] = [
    "tire",
    "wheel",
    "axle",
    "locator",
    "travel",
    "targets",
    "tape_error",
    "stock",
    "before",
    "metal",
    "shop",
];

/// The keys and tables at the top of a file.
pub(crate) fn top() -> Vec<&'static str> {
    let (before, after) = (
        ["format", "name", "purpose", "units"],
        ["tape", "left", "right", "obstacle", "no_cut", "found"],
    );
    [&before[..], &TABLES, &after].concat()
}

/// Keys that stand beside the numbers of a table.
pub(crate) const EXTRA: &[&str] = &[
    "tire.size",
    "tire.arrival",
    "tire.section_width_on",
    "wheel.offset",
    "metal.plugs",
];

/// Keys of the shop's table, each with the most characters that it holds.
pub(crate) const IN_SHOP: [(&str, usize); 2] =
    [("name", Car::LONGEST_NAME), ("notes", Car::LONGEST_NOTES)];

/// Keys of a side's table that hold tables themselves.
pub(crate) const IN_SIDE: &[&str] = &["tape", "station"];

/// Keys of an obstacle.
pub(crate) const IN_OBSTACLE: &[&str] = &["name", "side", "from", "to", "radius"];

/// Keys of a no-cut zone.
pub(crate) const IN_NO_CUT: &[&str] = &["name", "side", "angles", "along"];

/// Keys of a gap found with the mock-up.
pub(crate) const IN_FOUND: &[&str] = &["side", "surface", "part", "pose", "gap"];

/// The most found gaps of a car that are read: each surface of either side, in each position of a mock-up.
pub const FOUND: usize = 2_000;

/// Keys of a reading that is more than its length.
pub(crate) const IN_READING: &[&str] = &["measured", "guess", "error"];

/// Keys of a station.
pub(crate) const IN_STATION: &[&str] = &["angle", "points", "spans", "seam", "fill"];

pub(crate) const UNITS: &[(&str, LengthUnit)] =
    &[("in", LengthUnit::Inch), ("mm", LengthUnit::Millimeter)];

pub(crate) const ARRIVALS: &[(&str, Arrival)] = &[
    ("nominal", Arrival::Nominal),
    ("largest", Arrival::Largest),
    ("at-speed", Arrival::AtSpeed),
];

pub(crate) const PLUGS: &[(&str, PlugPractice)] = &[
    ("code", PlugPractice::Code),
    ("repair", PlugPractice::Repair),
];

pub(crate) const SIDES: &[(&str, Side)] = &[("left", Side::Left), ("right", Side::Right)];

pub(crate) const PIVOTS: &[(&str, PivotOn)] = &[("axle", PivotOn::Axle), ("body", PivotOn::Body)];

/// The kinds of locator, and the keys that go with each.
pub(crate) const LOCATORS: &[(&str, &[&str])] = &[
    ("track-bar", &["kind", "axle_end", "body_end"]),
    ("watt-link", &["kind", "height", "pivot_on"]),
    ("angled-links", &["kind", "height"]),
    ("leaf-springs", &["kind", "height"]),
];

/// The surfaces a station's spans can be of.
pub(crate) const SPANS: &[(&str, Surface)] = &[
    ("quarter-lip", Surface::QuarterLip),
    ("outer-half", Surface::OuterHalf),
    ("roof", Surface::Roof),
    ("tub-corner", Surface::TubCorner),
    ("tub-wall", Surface::TubWall),
    ("frame-rail", Surface::FrameRail),
];

/// What a gap can be found to: what a station's spans can be of, and parts bolted nearby.
pub(crate) fn found_to() -> Vec<(&'static str, Surface)> {
    [SPANS, &[("part", Surface::Obstacle)]].concat()
}

/// Offset tells the same as backspacing; what it may be follows from the backspacing's own bound.
pub(crate) const OFFSET: Bound = length(
    "wheel.offset",
    "Offset",
    "From the rim's center plane to the mounting face, positive when the face is outboard.",
    -350.0,
    350.0,
);

/// The rim on which a measured section width was taken.
pub(crate) const SECTION_WIDTH_ON: Bound = Bound {
    key: "tire.section_width_on",
    label: "Rim it was measured on",
    ..RIM_WIDTH.bound
};

/// Within half a turn of straight up, a little less: the ground side has no wheelhouse.
pub const STATION_ANGLE: Bound = Bound {
    key: "station.angle",
    label: "Angle of the station",
    help: "From straight up, positive toward the front.",
    quantity: Quantity::Angle,
    least: -170.0 / 180.0 * std::f64::consts::PI,
    most: 170.0 / 180.0 * std::f64::consts::PI,
    usual: None,
};

/// Either number of a station's point: out from the car's center plane, or the radius.
pub const STATION_POINT: Bound = length(
    "station.points",
    "Point of the sheet metal",
    "Out from the car's center plane, and the radius from the axle's line.",
    0.0,
    2000.0,
);

/// The most stations of a side, points of a station, obstacles and no-cut zones of a car that are read.
pub const MANY: usize = 200;

/// Every key of a table that holds a number of the car, in the order of a file, without the table's name.
pub(crate) fn keys_of(table: &str) -> Vec<&'static str> {
    let optional = OPTIONAL_FIELDS.iter().map(|field| field.bound.key);
    let keys = CAR_FIELDS
        .iter()
        .map(|field| field.bound.key)
        .chain(optional)
        .chain(EXTRA.iter().copied());
    keys.filter_map(|key| {
        key.split_once('.')
            .filter(|(of, _)| *of == table)
            .map(|(_, name)| name)
    })
    .collect()
}

/// Every key of a tape table.
pub(crate) fn tape_keys() -> Vec<&'static str> {
    TAPE_FIELDS
        .iter()
        .map(|field| field.field.bound.key)
        .collect()
}

/// The word that a file has for one of a few things.
pub(crate) fn word<T: PartialEq>(words: &[(&'static str, T)], thing: &T) -> &'static str {
    words
        .iter()
        .find(|(_, one)| one == thing)
        .map_or("", |(word, _)| word)
}

const fn length(
    key: &'static str,
    label: &'static str,
    help: &'static str,
    least: f64,
    most: f64,
) -> Bound {
    Bound {
        key,
        label,
        help,
        quantity: Quantity::Length,
        least,
        most,
        usual: None,
    }
}
