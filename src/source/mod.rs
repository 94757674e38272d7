//! Source: spans, faults, the spanned YAML tree and wording helpers. Uses nothing of ours.

pub mod draw;
pub mod fault;
pub mod form;
pub mod span;
pub mod suggest;
pub mod words;
pub mod yaml;
pub mod yaml_words;

pub use fault::{Fault, Place, Severity};
pub use span::Span;
