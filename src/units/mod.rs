//! Units: dimensions, units, quantities with a spread. Under every stage but `source`.

pub mod dimension;
pub mod measure;
