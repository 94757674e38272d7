//! The engine on small made-up worlds (no fish), beside a slow and obvious evaluator.

mod cases;
mod lanes;
pub mod made;
mod oracle;
mod properties;
mod random;
mod taken_back;
