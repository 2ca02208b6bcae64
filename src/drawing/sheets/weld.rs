//! The weld sheet: laps, plugs, a strip to drill by, and how to tell a good plug.

use geometry::car::PlugPractice;
use geometry::metal::weld::{REPAIR_PITCH, REPAIR_SHEET, current, plug_places};
use geometry::metal::{Plugs, Strip, gauge, plug_count};
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::{Vec2, vec2};
use geometry::units::{MM_PER_INCH, Notation, format_length};

use super::dxf::{CUT, Dxf};
use super::flow::{Flow, both};
use super::paper::Lie;
use super::table::Table;
use super::tiles::{Full, Line, tile_alone};
use super::{Kind, Sheet, SheetOptions};
use crate::role::Role;

/// The seam that the drilling strip is drawn for where none is moved, mm: 36 in.
const SAMPLE: f64 = 914.4;
/// How finely a drilled hole is drawn, points round.
const ROUND: u32 = 36;

const CAUTIONS: [&str; 6] = [
    "Fuel: tank out or made safe, lines moved away, caps on, the trunk aired. Fumes burn where you do not see them.",
    "Zinc: coated sheet gives off zinc oxide. The limit in the air is 5 mg a cubic meter (OSHA permissible exposure limit). Grind the coating off, weld in the open or under suction, and wear a mask made for welding fume.",
    "Wiring, brake lines, carpet, sound deadening and sealer: take them out of reach on both sides of the sheet. Battery off, its ground clamp away from the work's.",
    "Second person, extinguisher, a wet blanket. Look on the other side after every few welds, and for half an hour after the last.",
    "Stands under body and axle, never a jack alone.",
    "Neither column is an approval. What holds a belt, a spring or a shock is welded to a code by somebody licensed for it, or not at all.",
];

/// The plugs of the practice that the car is set to, on its sheet.
fn plugs(model: &Model) -> (Plugs, f64) {
    let metal = &model.car.metal;
    let thickness = gauge::thickness(metal.gauge).unwrap_or_default();
    (Plugs::of(metal, thickness), thickness)
}

/// The sheet.
#[must_use]
pub fn weld_sheet(model: &Model, options: &SheetOptions) -> Sheet {
    let mut flow = Flow::new(Kind::Weld, model, options);
    let (plugs, thickness) = plugs(model);
    flow.paragraph("The strip laps over the sheet on either edge and is held by plug welds: holes are drilled in the upper sheet, and each is filled with weld down to the lower one.");
    for table in weld_tables(model, options.notation) {
        flow.table(&table);
    }
    if !plugs.keeps_to_practice() {
        flow.paragraph(&format!(
            "The pitch this car is set to, {}, is not what the practice it is set to speaks of.",
            flow.say_both(plugs.pitch)
        ));
    }
    if model.car.metal.lap < plugs.least_lap() {
        flow.paragraph(&format!(
            "The lap this car is set to, {}, leaves less than half a hole's width of sheet beside each hole. {} would be accepted (common practice, no source).",
            flow.say_both(model.car.metal.lap),
            flow.say_both(plugs.least_lap())
        ));
    }
    flow.note("A structural code also asks for laps of at least five times the thinner sheet and no less than 1 in (AISC 360 J2.2b, from memory), for qualified procedures and welders, and for inspection.");
    flow.cautions(&CAUTIONS);
    flow.heading("First a coupon");
    flow.steps(&coupon(thickness));
    flow.table(&faults());
    flow.heading("Weld");
    flow.steps(&[
        "Both sheets bright on both faces where they meet, and weld-through primer between them. No sealer in the joint before welding.".to_owned(),
        "Clamp until there is no gap beside the hole: a gap is the commonest cause of a cold plug. A screw in every sixth hole draws the sheets together.".to_owned(),
        "One plug at the middle, one at each end, then halfway between, and so on. Never two neighbors one after the other: let each cool until a hand can rest on it.".to_owned(),
        "Start in the middle of the hole on the lower sheet, wait for the puddle, and wind outward to the rim.".to_owned(),
        "Grind the plugs flush only where they must be. A plug that cracks, pulls off or shows no heat mark on the back is drilled out and done again.".to_owned(),
        "Afterwards: scale off, primer, seam sealer along both edges of both laps, paint, undercoating on the wheel's side, wax in every hollow.".to_owned(),
    ]);
    drilling(&mut flow, model, plugs);
    Sheet {
        kind: Kind::Weld,
        pages: flow.pages(),
    }
}

/// Its tables: the two practices side by side, then the seams of this car.
#[must_use]
pub fn weld_tables(model: &Model, notation: Notation) -> Vec<Table> {
    vec![practices(model, notation), seams(model, notation)]
}

fn practices(model: &Model, notation: Notation) -> Table {
    let (_, thickness) = plugs(model);
    let say = |length: f64| both(length, notation);
    let of = |practice| Plugs::new(practice, thickness, None);
    let (code, repair) = (of(PlugPractice::Code), of(PlugPractice::Repair));
    let mut table = Table::new(
        format!(
            "{:.0} gauge sheet, {:.4} in ({thickness:.2} mm)",
            model.car.metal.gauge,
            thickness / MM_PER_INCH
        ),
        &[
            ("", 1.6),
            ("as structural codes ask", 3.4),
            ("as body repair does it", 3.4),
        ],
    );
    let [least, most] = REPAIR_PITCH.map(say);
    table.row(["Hole".to_owned(), say(code.hole), say(repair.hole)]);
    table.row([
        "Pitch".to_owned(),
        format!("no less than {}", say(code.pitch)),
        format!("{least} to {most}"),
    ]);
    table.row([
        "From".to_owned(),
        "sheet and 5/16 in, the next larger sixteenth; four diameters apart: AWS D1.1, AISC 360 J2.3".to_owned(),
        format!(
            "common practice, seen in repair procedures, on sheet of {} to {} mm",
            REPAIR_SHEET[0], REPAIR_SHEET[1]
        ),
    ]);
    table.row([
        "What it is".to_owned(),
        "what a code asks of the weld alone; no approval".to_owned(),
        "smaller plugs; not code-compliant".to_owned(),
    ]);
    let chosen = |practice| {
        if model.car.metal.plugs == practice {
            "this car is set to this".to_owned()
        } else {
            "\u{2014}".to_owned()
        }
    };
    table.row([
        "Set".to_owned(),
        chosen(PlugPractice::Code),
        chosen(PlugPractice::Repair),
    ]);
    table
}

fn seams(model: &Model, notation: Notation) -> Table {
    let (plugs, _) = plugs(model);
    let say = |length: f64| format_length(length, notation);
    let mut table = Table::new(
        "Seams and plugs",
        &[
            ("seam", 3.4),
            ("length", 1.4),
            ("lap", 1.0),
            ("hole", 1.0),
            ("plugs", 1.0),
            ("from plug to plug", 1.5),
        ],
    );
    let mut all = 0;
    for side in Side::BOTH {
        let Some(strip) = Strip::of(model, side) else {
            continue;
        };
        for (name, at) in [("old seam", "outer half"), ("new seam", "tub")] {
            let length = strip.edge_length();
            let count = plug_count(length, plugs.pitch);
            all += count;
            table.row([
                format!("{}, {name}: strip to {at}", side.word()),
                say(length),
                say(model.car.metal.lap),
                say(plugs.hole),
                count.to_string(),
                say(spacing(length, plugs.pitch)),
            ]);
        }
    }
    let dash = || "\u{2014}".to_owned();
    let first = if all == 0 {
        "no seam is moved"
    } else {
        "all seams"
    };
    table.row([
        first.to_owned(),
        dash(),
        dash(),
        dash(),
        all.to_string(),
        dash(),
    ]);
    table
}

/// From one plug to the next when they stand evenly from end to end, mm.
fn spacing(length: f64, pitch: f64) -> f64 {
    length / f64::from(plug_count(length, pitch).saturating_sub(1).max(1))
}

fn coupon(thickness: f64) -> Vec<String> {
    vec![
        "Cut two strips of the very sheet you will weld, 2 by 6 in, drill three holes in one, clean and clamp them as on the car, and weld them in the same position: overhead if the car's are overhead.".to_owned(),
        format!(
            "Begin with about {:.0} A: an ampere for every thousandth of an inch of sheet (common practice). Change one setting at a time.",
            current(thickness)
        ),
        "Look at both faces, then twist the strips apart with pliers. A good plug tears a button out of the lower sheet. Do not go to the car before three in a row have done so.".to_owned(),
    ]
}

/// What a plug looks like.
fn faults() -> Table {
    let mut table = Table::new(
        "How to tell",
        &[
            ("", 1.0),
            ("from the front", 3.0),
            ("on the back", 2.6),
            ("when twisted apart", 2.6),
        ],
    );
    let rows = [
        [
            "cold",
            "stands proud like a ball, edge rolled over the rim, easy to pick off",
            "no mark, or a faint blue spot",
            "the plug lifts off clean and leaves bright sheet",
        ],
        [
            "good",
            "flat or slightly domed, run out evenly onto the rim all round",
            "a round heat mark as wide as the hole, a slight print",
            "a button of the lower sheet tears out with it",
        ],
        [
            "too hot",
            "sunken, rim eaten away, holes or gray scale",
            "sagged, dripping or burnt through",
            "the sheet tears beside the plug, thin and brittle",
        ],
    ];
    for row in rows {
        table.row(row.map(str::to_owned));
    }
    table
}

/// The seam that the drilling strip is for: one of this car's, or a yard.
fn seam_length(model: &Model) -> f64 {
    Side::BOTH
        .into_iter()
        .find_map(|side| Strip::of(model, side))
        .map_or(SAMPLE, |strip| strip.edge_length())
}

/// A piece of the drilling strip as long as the paper.
fn drilling(flow: &mut Flow, model: &Model, plugs: Plugs) {
    flow.page(Lie::Across);
    let lap = model.car.metal.lap;
    let length = seam_length(model);
    let step = spacing(length, plugs.pitch);
    let beyond = lap / 2.0;
    let room = flow.rest().width - 2.0 * beyond;
    flow.note(&format!(
        "Holes {}, {} apart: {} for a seam of {}. Lay the strip along the lap, its long edges on the lap's own, drill through the crosses, then move it on until its first hole lies on the last one drilled.",
        flow.say_both(plugs.hole),
        flow.say_both(step),
        plug_count(length, plugs.pitch),
        flow.say_both(length)
    ));
    let spaces = (room / step).floor().max(1.0);
    let drawn = (spaces * step).min(length);
    let mut lines = vec![Line {
        role: Role::Cut,
        points: vec![
            vec2(-beyond, 0.0),
            vec2(drawn + beyond, 0.0),
            vec2(drawn + beyond, lap),
            vec2(-beyond, lap),
            vec2(-beyond, 0.0),
        ],
    }];
    lines.push(Line {
        role: Role::CenterLine,
        points: vec![vec2(-beyond, lap / 2.0), vec2(drawn + beyond, lap / 2.0)],
    });
    let mut k = 0.0;
    while k * step <= drawn + 1e-9 {
        let center = vec2(k * step, lap / 2.0);
        lines.push(Line {
            role: Role::Cut,
            points: circle(center, plugs.hole / 2.0),
        });
        for way in [vec2(1.5, 0.0), vec2(0.0, 1.5)] {
            lines.push(Line {
                role: Role::Dimension,
                points: vec![center - way, center + way],
            });
        }
        k += 1.0;
    }
    let full = Full {
        name: "Drilling strip".to_owned(),
        lines,
        tags: Vec::new(),
    };
    tile_alone(flow, &full);
}

fn circle(center: Vec2, radius: f64) -> Vec<Vec2> {
    let turn = std::f64::consts::TAU / f64::from(ROUND);
    (0..=ROUND)
        .map(|k| center + Vec2::at_angle(turn * f64::from(k)) * radius)
        .collect()
}

/// The whole drilling strip for a cutting machine, in millimeters.
#[must_use]
pub fn weld_dxf(model: &Model) -> String {
    let (plugs, _) = plugs(model);
    let lap = model.car.metal.lap;
    let length = seam_length(model);
    // Half a lap beyond the first and the last hole.
    let (from, to) = (-lap / 2.0, length + lap / 2.0);
    let mut dxf = Dxf::new();
    let corners = [
        vec2(from, 0.0),
        vec2(to, 0.0),
        vec2(to, lap),
        vec2(from, lap),
    ];
    dxf.polyline(CUT, &corners, true);
    for along in plug_places(length, plugs.pitch) {
        dxf.circle(CUT, vec2(along, lap / 2.0), plugs.hole / 2.0);
    }
    dxf.file()
}
