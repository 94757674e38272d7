//! Denial: whether what a word tells of is said not to be so, or taken back: "no smoke", "nothing is smoking", "forget the
//! smoke", "what smoke?", "smoke: none". In: terms and the bounds of a clause. Out: the words that deny it. Knows no danger.

use super::lexicon::Sense;
use super::name;
use super::reading::Form;
use super::term::Term;
use super::words::Sort;
use crate::knowledge::language::{LevelWord, Role};

/// A negation reaches over so many words that say nothing by themselves.
const REACH: usize = 6;

/// The term that denies term `at` of the clause `from..to`; further than small words it does not reach, so that "I can't get to
/// it, the plug is smoking" denies no smoke.
pub fn denied_by(terms: &[Term], from: usize, to: usize, at: usize) -> Option<usize> {
    before(terms, from, to, at).or_else(|| behind(terms, to, at))
}

fn before(terms: &[Term], from: usize, to: usize, at: usize) -> Option<usize> {
    for n in (from..at).rev().take(REACH) {
        let term = &terms[n];
        let between = &terms[n + 1..at];
        if denies(term) {
            // "not only smoking".
            if between.iter().any(|t| t.is(Role::Only)) {
                return None;
            }
            // "no its smoking", "not me he got a shock": the answer no, and a sentence of its own.
            let anew = |t: &Term| t.is(Role::It) && t.is(Role::Be) || t.is(Role::Person) && !t.is(Role::It);
            let answers = |t: &Term| t.is(Role::It) || t.is(Role::Definite) || t.is(Role::Person) || t.is(Role::Be);
            let lone = term.is(Role::No) && !term.is(Role::Nobody) && !term.is(Role::Not);
            let cut = between.iter().any(anew) || lone && between.first().is_some_and(answers);
            return (!cut).then_some(n);
        }
        // "forget the smoke", "ignore what I said about the smoke".
        if term.is(Role::Drop) {
            return Some(n);
        }
        // "what smoke?": nothing was said of any.
        let asks = |f: Form| term.senses.contains(&Sense::Ask(f));
        if (asks(Form::What) || asks(Form::Which)) && n + 1 == at && at + 1 == to {
            return Some(n);
        }
        if !is_small(term) {
            return None;
        }
    }
    None
}

/// "smoke: none", "smoke? no".
fn behind(terms: &[Term], to: usize, at: usize) -> Option<usize> {
    let marked = terms.get(at + 1).is_some_and(|t| matches!(t.sort, Sort::Mark(':' | '?' | '-' | '=')));
    let n = if marked { at + 2 } else { at + 1 };
    let last = n + 1 >= to || terms.get(n + 1).is_none_or(|t| t.mark().is_some());
    terms.get(n).filter(|t| t.is(Role::No) && last && (n < to || marked)).map(|_| n)
}

/// "no longer", "any more": it was so until now.
pub fn was_so(terms: &[Term], from: usize, to: usize) -> bool {
    terms[from..to.min(terms.len())].iter().any(|t| t.is(Role::NoMore))
}

fn denies(term: &Term) -> bool {
    let never = term.level() == Some(LevelWord::Never);
    [Role::No, Role::Not, Role::Without, Role::Nobody].iter().any(|r| term.is(*r)) && !term.is(Role::Wonder) || never
}

/// Says nothing of its own between a negation and what it denies: "isn't any sign of", "didn't get a".
fn is_small(term: &Term) -> bool {
    // "no fish died"; "no tetras died" says nothing of the others.
    let fish = |s: &Sense| matches!(s, Sense::Thing(name::STOCK));
    // "I don't smell any burning".
    let smell = |s: &Sense| matches!(s, Sense::State { attribute: name::LOOKS | name::SMELL, .. });
    let roles = [
        Role::Be,
        Role::Have,
        Role::A,
        Role::Definite,
        Role::It,
        Role::Of,
        Role::Person,
        Role::Or,
        Role::In,
        Role::On,
        Role::At,
        Role::By,
        Role::To,
        Role::Noticed,
    ];
    term.mark().is_none() && (roles.iter().any(|r| term.is(*r)) || term.senses.iter().any(|s| fish(s) || smell(s)))
}
