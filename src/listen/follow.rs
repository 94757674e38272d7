//! Follow-ups: "and for 40?", "what about the shrimp?", "in litres?", "same for the 75". In: a short clause and the question
//! asked last. Out: that question again, with one thing changed. Knows no answer.

use super::clause::Clause;
use super::correct::attribute_of;
use super::found::Found;
use super::items::What;
use super::lexicon::Sense;
use super::reading::{Ask, Became, Doubtful, Form, How, Said, Says, Statement, Subject};
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::units::{Dimension, Unit, unit};

/// Reads a clause that asks the last question again; true when nothing of it is left.
pub fn read(turn: &mut Turn, clause: &Clause) -> bool {
    if clause.to - clause.from > 8 {
        return false;
    }
    let lead = lead(turn, clause);
    if in_another_unit(turn, clause) {
        return true;
    }
    if which_filter(turn, clause) || the_other_one(turn, clause) {
        return true;
    }
    match lead {
        Lead::Same => same_again(turn, clause),
        Lead::About => about_another(turn, clause),
        Lead::And => and_another(turn, clause),
        Lead::None => false,
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Lead {
    None,
    And,
    Same,
    About,
}

fn lead(turn: &Turn, clause: &Clause) -> Lead {
    let role = |role: Role| (clause.from..clause.to.min(clause.from + 2)).any(|i| turn.has_role(i, role));
    if role(Role::Same) && (clause.from..clause.to).any(|i| turn.has_role(i, Role::For)) {
        Lead::Same
    } else if role(Role::About) && clause.starts
        || (clause.from..clause.to).any(|i| turn.has_role(i, Role::About) && turn.has_role(i, Role::Correct))
    {
        Lead::About
    } else if clause.joint == Some(Role::And) && turn.reading.asks.is_empty() && clause.end == Some('?') {
        Lead::And
    } else {
        Lead::None
    }
}

/// "in litres?", "and in lb", "in us gal": the same answer in another unit.
fn in_another_unit(turn: &mut Turn, clause: &Clause) -> bool {
    let mut unit: Option<&'static Unit> = None;
    // "kg pls" as well as "in kg".
    let mut preposition = clause.to == clause.from + 2 && turn.has_role(clause.to - 1, Role::Please);
    for item in clause.from..clause.to {
        match turn.items[item].what {
            What::Term => {
                let term = &turn.terms[turn.items[item].first];
                if let Some(found) = term.units().find(|u| {
                    u.dimension != Dimension::TIME
                        && u.dimension != Dimension::LENGTH
                        && !term.is(Role::In)
                        && !u.name.is_empty()
                }) {
                    unit = unit.or(Some(found));
                } else if term.is(Role::In) {
                    preposition = true;
                } else if !term.is_noise() || term.has_content() {
                    return false;
                }
            }
            What::Mark(_) | What::Spoken(_) => {}
            _ => return false,
        }
    }
    let (Some(unit), true) = (unit, preposition) else { return false };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let says = Says::Value { attribute: "units".into(), how: How::Set, value: Said::Word(unit.name.to_string()) };
    let keeper = turn.keeper();
    turn.state_fact(Found::new(keeper, says, terms.clone()));
    if let Some(ask) = turn.reading.asks.len().checked_sub(1) {
        turn.claim(&terms, Became::Ask(ask));
        return true;
    }
    let topic = turn.context.last_ask.as_ref().map_or("last".to_string(), |a| a.topic.clone());
    push(turn, Form::Again, topic, Vec::new(), Vec::new(), &terms);
    true
}

fn push(turn: &mut Turn, form: Form, topic: String, about: Vec<Subject>, suppose: Vec<Statement>, terms: &[usize]) {
    let span = turn.span_of(terms);
    turn.claim(terms, Became::Ask(turn.reading.asks.len()));
    turn.reading.asks.push(Ask { span, form, topic, about, suppose, named: Vec::new() });
}

/// "the bigger one's" to "which filter?": the question again, about that one.
fn which_filter(turn: &mut Turn, clause: &Clause) -> bool {
    // Only where the question itself was asked back: its readings name filters and say nothing of them.
    let named = |p: &super::reading::AskBack| !p.readings.is_empty() && p.readings.iter().all(|(_, s)| s.is_empty());
    let which = turn.context.pending.as_ref().is_some_and(|p| p.why == Doubtful::Which && named(p));
    let Some(last) = turn.context.last_ask.clone().filter(|_| which) else { return false };
    let larger = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Larger));
    let smaller = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Smaller));
    let kind = (clause.from..clause.to).find_map(|i| {
        let senses = turn.terms[turn.items[i].first].senses;
        senses.iter().find_map(|s| match s {
            Sense::Named { thing: super::name::FILTER, kind, .. } => Some(turn.name(*kind).to_string()),
            _ => None,
        })
    });
    let mut known: Vec<(f64, u16)> = Vec::new();
    for filter in &turn.state.filters {
        if kind.is_some() && filter.kind == kind {
            known = vec![(0.0, filter.number)];
            break;
        }
        let size = turn.state.size_of(filter.tank).and_then(|a| a.base().likely);
        known.extend(size.filter(|_| larger || smaller).map(|s| (s, filter.number)));
    }
    known.sort_by(|a, b| a.0.total_cmp(&b.0));
    let number = match (known.as_slice(), larger) {
        ([.., (_, number)], true) | ([(_, number), ..], false) => *number,
        _ => return false,
    };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let of = Subject { number, ..super::found::subject("filter", None) };
    push(turn, last.form, last.topic, vec![of], last.suppose, &terms);
    true
}

/// "and the other one": the last question on the other of what was offered.
fn the_other_one(turn: &mut Turn, clause: &Clause) -> bool {
    let other = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Other));
    let bare = (clause.from..clause.to).all(|i| match turn.items[i].what {
        What::Term => {
            let term = &turn.terms[turn.items[i].first];
            !term.has_content() && term.is_noise() && !term.is(Role::Have)
        }
        What::Amount(_) => turn.terms[turn.items[i].first].is(Role::One),
        _ => false,
    });
    let whole =
        clause.starts && clause.to == turn.items.iter().rposition(|i| i.what == What::Term).map_or(0, |p| p + 1);
    let Some(last) = turn.context.last_ask.clone().filter(|_| other && bare && whole) else { return false };
    if turn.context.pending.is_some() || clause.to - clause.from > 4 || last.form == Form::WhatIf {
        return false;
    }
    let terms = turn.terms_between(clause.from, clause.to - 1);
    push(turn, last.form, last.topic, Vec::new(), last.suppose, &terms);
    true
}

/// "same for the 75": the last question on another thing.
fn same_again(turn: &mut Turn, clause: &Clause) -> bool {
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let Some(last) = turn.context.last_ask.clone() else {
        let said = turn.span_of(&terms).of(turn.text).to_string();
        turn.doubt(super::found::Doubt::new(Doubtful::Which, format!("{said}: what do you want to know?"), terms));
        return true;
    };
    let (found, _) = turn.bind(*clause, false);
    for finding in found {
        turn.state_fact(finding);
    }
    push(turn, last.form, last.topic, last.about, Vec::new(), &terms);
    true
}

/// "what about the shrimp?": the last question about them.
fn about_another(turn: &mut Turn, clause: &Clause) -> bool {
    let Some(last) = turn.context.last_ask.clone() else { return false };
    let (found, _) = turn.probe(*clause);
    if found.is_empty() || found.iter().any(|f| f.subject.thing == "filter") {
        return false;
    }
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let about: Vec<Subject> = found.iter().map(|f| f.subject.clone()).collect();
    for mut finding in found {
        if finding.definite {
            finding.says = if finding.bare { Says::Present } else { finding.says };
            if finding.subject.thing == "tank" {
                turn.state.tank = finding.subject.number;
            }
            turn.state_fact(finding);
        }
    }
    push(turn, last.form, last.topic, about, Vec::new(), &terms);
    true
}

/// "and for 40?", "and 1?", "and monthly?": the last question with another value.
fn and_another(turn: &mut Turn, clause: &Clause) -> bool {
    let Some(last) = turn.context.last_ask.clone() else { return false };
    let asks = (clause.from..clause.to).any(|i| {
        turn.items[i].what == What::Term
            && turn.terms[turn.items[i].first].senses.iter().any(|s| matches!(s, Sense::Ask(f) if *f != Form::Whether))
    });
    if asks {
        return false;
    }
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let form = if last.form == Form::WhatIf { Form::WhatIf } else { Form::Again };
    let (found, _) = turn.probe(*clause);
    let mut suppose: Vec<Statement> = found
        .iter()
        .filter(|f| f.attribute().is_some() || !f.bare)
        .map(|f| Statement { span: Default::default(), subject: f.subject.clone(), says: f.says.clone(), mark: f.mark })
        .collect();
    // "and 2 of those?": so many of what was asked about.
    let of_those = (clause.from..clause.to).any(|i| {
        turn.has_role(i, Role::Of)
            && i > clause.from
            && i + 1 < clause.to
            && (turn.has_role(i + 1, Role::It) || turn.has_role(i + 1, Role::Definite))
    });
    if suppose.is_empty() && of_those {
        let medium = last.about.iter().find(|s| s.thing == "medium").cloned();
        let count = (clause.from..clause.to).find_map(|i| match &turn.items[i].what {
            What::Amount(m) if m.is_plain() && !m.refused => Some(m.count()),
            _ => None,
        });
        if let Some((of, count)) = medium.zip(count) {
            let says = Says::Value { attribute: "count".into(), how: How::Set, value: Said::Amount(count) };
            suppose.push(Statement { span: Default::default(), subject: of, says, mark: None });
        }
        push(turn, form, last.topic, last.about, suppose, &terms);
        return true;
    }
    // "and monthly?": another time for what the last question supposed.
    if suppose.is_empty()
        && let Some(value) = time_alone(turn, clause, &last)
    {
        suppose.push(value);
    }
    // A figure alone measures what the last question spoke of.
    if suppose.is_empty()
        && let Some(value) = figure_alone(turn, clause, &last)
    {
        suppose.push(value);
    }
    if suppose.is_empty() {
        return false;
    }
    push(turn, form, last.topic, last.about, suppose, &terms);
    true
}

fn time_alone(turn: &Turn, clause: &Clause, last: &Ask) -> Option<Statement> {
    use super::time_words::Time;
    let (relation, measure) = (clause.from..clause.to).find_map(|i| match &turn.items[i].what {
        What::Time(Time::Span { relation, measure }) => Some((*relation, measure.clone())),
        _ => None,
    })?;
    let same =
        |s: &&Statement| matches!(&s.says, Says::Value { value: Said::Time { relation: r, .. }, .. } if *r == relation);
    let of = last.suppose.iter().find(same)?;
    let (Says::Value { attribute, .. }, Some(unit)) = (&of.says, measure.unit_of(Dimension::TIME)) else { return None };
    let value = Said::Time { relation, amount: measure.amount(unit) };
    let says = Says::Value { attribute: attribute.clone(), how: How::Set, value };
    Some(Statement { says, ..of.clone() })
}

fn figure_alone(turn: &Turn, clause: &Clause, last: &Ask) -> Option<Statement> {
    let measure = (clause.from..clause.to).find_map(|i| match &turn.items[i].what {
        What::Amount(m) if m.is_plain() && !m.refused => Some(m.clone()),
        What::Time(super::time_words::Time::Span { .. }) => None,
        _ => None,
    })?;
    let of = last.suppose.iter().find(|s| attribute_of(s).is_some()).cloned().or_else(|| {
        turn.latest(|s| matches!(&s.says, Says::Value { value: Said::Amount(_), .. }) && s.subject.thing != "keeper")
    })?;
    let Says::Value { attribute, value: Said::Amount(held), .. } = &of.says else { return None };
    let says =
        Says::Value { attribute: attribute.clone(), how: How::Set, value: Said::Amount(measure.amount(held.unit)) };
    let _ = unit::plain();
    Some(Statement { span: Default::default(), subject: of.subject.clone(), says, mark: None })
}
