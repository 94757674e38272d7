//! Items: the line as a row of figures, times, marks and terms. In: terms and the grammar. Out: items in order.
//! Knows the grammar of figures and nothing of things.

use super::amount::Grammar;
use super::lexicon::Sense;
use super::measure::Measure;
use super::sizes::Sizes;
use super::stream::{Read, Terms};
use super::term::Term;
use super::time_words::Time;
use crate::knowledge::language::Role;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::map;

#[derive(Clone, Debug)]
pub struct Item {
    /// Indices of the first and the last term.
    pub first: usize,
    pub last: usize,
    pub what: What,
}

#[derive(Clone, Debug, PartialEq)]
pub enum What {
    Amount(Measure),
    Sizes(Sizes),
    /// Figures in a row: three readings.
    Row(Vec<Measure>),
    /// A volume in a time.
    Timed(Measure, Measure),
    Time(Time),
    /// Many, without a figure.
    Uncounted,
    Mark(char),
    /// A word of everyday speech in figures: "media 4 my tank".
    Spoken(Role),
    /// "mk 3", "type 2": part of a name.
    Model,
    /// Anything else: look at the term.
    Term,
}

/// Cuts terms into items.
pub fn items(terms: &[Term], grammar: Grammar) -> Vec<Item> {
    let mut items: Vec<Item> = Vec::with_capacity(terms.len());
    let mut at = 0;
    while at < terms.len() {
        let term = &terms[at];
        let input = Terms { rest: &terms[at..], at };
        let tested = at > 0
            && (terms[at - 1].names_thing(super::name::READING)
                || terms[at - 1].is(Role::Be)
                || terms[at - 1].labels().any(|(t, _)| t == super::name::READING));
        let read = if may_begin_figure(term) { figure(input, grammar, items.last(), tested) } else { None };
        let model = term.is(Role::Model)
            && !term.has_content_named()
            && terms.get(at + 1).is_some_and(|t| t.numeral().is_some_and(|n| n.is_whole && n.value < 100.0))
            && terms.get(at + 2).is_none_or(|t| t.units().next().is_none() || !t.tight);
        if model {
            items.push(Item { first: at, last: at + 1, what: What::Model });
            at += 2;
            continue;
        }
        let (what, next) = match read {
            Some((what, rest)) if rest.at > at => (what, rest.at),
            _ => match term.mark() {
                Some(c) => (What::Mark(c), at + 1),
                None if term.senses.iter().any(|s| matches!(s, Sense::Uncounted)) => (What::Uncounted, at + 1),
                None => (What::Term, at + 1),
            },
        };
        items.push(Item { first: at, last: next - 1, what });
        at = next;
    }
    items
}

fn may_begin_figure(term: &Term) -> bool {
    if term.numeral().is_some() {
        return true;
    }
    match term.mark() {
        Some(c) => matches!(c, '~' | '<' | '>' | '£' | '$' | '€' | '-' | '≥' | '≤'),
        None => term.senses.iter().any(|s| match s {
            Sense::Number(_)
            | Sense::Multiplier(_)
            | Sense::Fraction(_)
            | Sense::Group(_)
            | Sense::Hedge { after: false, .. }
            | Sense::Bound { after: false, .. }
            | Sense::Vague(_)
            | Sense::Moment(_)
            | Sense::Unit(_)
            | Sense::Time(_) => true,
            Sense::Role(role) => matches!(
                role,
                Role::Every
                    | Role::Since
                    | Role::A
                    | Role::For
                    | Role::In
                    | Role::On
                    | Role::Times
                    | Role::Versus
                    | Role::Definite
                    | Role::Point
            ),
            _ => false,
        }),
    }
}

/// A figure in any of its forms; the longest forms first.
fn figure<'t, 'l: 't>(
    input: Terms<'t, 'l>,
    grammar: Grammar,
    before: Option<&Item>,
    before_is_test: bool,
) -> Option<(What, Terms<'t, 'l>)> {
    if let Some(role) = spoken_digit(input, before) {
        return Some((What::Spoken(role), input.skip(1)));
    }
    let first = input.first()?;
    // "sump 20 gal under 90 gal": the preposition, not a bound.
    if first.is(Role::Under) && before.is_some_and(|i| matches!(i.what, What::Amount(_))) {
        return None;
    }
    // "reads 0 0 40": three figures behind a word of testing.
    let tested = input.at > 0 && before.is_some_and(|b| b.what == What::Term && b.last + 1 == input.at);
    if tested
        && before_is_test
        && let Some((row, rest)) = grammar.spaced_row(input)
    {
        return Some((What::Row(row), rest));
    }
    let read: Read<'t, 'l, What> = alt((
        map(|i| grammar.lettered_sizes(i), What::Sizes),
        map(|i| grammar.sizes(i), What::Sizes),
        map(|i| grammar.row(i), What::Row),
        map(|i| grammar.timed_flow(i), |(v, t)| What::Timed(v, t)),
        map(|i| grammar.time(i), What::Time),
        map(|i| grammar.amount(i), What::Amount),
    ))
    .parse(input);
    read.ok().map(|(rest, what)| (what, rest))
}

/// "4 my tank", "2 add": a digit that stands for a word, where no count makes sense.
fn spoken_digit(input: Terms, before: Option<&Item>) -> Option<Role> {
    let numeral = input.first()?.numeral().filter(|n| n.is_whole)?;
    let next = input.second()?;
    let begins = before.is_none_or(|i| matches!(i.what, What::Mark(_)));
    if numeral.value == 4.0 && !begins && !next.tight {
        let figure = next.numeral().is_some() && !matches!(before.map(|b| &b.what), Some(What::Amount(_)));
        let sized = input.rest.get(2).is_none_or(|t| t.units().next().is_some());
        if next.is(Role::Definite) || next.is(Role::A) || (figure && sized) {
            return Some(Role::For);
        }
    }
    (numeral.value == 2.0 && next.is(Role::Doing)).then_some(Role::To)
}
