//! The rulebook: YAML to checked, compiled rules and figures. In: the texts under `rules/`, the knowledge. Out: a
//! `Rulebook` the engine runs, or every fault with its place. Knows no case and no fish.

pub mod book;
pub mod build;
pub mod check;
pub mod code;
pub mod compile;
pub mod contents;
pub mod edition;
pub mod editor_schema;
pub mod edits;
pub mod entries;
pub mod expr;
pub mod library;
pub mod logic;
mod mismatch;
pub mod names;
pub mod order;
pub mod plain;
pub mod raw;
pub mod read;
pub mod reference;
pub mod template;
pub mod topics;
pub mod version;

pub use book::Rulebook;
pub use library::Book;
