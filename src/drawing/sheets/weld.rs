//! The weld sheet: laps, plugs, a strip to drill by, and how to tell a good plug.

use geometry::car::PlugPractice;
use geometry::metal::weld::{OVER_SHEET, REPAIR_PITCH, REPAIR_SHEET, code_lap, current};
use geometry::metal::{Plugs, Strip, gauge};
use geometry::model::Model;
use geometry::side::Side;
use geometry::space::{Vec2, vec2};
use geometry::units::{MM_PER_INCH, Notation, format_length};

use super::dxf::{CUT, Dxf};
use super::flow::{Flow, both, gauge_words};
use super::paper::Lie;
use super::table::Table;
use super::tiles::{Full, Line, tile_alone};
use super::{Kind, Sheet, SheetOptions};
use crate::role::Role;

/// The seam that a machine's drilling strip is drawn for where none is moved, mm: 36 in.
const SAMPLE: f64 = 914.4;
/// How finely a drilled hole is drawn, points round.
const ROUND: u32 = 36;

const CAUTIONS: [&str; 8] = [
    "Fuel: tank out or made safe, lines moved away, caps on, the trunk aired. Fumes burn where you do not see them.",
    "Disconnect the battery. The welder's ground clamp goes on bare metal close to the weld, so that its current takes no way through bearings and wiring.",
    "Never brake cleaner nor any other chlorinated solvent on what is to be welded: the arc makes phosgene of it, which kills (common practice, no source).",
    "Zinc: coated sheet gives off zinc oxide, and weld-through primer is usually zinc, too. The limit in the air is 5 mg a cubic meter (OSHA permissible exposure limit). Grind the coating off where the welds go, ventilate or draw the fume off, and wear a mask made for welding fume. No draft on the arc: wind takes the shielding gas away.",
    "Helmet, welding gloves, leathers, closed boots; nothing on the skin that melts.",
    "Wiring, brake lines, carpet, sound deadening and sealer: take them out of reach on both sides of the sheet. Stands under body and axle, never a jack alone.",
    "Second person, extinguisher, a wet blanket. Look on the other side after every few welds, and for half an hour after the last.",
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
    let seam = seam_length(model);
    flow.cautions(&CAUTIONS);
    flow.paragraph(match seam {
        Some(_) => "The strip laps over the sheet on either edge and is held by plug welds: holes are drilled in the upper sheet, and each is filled with weld down to the lower one.",
        None => "No seam is moved on this car as it stands: there is no strip to weld, no seam to list and no strip to drill by. What stands here is for pieces that close a cut: holes are drilled in the upper sheet, and each is filled with weld down to the lower one.",
    });
    for table in weld_tables(model, options.notation) {
        flow.table(&table);
    }
    if !plugs.keeps_to_practice() {
        flow.paragraph(&format!(
            "The pitch this car is set to, {}, is not what the practice it is set to speaks of.",
            flow.say_both(plugs.pitch)
        ));
    }
    flow.note(&format!(
        "AWS D1.1 is written for steel of {} and thicker; sheet thinner than that has a structural code of its own, AWS D1.3 (both from memory). A code also asks for qualified procedures and welders, and for inspection.",
        flow.say(MM_PER_INCH / 8.0)
    ));
    flow.heading("First a coupon");
    flow.steps(&coupon(thickness, options.notation));
    flow.table(&faults());
    flow.heading("Weld");
    flow.steps(&[
        "The process is MIG: solid wire with shielding gas (common practice, no source).".to_owned(),
        "Both sheets bright on both faces where they meet, the coating ground off. Weld-through primer only where the sheets lie on each other, thin, and none in the holes: it is usually zinc. No sealer in the joint before welding.".to_owned(),
        "Clamp until there is no gap beside the hole: a gap is the commonest cause of a cold plug. A screw in every sixth hole draws the sheets together.".to_owned(),
        "One plug at the middle, one at each end, then halfway between, and so on. Never two neighbors one after the other: let each cool until a hand can rest on it.".to_owned(),
        "Start in the middle of the hole on the lower sheet, wait for the puddle, and wind outward to the rim.".to_owned(),
        "Grind the plugs flush only where they must be. A plug that cracks, pulls off or shows no heat mark on the back is drilled out and done again.".to_owned(),
        "Afterwards: scale off, primer, seam sealer along both edges of both laps, paint, undercoating on the wheel's side, wax in every hollow.".to_owned(),
    ]);
    if let Some(seam) = seam {
        drilling(&mut flow, model, plugs, seam);
    }
    Sheet {
        kind: Kind::Weld,
        pages: flow.pages(),
    }
}

/// Its tables: the two practices side by side, then the seams of this car, where any is moved.
#[must_use]
pub fn weld_tables(model: &Model, notation: Notation) -> Vec<Table> {
    let mut tables = vec![practices(model, notation)];
    tables.extend(seams(model, notation));
    tables
}

/// A lap that is asked for, and whether this car's meets it.
fn lap_words(least: f64, lap: f64, notation: Notation) -> String {
    let verdict = if lap < least {
        "does not meet it"
    } else {
        "meets it"
    };
    format!(
        "no less than {}: this car's, {}, {verdict}",
        both(least, notation),
        both(lap, notation)
    )
}

fn practices(model: &Model, notation: Notation) -> Table {
    let (_, thickness) = plugs(model);
    let say = |length: f64| both(length, notation);
    let of = |practice| Plugs::new(practice, thickness, None);
    let (code, repair) = (of(PlugPractice::Code), of(PlugPractice::Repair));
    let mut table = Table::new(
        gauge_words(model.car.metal.gauge, thickness, notation),
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
    let lap = model.car.metal.lap;
    table.row([
        "Lap".to_owned(),
        lap_words(code_lap(thickness), lap, notation),
        lap_words(repair.least_lap(), lap, notation),
    ]);
    table.row([
        "From".to_owned(),
        format!(
            "sheet and {}, the next larger sixteenth of an inch; four diameters apart: AWS D1.1, AISC 360 J2.3; lap: five times the sheet, no less than {}: AISC 360 J2.2b, from memory",
            say(OVER_SHEET),
            say(MM_PER_INCH)
        ),
        format!(
            "common practice, seen in repair procedures, on sheet of {} to {} mm; lap: a diameter from a hole's middle to either edge (common practice, no source)",
            REPAIR_SHEET[0], REPAIR_SHEET[1]
        ),
    ]);
    table.row([
        "What it is".to_owned(),
        "what a code asks of the weld alone; no approval".to_owned(),
        "smaller plugs; not code-compliant".to_owned(),
    ]);
    let chosen = |practice, least_lap: f64| {
        if model.car.metal.plugs != practice {
            "\u{2014}".to_owned()
        } else if lap < least_lap {
            "this car's plugs are set to this; its lap falls short of it".to_owned()
        } else {
            "this car is set to this".to_owned()
        }
    };
    table.row([
        "Set".to_owned(),
        chosen(PlugPractice::Code, code_lap(thickness)),
        chosen(PlugPractice::Repair, repair.least_lap()),
    ]);
    table
}

fn seams(model: &Model, notation: Notation) -> Option<Table> {
    let (plugs, _) = plugs(model);
    let say = |length: f64| format_length(length, notation);
    let mut table = Table::new(
        "Seams and plugs",
        &[
            ("seam", 3.0),
            ("length", 1.3),
            ("lap", 0.9),
            ("hole", 0.9),
            ("plugs", 0.8),
            ("from plug to plug", 2.4),
        ],
    );
    let mut all = 0;
    for side in Side::BOTH {
        let Some(strip) = Strip::of(model, side) else {
            continue;
        };
        for (name, at) in [("old seam", "outer half"), ("new seam", "tub")] {
            let length = strip.edge_length();
            let places = plugs.along(length);
            all += places.len();
            table.row([
                format!("{}, {name}: strip to {at}", side.word()),
                say(length),
                say(model.car.metal.lap),
                say(plugs.hole),
                places.len().to_string(),
                // Set off one by one, a tape's rounding would add up along the seam.
                format!(
                    "{} equal spaces of {}",
                    places.len().saturating_sub(1),
                    say(spacing(&places))
                ),
            ]);
        }
    }
    let dash = || "\u{2014}".to_owned();
    table.row([
        "all seams".to_owned(),
        dash(),
        dash(),
        dash(),
        all.to_string(),
        dash(),
    ]);
    (all > 0).then_some(table)
}

/// From one plug to the next, mm.
fn spacing(places: &[f64]) -> f64 {
    places
        .windows(2)
        .next()
        .map_or(0.0, |pair| pair[1] - pair[0])
}

fn coupon(thickness: f64, notation: Notation) -> Vec<String> {
    let (sides, per) = match notation {
        Notation::Millimeters => ([50.0, 150.0], "40 A for every millimeter"),
        Notation::InchFractions | Notation::InchDecimals => (
            [2.0 * MM_PER_INCH, 6.0 * MM_PER_INCH],
            "an ampere for every thousandth of an inch",
        ),
    };
    let [width, length] = sides.map(|side| format_length(side, notation));
    vec![
        format!("Cut two strips of the very sheet you will weld, {width} by {length}, drill three holes in one, clean and clamp them as on the car, and weld them in the same position: overhead if the car's are overhead."),
        format!(
            "Begin with about {:.0} A: {per} of sheet (common practice). Change one setting at a time.",
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

/// The length of the first seam of this car that is moved, mm.
fn seam_length(model: &Model) -> Option<f64> {
    let strip = Side::BOTH
        .into_iter()
        .find_map(|side| Strip::of(model, side))?;
    Some(strip.edge_length())
}

/// A piece of the drilling strip as long as the paper.
fn drilling(flow: &mut Flow, model: &Model, plugs: Plugs, seam: f64) {
    flow.page(Lie::Across);
    let lap = model.car.metal.lap;
    let places = plugs.along(seam);
    flow.note(&format!(
        "Holes {}, {} apart, the first and the last {} from the ends: {} for a seam of {}. Lay the strip along the lap, its long edges on the lap's own, its left end on the seam's, drill through the crosses, then move it on until its first hole lies on the last one drilled.",
        flow.say_both(plugs.hole),
        flow.say_both(spacing(&places)),
        flow.say_both(plugs.edge()),
        places.len(),
        flow.say_both(seam)
    ));
    let room = flow.rest().width - plugs.edge();
    let here: Vec<f64> = places.into_iter().take_while(|&at| at <= room).collect();
    let end = here.last().map_or(seam, |last| last + plugs.edge());
    let mut lines = vec![Line {
        role: Role::Cut,
        points: vec![
            vec2(0.0, 0.0),
            vec2(end, 0.0),
            vec2(end, lap),
            vec2(0.0, lap),
            vec2(0.0, 0.0),
        ],
    }];
    lines.push(Line {
        role: Role::CenterLine,
        points: vec![vec2(0.0, lap / 2.0), vec2(end, lap / 2.0)],
    });
    for along in here {
        let center = vec2(along, lap / 2.0);
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
    let length = seam_length(model).unwrap_or(SAMPLE);
    let mut dxf = Dxf::new();
    let corners = [
        vec2(0.0, 0.0),
        vec2(length, 0.0),
        vec2(length, lap),
        vec2(0.0, lap),
    ];
    dxf.polyline(CUT, &corners, true);
    for along in plugs.along(length) {
        dxf.circle(CUT, vec2(along, lap / 2.0), plugs.hole / 2.0);
    }
    dxf.file()
}
