//! The order of work of the cut sheet, and what is measured so that the body keeps its shape.

use geometry::metal::{CutPlan, CutSpan, How};
use geometry::model::Model;
use geometry::side::Sides;

use super::flow::Flow;
use super::table::Table;

fn moves(model: &Model) -> bool {
    model.car.sides.iter().any(|(_, spec)| spec.seam_move > 0.0)
}

fn any(plans: &Sides<CutPlan>, of: fn(&CutSpan) -> bool) -> bool {
    plans.iter().any(|(_, plan)| plan.spans().any(of))
}

/// Whether the body is opened, so that it wants braces.
pub(super) fn opens(model: &Model, plans: &Sides<CutPlan>) -> bool {
    moves(model) || any(plans, |span| span.how == How::Saw)
}

/// The steps; nothing where there is nothing to do.
pub(super) fn work(flow: &Flow, model: &Model, plans: &Sides<CutPlan>) -> Option<Vec<String>> {
    let metal = &model.car.metal;
    let any = |of| any(plans, of);
    let moves = moves(model);
    let listed = any(|_| true);
    if !moves && !listed {
        return None;
    }
    let mut steps = vec![
        "Strip sealer and undercoating along the seam and along every line, to bare metal, far enough to see the spot welds.".to_owned(),
    ];
    if listed {
        steps.push("Mark the angles, then the distances of the list at each angle. Join the marks with a bendable strip of metal or tape. Each row stands for the sheet halfway to its neighbors: where two rows differ, follow the one that takes more, but never past a STOP.".to_owned());
    }
    if opens(model, plans) {
        steps.push("Before anything is cut, brace the body from inside, in trunk and cabin, as the table of braces has it (common practice, no source). Bolt or clamp the braces to inner structure: nothing is tacked to lip or quarter, where it would mark the panel and stand in the mock-up's way. Write each measure down: it must be the same when you are done.".to_owned());
    }
    if moves {
        steps.push("Drill the spot welds of the seam through the tub's flange only, not through the outer half's. The outer half's flange stays: it carries the joint. Part the two with a thin chisel.".to_owned());
        steps.push("Free the tub where it meets the floor, the trunk and the front wall: spot welds where there are any, otherwise a cut that leaves a flange of a lap's width on the car.".to_owned());
        steps.push("Set the tub at its new place by the check readings, and clamp it. Front, rear and floor will not meet it: make closing pieces to fit from cardboard first. They are not on these sheets.".to_owned());
        let room = if listed {
            "everywhere but where this sheet lists something"
        } else {
            "everywhere"
        };
        steps.push(format!("Try the mock-up with the tub clamped, at ride height, bump and droop. It must have its room {room}; if it has not, change the plan on the page, not the tub by eye. Nothing is welded before."));
    }
    if any(|span| span.how == How::Saw) {
        steps.push(format!(
            "Make the first cut, {} short of the final trim at every edge. It is better to cut twice than to cut too much (common practice).",
            flow.say(metal.first_cut)
        ));
        steps.push("Try the mock-up at ride height, bump and droop. Then trim to the final line, only where it is needed, and try again.".to_owned());
        steps.push("What was cut out is closed with new sheet that stands clear of the line by at least what is missing there: cardboard first, then steel of the weld sheet's gauge, lapped and welded as the weld sheet says. It is not on the strip's pattern.".to_owned());
    }
    if any(|span| span.how == How::Dolly) {
        steps.push(format!(
            "Where the list says hammer and dolly, nothing is cut: no more than {} is missing (common practice). Work the sheet back in small steps, over a dolly, and try the mock-up often.",
            flow.say(metal.dolly)
        ));
    }
    if any(|span| span.how == How::Lip) {
        steps.push("The lip's flange holds quarter panel and outer half together. Roll it flat if that is enough. Where it has to be trimmed, weld the two sheets along the cut as you go, a little at a time, or the quarter loses its edge.".to_owned());
    }
    if moves {
        steps.push("Make the fill strip by its sheet, weld by the weld sheet, and take the check readings and the braces' measures once more before the braces come out.".to_owned());
    }
    steps.push("File every edge round. Bare metal is primed the same day.".to_owned());
    Some(steps)
}

/// The braces, with blanks for what was measured.
pub(super) fn braces() -> Table {
    let mut table = Table::new(
        "Braces: inside the body, clear of the wheelhouse's opening",
        &[
            ("brace", 1.6),
            ("from", 2.2),
            ("to", 2.2),
            ("before", 1.2),
            ("after", 1.2),
        ],
    );
    for [brace, from, to] in [
        [
            "across the trunk",
            "left inner structure above the seam, trunk side",
            "the same spot on the right",
        ],
        [
            "left, slanting",
            "trunk floor over the left rail",
            "left inner structure, trunk side",
        ],
        [
            "right, slanting",
            "trunk floor over the right rail",
            "right inner structure, trunk side",
        ],
        [
            "cabin, across",
            "left door opening, at the lock's height",
            "the same spot on the right",
        ],
        ["another", "", ""],
    ] {
        table.row([brace, from, to, "", ""].map(str::to_owned));
    }
    table
}
