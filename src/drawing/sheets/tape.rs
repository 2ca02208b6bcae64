//! The tape sheet: what to measure, from where to where, with blanks.

use geometry::body::tape::{HAND, TAPE_FIELDS, Way};
use geometry::car::Car;
use geometry::car::fields;
use geometry::field::Bound;
use geometry::locator::Locator;
use geometry::model::Model;
use geometry::units::{MM_PER_INCH, Notation};

use super::flow::{Flow, both};
use super::table::Table;
use super::{Kind, Sheet, SheetOptions, tape_figure};
use crate::words::bearing;

/// The letters of the readings, in the order of [`TAPE_FIELDS`]. I, O and R are left out: on greasy paper they are
/// taken for 1, 0 and P.
pub const LETTERS: [char; 20] = [
    'A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'J', 'K', 'L', 'M', 'N', 'P', 'Q', 'S', 'T', 'U', 'V',
    'W',
];

/// A mark of the tape, 1/16 in, mm.
pub(super) const MARK: f64 = MM_PER_INCH / 16.0;

const CAUTIONS: [&str; 3] = [
    "Work on a level floor. Stands under the frame or sills carry the body, stands or blocks carry the axle: never a jack alone.",
    "Keep flame and sparks away: the fuel tank and its lines are close by.",
    "Edges in a wheelhouse are sharp, and undercoating hides them. Wear gloves and glasses.",
];

/// The sheet.
#[must_use]
pub fn tape_sheet(model: &Model, options: &SheetOptions) -> Sheet {
    let mut flow = Flow::new(Kind::Tape, model, options);
    flow.paragraph("Write each reading beside its letter. Start a car of your own in the car menu and type them in on the Bench, under “Tape readings”, where they stand in the same order with the same letters.");
    flow.cautions(&CAUTIONS);
    flow.heading("Set the car up");
    let steps = set_up(&flow);
    flow.steps(&steps);
    flow.figure(tape_figure::REAR_HEIGHT, |group, frame| {
        tape_figure::rear(group, frame, model);
    });
    flow.figure(tape_figure::SIDE_HEIGHT, |group, frame| {
        tape_figure::side(group, frame, model);
    });
    flow.note("Drawn from the numbers this car has now, left side. Front is on the left in the lower drawing. Dashes there are the frame rail. I, O and R are no letters of this sheet: they look like 1, 0 and P. Any other letter that is not in the drawings measures what is too small to draw; the list says it in words.");
    for table in tape_tables(model) {
        flow.table(&table);
    }
    flow.note("A reading that cannot be taken: write your best guess and a G beside it. The page counts guesses as less certain and says which of them matter.");
    Sheet {
        kind: Kind::Tape,
        pages: flow.pages(),
    }
}

/// Its tables: the readings of either side, then the other numbers, in the order in which the page asks for them.
#[must_use]
pub fn tape_tables(model: &Model) -> Vec<Table> {
    let mut tables = vec![readings(&model.car), numbers(&model.car)];
    tables.extend(stations(&model.car));
    tables.push(parts());
    tables
}

/// The letter of a reading by its key.
pub(super) fn letter(key: &str) -> char {
    let place = TAPE_FIELDS
        .iter()
        .position(|field| field.field.bound.key == key);
    place.and_then(|k| LETTERS.get(k).copied()).unwrap_or('?')
}

/// The letters of the readings that are taken one way: `A to D`, or `E` where there is one.
fn letters_of(way: Way) -> String {
    let of_way: Vec<char> = LETTERS
        .iter()
        .zip(TAPE_FIELDS)
        .filter(|(_, field)| field.way == way)
        .map(|(letter, _)| *letter)
        .collect();
    match of_way[..] {
        [first, .., last] => format!("{first} to {last}"),
        [only] => only.to_string(),
        [] => String::new(),
    }
}

/// The letters whose readings a part left on the flange makes longer, or shorter, in words.
fn letters_made(longer: bool) -> String {
    let ways = [Way::Inward, Way::Outward, Way::Up, Way::Along, Way::Size];
    let changed = ways
        .into_iter()
        .filter(|way| way.over_a_part() != 0.0 && (way.over_a_part() > 0.0) == longer);
    changed.map(letters_of).collect::<Vec<_>>().join(", ")
}

fn set_up(flow: &Flow) -> Vec<String> {
    let mark = flow.say(MARK);
    vec![
        "With the car on its wheels on a level floor, loaded as it is driven, measure from the axle's center straight up to the quarter lip on both sides. Left ____________ right ____________".to_owned(),
        "Chock the front wheels. Lift the rear, set stands under the body and stands or blocks under the axle, and take the rear wheels off.".to_owned(),
        format!("Raise or lower the axle until both measures of step 1 are back, within {mark}. That is ride height. Check that the axle is level across and square to the car."),
        format!(
            "\u{201c}Flange face\u{201d} is the face of the axle flange that the wheel's studs stand out of. Where a drum or rotor stays on, its face lies outboard of that by its thickness: measure from it, then take the thickness off what you read inward ({}), and add it to what you read outward ({}).",
            letters_made(true),
            letters_made(false)
        ),
        format!(
            "Hold a straightedge flat on the flange face. Measure along the axle, square to the car's center line: {} toward the center of the car, {} away from it. Where the tub wall ends above the axle, lay a straightedge down along the wall, fore-and-aft at the axle, and measure {} to that.",
            letters_of(Way::Inward),
            letters_of(Way::Outward),
            letter("to_tub_low")
        ),
        format!(
            "\u{201c}Axle center\u{201d} is the middle of the flange. Measure {} straight up or down from it, {} level forward and rearward from it. {} are sizes of the sheet itself.",
            letters_of(Way::Up),
            letters_of(Way::Along),
            letters_of(Way::Size)
        ),
        format!(
            "The corner between roof and tub wall is round, so nothing is at {}'s own end: lay one straightedge along the roof and one up along the wall, and measure to where they cross. {} is taken {} below that point.",
            letter("roof_up"),
            letter("to_tub_high"),
            both(HAND, Notation::InchFractions)
        ),
        format!("Take every reading twice, the second time starting over. Where the two differ by more than {mark}, take a third."),
    ]
}

fn readings(car: &Car) -> Table {
    let mut table = Table::new(
        "Readings, left and right",
        &[
            ("", 0.5),
            ("what", 2.6),
            ("from where to where", 4.6),
            ("left", 1.5),
            ("right", 1.5),
        ],
    );
    for (letter, field) in LETTERS.iter().zip(TAPE_FIELDS) {
        let bound = field.field.bound;
        let guessed = car
            .sides
            .iter()
            .any(|(_, spec)| (field.reading)(&spec.tape).guess);
        let label = if guessed {
            format!("{} (a guess so far)", bound.label)
        } else {
            bound.label.to_owned()
        };
        let hand = if bound.key == "to_tub_high" {
            format!(" A hand is {}.", both(HAND, Notation::InchFractions))
        } else {
            String::new()
        };
        table.row([
            letter.to_string(),
            label,
            format!("{}{hand}", bound.help),
            String::new(),
            String::new(),
        ]);
    }
    table
}

/// The numbers that are measured or read off, in the order of the car's own tables.
fn numbers(car: &Car) -> Table {
    let mut table = Table::new(
        "Axle, travel, wheel and tire",
        &[("what", 2.6), ("how", 5.0), ("reading", 2.0)],
    );
    let mut row = |bound: &Bound| {
        table.row([bound.label.to_owned(), bound.help.to_owned(), String::new()]);
    };
    for field in [
        &fields::MEASURED_WIDTH,
        &fields::HAT,
        &fields::SPACER,
        &fields::STUD_LENGTH,
        &fields::FLANGE_DIAMETER,
        &fields::TUBE_DIAMETER,
        &fields::BUMP,
        &fields::DROOP,
        &fields::RIM_WIDTH,
        &fields::BACKSPACING,
        &fields::LOAD,
        &fields::PRESSURE,
    ] {
        row(&field.bound);
    }
    row(&fields::SECTION_WIDTH.bound);
    row(&fields::OVERALL_DIAMETER.bound);
    table.row([
        "Tire size".to_owned(),
        "As printed on the sidewall, with everything behind the size.".to_owned(),
        String::new(),
    ]);
    let (what, how) = match car.locator {
        Locator::TrackBar { .. } => (
            "Track bar",
            "Both ends: how far left or right of the car's center line, and how far above or below the axle's center.",
        ),
        Locator::WattLink { .. } => (
            "Watt link",
            "The pivot's height above or below the axle's center; whether it is bolted to axle or body.",
        ),
        Locator::AngledLinks { .. } => (
            "Angled links",
            "How high above the axle's center they would meet, seen from above.",
        ),
        Locator::LeafSprings { .. } => (
            "Leaf springs",
            "Height of the spring seats above or below the axle's center.",
        ),
    };
    table.row([what.to_owned(), how.to_owned(), String::new()]);
    table
}

/// Blanks for the wheelhouse stations; nothing where the car has none and the tape readings stand for them.
fn stations(car: &Car) -> Option<Table> {
    let mut table = Table::new(
        "Wheelhouse stations: out from the center line, and from the axle's center outward (radius)",
        &[
            ("angle", 1.4),
            ("point, from the lip inward", 2.0),
            ("left, out", 1.2),
            ("left, radius", 1.2),
            ("right, out", 1.2),
            ("right, radius", 1.2),
        ],
    );
    // Both sides are measured at the angles of the one that has more of them.
    let tables = car
        .sides
        .iter()
        .filter_map(|(_, side)| side.stations.as_ref());
    let longest = tables.max_by_key(|table| table.stations.len())?;
    for station in &longest.stations {
        for index in 0..station.points.len() {
            let seam = if index == station.seam { ", seam" } else { "" };
            table.row([
                bearing(station.angle),
                format!("{}{seam}", index + 1),
                String::new(),
                String::new(),
                String::new(),
                String::new(),
            ]);
        }
    }
    Some(table)
}

/// Parts near the tire, and what must not be cut.
fn parts() -> Table {
    let mut table = Table::new(
        "Parts near the tire, and sheet that must stay",
        &[
            (
                "what (shock, spring, tailpipe, filler neck, bump stop, belt anchorage, ...)",
                3.2,
            ),
            ("side", 0.8),
            ("ahead of or behind the axle", 1.6),
            ("out from the center line", 1.6),
            ("above or below the axle", 1.6),
            ("radius", 1.0),
        ],
    );
    for _ in 0..5 {
        table.row([const { String::new() }; 6]);
    }
    table
}
