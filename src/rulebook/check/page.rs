//! The page of a fault: what it is, why it matters, an example and its cure. In: nothing. Out: texts.

/// What is told of a fault when its name is asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Page {
    /// The name in brackets of the message.
    pub name: &'static str,
    /// What is wrong, one sentence.
    pub says: &'static str,
    /// Why it matters, or how it comes about.
    pub why: &'static str,
    /// A piece of a file with the fault; empty where none can be shown.
    pub wrong: &'static str,
    /// The same, cured.
    pub right: &'static str,
}
