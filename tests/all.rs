//! The one test binary: a module a stage.

mod archive;
mod check;
mod cli;
mod docs;
mod doubt;
pub mod engine;
mod knowledge;
mod layers;
mod listen;
mod reference;
mod reply;
mod rules;
mod vocabulary;
mod water;
