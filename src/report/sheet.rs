//! The sheets of the command: pages of paper, patterns for a machine, tables for a spreadsheet.

use std::path::{Path, PathBuf};

use drawing::sheets::{
    self, Kind, SheetOptions, csv, cut_sheet, cut_tables, mock_up_sheet, mock_up_tables,
    order_sheet, order_tables, strip_dxf, strip_sheet, strip_tables, tape_sheet, tape_tables,
    weld_dxf, weld_sheet, weld_tables,
};
use geometry::metal::{CutPlan, MockUp};
use geometry::model::Model;
use geometry::side::Sides;

use crate::told;

/// Which sheet of a car is written, and where it goes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SheetOrder {
    pub kind: Kind,
    pub file: PathBuf,
    pub output: PathBuf,
    pub format: Format,
    pub options: SheetOptions,
}

/// What a sheet is written as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Format {
    /// Pages of paper.
    Svg,
    /// A pattern.
    Dxf,
    /// Tables.
    Csv,
}

impl Format {
    /// The format that a file's name asks for.
    pub fn of(path: &Path) -> Option<Self> {
        match path.extension()?.to_str()?.to_ascii_lowercase().as_str() {
            "svg" => Some(Self::Svg),
            "dxf" => Some(Self::Dxf),
            "csv" => Some(Self::Csv),
            _ => None,
        }
    }
}

/// Writes the sheet, and gives the names of the files that it wrote; or in lines what is wrong.
pub(crate) fn written(order: &SheetOrder) -> Result<Vec<PathBuf>, Vec<String>> {
    let (model, _) = crate::checked(&order.file)?;
    let texts = match order.format {
        Format::Svg => pages(order, &model)?,
        Format::Dxf => vec![pattern(order, &model)?],
        Format::Csv => vec![csv(&tables(order, &model)?)],
    };
    let paths = numbered(&order.output, texts.len());
    for (path, text) in paths.iter().zip(texts) {
        std::fs::write(path, text).map_err(|error| vec![told(path, &error)])?;
    }
    Ok(paths)
}

/// `FILE.svg` for one page, `FILE-1.svg`, `FILE-2.svg` and so on for more, with as many digits as the last one has.
fn numbered(output: &Path, count: usize) -> Vec<PathBuf> {
    if count <= 1 {
        return vec![output.to_owned()];
    }
    let stem = output.file_stem().unwrap_or_default().to_string_lossy();
    let ending = output.extension().unwrap_or_default().to_string_lossy();
    let digits = count.to_string().len();
    (1..=count)
        .map(|page| output.with_file_name(format!("{stem}-{page:0digits$}.{ending}")))
        .collect()
}

fn pages(order: &SheetOrder, model: &Model) -> Result<Vec<String>, Vec<String>> {
    let options = &order.options;
    let sheet = match order.kind {
        Kind::Tape => tape_sheet(model, options),
        Kind::Order => order_sheet(model, options),
        Kind::MockUp => mock_up_sheet(model, &mock_up(order, model)?, options),
        Kind::Cut => cut_sheet(model, &cuts(model), options),
        Kind::Strip => strip_sheet(model, options),
        Kind::Weld => weld_sheet(model, options),
    };
    Ok(sheet.pages.iter().map(drawing::Scene::page_file).collect())
}

fn tables(order: &SheetOrder, model: &Model) -> Result<Vec<sheets::Table>, Vec<String>> {
    let notation = order.options.notation;
    Ok(match order.kind {
        Kind::Tape => tape_tables(model),
        Kind::Order => order_tables(model, notation),
        Kind::MockUp => mock_up_tables(model, &mock_up(order, model)?, notation),
        Kind::Cut => cut_tables(model, &cuts(model), notation),
        Kind::Strip => strip_tables(model, notation),
        Kind::Weld => weld_tables(model, notation),
    })
}

fn pattern(order: &SheetOrder, model: &Model) -> Result<String, Vec<String>> {
    match order.kind {
        Kind::Strip => strip_dxf(model).ok_or_else(|| {
            vec![format!(
                "{}: no seam is moved, so there is no strip; a car with left.seam_move or right.seam_move would be accepted",
                order.file.display()
            )]
        }),
        Kind::Weld => Ok(weld_dxf(model)),
        other => Err(vec![format!(
            "the {} sheet holds no pattern; a name that ends in .svg or .csv would be accepted",
            other.word()
        )]),
    }
}

fn mock_up(order: &SheetOrder, model: &Model) -> Result<MockUp, Vec<String>> {
    MockUp::of(&model.car).map_err(|fault| vec![format!("{}: {fault}", order.file.display())])
}

fn cuts(model: &Model) -> Sides<CutPlan> {
    Sides::each(|side| CutPlan::whole(model, side))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_are_numbered_where_there_are_several() {
        let names = |count| -> Vec<String> {
            numbered(Path::new("out/strip.svg"), count)
                .iter()
                .map(|path| path.display().to_string())
                .collect()
        };
        assert_eq!(names(1), ["out/strip.svg"]);
        assert_eq!(names(2), ["out/strip-1.svg", "out/strip-2.svg"]);
        assert_eq!(names(12)[2], "out/strip-03.svg");
    }
}
