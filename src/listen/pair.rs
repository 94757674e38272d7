//! Questions answered in the same breath: "prefilter? none", "3 filters? 2", "hex? no box". In: clauses. Out: clauses in
//! which such a pair is one. Knows no meaning.

use super::clause::Clause;
use super::items::{Item, What};
use super::lexicon::Sense;
use super::term::Term;
use crate::knowledge::language::Role;

/// Joins every question that is only a name with the answer behind it.
pub fn answered(clauses: &[Clause], items: &[Item], terms: &[Term]) -> Vec<Clause> {
    let mut joined: Vec<Clause> = Vec::with_capacity(clauses.len());
    let mut at = 0;
    while at < clauses.len() {
        let clause = clauses[at];
        let next = clauses.get(at + 1).filter(|n| !n.line);
        match next {
            Some(next)
                if clause.end == Some('?')
                    && is_name(&clause, items, terms)
                    && is_answer(next, &clause, items, terms) =>
            {
                joined.push(Clause { to: next.to, end: next.end, answer: next.from, ..clause });
                at += 2;
            }
            Some(next)
                if is_tag(next, items, terms) && draws_conclusion(&clause, items, terms)
                    || is_auxiliary_tag(next, items, terms) && !next.starts =>
            {
                joined.push(Clause { tagged: true, ..clause });
                at += 2;
            }
            _ => {
                joined.push(clause);
                at += 1;
            }
        }
    }
    joined
}

/// "yes?", "right?", "isn't it".
fn is_tag(clause: &Clause, items: &[Item], terms: &[Term]) -> bool {
    clause.end == Some('?')
        && clause.to == clause.from + 1
        && items[clause.from].what == What::Term
        && terms[items[clause.from].first].is(Role::Tag)
}

/// "shall I?", "should we?": asks about what stands before.
fn is_auxiliary_tag(clause: &Clause, items: &[Item], terms: &[Term]) -> bool {
    clause.end == Some('?')
        && clause.to == clause.from + 2
        && (clause.from..clause.to).all(|i| items[i].what == What::Term)
        && terms[items[clause.from].first].senses.iter().any(|s| matches!(s, Sense::Ask(super::reading::Form::Whether)))
        && terms[items[clause.from + 1].first].is(Role::Person)
}

/// Begins with "so": what follows is worked out, not told.
fn draws_conclusion(clause: &Clause, items: &[Item], terms: &[Term]) -> bool {
    items[clause.from].what == What::Term && terms[items[clause.from].first].is(Role::So)
        || clause.joint == Some(Role::Then)
}

/// Only a name, perhaps with a figure: no verb, no preposition.
fn is_name(clause: &Clause, items: &[Item], terms: &[Term]) -> bool {
    clause.to - clause.from <= 3
        && (clause.from..clause.to).any(|i| items[i].what == What::Term && terms[items[i].first].has_content())
        && (clause.from..clause.to).all(|i| match items[i].what {
            What::Term => {
                let term = &terms[items[i].first];
                term.has_content() && !term.senses.iter().any(|s| matches!(s, Sense::Ask(_))) && !term.is(Role::In)
            }
            What::Amount(_) => true,
            _ => false,
        })
}

/// None, yes, a figure, a level, or a thing of the same sort.
fn is_answer(next: &Clause, name: &Clause, items: &[Item], terms: &[Term]) -> bool {
    let term = |i: usize| &terms[items[i].first];
    let first = &items[next.from];
    if next.end == Some('?') {
        return false;
    }
    let figures = (next.from..next.to).filter(|i| matches!(items[*i].what, What::Amount(_) | What::Timed(..))).count();
    match &first.what {
        What::Term => {
            let t = term(next.from);
            let word = t.is(Role::No)
                || t.level().is_some()
                || t.senses.iter().any(|s| matches!(s, Sense::Act(super::reading::Act::Agree)));
            let generic = |of: super::name::Name| {
                (name.from..name.to).any(|i| items[i].what == What::Term && term(i).names_thing(of))
                    && term(next.from).senses.iter().any(|s| matches!(s, Sense::Named { thing, .. } if *thing == of))
            };
            word && next.to - next.from <= 3 || generic(super::name::MEDIUM) && next.to - next.from <= 2
        }
        What::Amount(m) => {
            let stock =
                (name.from..name.to).any(|i| items[i].what == What::Term && term(i).names_thing(super::name::STOCK));
            m.units.is_empty() && !m.refused && figures == 1 && next.to - next.from == 1 || stock
        }
        What::Timed(..) => next.to - next.from == 1,
        _ => false,
    }
}
