//! Calculations: a family of formulae a file. Quantities in, quantities out; pure, without text and without YAML.
//! A function outside the range it holds in gives `OutOfRange`, or the border value where its docstring says "held".

pub mod ammonia;

pub mod basis;
pub mod carbonate;
pub mod dilution;
pub mod flow;
pub mod intake;
pub mod media;
pub mod nitrate;
pub mod nitrification;
pub mod nitrite;
pub mod nitrogen_forms;
pub mod packing;
pub mod pore;
pub mod porous;
pub mod range;
pub mod signatures;
pub mod tank;
pub mod temperature_factor;
pub mod waste;

pub use range::OutOfRange;
