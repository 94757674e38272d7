//! Archive: calls and conversations; calls on disk. In: lines, files. Out: pages, transcripts, what changed.

pub mod aside;
pub mod call;
pub mod cause;
pub mod compare;
pub mod conversation;
pub mod date;
pub mod disk;
pub mod folder;
pub mod history;
mod keeping;
mod meet;
mod nothing_told;
pub mod outcome;
pub mod replay;
pub mod report;
pub mod request;
pub mod sheet;
pub mod shelf;
mod suppose;
pub mod told;
pub mod trial;

pub use conversation::{Conversation, Hear, Manner, listener};
pub use outcome::{Errand, Reply};
