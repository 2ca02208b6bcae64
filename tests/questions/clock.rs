//! How long one step took: what the page does in one step must not hold it up.

use std::fs;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// The longest that one step may take on the processor. The page is to do it in tens of milliseconds; this is for a
/// build that looks for faults, which is some ten times as slow, and calls a step endless long before a person would.
pub const LONGEST: Duration = Duration::from_secs(3);

/// The slowest step so far: how long it took, and what it was.
static SLOWEST: Mutex<(Duration, &str)> = Mutex::new((Duration::ZERO, "nothing"));

/// The slowest step of this process so far: how long it took on the processor, and what it was.
pub fn slowest() -> (Duration, &'static str) {
    *SLOWEST.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Does one step, and holds it to [`LONGEST`].
#[track_caller]
pub fn timed<T>(what: &'static str, step: impl FnOnce() -> T) -> T {
    let before = Now::read();
    let done = step();
    let took = before.elapsed();
    let mut slowest = SLOWEST.lock().unwrap_or_else(PoisonError::into_inner);
    if took > slowest.0 {
        *slowest = (took, what);
    }
    drop(slowest);
    assert!(took <= LONGEST, "{what} took {took:?} in one step");
    done
}

/// A moment of this thread's own time on the processor where the system tells it, so that others on the machine do not
/// count; of the wall's clock elsewhere.
enum Now {
    Processor(Duration),
    Wall(Instant),
}

impl Now {
    fn read() -> Self {
        processor().map_or_else(|| Self::Wall(Instant::now()), Self::Processor)
    }

    fn elapsed(&self) -> Duration {
        match *self {
            Self::Processor(before) => processor().unwrap_or(before).saturating_sub(before),
            Self::Wall(before) => before.elapsed(),
        }
    }
}

/// Linux counts a thread's nanoseconds in the first word of this file.
fn processor() -> Option<Duration> {
    let text = fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    let nanoseconds = text.split_whitespace().next()?.parse().ok()?;
    Some(Duration::from_nanos(nanoseconds))
}
