//! The expression language of conditions, formulae and figures in texts. In: text. Out: a tree, then checked code.

pub mod parse;
pub mod token;
pub mod tree;
