//! The mock-up sheet: the plywood stand-in, how it is built, and what is to be found with it.

use geometry::metal::MockUp;
use geometry::metal::mock_up::AROUND_FLANGE;
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::vec2;
use geometry::travel::Pose;
use geometry::units::{Notation, format_length, shown};

use super::flow::{Flow, rectangle};
use super::paper::NOTE;
use super::plot::{Plot, words};
use super::positions::mock_up_positions;
use super::table::Table;
use super::tape::MARK;
use super::{Kind, Sheet, SheetOptions};
use crate::role::Role;
use crate::scene::{Anchor, Group, View};

/// Height of the drawing, mm.
const HEIGHT: f64 = 74.0;

const CAUTIONS: [&str; 4] = [
    "Stands under the body and a jack with a wide saddle under the axle: never lie under a car that a jack alone holds.",
    "The mock-up carries no load. The car never stands on it.",
    "Springs out or unloaded before the axle is moved through its travel; a loaded spring throws.",
    "A tire at the ground bulges, and sidewalls lean in a turn. The mock-up shows neither: keep the target gaps.",
];

/// The sheet.
#[must_use]
pub fn mock_up_sheet(model: &Model, mock_up: &MockUp, options: &SheetOptions) -> Sheet {
    let mut flow = Flow::new(Kind::MockUp, model, options);
    flow.paragraph(&format!(
        "Discs of board stand in for the tire at its largest: {} wide over the outer faces, {} in diameter. A straightedge laid across the discs' edges is the tire's outline. The tire stands out of it by {} at most, at the shoulder.",
        flow.say_both(mock_up.width),
        flow.say_both(mock_up.diameter),
        flow.say_both(mock_up.short),
    ));
    flow.figure(HEIGHT, |group, frame| {
        figure(group, frame, mock_up, options.notation);
    });
    let mut tables = mock_up_tables(model, mock_up, options.notation);
    let found = tables.split_off(1);
    for table in &tables {
        flow.table(table);
    }
    flow.heading("Build it");
    flow.steps(&build(&flow, mock_up));
    flow.heading("Try it");
    flow.paragraph(&stands(&flow, model));
    flow.steps(&[
        "Bolt it to the flange with the brake on and the spacer in, if one is planned. Begin at ride height.".to_owned(),
        "Turn the mock-up slowly by hand through a full turn in every position. Look all round: front and rear wall, roof, lip, rail, and every part bolted nearby.".to_owned(),
        "Measure each gap below between the surface and a straightedge across two discs. Write what you find, on both sides.".to_owned(),
        "Where a disc hits, take it off and go on with the others. Measure there to a straightedge held where the missing disc's edge would be, by its diameter and its distance from the mounting face. What reaches beyond the straightedge is a hit: write it with a minus.".to_owned(),
        "Type what you found into the page, beside what it predicts. It says which reading would explain the difference best, and takes it over if you agree.".to_owned(),
    ]);
    flow.cautions(&CAUTIONS);
    flow.note(&asked_for(&flow, model));
    for table in &found {
        flow.table(table);
    }
    Sheet {
        kind: Kind::MockUp,
        pages: flow.pages(),
    }
}

/// Its tables: the discs, then for each position what is predicted and a blank for what is found.
#[must_use]
pub fn mock_up_tables(model: &Model, mock_up: &MockUp, notation: Notation) -> Vec<Table> {
    let mut tables = vec![discs(mock_up, notation)];
    for position in mock_up_positions(model, mock_up, notation) {
        let mut table = Table::new(
            format!(
                "Gaps, {}: {}",
                position.name,
                heights(model, position.pose, notation)
            ),
            &[
                ("surface", 1.8),
                ("left, predicted", 2.5),
                ("left, found", 1.2),
                ("right, predicted", 2.5),
                ("right, found", 1.25),
            ],
        );
        for row in position.rows {
            // A part that is on one side only leaves nothing to be found on the other.
            let cells = |predicted: Option<String>| match predicted {
                Some(words) => [words, String::new()],
                None => ["\u{2014}".to_owned(), "\u{2014}".to_owned()],
            };
            let ([a, b], [c, d]) = (cells(row.predicted.left), cells(row.predicted.right));
            table.row([row.name, a, b, c, d]);
        }
        tables.push(table);
    }
    tables
}

fn discs(mock_up: &MockUp, notation: Notation) -> Table {
    let say = |length: f64| format_length(length, notation);
    let mut table = Table::new(
        "Discs, from inboard to outboard",
        &[
            ("disc", 0.7),
            ("diameter", 1.5),
            ("its outboard face, from the mounting face", 3.0),
            ("spacer to the next disc", 1.9),
            ("hole in the middle", 2.4),
        ],
    );
    let spacers = mock_up.spacers();
    for (index, disc) in mock_up.discs.iter().enumerate() {
        let from_face = disc.faces[1] - mock_up.mounting_face;
        let way = if from_face < 0.0 {
            "inboard"
        } else {
            "outboard"
        };
        let spacer = match spacers.get(index) {
            Some(&length) if length < 0.05 => "none: disc on disc".to_owned(),
            Some(&length) => say(length),
            None => "\u{2014}".to_owned(),
        };
        let hole = if disc.meets_board {
            "as large as the mounting board".to_owned()
        } else if disc.needs_hole {
            format!(
                "{}, or brake plus {}",
                say(mock_up.hole),
                say(AROUND_FLANGE)
            )
        } else {
            "for the rods only".to_owned()
        };
        table.row([
            format!("{}", index + 1),
            say(disc.diameter),
            format!("{} {way}", say(from_face.abs())),
            spacer,
            hole,
        ]);
    }
    table
}

fn build(flow: &Flow, mock_up: &MockUp) -> Vec<String> {
    let count = mock_up.discs.len();
    let meeting: Vec<String> = (1..)
        .zip(&mock_up.discs)
        .filter(|(_, disc)| disc.meets_board)
        .map(|(number, _)| number.to_string())
        .collect();
    let rods = if meeting.is_empty() {
        "Drill three holes for threaded rod through all discs and the mounting board at once, well outside the flange and brake. Cut the holes of the table into the discs that the flange and brake reach through.".to_owned()
    } else {
        format!(
            "The mounting board stands where disc {} does, so that is cut out round it, and there are two sets of rods. Drill three holes for threaded rod through all discs at once, outside the mounting board's edge: the outer rods. Drill three more through the mounting board and all discs, inside its edge and well outside flange and brake: the inner rods, which hold the board to the other discs. Then cut the holes of the table.",
            meeting.join(" and ")
        )
    };
    let steps = vec![
        format!(
            "Measure the boards: this sheet counts on {} each. Cut {count} discs and one mounting board as large as your brake will let it be. Mark the center of each, and one line straight across all of them.",
            flow.say_both(mock_up.board)
        ),
        "Drill the mounting board to your flange: lay it on the flange, mark the studs through, drill. Its inboard face is the mounting face.".to_owned(),
        rods,
        format!(
            "Stack from inboard to outboard on the rods, with spacers or nuts on either side of each disc, until every outboard face is at its distance from the mounting face. Over all: {}.",
            flow.say_both(mock_up.width)
        ),
        format!(
            "Turn it on the flange and hold a pencil to each edge: an edge that runs out more than {} is trimmed.",
            flow.say(MARK)
        ),
    ];
    steps
}

/// Which car the predictions are of.
fn stands(flow: &Flow, model: &Model) -> String {
    let basis = "They are of this stand-in in these positions, without the sideways give of the axle; other sheets go by the car's own tire in every position, so their numbers differ a little.";
    let sides = &model.car.sides;
    if !model.car.is_cut() {
        return format!("The predicted gaps are of the car as it stands, uncut. {basis}");
    }
    format!(
        "The predicted gaps are of the car as it is planned: the tub set inboard by {} on the left and {} on the right. They are for the trial with the tub clamped in its new place. For a trial before the cut print this sheet from the same car with the seam not moved, and type what you find into that. {basis}",
        flow.say(sides.left.seam_move),
        flow.say(sides.right.seam_move)
    )
}

/// What the verdicts mean, in numbers.
fn asked_for(flow: &Flow, model: &Model) -> String {
    let targets = &model.car.targets;
    format!(
        "Asked for at ride height: {} to tub, roof and rail, {} to lip and outer half. In every other position: {}. To a part bolted nearby: {} always. It hits below nothing, is tight below what is asked for, and clears from there. Degrees tell where round the wheel the gap is least, counted from straight up: 90\u{b0} behind is level with the axle.",
        flow.say(targets.ride),
        flow.say(targets.ride_lip),
        flow.say(targets.travel),
        flow.say(targets.obstacle)
    )
}

/// Where the wheels stand in a position, and what a tape shows then from the axle's center up to the lip.
fn heights(model: &Model, pose: Pose, notation: Notation) -> String {
    let say = |length: f64| format_length(length, notation);
    let one = |side: Side| {
        let height = match side {
            Side::Left => pose.left,
            Side::Right => pose.right,
        };
        let lip = model.car.sides.get(side).tape.lip_up.value - model.motion.ride - height;
        format!("{} {}", side.word(), say(lip))
    };
    format!(
        "axle center to lip {}, {}",
        one(Side::Left),
        one(Side::Right)
    )
}

fn place_of_face(face: f64, notation: Notation) -> String {
    if shown(face, notation).abs() > 0.0 {
        let way = if face > 0.0 { "outboard" } else { "inboard" };
        format!(
            "{} {way} of the center plane",
            format_length(face.abs(), notation)
        )
    } else {
        "in the center plane".to_owned()
    }
}

/// The stack from behind, upper half.
fn figure(group: &mut Group, frame: View, mock_up: &MockUp, notation: Notation) {
    let half = mock_up.width / 2.0;
    let radius = mock_up.diameter / 2.0;
    // Outboard is to the left, as on the car's left side seen from behind.
    let at = |out: f64, up: f64| vec2(-out, up);
    let plot = Plot::fit(
        at(half + 150.0, -56.0),
        at(-half - 150.0, radius + 62.0),
        frame,
    );
    let upper = |outline: &[geometry::space::Vec2]| {
        let points = outline.iter().filter(|p| p.y > 0.0);
        plot.area(points.map(|p| at(p.x, p.y)))
    };
    group.add(Role::TireSide, upper(&mock_up.tire.chain.outline(0.1)));
    for disc in &mock_up.discs {
        let [from, to] = disc.faces;
        let corners = [
            at(from, 0.0),
            at(from, disc.diameter / 2.0),
            at(to, disc.diameter / 2.0),
            at(to, 0.0),
        ];
        group.add(Role::Obstacle, plot.area(corners));
    }
    let outline = mock_up.stand_in().outline(0.1);
    let over = outline.iter().filter(|p| p.y > 0.0);
    group.add(Role::Swept, plot.line(over.map(|p| at(p.x, p.y))));
    for (index, disc) in mock_up.discs.iter().enumerate() {
        // Two that lie side by side take turns, or their numbers would touch.
        let below = if index % 2 == 0 { 1.0 } else { 2.0 } * NOTE * 1.1;
        let foot = plot.at(at(f64::midpoint(disc.faces[0], disc.faces[1]), 0.0));
        words(
            group,
            vec2(foot.x, foot.y + below),
            Anchor::Middle,
            &format!("{}", index + 1),
        );
    }
    let face = mock_up.mounting_face;
    let center = [at(half + 60.0, 0.0), at(-half - 60.0, 0.0)];
    group.add(Role::CenterLine, plot.line(center));
    group.add(
        Role::CenterLine,
        plot.line([at(0.0, 0.0), at(0.0, radius + 30.0)]),
    );
    let board = mock_up.hole / 2.0;
    group.add(Role::Flange, plot.line([at(face, 0.0), at(face, board)]));
    let tag = plot.at(at(half + 20.0, board));
    let foot = plot.at(at(face, board));
    group.add(Role::Dimension, crate::scene::Shape::line([tag, foot]));
    words(
        group,
        vec2(tag.x - 1.0, tag.y - 0.8),
        Anchor::End,
        "mounting face",
    );
    words(
        group,
        vec2(tag.x - 1.0, tag.y + 3.4),
        Anchor::End,
        &place_of_face(face, notation),
    );
    words(
        group,
        plot.at(at(half + 70.0, 8.0)),
        Anchor::End,
        "outboard",
    );
    words(
        group,
        plot.at(at(-half - 70.0, 8.0)),
        Anchor::Start,
        "inboard",
    );
    let middle = plot.at(at(0.0, radius + 34.0));
    words(group, middle, Anchor::Middle, "center plane");
    let corners = [
        vec2(frame.x, frame.y),
        vec2(frame.x + frame.width, frame.y + frame.height),
    ];
    group.add(Role::Grid, rectangle(corners[0], corners[1]));
}
