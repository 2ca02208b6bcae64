//! Any bounded car: what is worked out in slices between frames, each slice and the whole.

use drawing::answers;
use geometry::answers::{
    LastWork, LeverWork, MOST, Mix, MixWork, Outcome, Preferences, Remedy, STEP_SIZE,
};
use geometry::car::FoundGap;
use geometry::metal::fit;
use geometry::metal::mock_up::poses;
use geometry::model::Model;
use geometry::mount::{Finding, Mounting};
use geometry::room::{RoomChart, RoomOptions};
use geometry::side::Side;
use geometry::units::{Notation, format_length};

use crate::any_car;
use crate::clock::timed;
use crate::geometry_of::{model, says_something};
use crate::source::Source;

/// The most slices that one work is followed through: what takes more is shown while it is being worked out.
const SLICES: usize = 400;

/// Rows of the room chart.
const ROWS: u32 = 6;

pub fn ask(input: &[u8]) {
    let mut source = Source::new(input);
    let kind = source.below(7);
    let car = any_car::car(&mut source);
    let Some(model) = model(&car) else { return };
    let preferences = preferences(&mut source);
    match kind {
        0 => lever(&model, *source.choice(&Remedy::ALL), &preferences),
        1 => mix(&model, &preferences),
        2 => last(&model, &preferences),
        3 => room(&model, &mut source),
        4 => found(&model, &mut source),
        _ => mount(&model, *source.choice(&Side::BOTH)),
    }
}

/// Any wishes that the page lets somebody have.
fn preferences(source: &mut Source<'_>) -> Preferences {
    let mut wishes = Preferences::default();
    for _ in 0..source.below(8) {
        let count = wishes.steps.len();
        let (one, other) = (source.below(count), source.below(count));
        wishes.steps.swap(one, other);
        let step = &mut wishes.steps[one];
        step.size = source.within(&STEP_SIZE, step.size);
        step.most = if source.flag() {
            source.within(&MOST, 0.0)
        } else {
            f64::INFINITY
        };
    }
    wishes
}

fn say(length: f64) -> String {
    assert!(length.is_finite(), "{length} is no length");
    format_length(length, Notation::InchFractions)
}

/// Follows a work through its slices, to its end if that comes.
fn followed<T>(what: &'static str, mut slice: impl FnMut() -> Option<T>) -> Option<T> {
    (0..SLICES).find_map(|_| timed(what, &mut slice))
}

fn lever(model: &Model, remedy: Remedy, preferences: &Preferences) {
    let mut work = timed("beginning a lever", || {
        LeverWork::begin(model, remedy, preferences)
    });
    let Some(answer) = followed("a lever's slice", || work.step()) else {
        return;
    };
    says_something(&answers::answer(model, &answer, &say));
    if let Outcome::Works(works) = &answer.outcome {
        let change = (works.value - answer.present).abs();
        assert!(works.proven <= change, "{answer:?}");
    }
    if let Outcome::Cannot(cannot) = &answer.outcome {
        assert!(
            cannot.missing > 0.0 && cannot.at_least <= cannot.missing,
            "{answer:?}"
        );
    }
}

fn mix(model: &Model, preferences: &Preferences) {
    let mut work = timed("beginning the mix", || MixWork::begin(model, preferences));
    let Some(mix) = followed("the mix's slice", || work.step()) else {
        return;
    };
    says_something(&answers::mix(model, &mix, &say));
    if let Mix::Works(changes) = &mix {
        let changed = geometry::answers::Change::all_applied(changes, &model.car);
        assert!(
            Model::new(&changed).is_ok(),
            "the mix makes no car: {changes:?}"
        );
    }
}

fn last(model: &Model, preferences: &Preferences) {
    let mut work = LastWork::begin(model, None, preferences);
    if let Some(last) = followed("what would do instead", || work.step()) {
        says_something(&answers::last(&last, &say));
    }
}

/// Gaps that somebody found with a mock-up, right or wrong.
fn found(model: &Model, source: &mut Source<'_>) {
    let mut found = Vec::new();
    for _ in 0..=source.below(6) {
        let side = *source.choice(&Side::BOTH);
        let faces = model.faces(side);
        let id = faces[source.below(faces.len())].id;
        let (_, pose) = *source.choice(&poses(model));
        let gap = source.between(-100.0, 300.0);
        found.push(FoundGap {
            side,
            id,
            pose,
            gap,
        });
    }
    let fit = timed("what found gaps say", || fit(&model.car, &found));
    let Ok(fit) = fit else { return };
    let rows = fit.rows.iter();
    let mut numbers = rows.flat_map(|row| [row.predicted, row.after]);
    assert!(numbers.all(f64::is_finite), "{fit:?}");
    assert!(
        fit.misfit.iter().all(|misfit| misfit.is_finite()),
        "{fit:?}"
    );
    let changes = fit.likeliest.iter().chain(&fit.together);
    let mut changed = changes.flat_map(|change| [change.by, change.error]);
    assert!(changed.all(f64::is_finite), "{fit:?}");
    for car in [&fit.corrected, &fit.corrected_together]
        .into_iter()
        .flatten()
    {
        assert!(Model::new(car).is_ok(), "what is corrected makes no car");
    }
}

fn room(model: &Model, source: &mut Source<'_>) {
    let options = if source.flag() {
        RoomOptions::around(model, ROWS)
    } else {
        let mut rising = |least, most| {
            let ends = [source.between(least, most), source.between(least, most)];
            [ends[0].min(ends[1]), ends[0].max(ends[1])]
        };
        let (widths, backspacings) = (rising(80.0, 700.0), rising(0.0, 500.0));
        RoomOptions {
            widths,
            backspacings,
            rows: ROWS,
            seam: source.between(0.0, 400.0),
        }
    };
    let mut work = timed("beginning the room chart", || {
        RoomChart::begin(model, options)
    });
    let Some(chart) = followed("the room chart's slice", || work.step()) else {
        return;
    };
    for row in &chart.rows {
        assert!(row.width.is_finite(), "{row:?}");
        for room in [&row.stock, &row.moved].into_iter().flatten() {
            for ranges in [&room.free, &room.clear] {
                let mut before = f64::NEG_INFINITY;
                for [from, to] in ranges {
                    assert!(from.is_finite() && to.is_finite(), "{row:?}");
                    assert!(before <= *from && from <= to, "{row:?} does not rise");
                    before = *to;
                }
            }
        }
    }
    let drawn = drawing::room_chart(&chart, &drawing::RoomOptions::default());
    crate::pictures::is_drawn(&drawn);
    for notation in Notation::ALL {
        says_something(&drawing::room_finding(&chart, notation));
        let _ = drawing::room_rows(&chart, notation);
    }
}

fn mount(model: &Model, side: Side) {
    let mut work = timed("beginning to mount", || Mounting::begin(model, side));
    let Some(mounting) = followed("the mounting's slice", || work.step(20)) else {
        return;
    };
    if let Finding::WithDroop(extra) = mounting.finding {
        assert!(extra.is_finite() && extra > 0.0, "{mounting:?}");
    }
    for notation in Notation::ALL {
        says_something(&drawing::mount_finding(model, &mounting, notation));
        for share in [0.0, 0.5, 1.0, f64::NAN, 7.0] {
            says_something(&drawing::mount_here(model, &mounting, share, notation));
            says_something(&drawing::mount_spoken(&mounting, share, notation));
            let options = drawing::MountOptions {
                notation,
                ..drawing::MountOptions::default()
            };
            let scene = timed("the wheel on its way", || {
                drawing::mount_view(model, &mounting, share, &options)
            });
            crate::pictures::is_drawn(&scene);
        }
    }
}
