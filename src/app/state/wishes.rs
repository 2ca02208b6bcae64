//! What the reader rather changes than what, and in which steps: the answers' preferences as a list that can be put in
//! another order, and the lines that they are kept as.

use geometry::answers::{MOST, Preferences, Remedy, STEP_SIZE, Step};

/// What stands in one line of the list: a remedy, or both sides of one.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    /// What it is called.
    pub label: &'static str,
    /// The least that it is changed by, mm.
    pub size: f64,
    /// The most that a mix may change it by, mm; none goes as far as it can.
    pub most: Option<f64>,
    /// The remedies.
    pub remedies: Vec<Remedy>,
}

impl Wish {
    /// A name that is the same whatever the order.
    pub fn key(&self) -> &'static str {
        self.remedies.first().map_or("", |remedy| remedy.key())
    }
}

/// The list, from what is changed most gladly on.
pub fn list(preferences: &Preferences) -> Vec<Wish> {
    let mut list: Vec<Wish> = Vec::new();
    for step in &preferences.steps {
        let label = label(step.remedy);
        if let Some(wish) = list.iter_mut().find(|wish| wish.label == label) {
            wish.remedies.push(step.remedy);
        } else {
            list.push(Wish {
                label,
                size: step.size,
                most: Some(step.most).filter(|most| most.is_finite()),
                remedies: vec![step.remedy],
            });
        }
    }
    list
}

fn label(remedy: Remedy) -> &'static str {
    match remedy {
        Remedy::Seam(_) => "Seam move",
        Remedy::Roof(_) => "Roof raised",
        _ => remedy.label(),
    }
}

/// The same preferences with the wish of this key one place sooner, or later.
pub fn moved(preferences: &Preferences, key: &str, sooner: bool) -> Preferences {
    let mut list = list(preferences);
    let at = list.iter().position(|wish| wish.key() == key);
    let to = at.and_then(|at| {
        if sooner {
            at.checked_sub(1)
        } else {
            Some(at + 1).filter(|&to| to < list.len())
        }
    });
    if let (Some(at), Some(to)) = (at, to) {
        list.swap(at, to);
    }
    of(preferences, &list)
}

/// The same preferences with the wish of this key changed.
pub fn with(preferences: &Preferences, key: &str, change: impl FnOnce(&mut Wish)) -> Preferences {
    let mut list = list(preferences);
    if let Some(wish) = list.iter_mut().find(|wish| wish.key() == key) {
        change(wish);
    }
    of(preferences, &list)
}

fn of(preferences: &Preferences, list: &[Wish]) -> Preferences {
    let steps = list.iter().flat_map(|wish| {
        wish.remedies.iter().map(|&remedy| Step {
            remedy,
            size: wish.size,
            most: wish.most.unwrap_or(f64::INFINITY),
        })
    });
    Preferences {
        steps: steps.collect(),
        ..*preferences
    }
}

/// The lines that preferences are kept as, most gladly first; none for those of a first visit.
pub fn lines(preferences: &Preferences) -> Vec<String> {
    if *preferences == Preferences::default() {
        return Vec::new();
    }
    let line = |step: &Step| format!("{} {} {}", step.remedy.key(), step.size, step.most);
    preferences.steps.iter().map(line).collect()
}

/// What the lines keep. A line that is not understood is left out; what no line tells stays as it was at first, and last.
pub fn read<'text>(lines: impl Iterator<Item = &'text str>) -> Preferences {
    let first = Preferences::default();
    let mut steps: Vec<Step> = Vec::new();
    for step in lines.filter_map(step) {
        if steps.iter().all(|other| other.remedy != step.remedy) {
            steps.push(step);
        }
    }
    for step in &first.steps {
        if steps.iter().all(|other| other.remedy != step.remedy) {
            steps.push(*step);
        }
    }
    // Both sides of a remedy are one wish.
    let kept = Preferences { steps, ..first };
    of(&kept, &list(&kept))
}

fn step(line: &str) -> Option<Step> {
    let mut words = line.split(' ');
    let key = words.next()?;
    let mut remedies = Remedy::ALL.into_iter().chain(Remedy::LAST);
    let remedy = remedies.find(|remedy| remedy.key() == key)?;
    let mut number = || words.next()?.parse::<f64>().ok();
    let (size, most) = (number()?, number()?);
    let sound = STEP_SIZE.admits(size) && (MOST.admits(most) || most == f64::INFINITY);
    sound.then_some(Step { remedy, size, most })
}

#[cfg(test)]
mod tests {
    use geometry::side::Side;

    use super::*;

    fn kept(preferences: &Preferences) -> Preferences {
        read(lines(preferences).iter().map(String::as_str))
    }

    #[test]
    fn what_is_wished_comes_back_the_same() {
        let first = Preferences::default();
        assert!(lines(&first).is_empty());
        assert_eq!(kept(&first), first);
        let wished = with(&moved(&first, "bump", true), "section_width", |wish| {
            wish.most = None;
            wish.size = 5.0;
        });
        assert_ne!(wished, first);
        assert_eq!(kept(&wished), wished);
    }

    #[test]
    fn both_sides_of_the_seam_move_as_one() {
        let first = Preferences::default();
        let seam = Remedy::Seam(Side::Left).key();
        let sooner = moved(&first, seam, true);
        let places: Vec<Remedy> = sooner.steps.iter().map(|step| step.remedy).collect();
        let at = places.iter().position(|one| one.key() == seam).expect("it");
        assert_eq!(places[at + 1], Remedy::Seam(Side::Right));
        assert_eq!(places[at + 2], Remedy::TrackWidth);
        assert_eq!(moved(&sooner, seam, false), first);
        let mut order = first.clone();
        for _ in 0..20 {
            order = moved(&order, seam, true);
        }
        assert_eq!(list(&order)[0].label, "Seam move");
    }

    #[test]
    fn a_line_that_is_nonsense_costs_itself_only() {
        let lines = [
            "bump 6 40",
            "bump 7 50",
            "backspacing 0 10",
            "track_width 3 NaN",
            "seam 3 4",
            "ride_change 3.175",
            "",
        ];
        let read = read(lines.into_iter());
        let first = Preferences::default();
        assert_eq!(read.steps.len(), first.steps.len());
        assert_eq!(read.steps[0].remedy, Remedy::Bump);
        assert!((read.steps[0].size - 6.0).abs() < 1e-12);
        assert_eq!(read.steps[1], first.steps[0]);
    }
}
