//! The case: readings to the facts of one caller. In: turns. Out: things with facts, each with where it came from;
//! contradictions in the open; undo. Knows no rule.

pub mod complete;
pub mod fact;
pub mod facts;
pub mod ledger;
pub mod look_ups;

pub use complete::Case;
pub use ledger::Ledger;
pub use look_ups::LookUps;
