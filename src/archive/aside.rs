//! Calls of one conversation, the present one and those put aside. In: nothing. Out: their parts. Knows no line.

use crate::case::Ledger;
use crate::doubt::Assessment;
use crate::reply::Answer;
use std::collections::BTreeSet;

/// One call: its turns, and the last answer with what it was worked out from.
#[derive(Clone, Debug, Default)]
pub struct Call {
    pub ledger: Ledger,
    pub answer: Option<Answer>,
    pub assessment: Option<Assessment>,
    /// Cautions shown so far; some are shown once a call.
    pub cautioned: BTreeSet<String>,
    pub walk: Option<Walk>,
    /// One question at a time.
    pub led: bool,
}

impl Call {
    /// Holds nothing any more.
    pub fn forget(&mut self) {
        *self = Self { led: self.led, ..Self::default() };
    }

    /// Its first words, to know it by.
    pub fn title(&self) -> String {
        match self.ledger.turns().first() {
            Some(turn) => crate::reply::unread::cut(&crate::source::words::harmless(&turn.reading.text)),
            None => "nothing said yet".to_string(),
        }
    }
}

/// A job being walked through.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Walk {
    /// The job's number in the book.
    pub job: usize,
    /// From 0.
    pub step: usize,
}
