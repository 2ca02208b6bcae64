//! The sheets for the shop floor: each worked out in pieces, with its tables, and what can be saved of it.

use drawing::sheets::{
    Kind, Paper, SheetOptions, Table, cut_sheet, cut_tables, mock_up_sheet, mock_up_tables,
    order_sheet, order_tables, strip_dxf, strip_sheet, strip_tables, tape_sheet, tape_tables,
    weld_dxf, weld_sheet, weld_tables,
};
use drawing::{Group, Scene};
use geometry::metal::{CutPlan, MockUp};
use geometry::model::Model;
use geometry::side::{Side, Sides};

use super::work::file_name;

/// Rows of the cut plan that are worked out in one piece of work.
const ROWS: usize = 1;

/// A sheet as it is shown: its pages, and its tables once more as data.
#[derive(Debug, Clone, PartialEq)]
pub struct Made {
    /// Pages of paper.
    pub pages: Vec<Scene>,
    /// What is printed in rows.
    pub tables: Vec<Table>,
}

/// A sheet, or in a sentence why there is none of this car.
pub type Outcome = Result<Made, String>;

/// Does a piece of the work at each call; gives the sheet with the last one.
pub fn making(
    model: &Model,
    kind: Kind,
    options: SheetOptions,
) -> Box<dyn FnMut() -> Option<Outcome>> {
    let model = model.clone();
    if kind != Kind::Cut {
        return Box::new(move || Some(at_once(&model, kind, &options)));
    }
    let mut work = Sides::each(|side| CutPlan::begin(&model, side));
    let mut left = None;
    Box::new(move || {
        if left.is_none() {
            left = work.get_mut(Side::Left).step(ROWS);
            return None;
        }
        let right = work.get_mut(Side::Right).step(ROWS)?;
        let left = left.take()?;
        Some(Ok(cut(&model, &Sides { left, right }, &options)))
    })
}

fn cut(model: &Model, plans: &Sides<CutPlan>, options: &SheetOptions) -> Made {
    Made {
        pages: cut_sheet(model, plans, options).pages,
        tables: cut_tables(model, plans, options.notation),
    }
}

/// A sheet that takes no search.
fn at_once(model: &Model, kind: Kind, options: &SheetOptions) -> Outcome {
    let notation = options.notation;
    let (sheet, tables) = match kind {
        Kind::Tape => (tape_sheet(model, options), tape_tables(model)),
        Kind::Order => (order_sheet(model, options), order_tables(model, notation)),
        Kind::MockUp => {
            let mock_up = MockUp::of(&model.car)
                .map_err(|fault| format!("{}; {}.", fault.found, fault.accepted))?;
            (
                mock_up_sheet(model, &mock_up, options),
                mock_up_tables(model, &mock_up, notation),
            )
        }
        Kind::Cut => {
            let plans = Sides::each(|side| CutPlan::whole(model, side));
            return Ok(cut(model, &plans, options));
        }
        Kind::Strip => (strip_sheet(model, options), strip_tables(model, notation)),
        Kind::Weld => (weld_sheet(model, options), weld_tables(model, notation)),
    };
    Ok(Made {
        pages: sheet.pages,
        tables,
    })
}

/// Whether a machine can cut or drill by the sheet.
pub fn has_pattern(kind: Kind) -> bool {
    matches!(kind, Kind::Strip | Kind::Weld)
}

/// The pattern as DXF, or in a sentence why there is none.
///
/// # Errors
/// A sentence for the reader.
pub fn pattern(model: &Model, kind: Kind) -> Result<String, String> {
    let found = match kind {
        Kind::Strip => strip_dxf(model),
        Kind::Weld => Some(weld_dxf(model)),
        Kind::Tape | Kind::Order | Kind::MockUp | Kind::Cut => None,
    };
    found.ok_or_else(|| {
        "There is no pattern: no seam is moved. Move one on the Bench, and there will be."
            .to_owned()
    })
}

/// The name of a file of a sheet; `page` counts from 1 where there are several.
pub fn saved_as(car_name: &str, kind: Kind, page: Option<usize>, ending: &str) -> String {
    let page = page.map_or(String::new(), |page| format!("-{page}"));
    file_name(car_name, &format!("-{}{page}.{ending}", kind.word()))
}

/// The paper of a page and which way it lies: the name by which the style sheet asks the printer for it.
pub fn page_name(page: &Scene) -> String {
    let (width, height) = (page.view.width, page.view.height);
    let lie = if width > height { "across" } else { "upright" };
    let off = |paper: &Paper| (paper.size()[0] - width.min(height)).abs();
    let papers = Paper::ALL.into_iter();
    let paper = papers.min_by(|one, other| off(one).total_cmp(&off(other)));
    format!("{}-{lie}", paper.unwrap_or_default().word())
}

/// The inside of a page. Pages stand beside each other, so none of their groups has an id.
pub fn inside(page: &Scene) -> String {
    page.groups.iter().map(Group::markup).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::opening;

    const STYLE: &str = include_str!("../../../style/sheets.css");

    fn model() -> Model {
        let work = opening::invented(0).expect("the first invented car opens");
        // Without a moved seam there is no strip to list.
        let moved = work.with(|car| car.sides.left.seam_move = 40.0);
        Model::new(&moved.car).expect("it has a model")
    }

    fn made(model: &Model, kind: Kind, paper: Paper) -> Made {
        let options = SheetOptions {
            paper,
            date: "2026-11-25".to_owned(),
            ..SheetOptions::default()
        };
        let mut work = making(model, kind, options);
        loop {
            if let Some(made) = work() {
                return made.expect("the invented car has every sheet");
            }
        }
    }

    #[test]
    fn every_sheet_has_pages_and_tables_on_either_paper() {
        let model = model();
        for kind in Kind::ALL {
            for paper in Paper::ALL {
                let made = made(&model, kind, paper);
                assert!(
                    !made.pages.is_empty() && !made.tables.is_empty(),
                    "{kind:?}"
                );
                for page in &made.pages {
                    let name = page_name(page);
                    assert!(name.starts_with(paper.word()), "{kind:?}: {name}");
                    let rules = [format!("@page {name} {{"), format!("page: {name};")];
                    assert!(rules.iter().all(|rule| STYLE.contains(rule)), "{name}");
                    assert!(inside(page).contains("2026-11-25"), "{kind:?}");
                    assert!(!inside(page).contains(" id="), "{kind:?}");
                }
            }
        }
    }

    #[test]
    fn pieces_of_the_cut_sheet_make_the_whole() {
        let model = model();
        let options = SheetOptions {
            date: "2026-11-25".to_owned(),
            ..SheetOptions::default()
        };
        let whole = at_once(&model, Kind::Cut, &options);
        assert_eq!(Ok(made(&model, Kind::Cut, Paper::Letter)), whole);
    }

    #[test]
    fn a_pattern_is_there_or_says_why_not() {
        let work = opening::invented(0).expect("the first invented car opens");
        let still = work.with(|car| {
            car.sides.left.seam_move = 0.0;
            car.sides.right.seam_move = 0.0;
        });
        let moved = work.with(|car| car.sides.left.seam_move = 40.0);
        let pattern_of = |work: &crate::state::work::Work, kind| {
            pattern(&Model::new(&work.car).expect("a model"), kind)
        };
        assert!(pattern_of(&still, Kind::Strip).is_err_and(|why| why.contains("no seam is moved")));
        assert!(pattern_of(&moved, Kind::Strip).is_ok_and(|text| text.contains("SECTION")));
        for kind in Kind::ALL.into_iter().filter(|&kind| has_pattern(kind)) {
            assert!(pattern_of(&moved, kind).is_ok(), "{kind:?}");
        }
    }

    #[test]
    fn files_are_named_after_car_sheet_and_page() {
        assert_eq!(
            saved_as("Low car", Kind::MockUp, Some(2), "svg"),
            "low-car-mock-up-2.svg"
        );
        assert_eq!(
            saved_as("Low car", Kind::Cut, None, "csv"),
            "low-car-cut.csv"
        );
    }
}
