//! Calculations: a family of formulae a file. Quantities in, quantities out; pure, without text and without YAML.
//! A function outside the range it holds in gives `OutOfRange`, or the border value where its docstring says "held".

pub mod alkalinity;
pub mod ammonia;
pub mod basis;
pub mod carbonate;
pub mod chlorine;
pub mod cleaning;
pub mod clogging;
pub mod cost;
pub mod course;
pub mod density;
pub mod dilution;
pub mod dose;
pub mod estimates;
pub mod flow;
pub mod head_loss;
pub mod heat;
pub mod hose;
pub mod intake;
pub mod media;
pub mod nitrate;
pub mod nitrification;
pub mod nitrite;
pub mod nitrogen_forms;
pub mod oxygen;
pub mod packing;
pub mod pore;
pub mod porous;
pub mod power_cut;
pub mod pump;
pub mod range;
mod root;
pub mod signatures;
pub mod tank;
pub mod temperature_factor;
pub mod waste;
pub mod weight;
pub mod weir;

pub use range::OutOfRange;
