//! Strength: how much of a book its examples and saved calls hold in place. Each rule is taken out, each comparison turned
//! round, each limit moved; what nothing notices is listed, with an example that would notice it. Slow beside a check.

mod change;
mod clauses;
mod equivalent;
mod noticed;
mod numbers;
mod search;
mod together;

pub use together::Examples;

use super::Trial;
use super::run::Call;
use crate::source::Place;
use change::{Change, changes};
use clauses::Clauses;
use noticed::{is_seen_in, noticing};
use rayon::prelude::*;
use search::{Proposal, Search};

/// A change of the book that nothing notices.
#[derive(Clone, Debug, PartialEq)]
pub struct Survivor {
    pub rule: String,
    pub place: Place,
    /// What could be done: "the limit could be a quarter higher".
    pub change: String,
    pub remedy: Remedy,
}

/// What can be done about it.
#[derive(Clone, Debug, PartialEq)]
pub enum Remedy {
    /// An example that would notice it; `speaks`: on which side.
    Line { line: String, speaks: bool },
    /// No line was found, and why.
    None(String),
}

/// What came of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Strength {
    /// Changes that were tried.
    pub tried: usize,
    /// Changes that no caller can notice: the rule holds in exactly the same cases.
    pub alike: usize,
    pub survivors: Vec<Survivor>,
    /// For each rule with a survivor that an example would notice: all its examples as they would be.
    pub examples: Vec<Examples>,
}

/// Tries every change. `saved`: saved calls that were run; any change of who speaks in them is noticed.
pub fn strength(trial: &Trial, saved: &[Call]) -> Strength {
    let mut out = Strength::default();
    let all: Vec<Vec<Change>> = (0..trial.book.rules.rules.len() as u16).map(|n| changes(trial, n)).collect();
    let is_noticed = |change: &Change| noticing(trial, change).next().is_some() || is_seen_in(trial, saved, change);
    let mut unnoticed: Vec<(u16, Vec<&Change>)> = Vec::new();
    for (n, changes) in all.iter().enumerate() {
        out.tried += changes.len();
        let (alike, left): (Vec<&Change>, Vec<&Change>) =
            changes.iter().filter(|c| !is_noticed(c)).partition(|c| equivalent::is_equivalent(trial, c));
        out.alike += alike.len();
        if !left.is_empty() {
            unnoticed.push((n as u16, left));
        }
    }
    if unnoticed.is_empty() {
        return out;
    }
    let clauses = Clauses::new(trial);
    let found: Vec<(Vec<Survivor>, Vec<Proposal>)> =
        unnoticed.par_iter().map(|(rule, left)| remedies(trial, &clauses, *rule, left)).collect();
    let mut proposed: Vec<(u16, Vec<Proposal>)> = Vec::new();
    for ((rule, _), (survivors, proposals)) in unnoticed.iter().zip(found) {
        out.survivors.extend(survivors);
        if !proposals.is_empty() {
            proposed.push((*rule, proposals));
        }
    }
    out.examples = together::examples(trial, saved, &all, &proposed);
    out
}

/// For each unnoticed change of a rule what can be done about it, and the lines that were found.
fn remedies(trial: &Trial, clauses: &Clauses, rule: u16, left: &[&Change]) -> (Vec<Survivor>, Vec<Proposal>) {
    let mut search = Search::new(trial, clauses, rule);
    let (mut survivors, mut proposals): (Vec<Survivor>, Vec<Proposal>) = (vec![], vec![]);
    for change in left {
        let found = match proposals.iter().find(|p| search.also(change, p)) {
            Some(known) => Ok(known.clone()),
            None => search.find(change).inspect(|p| proposals.push(p.clone())),
        };
        survivors.push(Survivor {
            rule: trial.book.rules.rules[rule as usize].name.clone(),
            place: change.place.clone(),
            change: change.words.clone(),
            remedy: match found {
                Ok(Proposal { line, speaks, .. }) => Remedy::Line { line, speaks },
                Err(why) => Remedy::None(why),
            },
        });
    }
    (survivors, proposals)
}
