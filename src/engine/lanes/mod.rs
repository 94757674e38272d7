//! Many plain versions of one case worked out side by side, one to a lane: a formula is walked once for all of them.
//! In: a world and its plain pass, what differs from lane to lane. Out: the value of a figure, the truth of a rule and
//! whether a finding speaks, lane by lane: what a pass of each version alone would give.

pub mod evaluate;
pub mod fold;
pub mod pass;
pub mod value;
pub mod world;

pub use pass::{Cells, LanePass};
pub use value::{LANES, Lanes, Truths};
pub use world::{Varied, Vary};
