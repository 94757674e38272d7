//! Settling: what is said to confirm, to doubt or to pick, of things told before. In: a short clause, what is held and what
//! waits for an answer. Out: statements, acts or a question with its readings. Knows no new thing.

use super::clause::Clause;
use super::correct::amount_of;
use super::found::{Doubt, Found};
use super::items::What;
use super::lexicon::Sense;
use super::reading::{Act, Doubtful, How, Said, Says, Statement};
use super::turn::Turn;
use super::words::Sort;
use crate::knowledge::language::Role;
use crate::units::Dimension;

/// "uk gal?": whose gallons the figure told before counts.
pub fn unit_asked(turn: &mut Turn, clause: &Clause) -> bool {
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let [term] = terms[..] else { return false };
    let Some(unit) = turn.terms[term].units().find(|u| u.name.ends_with("gal") && u.name != "gal") else {
        return false;
    };
    let plain = |s: &Statement| s.subject.thing == "tank" && amount_of(s).is_some_and(|a| a.unit.name == "gal");
    let Some(held) = turn.latest(plain).filter(|_| clause.end == Some('?')) else { return false };
    let (Some(amount), Says::Value { attribute, .. }) = (amount_of(&held), &held.says) else { return false };
    let value = Said::Amount(amount.in_unit(unit));
    let says = Says::Value { attribute: attribute.clone(), how: How::Replace, value };
    let exact = Statement { says, mark: None, ..held.clone() };
    let said = amount.likely.map(super::value::plain_number).unwrap_or_default();
    let ask = format!("Are the {said} gallons {}?", unit.shown);
    let readings = vec![("yes".to_string(), vec![exact])];
    turn.doubt(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
    true
}

/// "that's wrong": which of the things told?
pub fn all_wrong(turn: &mut Turn, clause: &Clause) -> bool {
    let wrong = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Wrong));
    let only = turn.items.iter().all(|i| match i.what {
        What::Term => !turn.terms[i.first].has_content() && (turn.terms[i.first].is_noise()),
        What::Mark(_) => true,
        _ => false,
    });
    if !wrong || !only || turn.context.held.is_empty() || clause.end == Some('?') {
        return false;
    }
    let names = &turn.listener.lexicon.names;
    let mut readings: Vec<(String, Vec<Statement>)> = Vec::new();
    for held in turn.context.held.iter().rev().take(4) {
        let Says::Value { attribute, value, .. } = &held.says else { continue };
        let figure = match value {
            Said::Amount(a) => {
                format!("{} {}", a.likely.map(super::value::plain_number).unwrap_or_default(), a.unit.shown)
            }
            Said::Word(word) => word.clone(),
            _ => continue,
        };
        let known = names
            .find(&held.subject.thing)
            .zip(names.find(attribute))
            .and_then(|(t, a)| turn.listener.attributes.get(t, a));
        let called = held.subject.kind.as_deref().or(known.map(|k| k.called.as_ref())).unwrap_or(attribute);
        let says = Says::DroppedValue { attribute: attribute.clone() };
        let label = format!("the {called}, {}", figure.trim());
        readings.push((label, vec![Statement { says, mark: None, ..held.clone() }]));
    }
    readings.reverse();
    let labels: Vec<&str> = readings.iter().map(|(l, _)| l.as_str()).collect();
    let ask = format!("What is wrong: {}?", crate::source::words::or_list(&labels));
    let terms = turn.terms_between(clause.from, clause.to - 1);
    turn.doubt(Doubt { readings, ..Doubt::new(Doubtful::Which, ask, terms) });
    true
}

/// "yes 54", "yes 3": what was told, or one of two values, once more.
pub fn agreed_figure(turn: &mut Turn, clause: &Clause) -> bool {
    if clause.to != clause.from + 2 || clause.end == Some('?') || turn.context.asked.is_some() {
        return false;
    }
    let What::Amount(measure) = turn.items[clause.from + 1].what.clone() else { return false };
    let agrees = |s: &Sense| matches!(s, Sense::Act(Act::Agree));
    let first = turn.items[clause.from].first;
    let (Some(value), true) = (measure.likely, turn.terms[first].senses.iter().any(agrees)) else { return false };
    let has = |s: &Statement| {
        amount_of(s).is_some_and(|a| {
            a.likely == Some(value)
                && (measure.is_plain() || measure.units.iter().any(|u| u.dimension == a.unit.dimension))
        })
    };
    let terms = turn.terms_between(clause.from + 1, clause.to - 1);
    let offered = turn.context.pending.iter().flat_map(|p| &p.readings);
    let picked = offered.filter(|(_, s)| s.iter().any(has)).map(|(_, s)| s.clone()).next();
    if let Some(statements) = picked {
        turn.act(Act::Agree, &[first]);
        super::answer::adopt(turn, &statements, &terms);
        return true;
    }
    let Some(held) = turn.latest(has) else { return false };
    turn.confirm(&[first]);
    let mut found = Found::new(held.subject.clone(), held.says.clone(), terms);
    found.mark = held.mark;
    turn.state_fact(found);
    true
}

/// "3in" after "2in", "seven" after "seven or eight", "3 months" once more: a figure that is all of a line.
pub fn lone_figure(turn: &mut Turn, clause: &Clause) -> bool {
    let whole = turn.items.iter().enumerate().all(|(i, item)| match item.what {
        What::Mark(_) => true,
        What::Term => turn.terms[item.first].is_noise() && !turn.terms[item.first].has_content(),
        _ => i >= clause.from && i < clause.to,
    });
    let open = turn.context.asked.is_some() || turn.context.pending.as_ref().is_some_and(|p| p.why != Doubtful::Taken);
    if !whole || open || turn.correcting || clause.end == Some('?') || turn.context.held.is_empty() {
        return false;
    }
    again_time(turn, clause) || digits_said(turn, clause) || narrower(turn, clause) || second_length(turn, clause)
}

/// "3 months": the time told before, told again.
fn again_time(turn: &mut Turn, clause: &Clause) -> bool {
    let [item] = [clause.from];
    let What::Time(super::time_words::Time::Span { measure, .. }) = &turn.items[item].what else { return false };
    let Some(unit) = measure.unit_of(Dimension::TIME).filter(|_| clause.to == clause.from + 1) else { return false };
    let amount = measure.amount(unit);
    let same = |s: &Statement| {
        matches!(&s.says, Says::Value { value: Said::Time { amount: a, .. }, .. }
            if a.likely == amount.likely && a.unit.name == unit.name)
    };
    let Some(held) = turn.latest(same) else { return false };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    turn.confirm(&terms);
    let says = match held.says.clone() {
        Says::Value { attribute, value, .. } => Says::Value { attribute, how: How::Set, value },
        says => says,
    };
    turn.state_fact(Found::new(held.subject, says, terms));
    true
}

/// "one three": thirteen, digit by digit, where thirteen was told.
fn digits_said(turn: &mut Turn, clause: &Clause) -> bool {
    let mut value = 0.0;
    let mut count = 0;
    for item in clause.from..clause.to {
        let figure = match &turn.items[item].what {
            What::Amount(m) if m.is_plain() && !m.refused => m.likely,
            What::Mark(_) => continue,
            _ => None,
        };
        let Some(digit) = figure.filter(|d| (0.0..10.0).contains(d) && d.fract() == 0.0) else { return false };
        value = value * 10.0 + digit;
        count += 1;
    }
    let Some(held) = turn.latest(|s| count > 1 && amount_of(s).is_some_and(|a| a.likely == Some(value))) else {
        return false;
    };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    turn.confirm(&terms);
    turn.state_fact(Found::new(held.subject, held.says, terms).marked(held.mark));
    true
}

/// "seven" after "seven or eight": one of a range told last.
fn narrower(turn: &mut Turn, clause: &Clause) -> bool {
    let What::Amount(measure) = turn.items[clause.from].what.clone() else { return false };
    let (Some(value), true) = (measure.likely, clause.to == clause.from + 1 && measure.is_plain()) else {
        return false;
    };
    let Some(held) = turn.context.held.last().cloned() else { return false };
    let (Some(amount), Says::Value { attribute, .. }) = (amount_of(&held), &held.says) else { return false };
    let within = amount.low.is_some_and(|l| l <= value) && amount.high.is_some_and(|h| value <= h);
    if !within || amount.is_exact() {
        return false;
    }
    let new = if amount.unit.name.is_empty() { measure.count() } else { measure.amount(amount.unit) };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    turn.replace(held.subject.clone(), attribute.clone(), Said::Amount(new), terms);
    true
}

/// "3in" after "6 angels 2in": a second value for the length told last.
fn second_length(turn: &mut Turn, clause: &Clause) -> bool {
    let What::Amount(measure) = turn.items[clause.from].what.clone() else { return false };
    let Some(unit) = measure.unit_of(Dimension::LENGTH).filter(|_| clause.to == clause.from + 1) else { return false };
    let length = |s: &Statement| amount_of(s).is_some_and(|a| a.unit.dimension == Dimension::LENGTH);
    let Some(held) = turn.context.held.iter().rev().find(|s| length(s)).cloned() else { return false };
    let Says::Value { attribute, .. } = held.says else { return false };
    if !matches!(held.subject.thing.as_str(), "stock" | "medium") {
        return false;
    }
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let says = Says::Value { attribute, how: How::Set, value: Said::Amount(measure.amount(unit)) };
    turn.state_fact(Found::new(held.subject, says, terms));
    true
}

/// Everyday words that stand where a noun of ours would: "the form on the pump is black". Asked about, never taken.
pub fn near_words(turn: &mut Turn) {
    let mut meant: Vec<&str> = Vec::new();
    let mut terms: Vec<usize> = Vec::new();
    for at in 1..turn.terms.len() {
        let (before, term) = (&turn.terms[at - 1], &turn.terms[at]);
        let noun = before.is(Role::Definite) || before.is(Role::A);
        let Some(ours) = turn.listener.lexicon.mistaken(&turn.words[term.first].text).filter(|_| noun) else {
            continue;
        };
        if before.is(Role::It) && before.is(Role::Correct) || term.first != term.last {
            continue;
        }
        if !meant.contains(&ours) {
            meant.push(ours);
        }
        terms.push(at);
    }
    if meant.is_empty() {
        return;
    }
    let ask = format!("Did you mean {}?", crate::source::words::and_list(&meant));
    turn.doubt(Doubt::new(Doubtful::Ambiguous, ask, terms.clone()));
    // The span runs over what lies between: only the words themselves are in question.
    if let [first, ..] = terms[..]
        && let Some(back) = turn.reading.back.last_mut()
    {
        back.span = turn.words[turn.terms[first].first].span;
    }
}

/// Pictures of fish: none is a fact, but somebody has fish.
const FISH_PICTURES: [char; 4] = ['\u{1f41f}', '\u{1f420}', '\u{1f421}', '\u{1f988}'];

/// What a line without any fact seems to be about.
pub fn nothing_named(turn: &mut Turn) {
    let stock = turn.reading.statements.iter().chain(&turn.context.held).any(|s| s.subject.thing == "stock");
    let pictured = turn.words.iter().any(|w| w.sort == Sort::Other && w.span.of(turn.text).contains(FISH_PICTURES));
    if pictured && !stock && turn.reading.back.is_empty() {
        turn.doubt(Doubt::new(Doubtful::NoFigure, "Which fish, and how many?", Vec::new()));
    }
    let reading = &turn.reading;
    let silent = reading.statements.is_empty() && reading.asks.is_empty() && reading.acts.is_empty();
    let one = (1..turn.terms.len()).find(|t| turn.terms[*t].is(Role::One) && turn.terms[t - 1].is(Role::Definite));
    let one = one.or_else(|| turn.terms.first().filter(|t| t.is(Role::One) && t.last > t.first).map(|_| 0));
    if let Some(one) = one
        && silent
        && reading.back.is_empty()
        && turn.context.held.is_empty()
    {
        turn.doubt(Doubt::new(Doubtful::Which, "Which one: the tank or the filter?", vec![one]));
    }
}
