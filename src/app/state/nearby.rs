//! What stands near the tires, told one by one: parts bolted there, places not to cut.

use geometry::body::{NO_CUT_FIELDS, NoCutZone, OBSTACLE_FIELDS, Obstacle};
use geometry::car::Car;
use geometry::field::Field;
use geometry::side::Side;
use geometry::space::vec3;
use geometry::units::radians;

/// One thing of a list of the car.
pub trait Nearby: Clone + PartialEq + Send + Sync + 'static {
    /// What it is called in ids.
    const SLUG: &str;
    /// The id of what adds one.
    const ADDER: &str;
    /// What one is called.
    const ONE: &str;
    /// Its numbers.
    const FIELDS: &[Field<Self>];

    /// The car's list.
    fn list(car: &Car) -> &Vec<Self>;
    /// The same, to be changed.
    fn list_mut(car: &mut Car) -> &mut Vec<Self>;
    /// Takes one away.
    fn remove(car: &mut Car, place: usize) {
        Self::list_mut(car).remove(place);
    }
    /// Its name.
    fn name(&mut self) -> &mut String;
    /// Its side.
    fn side(&mut self) -> &mut Side;
    /// One to begin with: numbers that make sense on this car, to be typed over.
    fn begun(car: &Car) -> Self;
}

impl Nearby for Obstacle {
    const SLUG: &str = "part";
    const ADDER: &str = "part-add";
    const ONE: &str = "part";
    const FIELDS: &[Field<Self>] = OBSTACLE_FIELDS;

    fn list(car: &Car) -> &Vec<Self> {
        &car.obstacles
    }

    fn list_mut(car: &mut Car) -> &mut Vec<Self> {
        &mut car.obstacles
    }

    /// The gaps that were found to it go as well.
    fn remove(car: &mut Car, place: usize) {
        car.remove_obstacle(place);
    }

    fn name(&mut self) -> &mut String {
        &mut self.name
    }

    fn side(&mut self) -> &mut Side {
        &mut self.side
    }

    /// A shock as wide as a hand's two fingers, upright behind the axle, on the inner side of the rail: there it meets
    /// nothing yet.
    fn begun(car: &Car) -> Self {
        let out = car.axle.measured_face() - car.sides.left.tape.to_rail.value - 76.2;
        Self {
            name: "Shock".to_owned(),
            side: Side::Left,
            from: vec3(-152.4, out, 0.0),
            to: vec3(-152.4, out, 304.8),
            radius: 25.4,
        }
    }
}

impl Nearby for NoCutZone {
    const SLUG: &str = "zone";
    const ADDER: &str = "zone-add";
    const ONE: &str = "place not to cut";
    const FIELDS: &[Field<Self>] = NO_CUT_FIELDS;

    fn list(car: &Car) -> &Vec<Self> {
        &car.no_cut
    }

    fn list_mut(car: &mut Car) -> &mut Vec<Self> {
        &mut car.no_cut
    }

    fn name(&mut self) -> &mut String {
        &mut self.name
    }

    fn side(&mut self) -> &mut Side {
        &mut self.side
    }

    /// A hand's breadth of the tub, straight above the axle, away from the seam.
    fn begun(_: &Car) -> Self {
        Self {
            name: "Shock mount".to_owned(),
            side: Side::Left,
            angles: [radians(-10.0), radians(10.0)],
            along: [152.4, 254.0],
        }
    }
}

/// How many of each there are, in words.
pub fn count_words(car: &Car) -> String {
    let parts = match car.obstacles.len() {
        0 => "no part".to_owned(),
        1 => "one part".to_owned(),
        many => format!("{many} parts"),
    };
    let places = match car.no_cut.len() {
        0 => "no place not to cut".to_owned(),
        1 => "one place not to cut".to_owned(),
        many => format!("{many} places not to cut"),
    };
    format!("{parts}, {places}")
}

#[cfg(test)]
mod tests {
    use geometry::body::{Surface, SurfaceId};
    use geometry::car::FoundGap;
    use geometry::model::Model;
    use geometry::travel::Pose;

    use super::*;
    use crate::state::opening;

    fn cars() -> impl Iterator<Item = Car> {
        (0..carfile::SCENARIOS.len())
            .filter_map(opening::invented)
            .map(|work| Car::clone(&work.car))
    }

    #[test]
    fn gaps_found_to_a_part_go_with_it_and_the_others_stay_with_theirs() {
        let mut car = cars().next().expect("an invented car");
        let part = Obstacle::begun(&car);
        car.obstacles = ["shock", "pipe", "strap"]
            .map(|name| Obstacle {
                name: name.to_owned(),
                ..part.clone()
            })
            .to_vec();
        let found = |surface, index, gap| FoundGap {
            side: Side::Left,
            id: SurfaceId { surface, index },
            pose: Pose::RIDE,
            gap,
        };
        let wall = found(Surface::TubWall, 0, 1.0);
        let to_parts = (0..3).map(|index| found(Surface::Obstacle, index, 10.0 + index as f64));
        car.found = std::iter::once(wall).chain(to_parts).collect();
        <Obstacle as Nearby>::remove(&mut car, 1);
        let names: Vec<&str> = car.obstacles.iter().map(|part| &*part.name).collect();
        assert_eq!(names, ["shock", "strap"]);
        let shock = found(Surface::Obstacle, 0, 10.0);
        let strap = found(Surface::Obstacle, 1, 12.0);
        assert_eq!(car.found, [wall, shock, strap]);
    }

    #[test]
    fn what_one_begins_with_makes_sense_on_every_car_and_changes_no_gap() {
        for mut car in cars() {
            let before = Model::new(&car).expect("an invented car is sound");
            let before = geometry::check::check(&before, geometry::check::ACCURACY).verdict();
            let (part, zone) = (Obstacle::begun(&car), NoCutZone::begun(&car));
            Obstacle::list_mut(&mut car).push(part);
            NoCutZone::list_mut(&mut car).push(zone);
            let after = Model::new(&car).unwrap_or_else(|faults| panic!("{faults:?}"));
            let after = geometry::check::check(&after, geometry::check::ACCURACY);
            assert_eq!(after.verdict(), before, "{}", car.name);
        }
    }

    #[test]
    fn every_number_is_read_where_it_is_set() {
        fn each<T: Nearby>(car: &Car) {
            for (i, field) in T::FIELDS.iter().enumerate() {
                let mut one = T::begun(car);
                let others: Vec<f64> = T::FIELDS.iter().map(|field| (field.get)(&one)).collect();
                let value = f64::midpoint(field.bound.most, others[i]);
                (field.set)(&mut one, value);
                let now: Vec<f64> = T::FIELDS.iter().map(|field| (field.get)(&one)).collect();
                let changed = (0..now.len()).filter(|&k| now[k].to_bits() != others[k].to_bits());
                assert_eq!(changed.collect::<Vec<_>>(), [i], "{}", field.bound.label);
            }
        }
        let car = cars().next().expect("there is an invented car");
        each::<Obstacle>(&car);
        each::<NoCutZone>(&car);
    }
}
