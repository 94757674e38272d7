//! Calls of one conversation, the present one and those put aside. In: nothing. Out: their parts. Knows no line.

use crate::case::Ledger;
use crate::doubt::Assessment;
use crate::listen::reading::Reading;
use crate::reply::Answer;
use std::collections::BTreeSet;

/// One call: its turns, and the last answer with what it was worked out from.
#[derive(Clone, Debug, Default)]
pub struct Call {
    pub ledger: Ledger,
    pub answer: Option<Answer>,
    pub assessment: Option<Assessment>,
    /// What was shown with each turn, so that undo takes that back, too.
    pub shown: Vec<Shown>,
    pub walk: Option<Walk>,
    /// One question at a time.
    pub led: bool,
    /// The last line, when it left nothing in the call: how it was read can be asked all the same.
    pub heard: Option<Reading>,
}

impl Call {
    /// Holds nothing any more.
    pub fn forget(&mut self) {
        *self = Self { led: self.led, ..Self::default() };
    }

    /// Cautions shown before the present turn: some are shown once a call.
    pub fn cautioned_before(&self) -> BTreeSet<String> {
        let turns = self.ledger.turns().len().saturating_sub(1);
        self.shown.iter().take(turns).flat_map(|s| s.cautions.clone()).collect()
    }

    /// The question that the turn before left open.
    pub fn open_question(&self) -> Option<&Reading> {
        self.ledger.turns().len().checked_sub(2).and_then(|n| self.shown.get(n)?.open.as_ref())
    }

    /// Remembers what was shown with the present turn.
    pub fn remember(&mut self, shown: Shown) {
        self.shown.resize(self.ledger.turns().len(), Shown::default());
        if let Some(last) = self.shown.last_mut() {
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

/// What was shown with one turn.
#[derive(Clone, Debug, Default)]
pub struct Shown {
    pub cautions: BTreeSet<String>,
    /// The turn whose question waits for a fact that was asked back.
    pub open: Option<Reading>,
}

/// A job being walked through.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Walk {
    /// The job's number in the book.
    pub job: usize,
    /// From 0.
    pub step: usize,
}
