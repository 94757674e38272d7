//! The engine: facts and rulebook to findings, by forward chaining over a network of what reads what.
//! In: a plain version of a case. Out: figures, truths, findings and their reasons. Knows no fish and no text.

pub mod evaluate;
pub mod finding;
pub mod fire;
pub mod lanes;
pub mod leaves;
pub mod load;
pub mod state;
pub mod value;
pub mod waiting;
pub mod why;
pub mod why_not;
pub mod world;

pub use finding::{Finding, Findings};
pub use fire::Engine;
pub use leaves::{Grounds, Leaves};
pub use state::State;
pub use value::{Truth, Value};
pub use world::World;
