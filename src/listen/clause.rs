//! Clauses: a line cut at commas, ends of sentences, "and", "with", "but", dashes and line ends. In: items and terms.
//! Out: runs of items with what joined them. Knows no things.

use super::items::{Item, What};
use super::lexicon::Sense;
use super::name;
use super::reading::Form;
use super::term::Term;
use crate::knowledge::language::Role;

/// One clause: items `from..to`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clause {
    pub from: usize,
    pub to: usize,
    /// The mark behind it.
    pub end: Option<char>,
    /// What joined it to the clause before: `And`, `But`, `With`, `Then`, `Plus`.
    pub joint: Option<Role>,
    /// First clause of a sentence.
    pub starts: bool,
    /// First clause of a line of the text.
    pub line: bool,
    /// Figures before this item are only asked about: "3 filters? 2".
    pub answer: usize,
    /// A tag behind it makes it a question: "so 800 l/h, yes?".
    pub tagged: bool,
}

/// Cuts items into clauses; empty ones are left out.
pub fn cut(items: &[Item], terms: &[Term]) -> Vec<Clause> {
    let mut clauses: Vec<Clause> = Vec::new();
    let mut from = 0;
    let (mut joint, mut starts, mut line) = (None, true, true);
    let mut at = 0;
    while at <= items.len() {
        if at < items.len() && at > from + 1 && begins_anew(items, terms, at, from) {
            clauses.push(Clause { from, to: at, end: None, joint, starts, line, answer: 0, tagged: false });
            (joint, starts, line) = (None, false, false);
            from = at;
        }
        let cut = if at == items.len() { Some(Cut::Mark('\n')) } else { cut_at(items, terms, at, from) };
        if let Some(cut) = cut {
            let end = match cut {
                Cut::Mark(c) => Some(c),
                Cut::Word(_) => None,
            };
            if at > from {
                clauses.push(Clause { from, to: at, end, joint, starts, line, answer: 0, tagged: false });
                (joint, starts, line) = (None, false, false);
            } else if let (Some(c @ ('?' | '!' | '.')), Some(last)) = (end, clauses.last_mut())
                && last.to + 1 >= at
                && last.end.is_none()
            {
                last.end = Some(c);
            }
            match cut {
                Cut::Mark(c) => {
                    if matches!(c, '.' | '!' | '?' | '\n' | ';') {
                        starts = true;
                    }
                    if c == '\n' {
                        line = true;
                    }
                    if matches!(c, '+' | '&') {
                        joint = Some(Role::And);
                    }
                }
                Cut::Word(role) => joint = Some(role),
            }
            from = at + 1;
        }
        at += 1;
    }
    clauses
}

/// A question or a new sentence without any mark before it: "power's off what do I do", "my bowl it is 10 l".
fn begins_anew(items: &[Item], terms: &[Term], at: usize, from: usize) -> bool {
    if items[at].what != What::Term {
        return false;
    }
    let term = &terms[items[at].first];
    let next = items.get(at + 1);
    let next_term = next.filter(|i| i.what == What::Term).map(|i| &terms[i.first]);
    let asks = |t: &Term| t.senses.iter().any(|s| matches!(s, Sense::Ask(f) if *f != Form::Whether));
    let helps = |t: &Term| t.senses.iter().any(|s| matches!(s, Sense::Ask(Form::Whether))) && !t.is(Role::Not);
    let said_before = (from..at).any(|i| {
        matches!(items[i].what, What::Amount(_)) || items[i].what == What::Term && terms[items[i].first].has_content()
    });
    // "could the power cut be what did it": no second question.
    let linked = at > from && items[at - 1].what == What::Term && terms[items[at - 1].first].is(Role::Be);
    let opener = asks(term) && !helps(term) && next_term.is_some_and(helps) && !linked;
    let anew = (term.is(Role::It) && (term.is(Role::Be) || next_term.is_some_and(|t| t.is(Role::Be))))
        && items[at..].iter().skip(1).take(3).any(|i| matches!(i.what, What::Amount(_)));
    let asked_before = (from..at).any(|i| {
        items[i].what == What::Term && (asks(&terms[items[i].first]) || terms[items[i].first].is(Role::Wonder))
    });
    // "20 guppies no wait 12".
    let corrects = term.is(Role::Correct)
        && term.last > term.first
        && next.is_some_and(|i| matches!(i.what, What::Amount(_)))
        && !items[from..at].iter().any(|i| i.what == What::Term && asks(&terms[i.first]));
    // "my nitrite is 0.5 is that bad".
    let figure_before = matches!(items[at - 1].what, What::Amount(_) | What::Row(_) | What::Sizes(_));
    let of_it = figure_before
        && helps(term)
        && next_term.is_some_and(|t| t.is(Role::It) && !t.is(Role::Be))
        && items.get(at + 2).is_some_and(|i| i.what == What::Term);
    // "if I took the sponge out would the colony crash".
    let turned = term.is(Role::Modal)
        && next_term.is_some_and(|t| t.is(Role::It) || t.is(Role::Definite) || t.is(Role::Person))
        && !asked_before
        && !(from..at).any(|i| items[i].what == What::Term && terms[items[i].first].is(Role::Modal))
        && !(from..at).any(|i| items[i].what == What::Term && terms[items[i].first].is(Role::If))
        && sentence_supposes(items, terms, at);
    turned || said_before && (opener && !asked_before || anew || corrects || of_it && !asked_before)
}

enum Cut {
    Mark(char),
    Word(Role),
}

fn cut_at(items: &[Item], terms: &[Term], at: usize, from: usize) -> Option<Cut> {
    let item = &items[at];
    match item.what {
        What::Mark(c) => match c {
            ',' | ';' | '.' | '!' | '?' | '\n' | '(' | ')' | '[' | ']' | '{' | '}' | '|' | '*' | '&' | '+' | '\\' => {
                Some(Cut::Mark(c))
            }
            // A dash with blanks, a slash between words.
            '-' => Some(Cut::Mark(c)),
            '/' => Some(Cut::Mark(',')),
            ':' => {
                // "90L: 10 cardinals" begins a list; "temp: 25" is a label.
                let label =
                    at > from && matches!(items[at - 1].what, What::Term) && terms[items[at - 1].first].has_content();
                // "three tanks: 20, 40 and 75 gallons" begins a list, too.
                let several = at > from
                    && terms[items[at - 1].first].plural
                    && terms[items[at - 1].first].names_thing(name::TANK);
                (!label || several).then_some(Cut::Mark(','))
            }
            _ => None,
        },
        What::Term => {
            let term = &terms[item.first];
            let spoken = [(Role::FullStop, '.'), (Role::Comma, ','), (Role::QuestionMark, '?')];
            if let Some((_, mark)) = spoken.into_iter().find(|(role, _)| term.is(*role)) {
                return Some(Cut::Mark(mark));
            }
            [Role::And, Role::But, Role::With, Role::Then, Role::Because]
                .into_iter()
                .find(|role| term.is(*role) && !term.has_content())
                .filter(|role| {
                    // A "then" that ends a question belongs to it; so does "with" behind "what".
                    let parts_not = at > from && asks_why(items, terms, at, from) || compares(items, terms, at);
                    !(*role == Role::Because && parts_not)
                        && !(*role == Role::Then
                            && (at + 1 == items.len() || matches!(items[at + 1].what, What::Mark('?'))))
                })
                .filter(|role| !(*role == Role::With && is_of_the_source(items, terms, at, from)))
                .map(Cut::Word)
        }
        _ => None,
    }
}

/// The sentence began with "if".
fn sentence_supposes(items: &[Item], terms: &[Term], at: usize) -> bool {
    let sentence = items[..at].iter().rev().take_while(|i| !matches!(i.what, What::Mark('.' | '!' | '?' | '\n' | ';')));
    sentence.last().is_some_and(|i| i.what == What::Term && terms[i.first].is(Role::If))
}

/// "as good as": two words that belong together.
fn compares(items: &[Item], terms: &[Term], at: usize) -> bool {
    let is_as = |i: usize| items.get(i).is_some_and(|i| i.what == What::Term && terms[i.first].is(Role::As));
    is_as(at) && (is_as(at + 2) || at > 1 && is_as(at - 2))
}

/// "is it because the food is old": the cause belongs to the question.
fn asks_why(items: &[Item], terms: &[Term], at: usize, from: usize) -> bool {
    let role = |i: usize, role: Role| items[i].what == What::Term && terms[items[i].first].is(role);
    at == from + 2 && role(from, Role::Be) && role(from + 1, Role::It)
        || at == from + 1 && role(from, Role::Tag) && terms[items[from].first].last > terms[items[from].first].first
}

/// "well water with nitrate 45": the reading behind "with" is the new water's.
fn is_of_the_source(items: &[Item], terms: &[Term], at: usize, from: usize) -> bool {
    let term = |n: usize| items.get(n).filter(|i| i.what == What::Term).map(|i| &terms[i.first]);
    let source = |t: &Term| {
        let kind = |s: &Sense| matches!(s, Sense::State { thing, .. } if *thing == name::SOURCE);
        t.names_thing(name::SOURCE) || t.senses.iter().any(kind)
    };
    at > from
        && term(at - 1).is_some_and(source)
        && term(at + 1).is_some_and(|t| t.labels().any(|(thing, _)| thing == name::READING))
}
