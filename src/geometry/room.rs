//! The room chart: for each section width of the tire, the backspacings at which it hits, is tight and clears, with the
//! stock tub and with the moved one.
//!
//! # How it is found
//!
//! At one width the reserve, the least of all gaps less what is asked of each, is a function of the backspacing that
//! changes by at most [`RoomWork`]'s `slope` a millimeter: one for the sideways shift, and a little for what a wider
//! track does to roll. A place with a reserve of `f` therefore vouches for all within `|f| / slope` on either side, and
//! from one row to the next for those that the other width cannot have brought to zero: a section grows by half its
//! width to a side, and by less elsewhere, which the bound takes twice. What nobody vouches for is asked, between two
//! signs where the line through them crosses zero, until a limit is known to [`ACCURACY`]. The search for the least
//! reserve asks only those surfaces that their last gaps, less what has changed since, do not rule out.
//!
//! A sliver of room, or of metal, that is narrower than four times [`ACCURACY`] may be passed over.

mod part;
mod row;

use crate::body::Surface;
use crate::car::{Car, Lever, fields};
use crate::check::Verdict;
use crate::model::Model;
use row::{Level, Tub, Wheel};

/// How closely a limit is known, mm of backspacing, where the reserve changes with it one for one.
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
            Model::new(&car).ok().map(|model| Tub::new(&model))
        };
        RoomWork {
            car: model.car.clone(),
            tubs: [0.0, options.seam].map(with_seam),
            next: 0,
            half: [None, None],
            chart: RoomChart {
                options,
                rows: Vec::new(),
                present: [
                    Lever::Backspacing.get(&model.car),
                    Lever::SectionWidth.get(&model.car),
                ],
            },
            asked: 0,
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
    /// Quarters of rows done: a row has two tubs, and each two levels.
    next: u32,
    half: [Option<RowRoom>; 2],
    chart: RoomChart,
    asked: usize,
}

impl RoomWork {
    /// Computes a quarter of a row more: one tub, hits or targets; gives the chart once all are done.
    pub fn step(&mut self) -> Option<RoomChart> {
        let rows = self.chart.options.rows.max(2);
        let (row, tub, level) = (
            self.next / 4,
            usize::from(self.next % 4 >= 2),
            [Level::Free, Level::Clear][usize::from(self.next % 2 == 1)],
        );
        if row >= rows {
            return Some(self.chart.clone());
        }
        let [least, most] = self.chart.options.widths;
        let width = least + (most - least) * f64::from(row) / f64::from(rows - 1);
        let mut car = self.car.clone();
        Lever::SectionWidth.set(&mut car, width);
        // The tub does not change what the wheel is; the stock one always fits.
        Lever::SeamMove.set(&mut car, 0.0);
        if let (Ok(model), Some(known)) = (Model::new(&car), self.tubs[tub].as_mut()) {
            let mut wheel = Wheel::new(&model);
            let ranges = known.ranges(&mut wheel, self.chart.options.backspacings, level);
            self.asked += wheel.asked;
            let room = self.half[tub].get_or_insert_default();
            match level {
                Level::Free => room.free = ranges,
                Level::Clear => room.clear = ranges,
            }
        }
        self.next += 1;
        if self.next.is_multiple_of(4) {
            let [stock, moved] = std::mem::take(&mut self.half);
            self.chart.rows.push(RoomRow {
                width,
                stock,
                moved,
            });
        }
        (self.next >= 4 * rows).then(|| self.chart.clone())
    }

    /// How many gaps have been certified so far.
    #[must_use]
    pub fn asked(&self) -> usize {
        self.asked
    }
}

/// What is asked of one surface: the gap needed through travel, and at ride height.
fn needs(car: &Car, surface: Surface) -> [f64; 2] {
    [
        car.targets.through_travel(surface),
        car.targets.at_ride(surface),
    ]
}
