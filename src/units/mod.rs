//! Units: dimensions, units, quantities with a spread. Under every stage but `source`.

pub mod amount;
pub mod dimension;
pub mod gallon;
pub mod measure;
pub mod parse;
pub mod unit;

pub use amount::{Amount, Spread};
pub use dimension::Dimension;
pub use unit::Unit;
