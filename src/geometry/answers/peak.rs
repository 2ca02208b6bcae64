//! The greatest reserve of a remedy over its range, by what the rates leave open between trials.

use super::Demand;
use crate::order;

/// One value tried: the reserve there is at most `most` mm, and changes by at most `rate` mm a mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Trial {
    pub value: f64,
    pub most: f64,
    pub rate: f64,
    pub demand: Demand,
}

/// Where the reserve may still be greatest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Open {
    pub at: f64,
    pub most: f64,
}

/// The search for the greatest reserve: at least one trial, in rising order of values.
#[derive(Debug, Clone)]
pub(super) struct Peak {
    trials: Vec<Trial>,
    /// The value of the greatest reserve found, and that reserve, mm.
    pub best: Option<(f64, f64)>,
    /// The values tried in this search.
    close: Vec<f64>,
    pub tried: usize,
}

impl Peak {
    pub fn new(mut trials: Vec<Trial>) -> Self {
        order::sort_by(&mut trials, |a, b| a.value.total_cmp(&b.value));
        Self {
            trials,
            best: None,
            close: Vec::new(),
            tried: 0,
        }
    }

    /// Adds a trial with the reserve found there, the best where it is above all found so far.
    pub fn add(&mut self, trial: Trial, reserve: f64) {
        if self.best.is_none_or(|(_, best)| reserve > best) {
            self.best = Some((trial.value, reserve));
        }
        self.close.push(trial.value);
        // Where it bounds another trial's value more closely than that one did, the other has no more to say.
        self.trials.retain(|other| {
            trial.most + trial.rate * (trial.value - other.value).abs() > other.most
        });
        let place = self
            .trials
            .partition_point(|other| other.value < trial.value);
        self.trials.insert(place, trial);
    }

    /// How near the nearest trial that was certified closely is to a value, mm.
    pub fn nearest(&self, value: f64) -> f64 {
        let distance = |&tried: &f64| (tried - value).abs();
        self.close
            .iter()
            .map(distance)
            .fold(f64::INFINITY, f64::min)
    }

    /// Where, between the ends of the range, the reserve may be greatest.
    pub fn highest(&self, [low, high]: [f64; 2]) -> Option<Open> {
        // A trial whose reserve cannot change bounds all others.
        let still = self
            .trials
            .iter()
            .filter(|trial| trial.rate <= 0.0)
            .map(|trial| trial.most)
            .fold(f64::INFINITY, f64::min);
        let at_end = |trial: &Trial, end: f64| Open {
            at: end,
            most: trial.most + trial.rate * (end - trial.value).abs(),
        };
        let ends = [
            self.trials.first().map(|trial| at_end(trial, low)),
            self.trials.last().map(|trial| at_end(trial, high)),
        ];
        let between = self.trials.windows(2).map(|pair| open(&pair[0], &pair[1]));
        between
            .chain(ends.into_iter().flatten())
            .map(|open| Open {
                most: open.most.min(still),
                ..open
            })
            .max_by(|a, b| a.most.total_cmp(&b.most))
    }
}

/// Where two trials' bounds meet between them.
fn open(a: &Trial, b: &Trial) -> Open {
    let (width, rates) = (b.value - a.value, a.rate + b.rate);
    let along = if rates > 0.0 {
        ((b.most - a.most + b.rate * width) / rates).clamp(0.0, width)
    } else {
        width / 2.0
    };
    let most = (a.most + a.rate * along).min(b.most + b.rate * (width - along));
    Open {
        at: a.value + along,
        most,
    }
}
