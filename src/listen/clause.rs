//! Clauses: a line cut at commas, ends of sentences, "and", "with", "but", dashes and line ends. In: items and terms.
//! Out: runs of items with what joined them. Knows no things.

use super::items::{Item, What};
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
}

/// Cuts items into clauses; empty ones are left out.
pub fn cut(items: &[Item], terms: &[Term]) -> Vec<Clause> {
    let mut clauses: Vec<Clause> = Vec::new();
    let mut from = 0;
    let (mut joint, mut starts, mut line) = (None, true, true);
    let mut at = 0;
    while at <= items.len() {
        let cut = if at == items.len() { Some(Cut::Mark('\n')) } else { cut_at(items, terms, at, from) };
        if let Some(cut) = cut {
            let end = match cut {
                Cut::Mark(c) => Some(c),
                Cut::Word(_) => None,
            };
            if at > from {
                clauses.push(Clause { from, to: at, end, joint, starts, line });
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
                (!label).then_some(Cut::Mark(','))
            }
            _ => None,
        },
        What::Term => {
            let term = &terms[item.first];
            [Role::And, Role::But, Role::With, Role::Then, Role::Because]
                .into_iter()
                .find(|role| term.is(*role) && !term.has_content())
                .filter(|role| {
                    // A "then" that ends a question belongs to it; so does "with" behind "what".
                    !(*role == Role::Then && (at + 1 == items.len() || matches!(items[at + 1].what, What::Mark('?'))))
                })
                .map(Cut::Word)
        }
        _ => None,
    }
}
