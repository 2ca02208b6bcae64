//! What is passed on of a gap list: its numbers are those of the list, and its text is only text.

use carfile::{SCENARIOS, read};
use drawing::gap_words;
use drawing::post::{Markup, Post, gaps_csv, post};
use geometry::check::{ACCURACY, Check, Verdict, check};
use geometry::model::Model;
use geometry::units::Notation;

/// The pickup, with the parts and the names of somebody who means harm.
fn hostile() -> (Model, Check) {
    let mut car = read(SCENARIOS[2].text).expect("the pickup is good");
    car.name = String::from("[img]http://x[/img] **x** <b>");
    for part in &mut car.obstacles {
        part.name = String::from("=cmd|' /C calc'!A0, \"x\"\n[url=x]");
    }
    let model = Model::new(&car).expect("its numbers go together");
    let check = check(&model, ACCURACY);
    (model, check)
}

fn told(model: &Model, check: &Check, markup: Markup) -> String {
    let what = Post {
        car: &model.car,
        check,
        finding: "The tire hits.",
        remedy: Some("Move the seam."),
        link: "https://club.example/page/#bench&car=1abc",
        notation: Notation::InchFractions,
    };
    post(&what, markup)
}

#[test]
fn a_post_tells_the_worst_gap_first_with_its_number() {
    let (model, check) = hostile();
    let sides = check.sides.iter();
    let all = sides.flat_map(|(side, list)| list.surfaces.iter().map(move |it| (side, it)));
    let (side, worst) = all
        .min_by(|(_, a), (_, b)| {
            a.verdict
                .cmp(&b.verdict)
                .then(a.reserve().total_cmp(&b.reserve()))
        })
        .expect("surfaces");
    let text = told(&model, &check, Markup::Plain);
    let row = text
        .lines()
        .find(|line| line.starts_with("- "))
        .expect("a list");
    let verdict = Verdict::of(worst.travel.low, worst.travel_target);
    let gap = gap_words(worst.travel.low, verdict, Notation::InchFractions);
    assert!(
        row.contains(&format!("{} {}", side.word(), worst.name)),
        "{row}"
    );
    assert!(row.contains(&gap), "{gap} in {row}");
    for part in [
        "The tire hits.",
        "Move the seam.",
        "#bench&car=1abc",
        "295/50R15",
    ] {
        assert!(text.contains(part), "{part} in {text}");
    }
}

#[test]
fn no_mark_in_a_post_is_the_readers() {
    let (model, check) = hostile();
    let bbcode = told(&model, &check, Markup::BbCode);
    let tags: Vec<&str> = bbcode
        .split('[')
        .skip(1)
        .filter_map(|rest| rest.split(']').next())
        .map(|tag| tag.split('=').next().unwrap_or_default())
        .collect();
    let ours = ["b", "/b", "list", "*", "/list", "url", "/url"];
    assert!(tags.iter().all(|tag| ours.contains(tag)), "{tags:?}");
    assert_eq!(tags.iter().filter(|tag| **tag == "url").count(), 1);
    let markdown = told(&model, &check, Markup::Markdown);
    assert!(
        markdown.contains("\\<b\\>") && !markdown.contains("**x**"),
        "{markdown}"
    );
}

#[test]
fn the_table_has_every_surface_and_only_its_own_cells() {
    let (_, check) = hostile();
    let csv = gaps_csv(&check);
    let count: usize = check
        .sides
        .iter()
        .map(|(_, list)| list.surfaces.len())
        .sum();
    let lines: Vec<&str> = csv.split_terminator("\r\n").collect();
    assert_eq!(lines.len(), count + 1);
    let columns = lines[0].split(',').count();
    for line in &lines[1..] {
        // Commas and quotes within a quoted cell are not the table's.
        let bare: String = line.split('"').step_by(2).collect();
        assert_eq!(bare.split(',').count(), columns, "{line}");
        assert!(!bare.contains(",="), "{line}");
    }
    let first = &check.sides.left.surfaces[0];
    let cells: Vec<&str> = lines[1].split(',').collect();
    assert_eq!(cells[1], first.name);
    assert_eq!(cells[4], format!("{:.2}", first.travel.low));
}
