//! The built-in rules: they compile without faults, and their figures agree with arithmetic done here again.

mod advice;
pub mod book;
mod call;
mod contradicted;
mod examples;
mod figures;
mod pictures;
mod texts;
mod topics;
mod trouble;
