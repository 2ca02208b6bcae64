//! What is wrong with a car file is told at once, each fault with its line and column.

use std::fmt::Write as _;

use carfile::{FileFault, MAX_BYTES, SCENARIOS, read};
use proptest::prelude::*;

/// The coupe's file, which every bad file here is made of.
fn coupe() -> &'static str {
    SCENARIOS[0].text
}

/// Puts `bad` in place of the coupe's `good`, and wants a fault at its last line and `column`.
#[track_caller]
fn check(good: &str, bad: &str, column: usize, found: &str, accepted: &str) {
    let at = coupe().find(good).expect("the coupe's file has this text");
    let line = coupe()[..at].matches('\n').count() + bad.lines().count();
    let faults = read(&coupe().replacen(good, bad, 1)).expect_err("the file is bad");
    let hit = faults
        .iter()
        .find(|fault| fault.line == line && fault.column == column && fault.found.contains(found));
    let hit = hit.unwrap_or_else(|| panic!("no fault {found:?} at {line}:{column} in {faults:#?}"));
    assert!(hit.accepted.contains(accepted), "{hit:#?}");
}

/// The one fault of a file that is none.
#[track_caller]
fn only_fault(text: &str) -> FileFault {
    let faults = read(text).expect_err("the file is bad");
    assert_eq!(faults.len(), 1, "{faults:#?}");
    faults[0].clone()
}

#[test]
fn a_size_that_is_no_size() {
    check(
        "size = \"275/60R15\"",
        "size = \"275/60X15\"",
        15,
        "tire.size is not understood from its character 7",
        "R for radial",
    );
    check(
        "size = \"275/60R15\"",
        "size = 275",
        8,
        "tire.size is a number",
        "275/60R15",
    );
    check(
        "size = \"275/60R15\"",
        "size = \"\"",
        8,
        "tire.size",
        "a size such as",
    );
}

#[test]
fn an_error_of_a_readings_own_goes_with_one_reading() {
    let reading = "to_rail = \"9 1/2\"";
    check(
        reading,
        "to_rail = { error = \"1/16\" }",
        11,
        "guess is missing",
        "in",
    );
    check(
        reading,
        "to_rail = { measured = 9, guess = 9 }",
        24,
        "tape.to_rail is both measured and a guess",
        "one of the two",
    );
    check(
        reading,
        "to_rail = { measured = 9, error = -1 }",
        35,
        "tape.to_rail.error is -1",
        "0",
    );
    let exact = coupe().replacen(reading, "to_rail = { measured = 9, error = \"1/16\" }", 1);
    let car = read(&exact).expect("a good file");
    let rail = car.sides.right.tape.to_rail;
    assert_eq!((rail.guess, rail.error), (false, Some(25.4 / 16.0)));
}

#[test]
fn numbers_out_of_bounds() {
    check(
        "rim_width = 10",
        "rim_width = -10",
        13,
        "wheel.rim_width is -10",
        "3.000 in (76.2 mm)",
    );
    check(
        "rim_width = 10",
        "rim_width = \"-10 in\"",
        13,
        "wheel.rim_width is \"-10 in\"",
        "to 24.000 in",
    );
    check(
        "rim_width = 10",
        "rim_width = nan",
        13,
        "wheel.rim_width is nan",
        "a length from",
    );
    check(
        "rim_width = 10",
        "rim_width = -inf",
        13,
        "wheel.rim_width is -inf",
        "a length from",
    );
    check(
        "rim_width = 10",
        "rim_width = 1e400",
        13,
        "wheel.rim_width is 1e400",
        "a length from",
    );
    check(
        "rim_width = 10",
        "rim_width = true",
        13,
        "wheel.rim_width is true",
        "a length from",
    );
    check(
        "rim_width = 10",
        "rim_width = \"10 wide\"",
        17,
        "not understood from its character 4",
        "a unit",
    );
    check(
        "to_rail = \"9 1/2\"",
        "to_rail = { guess = 900 }",
        21,
        "tape.to_rail.guess is 900",
        "a length from",
    );
    check(
        "axle_end = [16, -3]",
        "axle_end = [16]",
        12,
        "locator.axle_end is [16]",
        "[left, up]",
    );
}

#[test]
fn numbers_that_do_not_go_together() {
    check(
        "rim_width = 10",
        "rim_width = 14",
        13,
        "wheel.rim_width",
        "would be accepted",
    );
    check(
        "units = \"in\"",
        "units = \"in\"
left.seam_move = 12",
        18,
        "left.seam_move",
        "would be accepted",
    );
}

#[test]
fn keys_that_are_not_known() {
    check(
        "backspacing = \"5 1/2\"",
        "backspaceing = \"5 1/2\"",
        1,
        "unknown key wheel.backspaceing",
        "did you mean backspacing?",
    );
    check(
        "[travel]",
        "[travail]",
        2,
        "unknown key travail",
        "did you mean travel?",
    );
    check(
        "hat = \"1/8\"",
        "color = \"red\"",
        1,
        "unknown key axle.color",
        "the keys here are",
    );
    check(
        "axle_end = [16, -3]",
        "height = 2",
        10,
        "does not go with kind \"track-bar\"",
        "axle_end",
    );
    check(
        "kind = \"track-bar\"",
        "kind = \"rope\"",
        8,
        "\u{201c}rope\u{201d}",
        "\"leaf-springs\"",
    );
}

/// A good no-cut zone behind the coupe's file, with `bad` in place of `good`.
#[track_caller]
fn check_zone(good: &str, bad: &str, column: usize, found: &str, accepted: &str) {
    const ZONE: &str = "[[no_cut]]
name = \"shock mount\"
side = \"left\"
angles = [-10, 10]
along = [6, \"9 in\"]
";
    let with = |zone: &str| format!("{}\n{zone}", coupe());
    read(&with(ZONE)).unwrap_or_else(|faults| panic!("the zone is good: {faults:#?}"));
    assert!(ZONE.contains(good), "{good}");
    let text = with(&ZONE.replacen(good, bad, 1));
    let line = with("").matches('\n').count()
        + 1
        + ZONE[..ZONE.find(good).unwrap_or(0)].matches('\n').count();
    let faults = read(&text).expect_err("the file is bad");
    let [fault] = &faults[..] else {
        panic!("one fault is wanted: {faults:#?}");
    };
    assert_eq!((fault.line, fault.column), (line, column), "{fault}");
    assert!(
        fault.found.contains(found) && fault.accepted.contains(accepted),
        "{fault}"
    );
}

#[test]
fn no_cut_zones_that_are_none() {
    check_zone(
        "[-10, 10]",
        "[10, -10]",
        10,
        "shock mount runs from 10.0 degrees to -10.0 degrees",
        "two in rising order",
    );
    check_zone(
        "[-10, 10]",
        "[10, 10]",
        10,
        "runs from",
        "two in rising order",
    );
    check_zone(
        "[6, \"9 in\"]",
        "[9, 6]",
        9,
        "shock mount runs from 9 in",
        "two in rising order",
    );
    check_zone(
        "[-10, 10]",
        "[-10, 190]",
        16,
        "no_cut[0].angles is 190",
        "an angle from -170 to 170 degrees",
    );
    check_zone(
        "[6, \"9 in\"]",
        "[6, \"9 yd\"]",
        16,
        "not understood from its character 3",
        "a unit",
    );
    check_zone(
        "[6, \"9 in\"]",
        "[6, 90]",
        13,
        "no_cut[0].along is 90",
        "(1500 mm)",
    );
    check_zone(
        "[6, \"9 in\"]",
        "[6]",
        9,
        "no_cut[0].along is [6]",
        "two lengths in rising order",
    );
    check_zone(
        "\"shock mount\"",
        "\" \"",
        8,
        "has no name",
        "what is behind the sheet",
    );
    check_zone(
        "\"shock mount\"",
        "3",
        8,
        "no_cut[0].name is a number",
        "text in quotes",
    );
    check_zone(
        "\"left\"",
        "\"rear\"",
        8,
        "\u{201c}rear\u{201d}",
        "\"left\" or \"right\"",
    );
    check_zone(
        "side = ",
        "rear = 1\nside = ",
        1,
        "unknown key no_cut[0].rear",
        "the keys here are name, side, angles, along",
    );
}

/// Two good stations behind the coupe's file, with `bad` in place of `good`.
#[track_caller]
fn check_stations(good: &str, bad: &str, line: usize, column: usize, found: &str) {
    const STATIONS: &str = "[[left.station]]
angle = -20
points = [[36, 12], [36, 13], [36, 18], [24, 19], [23, 5]]
spans = [\"quarter-lip\", \"outer-half\", \"roof\", \"tub-wall\"]
seam = 2
[[left.station]]
angle = 20
points = [[36, 12], [36, 13], [36, 18], [24, 19], [23, 5]]
spans = [\"quarter-lip\", \"outer-half\", \"roof\", \"tub-wall\"]
seam = 2
";
    let with = |stations: &str| format!("{}\n{stations}", coupe());
    read(&with(STATIONS)).unwrap_or_else(|faults| panic!("the stations are good: {faults:#?}"));
    let before = with("").matches('\n').count();
    let faults = read(&with(&STATIONS.replace(good, bad))).expect_err("the file is bad");
    let hit = faults.iter().find(|fault| fault.found.contains(found));
    let hit = hit.unwrap_or_else(|| panic!("no fault {found:?} in {faults:#?}"));
    assert_eq!((hit.line - before, hit.column), (line, column), "{hit}");
    assert!(hit.accepted.ends_with("would be accepted"), "{hit}");
}

#[test]
fn stations_that_are_no_sheet_metal() {
    check_stations(
        "angle = 20",
        "angle = -30",
        7,
        9,
        "the station does not lie ahead",
    );
    check_stations(
        "angle = -20",
        "angle = 10",
        1,
        1,
        "do not reach straight up",
    );
    check_stations("[24, 19]", "[24, 0]", 3, 10, "point 3 has no radius");
    check_stations(
        "\"quarter-lip\"",
        "\"outer-half\"",
        4,
        9,
        "span 0 is not the quarter lip",
    );
    check_stations(
        "\"tub-wall\"",
        "\"outer-half\"",
        4,
        9,
        "span 3 lies farther out",
    );
    check_stations("seam = 2", "seam = 1", 5, 8, "the seam is not on the roof");
    check_stations(
        "angle = 20\n",
        "angle = 20\nfill = 9\n",
        8,
        8,
        "left.station[1].fill is 9",
    );
}

#[test]
fn what_is_missing_or_twice() {
    check(
        "[wheel]\nrim_width = 10",
        "[wheel]",
        1,
        "wheel.rim_width is missing",
        "a length from",
    );
    check(
        "[tape]\nto_rail = \"9 1/2\"",
        "[tape]",
        1,
        "tape.to_rail is missing",
        "a length from",
    );
    check(
        "rim_width = 10",
        "rim_width = 10\nrim_width = 10",
        1,
        "",
        "",
    );
    let both = coupe().replacen("rim_width = 10", "rim_width = 10\noffset = 0", 1);
    assert!(only_fault(&both).found.contains("both stand here"));
    let none = coupe().replacen("units = \"in\"\n", "", 1);
    let faults = read(&none).expect_err("bare numbers have no unit");
    assert!(
        faults
            .iter()
            .all(|fault| fault.found.contains("without a unit")),
        "{faults:#?}"
    );
}

#[test]
fn files_that_are_none() {
    for empty in ["", " \n\t\r\n"] {
        assert_eq!(only_fault(empty).found, "the file is empty");
    }
    let huge = only_fault(&"# five million bytes\n".repeat(250_000));
    assert_eq!((huge.line, huge.column), (1, 1));
    assert!(huge.accepted.contains(&MAX_BYTES.to_string()), "{huge}");
    let named =
        only_fault(&coupe().replacen("name = \"", &format!("name = \"{}", "n".repeat(80)), 1));
    assert!(named.accepted.contains("up to 80 characters"), "{named}");
    let newer = only_fault(&coupe().replacen("format = 1", "format = 2", 1));
    assert!(newer.found.contains("newer") && newer.line == 2, "{newer}");
    let long = format!("{}\n[shop]\nnotes = \"{}\"\n", coupe(), "long ".repeat(500));
    let long = only_fault(&long);
    assert_eq!(long.found, "shop.notes is 2500 characters long");
    assert!(long.accepted.contains("up to 1200 characters"), "{long}");
    let broken = only_fault("format = 1\nname = \"half\npurpose = \"whole\"");
    assert_eq!(broken.line, 2, "{broken}");
    assert!(!read(&"[".repeat(100_000)).expect_err("no car").is_empty());
    assert!(!read(&"a=".repeat(400_000)).expect_err("no car").is_empty());
    assert!(
        !read("\u{0}\u{feff}\u{202e}")
            .expect_err("no car")
            .is_empty()
    );
    let mut many = String::new();
    for k in 0..100_000 {
        writeln!(many, "k{k}=1").expect("a string takes whatever is written");
    }
    assert!(read(&many).expect_err("no car").len() <= 100);
}

#[test]
fn all_faults_at_once_in_the_order_of_the_file() {
    let bad = coupe()
        .replacen("rim_width = 10", "rim_width = -1", 1)
        .replacen("bump = 3", "bmp = 3", 1)
        .replacen("to_lip = \"7 1/4\"", "to_lip = \"far\"", 1);
    let faults = read(&bad).expect_err("three things are wrong");
    let keys: Vec<&str> = faults.iter().map(|fault| fault.at.as_str()).collect();
    assert_eq!(keys, ["wheel.rim_width", "travel.bmp", "tape.to_lip"]);
    assert!(faults.is_sorted());
}

proptest! {
    // A failing car is told in the message; it need not be kept in a file.
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn no_text_brings_the_reader_down(
        cut in 0..2000_usize,
        put in "(?s).{0,12}",
        take in 0..40_usize,
    ) {
        let chars: Vec<char> = coupe().chars().collect();
        let at = cut.min(chars.len());
        let text: String = chars[..at].iter().copied().chain(put.chars()).chain(chars.iter().copied().skip(at + take)).collect();
        if let Err(faults) = read(&text) {
            prop_assert!(!faults.is_empty() && faults.iter().all(|fault| fault.line >= 1 && fault.column >= 1));
        }
    }
}
