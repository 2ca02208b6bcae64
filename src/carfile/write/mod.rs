//! Writes a car file that reads back to the same car.

mod text;

use geometry::body::tape::{TAPE_FIELDS, TapeField};
use geometry::body::{Reading, Surface, Tape};
use geometry::car::{Before, CAR_FIELDS, Car, MetalSpec, PlugPractice, Shop, Stock, fields};
use geometry::field::Quantity;
use geometry::locator::Locator;
use geometry::side::Side;
use geometry::space::{Vec2, Vec3, vec2, vec3};
use geometry::tire::Arrival;
use geometry::travel::Pose;
use geometry::units::{self, LengthUnit, Notation};

use crate::FORMAT;
use crate::layout::{self, TABLES, word};
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
    written(car, notation, false)
}

/// The same file for where every character counts: its bare lengths in `unit`, without what reading it makes
/// again (usual values, the space between words, tables with nothing in them), and to the last digit of each
/// length: read again, it is the very same car.
pub fn brief(car: &Car, unit: LengthUnit) -> String {
    let notation = match unit {
        LengthUnit::Inch => Notation::InchDecimals,
        LengthUnit::Millimeter => Notation::Millimeters,
    };
    written(car, notation, true)
}

fn written(car: &Car, notation: Notation, brief: bool) -> String {
    let mut file = File {
        text: String::new(),
        notation,
        brief,
        heading: None,
    };
    file.top(car);
    for table in TABLES {
        let is_usual = match table {
            "stock" => car.stock == Stock::default(),
            "before" => car.before == Before::default(),
            "metal" => car.metal == MetalSpec::default(),
            "shop" => car.shop == Shop::default(),
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
    file.tape("tape", &file.shared_readings(car));
    for side in Side::BOTH {
        file.side(car, side);
    }
    file.obstacles(car);
    file.no_cut(car);
    file.found(car);
    file.text
}

/// A file in the making.
struct File {
    text: String,
    notation: Notation,
    /// Whether to leave out what reading makes again.
    brief: bool,
    /// The name of a table that nothing stands in yet.
    heading: Option<String>,
}

impl File {
    fn top(&mut self, car: &Car) {
        if !self.brief {
            self.text.push_str(
                "# A car of Lip to Rail. Lengths without a unit are in the one named below.\n",
            );
        }
        self.pair("format", &FORMAT.to_string());
        for (key, text) in [("name", &car.name), ("purpose", &car.purpose)] {
            self.unless(text.is_empty(), key, &quoted(text));
        }
        self.pair("units", &quoted(self.notation.unit().symbol()));
    }

    fn table(&mut self, name: &str) {
        self.heading = Some(format!("[{name}]"));
    }

    /// A table of a list of tables.
    fn entry(&mut self, name: &str) {
        self.table(&format!("[{name}]"));
    }

    /// Every number of one table, with what stands beside the numbers.
    fn numbers(&mut self, table: &str, car: &Car) {
        if table == "tire" {
            self.pair("size", &quoted(&car.tire.designation.text));
            self.unless(
                car.tire.arrival == Arrival::default(),
                "arrival",
                &quoted(word(layout::ARRIVALS, &car.tire.arrival)),
            );
            if let Some(measured) = car.tire.section_width
                && !(self.brief && is_same(measured.on_rim, car.wheel.rim_width))
            {
                self.number("section_width_on", Quantity::Length, measured.on_rim);
            }
        }
        if table == "shop" {
            let Shop { name, notes } = &car.shop;
            self.unless(name.is_empty(), "name", &quoted(name));
            self.unless(notes.is_empty(), "notes", &quoted(notes));
        }
        if table == "metal" {
            self.unless(
                car.metal.plugs == PlugPractice::default(),
                "plugs",
                &quoted(word(layout::PLUGS, &car.metal.plugs)),
            );
        }
        let always = CAR_FIELDS
            .iter()
            .map(|field| (field.bound, Some((field.get)(car))));
        let sometimes = fields::OPTIONAL_FIELDS
            .iter()
            .map(|field| (field.bound, (field.get)(car)));
        for (bound, value) in always.chain(sometimes) {
            let made_again = match bound.key {
                "axle.width" => Some(car.axle.measured_width),
                _ => bound.usual,
            };
            if let (Some((of, key)), Some(value)) = (bound.key.split_once('.'), value)
                && of == table
                && !(self.brief && made_again.is_some_and(|again| is_same(again, value)))
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
        let shared = self.shared_readings(car);
        let own: Vec<_> = self
            .spoken_readings(&spec.tape)
            .into_iter()
            .filter(|(field, _)| {
                !shared
                    .iter()
                    .any(|(one, _)| one.field.bound.key == field.field.bound.key)
            })
            .collect();
        self.tape(&format!("{}.tape", side.word()), &own);
        for station in spec.stations.iter().flat_map(|table| &table.stations) {
            self.entry(&format!("{}.station", side.word()));
            self.number("angle", Quantity::Angle, station.angle);
            let points: Vec<String> = station
                .points
                .iter()
                .map(|point| self.plane_point(*point))
                .collect();
            self.pair("points", &self.list(&points));
            let spans: Vec<String> = station
                .spans
                .iter()
                .map(|span| quoted(word(layout::SPANS, span)))
                .collect();
            self.pair("spans", &self.list(&spans));
            self.pair("seam", &station.seam.to_string());
            if let Some(fill) = station.fill {
                self.pair("fill", &fill.to_string());
            }
        }
    }

    /// The readings that both sides have alike.
    fn shared_readings(&self, car: &Car) -> Vec<(&'static TapeField, Reading)> {
        let of_right = self.spoken_readings(&car.sides.right.tape);
        self.spoken_readings(&car.sides.left.tape)
            .into_iter()
            .filter(|(field, reading)| {
                of_right.iter().any(|(one, other)| {
                    one.field.bound.key == field.field.bound.key && other == reading
                })
            })
            .collect()
    }

    /// The readings that a file has to tell: all but the guesses that reading it makes again.
    fn spoken_readings(&self, tape: &Tape) -> Vec<(&'static TapeField, Reading)> {
        let lost = if self.brief { 0.0 } else { LENGTH_KEPT };
        TAPE_FIELDS
            .iter()
            .map(|field| (field, (field.reading)(tape)))
            .filter(|(field, reading)| {
                let made_again = field
                    .guess
                    .is_some_and(|guess| (guess(tape) - reading.value).abs() <= lost);
                !(reading.guess && reading.error.is_none() && made_again)
            })
            .collect()
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
                Some(error) => self.inline(&[(kind, length), ("error", error)]),
                None if reading.guess => self.inline(&[(kind, length)]),
                None => length,
            };
            self.pair(field.field.bound.key, &text);
        }
    }

    fn obstacles(&mut self, car: &Car) {
        for obstacle in &car.obstacles {
            self.entry("obstacle");
            self.pair("name", &quoted(&obstacle.name));
            self.pair("side", &quoted(obstacle.side.word()));
            self.pair("from", &self.space_point(obstacle.from));
            self.pair("to", &self.space_point(obstacle.to));
            self.number("radius", Quantity::Length, obstacle.radius);
        }
    }

    fn no_cut(&mut self, car: &Car) {
        for zone in &car.no_cut {
            self.entry("no_cut");
            self.pair("name", &quoted(&zone.name));
            self.pair("side", &quoted(zone.side.word()));
            let angles = zone.angles.map(|angle| self.angle(angle));
            self.pair("angles", &self.list(&angles));
            let [from, to] = zone.along;
            self.pair("along", &self.plane_point(vec2(from, to)));
        }
    }

    fn found(&mut self, car: &Car) {
        let to = layout::found_to();
        for one in &car.found {
            self.entry("found");
            self.pair("side", &quoted(one.side.word()));
            self.pair("surface", &quoted(word(&to, &one.id.surface)));
            if one.id.surface == Surface::Obstacle {
                self.pair("part", &one.id.index.to_string());
            }
            let Pose { left, right, give } = one.pose;
            self.pair("pose", &self.space_point(vec3(left, right, give)));
            self.number("gap", Quantity::Length, one.gap);
        }
    }

    fn number(&mut self, key: &str, quantity: Quantity, value: f64) {
        let text = match quantity {
            Quantity::Length => self.length(value),
            Quantity::Angle => self.angle(value),
            Quantity::Ratio | Quantity::RimCode | Quantity::Mass | Quantity::Pressure => {
                text::exact(value, 1.0).unwrap_or_else(|| decimal(value, 12))
            }
        };
        self.pair(key, &text);
    }

    /// A pair that reading makes again when `usual` is true.
    fn unless(&mut self, usual: bool, key: &str, value: &str) {
        if !(self.brief && usual) {
            self.pair(key, value);
        }
    }

    fn pair(&mut self, key: &str, value: &str) {
        if let Some(heading) = self.heading.take() {
            if !self.brief {
                self.text.push('\n');
            }
            self.line(&heading);
        }
        let equals = if self.brief { "=" } else { " = " };
        self.line(&format!("{key}{equals}{value}"));
    }

    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn list(&self, items: &[String]) -> String {
        let comma = if self.brief { "," } else { ", " };
        format!("[{}]", items.join(comma))
    }

    /// A table within a line.
    fn inline(&self, pairs: &[(&str, String)]) -> String {
        let (equals, comma, edge) = if self.brief {
            ("=", ",", "")
        } else {
            (" = ", ", ", " ")
        };
        let pairs: Vec<String> = pairs
            .iter()
            .map(|(key, value)| format!("{key}{equals}{value}"))
            .collect();
        format!("{{{edge}{}{edge}}}", pairs.join(comma))
    }

    fn plane_point(&self, point: Vec2) -> String {
        self.list(&[point.x, point.y].map(|it| self.length(it)))
    }

    fn space_point(&self, point: Vec3) -> String {
        self.list(&[point.x, point.y, point.z].map(|it| self.length(it)))
    }

    fn length(&self, millimeters: f64) -> String {
        if self.brief {
            text::exact_length(millimeters, self.notation.unit())
        } else {
            text::length(millimeters, self.notation)
        }
    }

    /// An angle, radians, in degrees.
    fn angle(&self, radians: f64) -> String {
        let degrees = units::degrees(radians);
        if self.brief {
            // Not every angle is a number of degrees to the last digit; the nearest is a digit off.
            let exact = text::exact(radians, units::radians(1.0));
            exact
                .or_else(|| text::exact(degrees, 1.0))
                .unwrap_or_else(|| decimal(degrees, 12))
        } else {
            decimal(degrees, 12)
        }
    }
}

/// Whether leaving a number out changes not even its last digit.
fn is_same(one: f64, other: f64) -> bool {
    one.to_bits() == other.to_bits()
}
