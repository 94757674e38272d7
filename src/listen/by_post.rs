//! A filter that was sent in by post: which of them it is. In: the statements of a turn. Out: that filter, said to be away.
//! Knows no order and no parcel.

use super::found::{Found, subject};
use super::name;
use super::reading::{How, Mark, Said, Says, Statement, Subject};
use super::turn::Turn;

/// The event of sending in, and the attribute of a filter that is away, as the vocabulary names them.
const SENT_IN: &str = "sent in";
pub const AWAY: &str = "away";

/// "I posted you the canister on Friday": the filter of that line, else the only one known.
pub fn tell(turn: &mut Turn) {
    let sent = |s: &Statement| s.subject.thing == "event" && s.subject.kind.as_deref() == Some(SENT_IN);
    let Some(at) = turn.reading.statements.iter().position(sent) else { return };
    let filter = |s: &&Statement| s.subject.thing == "filter" && !is_guessed(s);
    let mut told: Vec<Subject> = turn.reading.statements.iter().filter(filter).map(|s| s.subject.clone()).collect();
    if told.is_empty() {
        told.extend(turn.context.held.iter().filter(filter).map(|s| s.subject.clone()));
    }
    let mut numbers: Vec<(u16, u16)> = told.iter().map(|s| (s.tank, s.number)).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let [(tank, number)] = numbers[..] else { return };
    let of = Subject { tank, number, ..subject(turn.name(name::FILTER), None) };
    let says = Says::Value { attribute: AWAY.into(), how: How::Set, value: Said::Word(turn.name(name::YES).into()) };
    let terms: Vec<usize> = Vec::new();
    let mut found = Found::new(of, says, terms);
    found.mark = Some(Mark::Derived);
    let span = turn.reading.statements[at].span;
    turn.state_fact(found);
    if let Some(last) = turn.reading.statements.last_mut() {
        last.span = span;
    }
}

fn is_guessed(statement: &Statement) -> bool {
    matches!(&statement.says, Says::Value { attribute, .. } if attribute == "wanted")
}

/// Whether any filter of the call is away, by what was told before or in this line.
pub fn is_away(turn: &Turn) -> bool {
    let away = |s: &Statement| match &s.says {
        Says::Value { attribute, value: Said::Word(word), .. } => attribute == AWAY && word == turn.name(name::YES),
        _ => s.subject.kind.as_deref() == Some(SENT_IN) && s.says == Says::Present,
    };
    turn.context.held.iter().chain(&turn.reading.statements).any(away)
}
