//! The tire: its printed size, what was measured on it, its meridian section, its shape under load.

pub mod designation;
pub mod load;
pub mod section;
pub mod size;
pub mod spec;

pub use designation::{Class, Construction, Designation, DesignationFault, SizeSystem};
pub use section::{ShapeInputs, TireShape};
pub use size::{NominalSize, nominal_size};
pub use spec::{Arrival, MeasuredWidth, TireSpec};
