//! Archive: calls and conversations; calls on disk. In: lines, files. Out: pages, transcripts, what changed.

pub mod aside;
pub mod call;
pub mod conversation;
mod meet;
pub mod replay;
pub mod request;
mod suppose;
pub mod trial;

pub use conversation::{Conversation, Hear, Manner, Reply, listener};
