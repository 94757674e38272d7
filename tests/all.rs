//! The one test binary: a module a stage.

mod check;
mod docs;
mod doubt;
mod knowledge;
mod listen;
mod rules;
mod vocabulary;
mod water;
