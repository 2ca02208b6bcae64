//! Writes a car file that reads back to the same car.

mod text;

use geometry::body::tape::{TAPE_FIELDS, TapeField};
use geometry::body::{Reading, Tape};
use geometry::car::{CAR_FIELDS, Car, MetalSpec, Stock, fields};
use geometry::field::Quantity;
use geometry::locator::Locator;
use geometry::side::Side;
use geometry::space::{Vec2, Vec3, vec2};
use geometry::units::{self, Notation};

use crate::FORMAT;
use crate::layout::{self, word};
use text::{LENGTH_KEPT, decimal, quoted};

/// A car as a car file, its lengths in `notation`. No length is rounded: one that is no fraction of
/// an inch is written with as many decimals as it takes.
///
/// ```
/// # use geometry::units::Notation;
/// let car = carfile::read(carfile::SCENARIOS[0].text).unwrap();
/// let written = carfile::write(&car, Notation::Millimeters);
/// assert_eq!(carfile::read(&written).unwrap().name, car.name);
/// ```
pub fn write(car: &Car, notation: Notation) -> String {
    let mut file = File {
        text: String::new(),
        notation,
    };
    file.top(car);
    for table in [
        "tire",
        "wheel",
        "axle",
        "locator",
        "travel",
        "targets",
        "tape_error",
        "stock",
        "metal",
    ] {
        let is_usual = match table {
            "stock" => car.stock == Stock::default(),
            "metal" => car.metal == MetalSpec::default(),
            _ => false,
        };
        if is_usual {
            continue;
        }
        file.table(table);
        if table == "locator" {
            file.locator(&car.locator);
        } else {
            file.numbers(table, car);
        }
    }
    file.tape(
        "tape",
        &shared_readings(&car.sides.left.tape, &car.sides.right.tape),
    );
    for side in Side::BOTH {
        file.side(car, side);
    }
    file.obstacles(car);
    file.no_cut(car);
    file.text
}

/// A file in the making.
struct File {
    text: String,
    notation: Notation,
}

impl File {
    fn top(&mut self, car: &Car) {
        self.text.push_str(
            "# A car of Lip to Rail. Lengths without a unit are in the one named below.\n",
        );
        self.pair("format", &FORMAT.to_string());
        self.pair("name", &quoted(&car.name));
        self.pair("purpose", &quoted(&car.purpose));
        self.pair("units", &quoted(self.notation.unit().symbol()));
    }

    fn table(&mut self, name: &str) {
        self.line(&format!("\n[{name}]"));
    }

    /// Every number of one table, with what stands beside the numbers.
    fn numbers(&mut self, table: &str, car: &Car) {
        if table == "tire" {
            self.pair("size", &quoted(&car.tire.designation.text));
            self.pair(
                "arrival",
                &quoted(word(layout::ARRIVALS, &car.tire.arrival)),
            );
            if let Some(measured) = car.tire.section_width {
                self.number("section_width_on", Quantity::Length, measured.on_rim);
            }
        }
        if table == "metal" {
            self.pair("plugs", &quoted(word(layout::PLUGS, &car.metal.plugs)));
        }
        let always = CAR_FIELDS
            .iter()
            .map(|field| (field.bound, Some((field.get)(car))));
        let sometimes = fields::OPTIONAL_FIELDS
            .iter()
            .map(|field| (field.bound, (field.get)(car)));
        for (bound, value) in always.chain(sometimes) {
            if let (Some((of, key)), Some(value)) = (bound.key.split_once('.'), value)
                && of == table
            {
                self.number(key, bound.quantity, value);
            }
        }
    }

    fn locator(&mut self, locator: &Locator) {
        let (kind, height) = match *locator {
            Locator::TrackBar { .. } => ("track-bar", None),
            Locator::WattLink { height, .. } => ("watt-link", Some(height)),
            Locator::AngledLinks { height } => ("angled-links", Some(height)),
            Locator::LeafSprings { height } => ("leaf-springs", Some(height)),
        };
        self.pair("kind", &quoted(kind));
        if let Some(height) = height {
            self.number("height", Quantity::Length, height);
        }
        match locator {
            Locator::TrackBar { axle_end, body_end } => {
                self.pair("axle_end", &self.plane_point(*axle_end));
                self.pair("body_end", &self.plane_point(*body_end));
            }
            Locator::WattLink { pivot_on, .. } => {
                self.pair("pivot_on", &quoted(word(layout::PIVOTS, pivot_on)));
            }
            Locator::AngledLinks { .. } | Locator::LeafSprings { .. } => {}
        }
    }

    fn side(&mut self, car: &Car, side: Side) {
        let spec = car.sides.get(side);
        self.table(side.word());
        self.numbers(side.word(), car);
        let shared = shared_readings(&car.sides.left.tape, &car.sides.right.tape);
        let own: Vec<_> = spoken_readings(&spec.tape)
            .into_iter()
            .filter(|(field, _)| {
                !shared
                    .iter()
                    .any(|(one, _)| one.field.bound.key == field.field.bound.key)
            })
            .collect();
        self.tape(&format!("{}.tape", side.word()), &own);
        for station in spec.stations.iter().flat_map(|table| &table.stations) {
            self.line(&format!("\n[[{}.station]]", side.word()));
            self.number("angle", Quantity::Angle, station.angle);
            let points: Vec<String> = station
                .points
                .iter()
                .map(|point| self.plane_point(*point))
                .collect();
            self.pair("points", &format!("[{}]", points.join(", ")));
            let spans: Vec<String> = station
                .spans
                .iter()
                .map(|span| quoted(word(layout::SPANS, span)))
                .collect();
            self.pair("spans", &format!("[{}]", spans.join(", ")));
            self.pair("seam", &station.seam.to_string());
            if let Some(fill) = station.fill {
                self.pair("fill", &fill.to_string());
            }
        }
    }

    fn tape(&mut self, name: &str, readings: &[(&TapeField, Reading)]) {
        if readings.is_empty() {
            return;
        }
        self.table(name);
        for (field, reading) in readings {
            let length = self.length(reading.value);
            let kind = if reading.guess { "guess" } else { "measured" };
            let text = match reading.error.map(|error| self.length(error)) {
                Some(error) => format!("{{ {kind} = {length}, error = {error} }}"),
                None if reading.guess => format!("{{ guess = {length} }}"),
                None => length,
            };
            self.pair(field.field.bound.key, &text);
        }
    }

    fn obstacles(&mut self, car: &Car) {
        for obstacle in &car.obstacles {
            self.line("\n[[obstacle]]");
            self.pair("name", &quoted(&obstacle.name));
            self.pair("side", &quoted(obstacle.side.word()));
            self.pair("from", &self.space_point(obstacle.from));
            self.pair("to", &self.space_point(obstacle.to));
            self.number("radius", Quantity::Length, obstacle.radius);
        }
    }

    fn no_cut(&mut self, car: &Car) {
        for zone in &car.no_cut {
            self.line("\n[[no_cut]]");
            self.pair("name", &quoted(&zone.name));
            self.pair("side", &quoted(zone.side.word()));
            let angles = zone.angles.map(|angle| decimal(units::degrees(angle), 12));
            self.pair("angles", &format!("[{}]", angles.join(", ")));
            let [from, to] = zone.along;
            self.pair("along", &self.plane_point(vec2(from, to)));
        }
    }

    fn number(&mut self, key: &str, quantity: Quantity, value: f64) {
        let text = match quantity {
            Quantity::Length => self.length(value),
            Quantity::Angle => decimal(units::degrees(value), 12),
            Quantity::Ratio | Quantity::RimCode | Quantity::Mass | Quantity::Pressure => {
                decimal(value, 12)
            }
        };
        self.pair(key, &text);
    }

    fn pair(&mut self, key: &str, value: &str) {
        self.line(&format!("{key} = {value}"));
    }

    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn plane_point(&self, point: Vec2) -> String {
        format!("[{}, {}]", self.length(point.x), self.length(point.y))
    }

    fn space_point(&self, point: Vec3) -> String {
        format!(
            "[{}, {}, {}]",
            self.length(point.x),
            self.length(point.y),
            self.length(point.z)
        )
    }

    fn length(&self, millimeters: f64) -> String {
        text::length(millimeters, self.notation)
    }
}

/// The readings that both sides have alike.
fn shared_readings(left: &Tape, right: &Tape) -> Vec<(&'static TapeField, Reading)> {
    let of_right = spoken_readings(right);
    spoken_readings(left)
        .into_iter()
        .filter(|(field, reading)| {
            of_right.iter().any(|(one, other)| {
                one.field.bound.key == field.field.bound.key && other == reading
            })
        })
        .collect()
}

/// The readings that a file has to tell: all but the guesses that reading it makes again.
fn spoken_readings(tape: &Tape) -> Vec<(&'static TapeField, Reading)> {
    TAPE_FIELDS
        .iter()
        .map(|field| (field, (field.reading)(tape)))
        .filter(|(field, reading)| {
            let made_again = field
                .guess
                .is_some_and(|guess| (guess(tape) - reading.value).abs() <= LENGTH_KEPT);
            !(reading.guess && reading.error.is_none() && made_again)
        })
        .collect()
}
