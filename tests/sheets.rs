//! The sheets: every page of every car on every paper can be read, and what is full size is full size.

use carfile::{SCENARIOS, read};
use drawing::sheets::{
    Cell, Kind, LEAST_LETTERING, LETTERS, Paper, Sheet, SheetOptions, Table, csv, cut_sheet,
    cut_tables, mock_up_sheet, mock_up_tables, order_sheet, order_tables, strip_sheet,
    strip_tables, tape_sheet, tape_tables, weld_sheet, weld_tables,
};
use drawing::{Anchor, Role, Scene, Shape};
use geometry::body::tape::TAPE_FIELDS;
use geometry::metal::strip::SPARE;
use geometry::metal::{CutPlan, MockUp, Strip};
use geometry::model::Model;
use geometry::side::{Side, Sides};
use geometry::space::Vec2;
use geometry::units::Notation;

/// Every invented car as it is, and with its seams moved as far as half their limit lets them.
fn models() -> Vec<Model> {
    let mut models = Vec::new();
    for scenario in SCENARIOS {
        let mut car = read(scenario.text).expect("it reads");
        let model = Model::new(&car).expect("a model");
        for side in Side::BOTH {
            car.sides.get_mut(side).seam_move = model.seam_limit.get(side).min(120.0) / 2.0;
        }
        models.push(model);
        models.extend(Model::new(&car));
    }
    models
}

fn sheet(kind: Kind, model: &Model, options: &SheetOptions) -> Sheet {
    match kind {
        Kind::Tape => tape_sheet(model, options),
        Kind::Order => order_sheet(model, options),
        Kind::MockUp => mock_up_sheet(model, &mock_up(model), options),
        Kind::Cut => cut_sheet(model, &cuts(model), options),
        Kind::Strip => strip_sheet(model, options),
        Kind::Weld => weld_sheet(model, options),
    }
}

fn tables(kind: Kind, model: &Model) -> Vec<Table> {
    let notation = Notation::InchFractions;
    match kind {
        Kind::Tape => tape_tables(model),
        Kind::Order => order_tables(model, notation),
        Kind::MockUp => mock_up_tables(model, &mock_up(model), notation),
        Kind::Cut => cut_tables(model, &cuts(model), notation),
        Kind::Strip => strip_tables(model, notation),
        Kind::Weld => weld_tables(model, notation),
    }
}

fn mock_up(model: &Model) -> MockUp {
    MockUp::of(&model.car).expect("a mock-up")
}

fn cuts(model: &Model) -> Sides<CutPlan> {
    Sides::each(|side| CutPlan::whole(model, side))
}

fn shapes(page: &Scene) -> impl Iterator<Item = (Role, &Shape)> {
    page.groups
        .iter()
        .flat_map(|group| &group.items)
        .map(|item| (item.role, &item.shape))
}

/// Left end and right end of a text, by the same estimate as the page breaks lines by: it is the drawing's own.
fn ends(at: Vec2, anchor: Anchor, width: f64) -> [f64; 2] {
    let left = match anchor {
        Anchor::Start => at.x,
        Anchor::Middle => at.x - width / 2.0,
        Anchor::End => at.x - width,
    };
    [left, left + width]
}

#[track_caller]
fn expect_readable(page: &Scene) {
    /// No common printer reaches nearer to the paper's edge, mm.
    const WHITE: f64 = 6.0;
    /// A letter of a common face is half its size wide, on the whole.
    const LETTER: f64 = 0.5;
    for (_, shape) in shapes(page) {
        if let Shape::Text {
            at,
            anchor,
            size,
            text,
        } = shape
        {
            assert!(*size >= LEAST_LETTERING, "{text} is too small");
            let [left, right] = ends(*at, *anchor, text.chars().count() as f64 * LETTER * size);
            assert!(
                left >= WHITE && right <= page.view.width - WHITE,
                "{text} runs off {}",
                page.title
            );
            assert!(
                at.y - size >= WHITE && at.y <= page.view.height - WHITE,
                "{text}"
            );
        }
    }
}

#[test]
fn every_page_can_be_read_on_every_paper() {
    let models = models();
    for (index, model) in models.iter().enumerate() {
        for kind in Kind::ALL {
            let options = SheetOptions {
                paper: Paper::ALL[index % 2],
                notation: Notation::ALL[index % 3],
                date: "a day".to_owned(),
            };
            let sheet = sheet(kind, model, &options);
            let [short, long] = options.paper.size();
            assert!(!sheet.pages.is_empty());
            for page in &sheet.pages {
                expect_readable(page);
                let [width, height] = [page.view.width, page.view.height];
                let off = (width.min(height) - short).abs() + (width.max(height) - long).abs();
                assert!(off < 1e-9);
                assert!(page.title.contains(&model.car.name) && page.title.contains("page"));
                assert!(!page.description.is_empty());
            }
        }
    }
}

/// How wide a text comes out, mm: widths by class of letter as they are in the widest of the common faces, read from
/// its own tables and a little rounded up; what is not told apart counts as a lower-case letter on the whole.
fn wide(text: &str, size: f64, role: Role) -> f64 {
    let bold = if role == Role::SheetHeading {
        1.13
    } else {
        1.0
    };
    let letter = |letter: char| match letter {
        'i' | 'j' | 'l' => 0.278,
        ' ' | '.' | ',' | ':' => 0.32,
        '/' => 0.337,
        'f' | 't' | 'r' | '(' | ')' => 0.4,
        'm' => 0.974,
        'w' => 0.818,
        letter if letter.is_ascii_digit() => 0.636,
        _ => 0.62,
    };
    text.chars().map(letter).sum::<f64>() * size * bold
}

/// The upright rules of a page's tables, and the right edges of their frames.
fn rules_of(page: &Scene) -> Vec<[Vec2; 2]> {
    let between = lines_of(page, Role::Grid)
        .into_iter()
        .filter(|line| line.len() == 2 && line[0].x.to_bits() == line[1].x.to_bits())
        .map(|line| [line[0], line[1]]);
    let frames = shapes(page).filter_map(|(role, shape)| match shape {
        Shape::Area(corners) if role == Role::Axis => Some([corners[1], corners[2]]),
        _ => None,
    });
    between.chain(frames).collect()
}

/// No words of a table run over the rule into the next column, on any car, paper and notation.
#[test]
fn no_words_of_a_table_are_wider_than_their_column() {
    let mut crossed = Vec::new();
    for model in models() {
        for (kind, paper, notation) in Kind::ALL.into_iter().flat_map(|kind| {
            let papers = Paper::ALL.into_iter();
            papers.flat_map(move |paper| Notation::ALL.map(|notation| (kind, paper, notation)))
        }) {
            let options = SheetOptions {
                paper,
                notation,
                date: String::new(),
            };
            for page in &sheet(kind, &model, &options).pages {
                let rules = rules_of(page);
                for (role, shape) in shapes(page) {
                    let Shape::Text {
                        at,
                        anchor: Anchor::Start,
                        size,
                        text,
                    } = shape
                    else {
                        continue;
                    };
                    let end = at.x + wide(text, *size, role);
                    let crosses = rules.iter().any(|rule| {
                        (rule[0].y..=rule[1].y).contains(&at.y)
                            && at.x < rule[0].x
                            && rule[0].x < end
                    });
                    if crosses {
                        crossed.push(format!("{}: {text}", page.title));
                    }
                }
            }
        }
    }
    crossed.dedup();
    assert!(crossed.is_empty(), "{crossed:#?}");
}

#[test]
fn each_sheet_carries_its_cautions() {
    let model = &models()[1];
    for (kind, words) in [
        (Kind::Tape, "never a jack alone"),
        (Kind::Order, "load, a speed and a range of rim widths"),
        (Kind::MockUp, "The mock-up carries no load"),
        (Kind::Cut, "Belt anchorages"),
        (Kind::Strip, "Fresh edges cut"),
        (Kind::Weld, "zinc oxide"),
    ] {
        let sheet = sheet(kind, model, &SheetOptions::default());
        let told: Vec<&str> = sheet
            .pages
            .iter()
            .map(|page| page.description.as_str())
            .collect();
        assert!(told.join(" ").contains(words), "{kind:?}");
        for page in &sheet.pages {
            let foot = shapes(page).any(|(_, shape)| {
                matches!(shape, Shape::Text { text, .. } if text.starts_with("Geometry, not approval"))
            });
            assert!(foot, "{}", page.title);
        }
    }
}

#[test]
fn the_tape_sheet_asks_in_the_order_in_which_the_page_does() {
    let tables = tape_tables(&models()[0]);
    assert_eq!(tables[0].rows.len(), TAPE_FIELDS.len());
    assert_eq!(LETTERS.len(), TAPE_FIELDS.len());
    for ((row, field), letter) in tables[0].rows.iter().zip(TAPE_FIELDS).zip(LETTERS) {
        assert_eq!(row[0], Cell::Words(letter.to_string()));
        assert!(
            matches!(&row[1], Cell::Words(words) if words.starts_with(field.field.bound.label))
        );
        assert_eq!(row[3..], [Cell::Blank, Cell::Blank]);
    }
    let mut letters = LETTERS.to_vec();
    letters.dedup();
    assert_eq!(letters.len(), LETTERS.len());
}

fn texts(page: &Scene) -> impl Iterator<Item = &str> {
    shapes(page).filter_map(|(_, shape)| match shape {
        Shape::Text { text, .. } => Some(text.as_str()),
        _ => None,
    })
}

fn lines_of(page: &Scene, role: Role) -> Vec<&Vec<Vec2>> {
    shapes(page)
        .filter_map(|(of, shape)| match shape {
            Shape::Lines(lines) if of == role => Some(lines),
            _ => None,
        })
        .flatten()
        .collect()
}

fn length(points: &[Vec2]) -> f64 {
    points
        .windows(2)
        .map(|pair| (pair[1] - pair[0]).length())
        .sum()
}

/// The rulers measure true on the sheet, and the sheet's unit is a millimeter of the paper.
#[test]
fn the_rulers_are_true() {
    let model = models().swap_remove(1);
    let sheet = strip_sheet(&model, &SheetOptions::default());
    let mut seen = 0;
    for page in &sheet.pages {
        let rulers: Vec<f64> = lines_of(page, Role::Ruler)
            .iter()
            .map(|line| length(line))
            .collect();
        if rulers.is_empty() {
            continue;
        }
        seen += 1;
        assert_eq!(rulers.len(), 2);
        assert!((rulers[0] - 100.0).abs() < 1e-9 && (rulers[1] - 101.6).abs() < 1e-9);
        let file = page.page_file();
        let head = file.lines().next().unwrap_or_default();
        for (name, value) in [("width", page.view.width), ("height", page.view.height)] {
            assert!(head.contains(&format!(" {name}=\"{value}mm\"")), "{head}");
        }
        let view = format!("viewBox=\"0 0 {} {}\"", page.view.width, page.view.height);
        assert!(head.contains(&view), "{head}");
    }
    assert!(seen > 3, "a strip takes several tiles");
}

/// The seam lines of all tiles together are as long as the two edges, and twice the overlap at each joint.
#[test]
fn the_tiles_are_full_size_and_leave_nothing_out() {
    for paper in Paper::ALL {
        let model = models().swap_remove(1);
        let strip = Strip::of(&model, Side::Left).expect("it moves");
        let options = SheetOptions {
            paper,
            ..SheetOptions::default()
        };
        let sheet = strip_sheet(&model, &options);
        let tiles: Vec<&Scene> = sheet
            .pages
            .iter()
            .filter(|page| page.view.width > page.view.height)
            .collect();
        let drawn: f64 = tiles
            .iter()
            .flat_map(|page| lines_of(page, Role::Stock))
            .map(|line| length(line))
            .sum();
        // The coupe's sides are alike, so that one strip is printed.
        let edges: f64 = strip
            .pattern(0.0)
            .edges()
            .iter()
            .map(|edge| length(edge))
            .sum();
        let joints = (tiles.len() - 1) as f64;
        let over = (drawn - edges) / (2.0 * joints);
        assert!((over - 16.0).abs() < 0.01, "{over} mm over each joint");
    }
}

#[test]
fn tables_are_rows_of_as_many_cells_as_heads() {
    for model in models() {
        for kind in Kind::ALL {
            for table in tables(kind, &model) {
                assert!(!table.title.is_empty());
                for row in &table.rows {
                    assert_eq!(row.len(), table.heads.len(), "{}", table.title);
                }
            }
        }
    }
    let text = csv(&tables(Kind::Order, &models()[0]));
    assert!(text.contains("Backspacing,5 1/2 in,139.7 mm"), "{text}");
}

fn told(sheet: &Sheet) -> String {
    let pages: Vec<&str> = sheet
        .pages
        .iter()
        .map(|page| page.description.as_str())
        .collect();
    pages.join(" ")
}

/// A car of the scenarios by its place, its seams moved by so much, mm.
fn moved(index: usize, by: f64) -> Model {
    let mut car = read(SCENARIOS[index].text).expect("it reads");
    for side in Side::BOTH {
        car.sides.get_mut(side).seam_move = by;
    }
    Model::new(&car).expect("a model")
}

#[test]
fn the_cut_sheet_orders_no_cut_before_there_is_a_plan() {
    let options = SheetOptions::default();
    let before = told(&sheet(Kind::Cut, &moved(0, 0.0), &options));
    let lead = before.find("Not a plan yet: do not cut").expect("it leads");
    assert!(lead < before.find("Take care").expect("cautions"));
    assert!(before.find("Take care") < before.find("The left side"));
    for words in ["Order of work", "Make the first cut", "saw: the final trim"] {
        assert!(!before.contains(words), "{words}");
    }
    assert!(before.contains("Move the left seam"));
    // The fastback is worked with hammer, dolly and a rolled lip: nothing is opened, so nothing is braced.
    let dollied = told(&sheet(Kind::Cut, &moved(1, 0.0), &options));
    assert!(dollied.contains("Order of work") && !dollied.contains("Braces"));
    // The sedan's axle sits too far back: the tire meets the roof there, which no moved seam changes.
    let set_back = told(&sheet(Kind::Cut, &moved(4, 0.0), &options));
    assert!(set_back.contains("Not a plan yet") && !set_back.contains("Move the left seam"));
    let planned = told(&sheet(Kind::Cut, &moved(0, 60.0), &options));
    for words in [
        "Nothing else has to be cut",
        "Check readings",
        "Try the mock-up with the tub clamped",
        "Braces",
    ] {
        assert!(planned.contains(words), "{words}");
    }
    for words in ["Not a plan yet", "Mark the angles", "0 in is missing"] {
        assert!(!planned.contains(words), "{words}");
    }
}

#[test]
fn a_no_cut_zone_is_told_in_numbers_and_stops_its_rows() {
    let mut seen = 0;
    for model in models().iter().filter(|model| !model.car.no_cut.is_empty()) {
        let tables = tables(Kind::Cut, model);
        assert!(tables[0].title.starts_with("Where not to cut"));
        let words = csv(&tables);
        for zone in &model.car.no_cut {
            assert!(words.contains(&zone.name));
        }
        seen += usize::from(words.contains("\"STOP, do not cut: A, "));
    }
    assert!(seen > 0, "some row says so");
}

#[test]
fn the_weld_sheet_says_outright_what_is_not_met_and_follows_the_notation() {
    let options = |notation| SheetOptions {
        notation,
        ..SheetOptions::default()
    };
    let model = moved(0, 45.0);
    let inches = told(&sheet(
        Kind::Weld,
        &model,
        &options(Notation::InchFractions),
    ));
    for words in [
        "does not meet it",
        "Disconnect the battery",
        "chlorinated solvent",
        "MIG",
        "AWS D1.3",
        "Drilling strip",
    ] {
        assert!(inches.contains(words), "{words}");
    }
    let metric = sheet(Kind::Weld, &model, &options(Notation::Millimeters));
    for text in metric.pages.iter().flat_map(texts) {
        let is_inches = text.match_indices(" in").any(|(at, _)| {
            text[..at].ends_with(|c: char| c.is_ascii_digit())
                && !text[at + 3..].starts_with(char::is_alphabetic)
        });
        // The ruler shows both.
        assert!(!is_inches || text == "4 in", "{text}");
    }
    let still = told(&sheet(Kind::Weld, &moved(0, 0.0), &SheetOptions::default()));
    assert!(still.contains("No seam is moved"));
    assert!(!still.contains("Seams and plugs") && !still.contains("Drilling strip"));
}

#[test]
fn the_strip_has_ends_to_trim_and_its_table_tells_nothing_twice() {
    let model = moved(0, 45.0);
    let strip = Strip::of(&model, Side::Left).expect("it moves");
    let tables = strip_tables(&model, Notation::Millimeters);
    let row = tables[0].rows.iter().find(
        |row| matches!(&row[0], Cell::Words(words) if words.starts_with("Cut from a rectangle")),
    );
    let meant = format!("{:.1} mm by", strip.length() + 2.0 * SPARE);
    let found = row.map(|row| row[1].clone());
    assert!(
        matches!(&found, Some(Cell::Words(words)) if words.starts_with(&meant)),
        "{found:?} is not {meant}"
    );
    // The coupe's seam is straight as seen from above: one row says it all.
    assert_eq!(tables[1].rows.len(), 1, "{:?}", tables[1].rows);
    for model in models() {
        for table in strip_tables(&model, Notation::InchFractions) {
            if table.title.starts_with("Marking out") {
                for pair in table.rows.windows(2) {
                    assert_ne!(pair[0][2..], pair[1][2..], "{}", table.title);
                }
            }
        }
    }
    let told = told(&strip_sheet(&model, &SheetOptions::default()));
    for words in ["trunk side", "wheel side", "the flange stands up"] {
        assert!(told.contains(words), "{words}");
    }
    assert!(!told.contains("Cut the tiles along their crosses"));
}

#[test]
fn the_order_sheet_warns_of_a_rim_out_of_the_tires_range_before_it_orders_one() {
    let sheet = sheet(Kind::Order, &moved(0, 0.0), &SheetOptions::default());
    let told = told(&sheet);
    let (warned, ordered) = (told.find("Wide rim: "), told.find("Rim width"));
    assert!(warned.is_some() && warned < ordered, "{told}");
}
