//! The metal: what is cut, filled and welded, what is ordered, and the mock-up that is tried before.
//!
//! Each room answers one question of the shop: [`gauge`] how thick and heavy a sheet is, [`weld`] how it is held,
//! [`strip`] what the new metal between the old seam and the new one looks like laid flat, [`cut`] what of the
//! wheelhouse stands in the tire's room, [`no_cut`] where it is not to be cut, [`reset`] where the tub is set,
//! [`mock_up`] what plywood stands in for the tire, [`mod@fit`] which measurement the gaps found with it throw doubt on,
//! [`order`] what to order.

pub mod cut;
pub mod fit;
pub mod gauge;
pub mod mock_up;
pub mod no_cut;
pub mod order;
pub mod reset;
pub mod strip;
pub mod weld;

pub use cut::{CutPlan, CutRow, CutSpan, CutWork, How};
pub use fit::{Change, Fit, FitRow, fit};
pub use mock_up::{Disc, MockUp};
pub use no_cut::{ZoneRow, zone_rows};
pub use order::Order;
pub use reset::Reset;
pub use strip::{EdgePoint, Pattern, PatternRow, Strip};
pub use weld::{Plugs, plug_count};
