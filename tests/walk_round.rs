//! The course of the work and its sentences, on every invented car: what is said agrees with what was found.

use std::sync::OnceLock;

use carfile::{SCENARIOS, read};
use drawing::walk_round::{Panel, Telling, hits_or_not, in_short, questions, seen, spent};
use geometry::answers::{Change, Outcome, Preferences, Remedy};
use geometry::car::Lever;
use geometry::check::Verdict;
use geometry::course::{Course, CourseWork, Found, Plan};
use geometry::model::Model;
use geometry::units::{Notation, format_length};

const NOTATION: Notation = Notation::InchFractions;

fn model(name: &str) -> Model {
    let scenario = SCENARIOS.iter().find(|scenario| scenario.name == name);
    let car = read(scenario.expect("a scenario of that name").text).expect("it is good");
    Model::new(&car).expect("it has a model")
}

/// The courses of all invented cars, worked out once.
fn courses() -> &'static [(&'static str, Course)] {
    static COURSES: OnceLock<Vec<(&'static str, Course)>> = OnceLock::new();
    COURSES.get_or_init(|| {
        let course = |name| CourseWork::begin(&model(name), &Preferences::default()).whole();
        let names = SCENARIOS.iter().map(|scenario| scenario.name);
        names.map(|name| (name, course(name))).collect()
    })
}

fn course(name: &str) -> &'static Course {
    let found = courses().iter().find(|(of, _)| *of == name);
    &found.expect("a scenario of that name").1
}

fn all_text(telling: &Telling) -> String {
    let lines = telling
        .lines
        .iter()
        .map(|(name, words)| format!("{name}: {words}"));
    let all: Vec<String> = telling.sentences.iter().cloned().chain(lines).collect();
    all.join("\n")
}

fn said(name: &str, panel: Panel) -> String {
    all_text(&panel.told(course(name), NOTATION))
}

#[test]
fn what_is_planned_meets_every_target_and_what_is_bare_is_uncut() {
    for (name, course) in courses() {
        assert!(!course.bare.is_cut(), "{name}");
        match &course.plan {
            Plan::Nothing => assert!(course.bare.is_met(), "{name}"),
            Plan::Stands(done) | Plan::Mix(done) => {
                assert!(!course.bare.is_met() && done.is_met(), "{name}");
            }
            Plan::Cannot(..) => assert!(!course.done().is_met(), "{name}"),
        }
    }
}

#[test]
fn each_cars_story_is_its_own() {
    assert!(matches!(course("coupe").plan, Plan::Mix(..)) && course("coupe").cuts());
    assert!(matches!(course("fastback").plan, Plan::Mix(..)) && !course("fastback").cuts());
    assert!(matches!(course("pickup").plan, Plan::Mix(..)) && !course("pickup").cuts());
    assert!(matches!(course("sedan").plan, Plan::Cannot(..)));
}

#[test]
fn what_stops_the_tire_is_named_with_its_own_numbers() {
    for (name, course) in courses() {
        let (_, worst) = course.bare.check.worst().expect("a surface");
        let words = said(name, Panel::Stops);
        assert!(words.contains(&worst.name), "{name}: {words}");
        let gap = format_length(worst.travel.low.abs(), NOTATION);
        assert!(words.contains(&gap) || gap == "0 in", "{name}: {words}");
    }
}

#[test]
fn nothing_that_was_tried_is_passed_over() {
    for (name, course) in courses() {
        let telling = Panel::Tried.told(course, NOTATION);
        let uncut = course.tried.iter().filter(|answer| !answer.remedy.cuts());
        let told = uncut
            .filter(|answer| answer.outcome != Outcome::Nothing)
            .count();
        assert!(
            told > 0 && telling.lines.len() >= told,
            "{name}: {telling:#?}"
        );
        let works = course
            .tried
            .iter()
            .any(|answer| !answer.remedy.cuts() && matches!(answer.outcome, Outcome::Works(_)));
        let all = all_text(&telling);
        assert_eq!(
            works,
            !all.contains("none of them makes the room"),
            "{name}: {all}"
        );
    }
}

#[test]
fn what_goes_with_the_cut_is_said_and_that_it_does_not_do_without() {
    let coupe = course("coupe");
    let short = in_short(coupe, NOTATION);
    assert!(
        short.contains(
            "on both sides, together with another wheel, taller bump stops and another ride height."
        ),
        "{short}"
    );
    let uncut = Found::uncut(&coupe.done().model);
    assert!(!uncut.is_met());
    let tried = said("coupe", Panel::Tried);
    assert!(tried.contains(&hits_or_not(&uncut, NOTATION)), "{tried}");
    for name in ["fastback", "pickup", "sedan"] {
        assert!(
            !said(name, Panel::Tried).contains("Nor is it enough"),
            "{name}"
        );
    }
    let means = said("coupe", Panel::Means);
    assert!(
        means.contains("Bump stops are needed that leave 2 in")
            && means.contains("ride height by 1/4 in"),
        "{means}"
    );
}

/// A plan put on the car, sent as a link and opened by the car's owner is told like the proposal that it was: what stops
/// the tire before it, what was tried instead, and all that is changed.
#[test]
fn a_plan_that_is_on_the_car_is_told_whole_from_a_link() {
    for name in ["coupe", "fastback", "pickup"] {
        let proposed = course(name);
        let token = carfile::to_token(&proposed.done().model.car).expect("a sound car");
        let sent = carfile::from_token(&token).expect("a link of ours");
        let sent = Model::new(&sent).expect("it has a model");
        let done = CourseWork::begin(&sent, &Preferences::default()).whole();
        assert!(matches!(done.plan, Plan::Stands(_)), "{name}");
        assert_eq!(done.changes(), proposed.changes(), "{name}");
        for panel in Panel::ALL {
            let (mut then, now) = (panel.told(proposed, NOTATION), panel.told(&done, NOTATION));
            then.sentences
                .retain(|sentence| !sentence.contains("This is a proposal"));
            assert_eq!(then, now, "{name}");
        }
        let (then, now) = (in_short(proposed, NOTATION), in_short(&done, NOTATION));
        let what = |words: &str| words.rsplit_once(": ").map(|(_, what)| what.to_owned());
        assert_eq!(what(&then), what(&now), "{name}");
    }
}

/// The first plan's "before" outlasts the second, and what is changed back is no change.
#[test]
fn a_second_plan_is_told_from_before_the_first() {
    let first = &course("coupe").done().model.car;
    let bump = |from, to| Change {
        remedy: Remedy::Bump,
        from,
        to,
    };
    let now = Remedy::Bump.get(first);
    let was = Remedy::Bump.get(&course("coupe").bare.model.car);
    let second = Change::all_planned(&[bump(now, now - 5.0)], first);
    assert_eq!(second.before, first.before);
    let third = Change::all_planned(&[bump(now - 5.0, was)], &second);
    let changes = Change::between(&third.before.put_back(&third), &third);
    assert!(
        changes.iter().all(|change| change.remedy != Remedy::Bump),
        "{changes:?}"
    );
    assert!(
        changes
            .iter()
            .any(|change| change.remedy == Remedy::Backspacing)
    );
}

#[test]
fn a_rim_out_of_the_tires_range_is_told_with_the_tire() {
    let (want, means) = (said("coupe", Panel::Want), said("coupe", Panel::Means));
    assert!(want.contains("Wide rim: "), "{want}");
    assert!(!means.contains("Wide rim: "), "{means}");
}

#[test]
fn nobody_is_told_to_cut_who_need_not_and_nobody_is_spared_the_caution_who_must() {
    for (name, course) in courses() {
        let (change, means) = (said(name, Panel::Change), said(name, Panel::Means));
        assert_eq!(
            course.cuts(),
            change.contains("cut loose"),
            "{name}: {change}"
        );
        assert_eq!(
            course.cuts(),
            means.contains("licensed engineer or an inspector"),
            "{name}"
        );
        assert!(means.contains("geometry, not approval"), "{name}");
        let short = in_short(course, NOTATION);
        assert_eq!(
            course.cuts(),
            short.contains("nothing short of cutting"),
            "{name}: {short}"
        );
    }
    assert!(said("sedan", Panel::Change).contains("Moving the tub will not do"));
    assert!(said("sedan", Panel::Change).contains("The axle set further ahead or back"));
}

#[test]
fn a_car_that_fits_is_told_so() {
    let mut car = model("fastback").car;
    car.wheel.backspacing += 9.525;
    let model = Model::new(&car).expect("it has a model");
    let course = CourseWork::begin(&model, &Preferences::default()).whole();
    assert_eq!(course.plan, Plan::Nothing);
    assert!(in_short(&course, NOTATION).contains("nothing has to be cut"));
    assert!(all_text(&Panel::Stops.told(&course, NOTATION)).starts_with("Nothing stops it."));
}

#[test]
fn a_car_that_is_cut_already_is_told_as_the_plan() {
    let mut car = model("coupe").car;
    Lever::SeamMove.set(&mut car, 63.5);
    let model = Model::new(&car).expect("it has a model");
    let course = CourseWork::begin(&model, &Preferences::default()).whole();
    assert!(matches!(course.plan, Plan::Stands(_)) && course.cuts());
    let change = all_text(&Panel::Change.told(&course, NOTATION));
    assert!(
        change.contains("set inboard by 2 1/2 in on both sides"),
        "{change}"
    );
}

#[test]
fn the_sentences_of_the_levers_follow_them() {
    let bare = &course("coupe").bare;
    let with = |lever: Lever, by: f64| {
        let mut car = bare.model.car.clone();
        let present = lever.get(&car);
        lever.set(&mut car, present + by);
        Found::of(Model::new(&car).expect("it has a model"))
    };
    assert_eq!(bare.check.verdict(), Verdict::Hits);
    assert!(hits_or_not(bare, NOTATION).starts_with("The tire hits the"));
    let cleared = hits_or_not(&with(Lever::SeamMove, 63.5), NOTATION);
    assert!(
        cleared.starts_with("The tire clears everything."),
        "{cleared}"
    );
    assert!(spent(bare, NOTATION).contains("5 1/2 in of backspacing"));
    assert_ne!(
        spent(bare, NOTATION),
        spent(&with(Lever::Backspacing, -12.7), NOTATION)
    );
    assert_ne!(
        seen(bare, NOTATION),
        seen(&with(Lever::RideHeight, -25.4), NOTATION)
    );
}

#[test]
fn what_is_asked_before_the_work_is_of_this_car() {
    let asked = |name: &str| questions(course(name), NOTATION).join("\n");
    for name in ["coupe", "fastback", "pickup", "sedan"] {
        let cuts = course(name).cuts();
        assert_eq!(asked(name).contains("Cut metal"), cuts, "{name}");
        assert!(asked(name).contains("inspected"), "{name}");
    }
    let coupe = asked("coupe");
    assert!(
        coupe.contains("1 1/2 in farther into the body")
            && coupe.contains("rise 2 in in place of 3 in")
            && coupe.contains("sits 1/4 in higher"),
        "{coupe}"
    );
    assert!(asked("sedan").contains("Which tire would fit without cutting"));
    assert!(!asked("fastback").contains("The axle may rise"));
}

#[test]
fn every_sentence_ends_and_no_number_is_missing() {
    for (name, course) in courses() {
        for notation in Notation::ALL {
            for asked in questions(course, notation) {
                assert!(asked.ends_with(['?', '.']), "{name}: {asked}");
                assert!(!asked.contains("NaN") && !asked.contains("  "), "{asked}");
            }
            for panel in Panel::ALL {
                let telling = panel.told(course, notation);
                assert!(!telling.sentences.is_empty(), "{name} {panel:?}");
                let lines = telling.lines.iter().map(|(_, words)| words);
                for words in telling.sentences.iter().chain(lines) {
                    assert!(words.ends_with(['.', ':']), "{name} {panel:?}: {words}");
                    for odd in ["NaN", "inf", "\u{2014}", "  ", "{", "\u{2212}"] {
                        assert!(!words.contains(odd), "{name} {panel:?}: {words}");
                    }
                }
            }
        }
    }
}
