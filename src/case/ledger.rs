//! The ledger: the turns of a call in order, from which its facts are always built anew. In: readings. Out: the statements
//! in force; undo takes turns back exactly. Knows no rule.

use crate::listen::reading::{Act, Ask, AskBack, Context, Doubtful, Reading, Statement, Subject};
use std::collections::BTreeMap;

/// One turn: what was typed and how it was read.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Turn {
    pub reading: Reading,
}

/// The turns of one call.
#[derive(Clone, Debug, Default)]
pub struct Ledger {
    turns: Vec<Turn>,
    /// Attributes the caller could not tell, with the number of the turn that said so: never asked again.
    untold: BTreeMap<(Subject, String), usize>,
    /// Every question that was put, with the number of the turn it followed: none is put again after a later one.
    put: BTreeMap<(Subject, String), usize>,
    /// The question that was put last, so that a short answer can be read.
    asked: Option<(Subject, String)>,
    /// What was asked back last.
    pending: Option<AskBack>,
    /// What was asked back beside it.
    waiting: Vec<AskBack>,
    /// Turns taken back, by number, so that the record stays whole.
    undone: usize,
}

impl Ledger {
    pub fn turns(&self) -> &[Turn] {
        &self.turns
    }

    pub fn is_empty(&self) -> bool {
        self.turns.is_empty()
    }

    /// Takes a turn in.
    pub fn take(&mut self, reading: Reading) {
        if reading.acts.iter().any(|(act, _)| *act == Act::DontKnow)
            && let Some((subject, attribute)) = self.asked.take()
        {
            self.untold.insert((subject, attribute), self.turns.len() + 1);
        }
        // A turn that says nothing of ours leaves the question open.
        if !reading.back.is_empty() || !reading.statements.is_empty() || !reading.asks.is_empty() {
            self.pending = reading.back.first().cloned();
            self.waiting = reading.back.iter().skip(1).cloned().collect();
        }
        self.turns.push(Turn { reading });
    }

    /// Takes the last turn back that said or asked something; gives its text.
    pub fn undo(&mut self) -> Option<String> {
        while let Some(turn) = self.turns.pop() {
            let reading = turn.reading;
            if !reading.statements.is_empty() || !reading.asks.is_empty() || !reading.back.is_empty() {
                self.undone += 1;
                self.pending = None;
                self.waiting.clear();
                let turns = self.turns.len();
                self.untold.retain(|_, turn| *turn <= turns);
                self.put.retain(|_, turn| *turn <= turns);
                return Some(reading.text);
            }
        }
        None
    }

    /// Starts again with nothing.
    pub fn restart(&mut self) {
        *self = Self::default();
    }

    /// Remembers the question put to the caller.
    pub fn ask(&mut self, asked: Option<(Subject, String)>) {
        // Another question was put than the one about what was taken meanwhile.
        if asked.is_some() && self.pending.as_ref().is_some_and(|p| p.why == Doubtful::Taken) {
            self.pending = None;
        }
        if let Some(key) = &asked {
            self.put.entry(key.clone()).or_insert(self.turns.len());
        }
        self.asked = asked;
    }

    /// Whether a question was put before, or could not be answered.
    pub fn was_put(&self, subject: &Subject, attribute: &str) -> bool {
        let key = (subject.clone(), attribute.to_string());
        self.put.get(&key).is_some_and(|turn| *turn < self.turns.len()) || self.untold.contains_key(&key)
    }

    pub fn asked(&self) -> Option<&(Subject, String)> {
        self.asked.as_ref()
    }

    /// Every statement with the number of its turn, from 1.
    pub fn statements(&self) -> impl Iterator<Item = (u16, &Statement)> {
        self.turns
            .iter()
            .enumerate()
            .flat_map(|(n, turn)| turn.reading.statements.iter().map(move |s| (n as u16 + 1, s)))
    }

    /// The questions asked in the last turn.
    pub fn asks(&self) -> &[Ask] {
        self.turns.last().map_or(&[], |t| &t.reading.asks)
    }

    /// What the listener has to know of the call so far.
    pub fn context(&self) -> Context {
        let after = self.turns.iter().fold(Context::default(), |context, turn| context.after(&turn.reading));
        Context { asked: self.asked.clone(), pending: self.pending.clone(), waiting: self.waiting.clone(), ..after }
    }
}
