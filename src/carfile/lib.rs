//! Car files: what is typed or saved, read into the model and written back.
//!
//! A car file is TOML. Its tables and keys are those of [`geometry::car::CAR_FIELDS`],
//! [`geometry::car::fields::OPTIONAL_FIELDS`] and [`geometry::body::tape::TAPE_FIELDS`], so a bound is
//! told in one place only. Lengths are written as a builder writes them.
//!
//! ```toml
//! format = 1
//! name = "My car"
//! units = "in"                # what a bare number is in; "in" or "mm"
//! [tire]
//! size = "275/60R15"
//! arrival = "nominal"         # or "largest"
//! [wheel]
//! rim_width = 10
//! backspacing = "5 1/2"       # or offset
//! [locator]
//! kind = "leaf-springs"       # or track-bar, watt-link, angled-links
//! height = -3
//! [tape]                      # both sides; [left.tape] and [right.tape] say what differs
//! to_rail = "11 3/8"
//! roof_up = { guess = 16 }    # nobody has measured it yet
//! [[no_cut]]                  # where the sheet must stay, as many as there are
//! name = "shock mount"
//! side = "left"
//! angles = [-10, 10]          # degrees from straight up, positive toward the front
//! along = ["6 in", "9 in"]    # along the sheet from the factory's seam, positive inboard
//! [before]                    # what a plan changed, as it was; the Walk-round tells the change from it
//! backspacing = 4
//! [[found]]                   # a gap found with the mock-up, as many as there are
//! side = "left"
//! surface = "tub-wall"        # "part" has its number in the list of obstacles: part = 0
//! pose = [3, -3, 0]           # left and right wheel above ride height, axle to the left
//! gap = "5/8"
//! [metal]                     # the shop's own numbers, where they are not the usual ones
//! gauge = 18
//! plugs = "code"              # or "repair": which practice the plug welds follow
//! ```
//!
//! Everything that is wrong with a file is told at once, each fault with its line and column.

mod fault;
mod layout;
mod read;
mod scenarios;
mod share;
mod write;

pub use fault::FileFault;
pub use layout::{FOUND, MANY, STATION_ANGLE, STATION_POINT};
pub use read::{read, read_bytes, read_unfinished};
pub use scenarios::{SCENARIOS, Scenario};
pub use share::{TokenFault, from_token, to_token};
pub use write::{brief, write};

/// The format that is written, and the newest that is read.
pub const FORMAT: i64 = 1;

/// The longest file that is read, bytes: more than a car takes that has as many stations, points, parts and zones as may
/// be. A car with every station of a full wheelhouse takes some ten thousand.
pub const MAX_BYTES: usize = 5_000_000;
