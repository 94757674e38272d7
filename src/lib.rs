//! Weirline: a chat-style advisor for aquarium filtration, built on a small rule engine.
//! A line of text goes through listening, the case, the engine and doubt to a reply; see DEVELOPERS.md for the map.

pub mod archive;
pub mod case;
pub mod command;
pub mod doubt;
pub mod engine;
pub mod knowledge;
pub mod listen;
pub mod reply;
pub mod rulebook;
pub mod source;
pub mod units;
pub mod water;
