//! Alternatives: two things of one sort with "or" between them ("foam or rings?"), and how far a question reaches. In: a
//! clause. Out: what is to be chosen from. Chooses nothing.

use super::clause::Clause;
use super::found::subject;
use super::items::What;
use super::lexicon::Sense;
use super::name::{self, Name};
use super::reading::Subject;
use super::turn::Turn;
use crate::knowledge::language::Role;

impl Turn<'_, '_> {
    /// The media or filters that a clause sets one against the other; empty where it does not.
    pub fn alternatives(&self, clause: &Clause) -> Vec<Subject> {
        let or: Vec<usize> = (clause.from..clause.to).filter(|i| self.has_role(*i, Role::Or)).collect();
        let (Some(first), Some(last)) = (or.first(), or.last()) else { return Vec::new() };
        for thing in [name::MEDIUM, name::FILTER] {
            let named = |from: usize, to: usize| (from..to).flat_map(|i| self.kind_named(i, thing)).collect::<Vec<_>>();
            let (before, behind) = (named(clause.from, *first), named(*last + 1, clause.to));
            let between = named(*first, *last);
            if before.is_empty() || behind.is_empty() || before.iter().any(|k| behind.contains(k)) {
                continue;
            }
            let text = |name: Name| self.listener.lexicon.text(name);
            let mut kinds: Vec<&str> = [before, between, behind].concat().into_iter().map(text).collect();
            kinds.dedup();
            return kinds.into_iter().map(|kind| subject(text(thing), Some(kind))).collect();
        }
        Vec::new()
    }

    /// The kind of medium or filter that an item names, by an entry of the tables or a kind of the vocabulary.
    fn kind_named(&self, item: usize, of: Name) -> Option<Name> {
        if self.items[item].what != What::Term {
            return None;
        }
        self.terms[self.items[item].first].senses.iter().find_map(|s| match s {
            Sense::Named { thing, kind, .. } if *thing == of => Some(*kind),
            Sense::State { thing, attribute: name::KIND, kind } if *thing == of => Some(*kind),
            _ => None,
        })
    }

    /// Whether a word among `first..=last` is none of ours and no ordinary word of speech.
    pub fn is_strange(&self, first: usize, last: usize) -> bool {
        let unknown = |t: &super::term::Term| {
            t.sort == super::words::Sort::Word && t.senses.iter().all(|s| matches!(s, Sense::Common))
        };
        let named = (0..self.terms.len()).filter(|t| self.terms[*t].first >= first && self.terms[*t].last <= last);
        named.into_iter().any(|t| unknown(&self.terms[t]) && !self.is_part_of_ask(t))
    }

    /// The last word that a question reaches: past "with", which parts clauses and belongs to it ("can I put the betta with
    /// the platies").
    pub fn reach(&self, clause: &Clause) -> usize {
        let word = |item: usize| self.terms[self.items[item].last].last;
        let parts = |i: &usize| {
            matches!(self.items[*i].what, What::Mark(',' | ';' | '.' | '?' | '!' | '\n'))
                || self.has_role(*i, Role::And)
                || self.has_role(*i, Role::But)
        };
        let end_from = |from: usize| (from..self.items.len()).find(parts).unwrap_or(self.items.len());
        let goes_on = clause.to < self.items.len()
            && (self.has_role(clause.to, Role::With) || self.has_role(clause.to, Role::Because));
        if goes_on {
            return word(end_from(clause.to) - 1);
        }
        // "which goes on the bottom, the wool or the rings": what there is to choose from.
        let comma = clause.end == Some(',') && clause.to + 1 < self.items.len();
        let end = if comma { end_from(clause.to + 1) } else { clause.to };
        let has = |role: Role| (clause.to + 1..end).any(|i| self.has_role(i, role));
        let choice = comma && has(Role::Or) && !has(Role::Be) && !has(Role::Have) && !has(Role::Person);
        word(if choice { end - 1 } else { clause.to - 1 })
    }
}
