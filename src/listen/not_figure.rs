//! One figure in the place of another: "45 not 55", "10000 instead of 12000", "it's 10000 not 12", "not 12, it's 10". In: a
//! clause and what is held. Out: the value that the second figure was is replaced by the first. Knows no question.

use super::clause::Clause;
use super::correct::{amount_of, attribute_of};
use super::found::Found;
use super::items::What;
use super::measure::Measure;
use super::reading::{Became, How, Mark, Said, Says, Statement};
use super::state::same_thing;
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::units::Amount;

/// A correction moves a figure by no more than this factor when its thousands may be left unsaid (settled choice): the "12" of
/// "10000 not 12" is 12000 and not the twelve fish.
const FARTHEST: f64 = 30.0;
/// "12" of twelve thousand.
const THOUSAND: f64 = 1000.0;

/// Reads the figure that is right, and the one that was wrong.
pub fn read(turn: &mut Turn, clause: &Clause) -> bool {
    let figures: Vec<(usize, Measure)> = (clause.from..clause.to)
        .filter_map(|i| match &turn.items[i].what {
            What::Amount(m) if !m.refused && !m.article => Some((i, m.clone())),
            _ => None,
        })
        .collect();
    match figures.as_slice() {
        [(at, new), (old_at, old)] if let Some(not) = turn.denial(*at + 1, *old_at) => {
            let bare = (*at + 1..not).all(|i| turn.is_small(i));
            bare && replace(turn, clause, (*at, new), (*old_at, old))
                || !bare && around(turn, clause, (not, *old_at), old)
        }
        [(old_at, old), (at, new)] if let Some(not) = turn.denial(clause.from, *old_at) => {
            let bare = (*old_at + 1..*at).all(|i| turn.is_small(i) && !turn.has_role(i, Role::Or))
                && (*at + 1..clause.to).all(|i| turn.is_small(i));
            bare && replace(turn, clause, (*at, new), (*old_at, old))
                || !bare && around(turn, clause, (not, *old_at), old)
        }
        [(old_at, old)]
            if turn.denial(clause.from, *old_at).is_some() && (old_at + 1..clause.to).all(|i| turn.is_aside(i)) =>
        {
            behind_the_right_one(turn, clause, old) || wrong_alone(turn, clause, (*old_at, old))
        }
        [(at, new)] if turn.wrong_value.is_some() => right_alone(turn, clause, (*at, new)),
        _ => false,
    }
}

/// "it's 12 koi not 14", "rather than 20 it's 25 neons": the rest of the clause says what the right figure is of.
fn around(turn: &mut Turn, clause: &Clause, (not, old_at): (usize, usize), old: &Measure) -> bool {
    let Some(value) = old.value() else { return false };
    let was = |s: &Statement| amount_of(s).is_some_and(|a| a.likely == Some(value));
    let rest = [(clause.from, not), (old_at + 1, clause.to)];
    let named: Vec<Found> = rest
        .iter()
        .filter(|(a, b)| a < b)
        .flat_map(|(a, b)| turn.probe(Clause { from: *a, to: *b, ..*clause }).0)
        .collect();
    let told = named.iter().any(|f| {
        let same = |s: &Statement| same_thing(&f.subject, &s.subject) && f.attribute() == attribute_of(s) && was(s);
        f.attribute().is_some() && turn.latest(same).is_some()
    });
    if !told {
        return false;
    }
    turn.correcting = true;
    for (from, to) in rest.into_iter().filter(|(a, b)| a < b) {
        turn.clause(&Clause { from, to, starts: false, ..*clause });
    }
    let terms = turn.terms_between(not, old_at);
    let last = turn.reading.statements.len().saturating_sub(1);
    turn.claim(&terms, Became::Statement(last));
    true
}

/// "nitrate is more like 20, not 40": the value told just now is the right one.
fn behind_the_right_one(turn: &mut Turn, clause: &Clause, old: &Measure) -> bool {
    if clause.starts {
        return false;
    }
    let right = turn.contradicted.iter().rposition(|(held, _)| amount_of(held).and_then(|a| a.likely) == old.value());
    let Some(right) = right else { return denied_at_once(turn, clause, old) };
    let (_, new) = turn.contradicted.remove(right);
    let told = turn.reading.statements.iter().position(|s| s.subject == new.subject && s.says == new.says);
    let Some(told) = told else { return false };
    if let Says::Value { how, .. } = &mut turn.reading.statements[told].says {
        *how = How::Replace;
    }
    let terms = turn.terms_between(clause.from, clause.to - 1);
    turn.claim(&terms, Became::Statement(told));
    true
}

/// "not 12, it's 10": what it is comes next.
fn wrong_alone(turn: &mut Turn, clause: &Clause, (at, old): (usize, &Measure)) -> bool {
    if !turn.goes_on(clause) {
        return false;
    }
    let Some(value) = old.value() else { return false };
    let Some(held) = turn.latest(|s| amount_of(s).is_some_and(|a| a.likely == Some(value) && agrees(old, &a))) else {
        return false;
    };
    turn.wrong_value = Some((held, turn.terms_between(clause.from, at)));
    true
}

fn right_alone(turn: &mut Turn, clause: &Clause, (at, new): (usize, &Measure)) -> bool {
    let Some((held, mut terms)) = turn.wrong_value.take() else { return false };
    let named = (clause.from..clause.to).any(|i| {
        turn.items[i].what == What::Term && {
            let term = &turn.terms[turn.items[i].first];
            term.has_content() && !term.is(Role::Noise) && !term.is(Role::Correct)
        }
    });
    // "rather than 20, it's 25 neons": the clause itself says what it is of.
    if named {
        turn.correcting = true;
        turn.claim(&terms, Became::Noise);
        return false;
    }
    if !amount_of(&held).is_some_and(|a| agrees(new, &a)) {
        return false;
    }
    terms.extend(turn.terms_between(at, at));
    set(turn, clause, &held, new, terms);
    true
}

/// "my tank is 54 litres, not 45 as I wrote before": what it is not, where nobody had said that it was.
fn denied_at_once(turn: &mut Turn, clause: &Clause, old: &Measure) -> bool {
    let Some(told) = turn.reading.statements.iter().rposition(|s| amount_of(s).is_some()) else { return false };
    let differs = amount_of(&turn.reading.statements[told]).is_some_and(|a| agrees(old, &a) && a.likely != old.value());
    // "40 gal, no 50 gal" puts right; "not 45" only says what it is not.
    let not = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Not) && !turn.has_role(i, Role::No));
    if !differs || !not || turn.latest(|s| amount_of(s).is_some_and(|a| a.likely == old.value())).is_some() {
        return false;
    }
    let terms = turn.terms_between(clause.from, clause.to - 1);
    turn.claim(&terms, Became::Statement(told));
    true
}

/// Finds what held the wrong figure and gives it the right one.
fn replace(turn: &mut Turn, clause: &Clause, (at, new): (usize, &Measure), (old_at, old): (usize, &Measure)) -> bool {
    let (Some(value), Some(right)) = (old.value(), new.value()) else { return false };
    let named = turn.probe(*clause).0;
    let spoken = |s: &Statement| {
        named
            .iter()
            .any(|f| f.attribute().is_some() && same_thing(&f.subject, &s.subject) && f.attribute() == attribute_of(s))
    };
    // How far the figure held is from the right one, and whether the clause names it.
    let judged = |s: &Statement| -> Option<(bool, f64)> {
        let amount = amount_of(s)?;
        let was = amount.likely.or(amount.high)?;
        // "it's 10000 not 12", "8 not 9": thousands left unsaid.
        let unsaid = old.is_plain() && value < THOUSAND && was == value * THOUSAND;
        let is = if unsaid && right < THOUSAND { right * THOUSAND } else { right };
        let apart = (is / was).ln().abs();
        let fits = (was == value || unsaid) && agrees(new, &amount) && agrees(old, &amount);
        (fits && s.subject.thing != "keeper" && (was == value && right < THOUSAND || apart <= FARTHEST.ln()))
            .then(|| (!spoken(s), apart))
    };
    let candidates = turn.reading.statements.iter().rev().chain(turn.context.held.iter().rev());
    let mut best: Option<((bool, f64), Statement)> = None;
    for statement in candidates {
        if let Some(judged) = judged(statement)
            && best.as_ref().is_none_or(|(b, _)| judged < *b)
        {
            best = Some((judged, statement.clone()));
        }
    }
    let Some((_, held)) = best else { return is_right_already(turn, (at, new), (old_at, old)) };
    let Some(amount) = amount_of(&held) else { return false };
    let terms = turn.terms_between(at.min(old_at), at.max(old_at));
    // "8 not 9" of nine thousand.
    let in_thousands = amount.likely == Some(value * THOUSAND) && right < THOUSAND;
    let new = if in_thousands { new.clone().map(|v| v * THOUSAND) } else { new.clone() };
    set(turn, clause, &held, &new, terms);
    // What else the clause says is read by itself.
    let content = |turn: &Turn, from: usize, to: usize| {
        (from..to).any(|i| {
            turn.items[i].what == What::Term && {
                let term = &turn.terms[turn.items[i].first];
                turn.became[term.first].is_none() && term.has_content() && !term.is(Role::Noise)
            }
        })
    };
    for (from, to) in [(clause.from, at.min(old_at)), (at.max(old_at) + 1, clause.to)] {
        if from < to && content(turn, from, to) {
            turn.clause(&Clause { from, to, starts: false, ..*clause });
        }
    }
    true
}

/// "10000 instead of 12000", said again after it was put right.
fn is_right_already(turn: &mut Turn, (at, new): (usize, &Measure), (old_at, old): (usize, &Measure)) -> bool {
    let Some(right) = new.value() else { return false };
    let same = |s: &Statement| {
        amount_of(s).is_some_and(|a| a.likely == Some(right) && agrees(new, &a) && agrees(old, &a))
            && turn.may_be(s, old)
    };
    let Some(held) = turn.context.held.iter().rev().find(|s| same(s)).cloned() else { return false };
    let terms = turn.terms_between(at.min(old_at), at.max(old_at));
    turn.confirm(&terms);
    turn.state_fact(Found::new(held.subject, held.says, terms));
    true
}

/// The figure may be of the same sort as the one held.
fn agrees(measure: &Measure, held: &Amount) -> bool {
    measure.is_plain() || measure.units.iter().any(|u| u.dimension == held.unit.dimension)
}

fn set(turn: &mut Turn, clause: &Clause, held: &Statement, new: &Measure, terms: Vec<usize>) {
    let (Says::Value { attribute, .. }, Some(was)) = (&held.says, amount_of(held)) else { return };
    let said = new.units.iter().find(|u| u.dimension == was.unit.dimension).copied();
    let unit = said.unwrap_or(was.unit);
    let amount = if unit.name.is_empty() { new.count() } else { new.amount(unit) };
    let says = Says::Value { attribute: attribute.clone(), how: How::Set, value: Said::Amount(amount) };
    let guessed = said.is_none() && !unit.name.is_empty();
    let mut found = Found::new(held.subject.clone(), says, terms).marked(guessed.then_some(Mark::Hint));
    found.replaces = true;
    turn.correcting = true;
    let mut found = [found];
    turn.names_of(*clause, &mut found);
    let [found] = found;
    turn.state_fact(found);
}

impl Turn<'_, '_> {
    /// Where the denial begins that ends right before item `to`: "not", "instead of".
    fn denial(&self, from: usize, to: usize) -> Option<usize> {
        let denies =
            |i: usize| self.has_role(i, Role::Not) || self.has_role(i, Role::No) || self.has_role(i, Role::Instead);
        let at = (from..to).rev().take_while(|i| self.is_small(*i)).find(|i| denies(*i))?;
        Some(at)
    }

    /// Words behind the figure that only say when or by whom it was said: "as I wrote before".
    fn is_aside(&self, item: usize) -> bool {
        match self.items[item].what {
            What::Term => {
                let term = &self.terms[self.items[item].first];
                !term.has_content() || term.is(Role::Noise)
            }
            What::Time(_) => true,
            _ => false,
        }
    }

    fn is_small(&self, item: usize) -> bool {
        match self.items[item].what {
            What::Term => {
                let term = &self.terms[self.items[item].first];
                term.is_noise() && !term.has_content()
            }
            What::Mark(_) | What::Spoken(_) => true,
            _ => false,
        }
    }
}
