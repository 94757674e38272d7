//! Reply: an assessment to an ordered, worded answer. In: findings, ranges. Out: text, JSON, pictures. Computes nothing.

pub mod advise;
pub mod amounts;
pub mod answer;
pub mod asking;
pub mod assumed;
pub mod because;
pub mod brief;
pub mod changes;
pub mod compose;
pub mod conversion;
pub mod curve;
pub mod digits;
pub mod figures;
pub mod formula;
pub mod help;
pub mod job;
pub mod json;
pub mod known;
pub mod led;
pub mod lines;
pub mod needs;
pub mod order;
pub mod own_units;
pub mod page;
pub mod paint;
pub mod reading_json;
pub mod said;
pub mod sure;
pub mod terms;
pub mod text;
pub mod unread;
pub mod why_not;
pub mod wording;

pub use answer::Answer;
pub use brief::{Screen, brief};
pub use compose::{Shape, compose};
