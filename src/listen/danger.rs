//! Danger to people: found in any line, whatever else it holds. In: cues heard, sentence by sentence. Out: events, and
//! the question of safety. Knows no remedy.

use super::clause::Clause;
use super::found::{Found, subject};
use super::reading::{Ask, Became, Form, Says};
use super::turn::Turn;

/// Finds every danger; each kind once.
pub fn find(turn: &mut Turn, clauses: &[Clause]) {
    if turn.heard.is_empty() {
        return;
    }
    let mut start = 0;
    while start < clauses.len() {
        let mut end = start + 1;
        while end < clauses.len() && !clauses[end].starts {
            end += 1;
        }
        let first = turn.terms[turn.items[clauses[start].from].first].first;
        let last = turn.terms[turn.items[clauses[end - 1].to - 1].last].last;
        sentence(turn, first, last);
        start = end;
    }
}

fn sentence(turn: &mut Turn, first: usize, last: usize) {
    let listener = turn.listener;
    for danger in &listener.cues.dangers {
        let Some(heard) = danger.holds(first, last, turn.heard) else { continue };
        let of = subject("event", Some(&heard.event));
        if turn.reading.statements.iter().any(|s| s.subject == of) {
            continue;
        }
        let terms: Vec<usize> = (0..turn.terms.len())
            .filter(|t| heard.words.iter().any(|(a, b)| turn.terms[*t].first <= *b && turn.terms[*t].last >= *a))
            .collect();
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
}
