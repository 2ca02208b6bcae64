//! The room chart's window, and places on it: a backspacing and a section width.

use std::sync::Arc;

use geometry::car::{Car, Lever};
use geometry::check::Check;
use geometry::model::Model;
use geometry::room::{RoomChart, RoomOptions};
use geometry::units::{LengthUnit, Notation, format_length};

use super::words;

/// Rows of the chart: the width of a tire changes by an eighth of an inch or so from one to the next.
const ROWS: u32 = 48;
/// The wheel that is on the car stands at least this share of the window inside it, or the window follows.
const MARGIN: f64 = 0.1;

/// A backspacing and a section width, mm.
pub type Place = [f64; 2];

/// What a chart is of: a car, whatever its backspacing and section width, and a window.
#[derive(Debug, Clone)]
pub struct Asked {
    /// The model that it is computed from.
    pub model: Arc<Model>,
    /// What it covers.
    pub options: RoomOptions,
}

impl Asked {
    /// For the car as it is now; the window of `last` stays while the wheel on the car stands well inside it.
    pub fn of(model: Arc<Model>, last: Option<&Self>) -> Self {
        let fresh = RoomOptions::around(&model, ROWS);
        let options = last
            .filter(|last| last.stands_inside(&model.car))
            .map_or(fresh, |last| RoomOptions {
                seam: fresh.seam,
                ..last.options
            });
        Self { model, options }
    }

    fn stands_inside(&self, car: &Car) -> bool {
        let [backspacing, width] = present(car);
        let inside = |value: f64, [from, to]: [f64; 2]| {
            let margin = (to - from) * MARGIN;
            (from + margin..=to - margin).contains(&value)
        };
        inside(backspacing, self.options.backspacings) && inside(width, self.options.widths)
    }
}

impl PartialEq for Asked {
    /// A wheel or tire that is put on moves a mark, and leaves the chart as it is.
    fn eq(&self, other: &Self) -> bool {
        let at = present(&self.model.car);
        self.options == other.options
            && (Arc::ptr_eq(&self.model, &other.model)
                || with(&self.model.car, at) == with(&other.model.car, at))
    }
}

/// The backspacing and the section width of a car, mm.
pub fn present(car: &Car) -> Place {
    [Lever::Backspacing.get(car), Lever::SectionWidth.get(car)]
}

/// The car on another wheel and tire.
pub fn with(car: &Car, [backspacing, width]: Place) -> Car {
    let mut car = car.clone();
    Lever::Backspacing.set(&mut car, backspacing);
    Lever::SectionWidth.set(&mut car, width);
    car
}

/// The chart with the mark where the wheel on the car is now.
pub fn marked(chart: &RoomChart, car: &Car) -> RoomChart {
    RoomChart {
        present: present(car),
        ..chart.clone()
    }
}

/// A place on the marks of a tape, inside the chart.
pub fn on_marks(place: Place, options: &RoomOptions, notation: Notation) -> Place {
    let mark = match notation.unit() {
        LengthUnit::Inch => notation.unit().millimeters() / 16.0,
        LengthUnit::Millimeter => 1.0,
    };
    let ends = [options.backspacings, options.widths];
    std::array::from_fn(|k| {
        let [from, to] = ends[k].map(|end| end / mark);
        (place[k] / mark).round().clamp(from.ceil(), to.floor()) * mark
    })
}

/// Where a key leads: two marks, or with the page keys eight.
pub fn keyed(key: &str, from: Place, options: &RoomOptions, notation: Notation) -> Option<Place> {
    let step = match notation.unit() {
        LengthUnit::Inch => notation.unit().millimeters() / 8.0,
        LengthUnit::Millimeter => 2.0,
    };
    let [backspacing, width] = from;
    let to = match key {
        "ArrowLeft" => [backspacing - step, width],
        "ArrowRight" => [backspacing + step, width],
        "ArrowUp" => [backspacing, width + step],
        "ArrowDown" => [backspacing, width - step],
        "PageUp" => [backspacing, width + 4.0 * step],
        "PageDown" => [backspacing, width - 4.0 * step],
        "Home" => [options.backspacings[0], width],
        "End" => [options.backspacings[1], width],
        _ => return None,
    };
    Some(on_marks(to, options, notation))
}

/// A place in words: backspacing with its offset, and section width.
pub fn place_words(car: &Car, place: Place, notation: Notation) -> String {
    let length = |mm: f64| format_length(mm, notation);
    let wheel = with(car, place).wheel;
    format!(
        "Backspacing {} (offset {}), section width {}",
        length(place[0]),
        length(wheel.offset()),
        length(place[1])
    )
}

/// The car at a place, with the seam where the chart has it: its gap list's finding, and the gaps themselves.
pub fn finding(asked: &Asked, place: Place, seam: f64, notation: Notation) -> String {
    let mut car = with(&asked.model.car, place);
    Lever::SeamMove.set(&mut car, seam);
    Model::new(&car).map_or_else(
        |_| "No such tire goes on this rim.".to_owned(),
        |model| {
            let check = checked(&model);
            format!(
                "{} {}",
                words::verdict(&check, &model.car.tire, notation),
                gaps(&check, notation)
            )
        },
    )
}

/// The least gap of each surface through travel, on the side where it is less.
fn gaps(check: &Check, notation: Notation) -> String {
    let mut least: Vec<(&str, f64)> = Vec::new();
    let surfaces = check.sides.iter().flat_map(|(_, side)| &side.surfaces);
    for surface in surfaces {
        let (name, gap) = (surface.name.as_str(), surface.travel.low);
        match least.iter_mut().find(|(known, _)| *known == name) {
            Some((_, known)) => *known = known.min(gap),
            None => least.push((name, gap)),
        }
    }
    let told = least
        .iter()
        .map(|(name, gap)| format!("{name} {}", format_length(*gap, notation)));
    let told = told.collect::<Vec<_>>().join(", ");
    if told.is_empty() {
        told
    } else {
        format!("Least gaps through travel: {told}.")
    }
}

fn checked(model: &Model) -> Check {
    geometry::check::check(model, geometry::check::ACCURACY)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked() -> Asked {
        let scenario = &carfile::SCENARIOS[0];
        let car = carfile::read(scenario.text).expect("an invented car reads");
        let model = Model::new(&car).expect("an invented car has a model");
        Asked::of(Arc::new(model), None)
    }

    fn moved(asked: &Asked, by: Place) -> Asked {
        let [backspacing, width] = present(&asked.model.car);
        let car = with(&asked.model.car, [backspacing + by[0], width + by[1]]);
        let model = Model::new(&car).expect("it has a model");
        Asked::of(Arc::new(model), Some(asked))
    }

    #[test]
    fn another_wheel_leaves_the_chart_and_another_car_does_not() {
        let first = asked();
        assert!(moved(&first, [12.7, -6.35]) == first && first == moved(&first, [12.7, -6.35]));
        let far = moved(&first, [95.0, 0.0]).options;
        assert_ne!(far, first.options, "the window follows");
        let mut car = first.model.car.clone();
        car.travel.bump += 1.0;
        let model = Model::new(&car).expect("it has a model");
        assert!(Asked::of(Arc::new(model), Some(&first)) != first);
    }

    #[test]
    fn places_land_on_marks_inside_the_chart() {
        let options = asked().options;
        let inches = Notation::InchFractions;
        let at = on_marks([140.1, 281.0], &options, inches);
        assert!((at[0] - 88.0 * 1.5875).abs() < 1e-9 && (at[1] - 177.0 * 1.5875).abs() < 1e-9);
        let far = on_marks([9e9, -9e9], &options, Notation::Millimeters);
        assert!(far[0] <= options.backspacings[1] && far[1] >= options.widths[0]);
        let right = keyed("ArrowRight", at, &options, inches).expect("a key that moves");
        assert!((right[0] - at[0] - 3.175).abs() < 1e-9);
        assert_eq!(keyed("Tab", at, &options, inches), None);
    }

    #[test]
    fn a_place_is_told_in_words_and_certified() {
        let asked = asked();
        let place = present(&asked.model.car);
        let words = place_words(&asked.model.car, place, Notation::InchFractions);
        assert!(
            words.starts_with("Backspacing ") && words.contains("(offset "),
            "{words}"
        );
        let seam = Lever::SeamMove.get(&asked.model.car);
        let found = finding(&asked, place, seam, Notation::InchFractions);
        let check = checked(&asked.model);
        let rest = found
            .strip_prefix(&words::verdict(
                &check,
                &asked.model.car.tire,
                Notation::InchFractions,
            ))
            .expect("the page's own verdict first");
        let surfaces = check.sides.iter().flat_map(|(_, side)| &side.surfaces);
        let rails = surfaces.filter(|surface| surface.name == "frame rail");
        let rail = rails
            .map(|rail| rail.travel.low)
            .fold(f64::INFINITY, f64::min);
        let rail = format_length(rail, Notation::InchFractions);
        assert!(
            rest.starts_with(" Least gaps through travel: quarter lip ")
                && rest.ends_with(&format!(", frame rail {rail}.")),
            "{rest}"
        );
    }
}
