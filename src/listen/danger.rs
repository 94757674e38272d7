//! Danger to people: found in any line, whatever else it holds, and taken back when it is plainly denied. In: cues heard,
//! sentence by sentence. Out: events, and the question of safety. Knows no remedy.

use super::clause::Clause;
use super::cues::Weighed;
use super::denial::{denied_by, was_so};
use super::found::{Found, subject};
use super::lexicon::Sense;
use super::name::{self, Name};
use super::reading::{Aside, Ask, Became, Form, Says};
use super::term::{Heard, within};
use super::turn::Turn;

/// Finds every danger; each kind once. What is told in one sentence and denied in another is a danger still.
pub fn find(turn: &mut Turn, clauses: &[Clause]) {
    let mut denied: Vec<(String, Vec<usize>)> = Vec::new();
    let mut start = 0;
    while start < clauses.len() {
        let mut end = start + 1;
        while end < clauses.len() && !clauses[end].starts {
            end += 1;
        }
        sentence(turn, &clauses[start..end], &mut denied);
        start = end;
    }
    for (event, terms) in denied {
        let of = subject("event", Some(&event));
        if turn.reading.statements.iter().any(|s| s.subject == of) {
            continue;
        }
        if turn.context.held.iter().any(|s| s.subject == of) {
            turn.state_fact(Found::new(of, Says::Absent, terms));
        } else if let (Some(first), Some(last)) = (terms.iter().min(), terms.iter().max()) {
            turn.show_aside(*first, *last, Aside::Denied);
        }
    }
}

/// A kind of event that is a danger to people.
pub fn is_danger(turn: &Turn, kind: Name) -> bool {
    let text = turn.listener.lexicon.text(kind);
    turn.listener.cues.dangers.iter().any(|d| d.gives == text)
}

fn sentence(turn: &mut Turn, clauses: &[Clause], denied: &mut Vec<(String, Vec<usize>)>) {
    let (Some(first), Some(last)) = (clauses.first(), clauses.last()) else { return };
    let (first, last) = (turn.items[first.from].first, turn.items[last.to - 1].last);
    let words = (turn.terms[first].first, turn.terms[last].last);
    let listener = turn.listener;
    for danger in &listener.cues.dangers {
        if within(turn.heard, words.0, words.1).is_empty() {
            break;
        }
        let weighed = {
            let turn = &*turn;
            let is_denied = |h: &Heard| {
                let Some(at) = turn.term_of_word(h.first) else { return false };
                h.corrected || is_denied(turn, clauses, at)
            };
            danger.weigh(words.0, words.1, turn.heard, is_denied)
        };
        let (happened, so) = match weighed {
            Some(Weighed::So(happened)) => (happened, true),
            Some(Weighed::Denied(happened)) => (happened, false),
            None => continue,
        };
        let here = |t: &usize| {
            let term = &turn.terms[*t];
            happened.words.iter().any(|(a, b)| term.first <= *b && term.last >= *a)
        };
        let terms: Vec<usize> = (0..turn.terms.len()).filter(here).collect();
        tell(turn, clauses, &happened.event, terms, so, denied);
    }
    // A word that names a danger by itself: "burnt smell".
    for at in first..=last {
        let term = &turn.terms[at];
        let kind = term.senses.iter().find_map(|s| match s {
            Sense::State { thing: name::EVENT, attribute: name::KIND, kind } => Some(*kind),
            _ => None,
        });
        let Some(kind) = kind.filter(|k| is_danger(turn, *k) && !term.corrected) else { continue };
        let event = listener.lexicon.text(kind).to_string();
        let excused = listener.cues.dangers.iter().any(|d| d.gives == event && d.excuses(words.0, words.1, turn.heard));
        let so = !is_denied(turn, clauses, at);
        let common = so && term.senses.contains(&Sense::Common);
        if !(excused || common) {
            tell(turn, clauses, &event, vec![at], so, denied);
        }
    }
}

/// Denied as it is now: what was so until now is a danger still.
fn is_denied(turn: &Turn, clauses: &[Clause], at: usize) -> bool {
    let Some((from, to)) = bounds(turn, clauses, at) else { return false };
    denied_by(turn.terms, from, to, at).is_some() && !was_so(turn.terms, from, to)
}

/// The terms of the clause that holds a term.
fn bounds(turn: &Turn, clauses: &[Clause], at: usize) -> Option<(usize, usize)> {
    let of = |c: &Clause| (turn.items[c.from].first, turn.items[c.to - 1].last + 1);
    clauses.iter().map(of).find(|(from, to)| (*from..*to).contains(&at))
}

fn tell(
    turn: &mut Turn,
    clauses: &[Clause],
    event: &str,
    mut terms: Vec<usize>,
    so: bool,
    denied: &mut Vec<(String, Vec<usize>)>,
) {
    let of = subject("event", Some(event));
    if !so {
        // A word read through a correction neither tells of a danger nor denies one.
        let by: Vec<usize> = terms
            .iter()
            .filter_map(|t| bounds(turn, clauses, *t).and_then(|(from, to)| denied_by(turn.terms, from, to, *t)))
            .collect();
        if !by.is_empty() && !denied.iter().any(|(e, _)| e == event) {
            terms.extend(by);
            denied.push((event.to_string(), terms));
        }
        return;
    }
    if turn.reading.statements.iter().any(|s| s.subject == of) {
        return;
    }
    let span = turn.span_of(&terms);
    let found = Found::new(of.clone(), Says::Present, terms.clone());
    turn.state.take(&found);
    turn.state_fact(found);
    if !turn.reading.asks.iter().any(|a| a.topic == "safety") {
        let ask = Ask {
            span,
            form: Form::What,
            topic: "safety".to_string(),
            about: vec![of],
            suppose: Vec::new(),
            named: Vec::new(),
        };
        turn.claim(&terms, Became::Ask(turn.reading.asks.len()));
        turn.reading.asks.push(ask);
    }
}
