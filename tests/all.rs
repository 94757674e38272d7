//! The one test binary: a module a stage.

mod knowledge;
mod listen;
mod rules;
mod vocabulary;
mod water;
