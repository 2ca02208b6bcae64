//! The room chart: for each section width of the tire, the backspacings at which it hits, is tight and clears, with the
//! stock tub and with the moved one.
//!
//! # How it is found
//!
//! *No room* is told by spots. A spot is a point of the metal in a pose of the axle in which it was once below what is
//! asked. In any other place of the chart its distance there is attained, so it says without a search that there is no
//! room, or where its own limit lies.
//!
//! *Room* is told by planes. For each face of the metal the certified search need only say that its gap is at least
//! what is asked ([`crate::gap::certify_above`]); mostly one plane says so, and more: a shift `s` of the wheel along its
//! axle changes a plane's distance by the plane's axial part times `s`, another section by no more than the most that
//! one reaches beyond the other along normals of the same sector ([`crate::normals`]), and the track that changes with
//! the backspacing by no more than the metal drifts in the axle's frame ([`crate::motion::Motion::track_drift`]);
//! outboard not even that, for the same places of the axle are then more than a wider track allows. So what was found
//! for a face in one place vouches for a stretch round it, in this row and in those after it, and only what nothing
//! vouches for is asked.
//!
//! A limit is first where the spots cross what is asked. The place [`ACCURACY`] from there, on the side with room, is
//! then asked: it has room, and is the limit, or it gives a further spot.
//!
//! # What is promised
//!
//! Every place inside a range has room, and within [`ACCURACY`] beyond an end of it there is one that has none. What is
//! between ranges has none, and every range wider than [`ACCURACY`] is found; so is every stretch without room that is
//! wider than that. Within it, neither is looked for.

mod face;
mod row;
mod tracks;
mod tub;
mod wheel;

use crate::body::Surface;
use crate::car::{Car, Lever, fields};
use crate::check::Verdict;
use crate::model::Model;
use row::RowWork;
use tracks::Tracks;
use tub::{Level, Tub};
use wheel::Wheel;

/// How closely a limit is known, mm of backspacing: always on the side with room.
pub const ACCURACY: f64 = 0.25;

/// What the chart covers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoomOptions {
    /// The narrowest and the widest section, mm.
    pub widths: [f64; 2],
    /// How many rows, two at least.
    pub rows: u32,
    /// The least and the most backspacing, mm.
    pub backspacings: [f64; 2],
    /// How far inboard the moved tub is re-set, mm.
    pub seam: f64,
}

impl RoomOptions {
    /// A chart round the wheel that is on the car: five inches of width either way, four of backspacing; with the seam
    /// where it is planned or, where none is, as far inboard as the rail lets it.
    #[must_use]
    pub fn around(model: &Model, rows: u32) -> Self {
        const WIDTH: f64 = 101.6;
        const BACKSPACING: f64 = 101.6;
        /// Where neither plan nor rail says how far, mm.
        const SEAM: f64 = 76.2;
        let car = &model.car;
        let about = |lever: Lever, reach: f64| {
            let (at, bound) = (lever.get(car), lever.bound());
            [bound.clamp(at - reach), bound.clamp(at + reach)]
        };
        let planned = Lever::SeamMove.get(car);
        let limit = model.seam_limit.left.min(model.seam_limit.right);
        // A hair short of the limit, which is itself a matter of rounding.
        let most = (limit - 0.01).max(0.0);
        let seam = if planned > 0.0 {
            planned
        } else if most.is_finite() {
            most
        } else {
            SEAM
        };
        Self {
            widths: about(Lever::SectionWidth, WIDTH),
            rows,
            backspacings: about(Lever::Backspacing, BACKSPACING),
            seam: fields::LEFT_SEAM_MOVE.bound.clamp(seam),
        }
    }
}

/// Where there is room along a row: ranges of backspacing, mm, in rising order.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RowRoom {
    /// Where nothing hits.
    pub free: Vec<[f64; 2]>,
    /// Where every target is met.
    pub clear: Vec<[f64; 2]>,
}

impl RowRoom {
    /// The verdict at a backspacing, mm.
    #[must_use]
    pub fn verdict(&self, backspacing: f64) -> Verdict {
        let within = |ranges: &[[f64; 2]]| {
            ranges
                .iter()
                .any(|[from, to]| (*from..=*to).contains(&backspacing))
        };
        if within(&self.clear) {
            Verdict::Clears
        } else if within(&self.free) {
            Verdict::Tight
        } else {
            Verdict::Hits
        }
    }
}

/// One row of the chart.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomRow {
    /// Section width, mm.
    pub width: f64,
    /// With the tub where the factory put it; nothing where no such tire can be made on this rim.
    pub stock: Option<RowRoom>,
    /// With the tub moved.
    pub moved: Option<RowRoom>,
}

/// The whole chart.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomChart {
    /// What it covers.
    pub options: RoomOptions,
    /// From the narrowest to the widest.
    pub rows: Vec<RoomRow>,
    /// The backspacing and the section width that the car has, mm.
    pub present: [f64; 2],
}

impl RoomChart {
    /// Begins a chart.
    #[must_use]
    pub fn begin(model: &Model, options: RoomOptions) -> RoomWork {
        let with_seam = |seam: f64| {
            let mut car = model.car.clone();
            Lever::SeamMove.set(&mut car, seam);
            let model = Model::new(&car).ok()?;
            Some(Tub::new(&model, options.backspacings[1]))
        };
        RoomWork {
            car: model.car.clone(),
            tubs: [0.0, options.seam].map(with_seam),
            wheel: None,
            tracks: Tracks::new(options.backspacings),
            doing: None,
            half: [None, None],
            hints: Default::default(),
            chart: RoomChart {
                options,
                rows: Vec::new(),
                present: [
                    Lever::Backspacing.get(&model.car),
                    Lever::SectionWidth.get(&model.car),
                ],
            },
        }
    }

    /// The whole chart at once.
    #[must_use]
    pub fn whole(model: &Model, options: RoomOptions) -> Self {
        let mut work = Self::begin(model, options);
        loop {
            if let Some(chart) = work.step() {
                return chart;
            }
        }
    }
}

/// A chart that is being computed. It keeps what it needs of the model.
#[derive(Debug, Clone)]
pub struct RoomWork {
    car: Car,
    tubs: [Option<Tub>; 2],
    /// The wheel of the row that is being done.
    wheel: Option<Wheel>,
    tracks: Tracks,
    /// Which tub, at which level, and how far that is.
    doing: Option<(usize, Level, RowWork)>,
    half: [Option<RowRoom>; 2],
    /// Middles of the last row's ranges, tub by tub and level by level: where to look first.
    hints: [[Vec<f64>; 2]; 2],
    chart: RoomChart,
}

impl RoomWork {
    /// Asks one question more; gives the chart once there is none left.
    pub fn step(&mut self) -> Option<RoomChart> {
        let rows = self.chart.options.rows.max(2);
        if self.chart.rows.len() >= rows as usize {
            return Some(self.chart.clone());
        }
        let Some(wheel) = &self.wheel else {
            self.begin_row(rows);
            return None;
        };
        let Some((k, level, work)) = &mut self.doing else {
            self.end_row();
            return None;
        };
        let (k, level) = (*k, *level);
        let tub = self.tubs[k].as_mut();
        let ranges = tub.map_or_else(
            || Some(Vec::new()),
            |tub| work.step(tub, (wheel, &mut self.tracks)),
        )?;
        self.hints[k][level as usize] = ranges
            .iter()
            .map(|[from, to]| f64::midpoint(*from, *to))
            .collect();
        let room = self.half[k].get_or_insert_default();
        self.doing = match level {
            // Where it hits it cannot clear.
            Level::Free => {
                room.free = ranges;
                let work = RowWork::begin(Level::Clear, &room.free, &self.hints[k][1]);
                Some((k, Level::Clear, work))
            }
            Level::Clear => {
                room.clear = ranges;
                if let ([Some(done), Some(next)], true) =
                    (&mut self.tubs, self.chart.rows.is_empty())
                    && k == 0
                {
                    next.learn(done);
                }
                self.begin_tub(k + 1)
            }
        };
        None
    }

    /// How many gaps have been certified so far.
    #[must_use]
    pub fn asked(&self) -> usize {
        self.tubs.iter().flatten().map(|tub| tub.asked).sum()
    }

    fn width(&self, rows: u32) -> f64 {
        let [least, most] = self.chart.options.widths;
        least + (most - least) * self.chart.rows.len() as f64 / f64::from(rows - 1)
    }

    fn begin_row(&mut self, rows: u32) {
        let width = self.width(rows);
        let mut car = self.car.clone();
        Lever::SectionWidth.set(&mut car, width);
        // The tub does not change what the wheel is; the stock one always fits.
        Lever::SeamMove.set(&mut car, 0.0);
        let Ok(model) = Model::new(&car) else {
            self.chart.rows.push(RoomRow {
                width,
                stock: None,
                moved: None,
            });
            return;
        };
        let wheel = Wheel::new(&model);
        for tub in self.tubs.iter_mut().flatten() {
            tub.begin_row(&wheel);
        }
        self.wheel = Some(wheel);
        self.doing = self.begin_tub(0);
    }

    /// The first tub from `k` on that there is.
    fn begin_tub(&self, k: usize) -> Option<(usize, Level, RowWork)> {
        let k = (k..self.tubs.len()).find(|&k| self.tubs[k].is_some())?;
        let whole = [self.chart.options.backspacings];
        let work = RowWork::begin(Level::Free, &whole, &self.hints[k][0]);
        Some((k, Level::Free, work))
    }

    fn end_row(&mut self) {
        let [stock, moved] = std::mem::take(&mut self.half);
        self.chart.rows.push(RoomRow {
            width: self.width(self.chart.options.rows.max(2)),
            stock,
            moved,
        });
        self.wheel = None;
    }
}

/// What is asked of one surface: the gap needed through travel, and at ride height.
fn needs(car: &Car, surface: Surface) -> [f64; 2] {
    [
        car.targets.through_travel(surface),
        car.targets.at_ride(surface),
    ]
}
