//! Many plain versions of one case worked out side by side, one to a lane: a formula is walked once for all of them.
//! In: a world with what differs from lane to lane, the plain pass, the steps that can differ. Out: the value of each
//! figure, the truth of each rule and what speaks, lane by lane: what a pass of each version alone would give.

pub mod evaluate;
pub mod fold;
pub mod pass;
pub mod value;
pub mod world;

pub use pass::{LaneState, run, speaking};
pub use value::{LANES, Lanes, Truths};
pub use world::LaneWorld;
