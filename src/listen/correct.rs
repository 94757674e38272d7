//! Corrections: what takes the place of what was said before. In: a clause, what is held and what this line said. Out:
//! statements that replace or withdraw, or a sign that the rest of the line corrects. Knows no question.

use super::change::{drop_things, fewer_filters, more_or_fewer, or_more, swap};
use super::clause::Clause;
use super::found::{Doubt, Found, subject};
use super::items::What;
use super::measure::Measure;
use super::name::{self, Name};
use super::reading::{Act, Doubtful, How, Said, Says, Statement, Subject};
use super::state::same_thing;
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::units::{Amount, Unit};

/// A part of a clause that matters for a correction.
#[derive(Debug)]
pub enum Part {
    Figure(usize, Box<Measure>),
    Unit(usize, Vec<&'static Unit>),
    Label(usize, Name),
    /// "not", "no"; whether it is the latter, which may also answer.
    Not(bool),
    Other,
}

/// Reads a clause that only corrects; true when nothing of it is left.
pub fn read(turn: &mut Turn, clause: &Clause) -> bool {
    let marked = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Correct));
    if marked || is_lone_no(turn, clause) {
        turn.correcting = true;
    }
    if super::moved::read(turn, clause) {
        return true;
    }
    if (clause.from..clause.to).any(|i| turn.names_tank(i)) {
        return false;
    }
    if super::not_figure::read(turn, clause) {
        return true;
    }
    let parts = parts(turn, clause);
    let other = parts.iter().any(|p| matches!(p, Part::Other));
    if !other
        && (label_not_label(turn, &parts)
            || label_alone(turn, &parts)
            || figure_alone(turn, clause, &parts)
            || super::unit_told::unit_alone(turn, clause, &parts))
    {
        turn.correcting = true;
        return true;
    }
    if or_more(turn, clause) || fewer_filters(turn, clause) {
        return true;
    }
    super::change::swap_values(turn, clause)
        || super::change::other_tank(turn, clause)
        || super::change::alive_after_all(turn, clause)
        || drop_things(turn, clause)
        || more_or_fewer(turn, clause)
        || swap(turn, clause)
}

/// "no" before a correction: "no, sorry, 45 not 55".
fn is_lone_no(turn: &Turn, clause: &Clause) -> bool {
    // "no it isn't" as well.
    let rest = (clause.from + 1..clause.to).all(|i| {
        let small = turn.has_role(i, Role::It) || turn.has_role(i, Role::Be) || turn.has_role(i, Role::Not);
        turn.items[i].what == What::Term && small && !turn.terms[turn.items[i].first].has_content()
    });
    rest && clause.to - clause.from <= 3
        && turn.has_role(clause.from, Role::No)
        && clause.starts
        && (turn.context.asked.is_none() || leads_a_correction(turn, clause))
}

/// "no" that is taken up by a word that corrects and something behind it ("no, sorry, 60 gallon"): it denies what was said
/// before, and answers nothing.
pub fn leads_a_correction(turn: &Turn, clause: &Clause) -> bool {
    let rest = (clause.to..turn.items.len()).filter(|i| !matches!(turn.items[*i].what, What::Mark(_)));
    let rest: Vec<usize> = rest.collect();
    let corrects = |i: &usize| turn.items[*i].what == What::Term && turn.has_role(*i, Role::Correct);
    rest.first().is_some_and(corrects) && rest.iter().any(|i| !corrects(i))
}

/// A clause that is no more than "sorry", "I mean".
pub fn is_lone_word(turn: &Turn, clause: &Clause) -> bool {
    clause.to - clause.from <= 2
        && turn.has_role(clause.from, Role::Correct)
        && (clause.from..clause.to)
            .all(|i| turn.items[i].what == What::Term && !turn.terms[turn.items[i].first].has_content())
}

/// The sentence that ends the clauses given has words that correct and tells nothing: "No. Sorry."
pub fn only_corrects(turn: &Turn, clauses: &[Clause]) -> bool {
    let Some(start) = clauses.iter().rposition(|c| c.starts) else { return false };
    clauses[start..].iter().flat_map(|c| c.from..c.to).all(|i| {
        turn.items[i].what == What::Term && {
            let term = &turn.terms[turn.items[i].first];
            !term.senses.is_empty() && !term.has_content()
        }
    })
}

fn parts(turn: &Turn, clause: &Clause) -> Vec<Part> {
    let mut parts = Vec::new();
    for item in clause.from..clause.to {
        match &turn.items[item].what {
            // "the black one": a pronoun.
            What::Amount(m) if m.is_plain() && turn.terms[turn.items[item].first].is(Role::One) => {
                parts.push(Part::Other)
            }
            What::Amount(m) => parts.push(Part::Figure(item, Box::new(m.clone()))),
            What::Term => {
                let term = &turn.terms[turn.items[item].first];
                let units: Vec<&'static Unit> = term.units().collect();
                if term.is(Role::Not) || term.is(Role::No) {
                    parts.push(Part::Not(term.is(Role::No)));
                } else if let Some((_, attribute)) = term.labels().find(|(t, _)| *t == name::READING) {
                    parts.push(Part::Label(item, attribute));
                } else if !units.is_empty() && !term.is(Role::In) {
                    parts.push(Part::Unit(item, units));
                } else if term.has_content() && !term.is(Role::Noise) && !term.is(Role::Correct)
                    || term.senses.is_empty()
                {
                    parts.push(Part::Other);
                }
            }
            What::Mark(_) | What::Spoken(_) => {}
            _ => parts.push(Part::Other),
        }
    }
    parts
}

/// "nitrite not nitrate": the value moves.
fn label_not_label(turn: &mut Turn, parts: &[Part]) -> bool {
    let [.., Part::Label(at, right), Part::Not(_), Part::Label(wrong_at, wrong)] = parts else { return false };
    let (right, wrong) = (turn.name(*right).to_string(), turn.name(*wrong).to_string());
    let Some(held) = turn.latest(|s| attribute_of(s) == Some(wrong.as_str()) && s.subject.thing == "reading") else {
        return false;
    };
    let Says::Value { value, .. } = held.says.clone() else { return false };
    let terms = turn.terms_between(*at, *wrong_at);
    let says = Says::Value { attribute: right, how: How::Set, value };
    turn.state_fact(Found::new(held.subject.clone(), says, terms.clone()));
    turn.state_fact(Found::new(held.subject, Says::DroppedValue { attribute: wrong }, terms));
    true
}

/// "oh hang on that's the ammonia": the figure told last belongs to another reading.
fn label_alone(turn: &mut Turn, parts: &[Part]) -> bool {
    let [Part::Label(at, right)] = parts else { return false };
    if !turn.correcting {
        return false;
    }
    let right = turn.name(*right).to_string();
    let Some(held) = turn.latest(|s| s.subject.thing == "reading" && amount_of(s).is_some()) else { return false };
    let Says::Value { attribute: wrong, value, .. } = held.says.clone() else { return false };
    if wrong == right {
        return false;
    }
    let terms = turn.terms_between(*at, *at);
    // A slip of the tongue must not make an emergency, nor hide one.
    let grave = matches!(right.as_str(), "ammonia" | "nitrite") && amount_of(&held).and_then(|a| a.likely) >= Some(1.0);
    if grave {
        let said = amount_of(&held).and_then(|a| a.likely).map(super::value::plain_number).unwrap_or_default();
        let ask = format!(
            "{} at {said} would be an emergency: is it really the {right}?",
            crate::source::words::capital(&right)
        );
        turn.doubt(Doubt::new(Doubtful::Taken, ask, Vec::new()));
    }
    turn.state_fact(Found::new(held.subject.clone(), Says::DroppedValue { attribute: wrong }, terms.clone()));
    let says = Says::Value { attribute: right, how: How::Set, value };
    turn.state_fact(Found::new(held.subject, says, terms));
    true
}

/// "no 50 g", "well, twice", "thirteen, sorry": the figure told last was another.
fn figure_alone(turn: &mut Turn, clause: &Clause, parts: &[Part]) -> bool {
    // "no, not one and a half, fifteen hundred": what it is comes next.
    if let [Part::Not(false), Part::Figure(item, m)] = parts
        && turn.correcting
        && turn.goes_on(clause)
        && m.is_plain()
    {
        let terms = turn.terms_between(*item, *item);
        turn.claim(&terms, super::reading::Became::Noise);
        return true;
    }
    let (item, measure) = match parts {
        [Part::Figure(item, m)] if turn.correcting => (*item, m),
        [Part::Not(true), Part::Figure(item, m)] if clause.starts || turn.correcting => (*item, m),
        _ => return false,
    };
    if measure.refused || clause.end == Some('?') || matches!(measure.likely, Some(0.0)) {
        return false;
    }
    let has_noun = (clause.from..clause.to).any(|i| {
        turn.items[i].what == What::Term
            && turn.terms[turn.items[i].first].has_content()
            && !turn.has_role(i, Role::Noise)
            && !turn.has_role(i, Role::Correct)
    });
    if has_noun {
        return false;
    }
    // "it's seventy": not of fish, which are many.
    let it = (clause.from..clause.to).any(|i| turn.has_role(i, Role::It) && turn.has_role(i, Role::Be));
    let fits = |s: &Statement| {
        amount_of(s).is_some_and(|a| {
            if measure.is_plain() {
                s.subject.thing != "keeper" && !(it && s.subject.thing == "stock") && turn.may_be(s, measure)
            } else {
                measure.units.iter().any(|u| u.dimension == a.unit.dimension)
            }
        })
    };
    // "200 lph then? no 400": what was asked about just now.
    let asked = turn.reading.asks.last().and_then(|a| a.suppose.iter().find(|s| amount_of(s).is_some())).cloned();
    let asked = asked.or_else(|| {
        let found = turn.doubted.iter().find(|f| f.attribute().is_some())?;
        Some(Statement {
            span: Default::default(),
            subject: found.subject.clone(),
            says: found.says.clone(),
            mark: None,
        })
    });
    let asked =
        asked.and_then(|a| turn.latest(|s| same_thing(&s.subject, &a.subject) && attribute_of(s) == attribute_of(&a)));
    let Some(held) = asked.or_else(|| turn.latest(fits)) else { return false };
    let (Some(amount), Says::Value { attribute, .. }) = (amount_of(&held), &held.says) else { return false };
    let unit = measure.units.iter().find(|u| u.dimension == amount.unit.dimension).copied().unwrap_or(amount.unit);
    let terms = turn.terms_between(item, item);
    let new = if unit.name.is_empty() { measure.count() } else { measure.amount(unit) };
    if new == amount {
        turn.confirm(&terms);
        let says = Says::Value { attribute: attribute.clone(), how: How::Set, value: Said::Amount(new) };
        turn.state_fact(Found::new(held.subject.clone(), says, terms));
        return true;
    }
    // "make it 20 ppi as well": instead of the first, or besides?
    let also = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Another));
    if also && held.subject.thing == "medium" {
        let figure = |a: Amount| a.likely.map(super::value::plain_number).unwrap_or_default();
        let ask = format!("{} instead of {}, or a second layer?", figure(new), figure(amount));
        let value = |of: &Subject, how: How| Statement {
            span: Default::default(),
            subject: of.clone(),
            says: Says::Value { attribute: attribute.clone(), how, value: Said::Amount(new) },
            mark: None,
        };
        let second = Subject { number: held.subject.number + 1, ..held.subject.clone() };
        let readings = vec![
            ("instead".to_string(), vec![value(&held.subject, How::Replace)]),
            ("a second one".to_string(), vec![held.clone(), value(&second, How::Set)]),
        ];
        turn.doubt(Doubt { readings, ..Doubt::new(Doubtful::Taken, ask, Vec::new()) });
    }
    turn.replace(held.subject.clone(), attribute.clone(), Said::Amount(new), terms);
    true
}

pub fn amount_of(statement: &Statement) -> Option<Amount> {
    match &statement.says {
        Says::Value { value: Said::Amount(a), .. } => Some(*a),
        _ => None,
    }
}

pub fn attribute_of(statement: &Statement) -> Option<&str> {
    match &statement.says {
        Says::Value { attribute, .. } => Some(attribute),
        _ => None,
    }
}

impl Turn<'_, '_> {
    /// The latest statement, of this line or held before, that `test` accepts.
    pub fn latest(&self, test: impl Fn(&Statement) -> bool) -> Option<Statement> {
        let here = self.reading.statements.iter().rev().find(|s| test(s));
        here.or_else(|| self.context.held.iter().rev().find(|s| test(s))).cloned()
    }

    /// A value that takes the place of the one held.
    pub fn replace(&mut self, of: Subject, attribute: String, value: Said, terms: Vec<usize>) {
        let says = Says::Value { attribute, how: How::Set, value };
        let mut found = Found::new(of, says, terms);
        found.replaces = true;
        self.state_fact(found);
    }

    /// The figure is one that the attribute of the statement can have.
    pub fn may_be(&self, held: &Statement, measure: &Measure) -> bool {
        let names = &self.listener.lexicon.names;
        let known = attribute_of(held).and_then(|a| names.find(&held.subject.thing).zip(names.find(a)));
        let Some(known) = known.and_then(|(t, a)| self.listener.attributes.get(t, a)) else { return true };
        amount_of(held).is_some_and(|a| super::value::is_plausible(known, &measure.amount(a.unit)))
    }

    /// What was said is only said again.
    pub fn confirm(&mut self, terms: &[usize]) {
        self.act(Act::Confirm, terms);
    }

    /// All terms of items `from..=to`.
    pub fn terms_between(&self, from: usize, to: usize) -> Vec<usize> {
        (self.items[from].first..=self.items[to].last).collect()
    }

    pub fn has_role(&self, item: usize, role: Role) -> bool {
        match self.items[item].what {
            What::Term => self.terms[self.items[item].first].is(role),
            What::Spoken(r) => r == role,
            _ => false,
        }
    }

    pub fn name(&self, name: Name) -> &str {
        self.listener.lexicon.text(name)
    }

    /// The keeper, for what is said of units and money.
    pub fn keeper(&self) -> Subject {
        subject("keeper", None)
    }
}
