//! What became of the work that a browser kept, where it did not come back whole: what the reader is told.

use super::desk::{self, Desk, Unread};
use super::work::{Source, Work};

/// Why kept work did not come back whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trouble {
    /// It stopped the page the last time.
    Stopped,
    /// A newer version of the page kept it.
    Newer,
    /// Nothing of it can be read.
    Damaged,
    /// Some of it cannot be read.
    InPart,
}

impl From<Unread> for Trouble {
    fn from(unread: Unread) -> Self {
        match unread {
            Unread::Newer => Self::Newer,
            Unread::Damaged => Self::Damaged,
        }
    }
}

impl Trouble {
    /// What the reader is told; `aside` says whether the kept text could be put out of the way.
    pub fn told(self, aside: bool) -> String {
        let what = match self {
            Self::Stopped => "The car from your last visit stopped the page",
            Self::Newer => {
                "A newer version of this page kept your last work, and this one cannot read it"
            }
            Self::Damaged => "What this browser kept of your last visit cannot be read",
            Self::InPart => {
                "Some of what this browser kept of your last visit cannot be read. The rest is here"
            }
        };
        let then = if aside {
            "All of it was put aside as it was. “Save what was put aside” is in the car menu."
        } else {
            "It stays as it is, for the browser has no room to put it aside: this visit keeps nothing. Save your car as a file before you leave."
        };
        format!("{what}. {then}")
    }
}

/// What the reader is told while work of an earlier visit is still put aside.
pub const STILL_ASIDE: &str = "Work of an earlier visit that could not be opened is still put aside. “Save what was put aside” is in the car menu.";

/// What the reader is told when the browser does not take the work.
pub const NOT_KEPT: &str = "This browser does not let the page keep your work between visits: its room is full, or it is set to keep nothing. Save your car as a file before you leave.";

/// What the reader is told when another tab changed a car.
pub const OTHER_TAB: &str = "Another tab of this page has a car open that this one did not have so. Nothing is lost: it is under “Your cars” here, beside yours.";

/// Several texts that were put aside, as one.
pub fn joined(earlier: Option<String>, text: &str) -> String {
    match earlier {
        Some(earlier) if earlier.contains(text) => earlier,
        Some(earlier) => format!("{earlier}\n{text}"),
        None => text.to_owned(),
    }
}

/// The cars in a file of work that was put aside, the one to open last; nothing for a file that is none.
pub fn salvaged(text: &str) -> Option<Vec<Work>> {
    if !text.starts_with(desk::FAMILY) {
        return None;
    }
    let mut cars = Vec::new();
    let heads = text.match_indices(desk::FAMILY).map(|(at, _)| at);
    let starts: Vec<usize> = heads
        .filter(|&at| at == 0 || text[..at].ends_with('\n'))
        .chain([text.len()])
        .collect();
    for part in starts.windows(2).map(|ends| &text[ends[0]..ends[1]]) {
        match desk::read(part) {
            Ok(Desk { history, own, .. }) => {
                cars.extend(own.into_iter().rev());
                cars.push(history.settled().clone());
            }
            Err(_) => cars.extend(legible(part)),
        }
    }
    Some(cars)
}

/// The cars that can be read in a desk that cannot; of several states of one, the last.
fn legible(text: &str) -> Vec<Work> {
    let mut found: Vec<Work> = Vec::new();
    let mut lines = text.lines().peekable();
    while let Some(line) = lines.next() {
        let mut block = String::new();
        while let Some(line) = lines.next_if(|line| line.starts_with('\t')) {
            block.push_str(&line[1..]);
            block.push('\n');
        }
        if let ("car", Ok(car)) = (line, carfile::read_unfinished(&block)) {
            let work = Work::open(car, Source::File);
            found.retain(|one| !one.same_car(&work));
            found.push(work);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::history::History;
    use crate::state::opening;
    use crate::state::settings::Settings;

    #[test]
    fn what_is_put_aside_twice_is_there_once_and_nothing_goes() {
        let one = joined(None, "one\n");
        let both = joined(Some(one.clone()), "other\n");
        assert!(both.contains("one\n") && both.contains("other\n"));
        assert_eq!(joined(Some(both.clone()), "one\n"), both);
    }

    #[test]
    fn what_was_put_aside_opens_again_as_far_as_it_can_be_read() {
        let coupe = opening::invented(0).expect("an invented car");
        let mine = coupe.with(|car| car.axle.spacer += 5.0);
        let other = opening::invented(1).expect("another");
        let other = other.with(|car| car.axle.spacer += 5.0);
        let history = History::new(mine.clone());
        let text = desk::write(&history, std::slice::from_ref(&other), &Settings::default());
        let names = |text: &str| {
            let cars = salvaged(text).expect("put-aside work");
            cars.iter()
                .map(|work| work.car.name.clone())
                .collect::<Vec<_>>()
        };
        let both = [other.car.name.clone(), mine.car.name.clone()];
        assert_eq!(names(&text), both);
        assert_eq!(
            names(&joined(Some(text.clone()), "lip-to-rail desk 7\nalien\n")),
            both
        );
        let headless = text.replace("\nnow ", "\nthen ");
        assert_eq!(names(&headless).len(), 2);
        assert_eq!(names("lip-to-rail desk 7\nalien\n").len(), 0);
        assert_eq!(salvaged("[tire]\n"), None);
    }
}
