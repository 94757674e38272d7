//! The one test binary: a module a stage.

mod knowledge;
mod rules;
mod vocabulary;
mod water;
