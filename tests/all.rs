//! The one test binary: a module a stage.

mod knowledge;
mod vocabulary;
mod water;
