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
    /// Cautions shown with each turn: some are shown once a call, and undo takes back that they were.
    pub cautioned: Vec<BTreeSet<String>>,
    pub walk: Option<Walk>,
    /// One question at a time.
    pub led: bool,
}

impl Call {
    /// Holds nothing any more.
    pub fn forget(&mut self) {
        *self = Self { led: self.led, ..Self::default() };
    }

    /// Cautions shown before the present turn.
    pub fn cautioned_before(&self) -> BTreeSet<String> {
        let turns = self.ledger.turns().len().saturating_sub(1);
        self.cautioned.iter().take(turns).flatten().cloned().collect()
    }

    /// Remembers the cautions shown with the present turn.
    pub fn caution(&mut self, shown: BTreeSet<String>) {
        let turns = self.ledger.turns().len();
        self.cautioned.resize(turns, BTreeSet::new());
        if let Some(last) = self.cautioned.last_mut() {
            *last = shown;
        }
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
