//! Neighbours: the noun beside a figure, the preposition before it, what parts them. In: items and mentions of a clause.
//! Out: indices of mentions. Knows no things.

use super::bind::Binder;
use super::items::What;
use super::mention::{Mention, Noun};
use super::name;
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// The mention right of an item, past words that do not part them; with how many items lie between.
    pub fn right(&self, item: usize) -> Option<usize> {
        let index = self.mentions.iter().position(|m| m.item > item)?;
        let gap = item + 1..self.mentions[index].item;
        let near = gap.clone().all(|i| self.is_bridge(i)) && gap.filter(|i| !self.is_empty_word(*i)).count() <= 1;
        near.then_some(index)
    }

    /// The mention left of an item, past words that do not part them.
    pub fn left(&self, item: usize) -> Option<usize> {
        let index = self.mentions.iter().rposition(|m| m.last < item)?;
        let gap = self.mentions[index].last + 1..item;
        let near = gap.clone().all(|i| self.is_bridge(i) || self.is_sign(i))
            && gap.filter(|i| !self.is_empty_word(*i) && !self.is_sign(*i)).count() <= 1;
        near.then_some(index)
    }

    fn is_sign(&self, item: usize) -> bool {
        matches!(self.items[item].what, What::Mark(':' | '=' | 'x' | '@' | '#'))
    }

    /// As `right`, past words that only describe the noun: "30 small tetras".
    pub fn right_noun(&self, item: usize) -> Option<usize> {
        let index = self.right(item)?;
        let describes = |m: &Mention| matches!(m.noun, Noun::State { thing, .. } if thing != name::EVENT);
        if !describes(&self.mentions[index]) {
            return Some(index);
        }
        let next = self.mentions.get(index + 1)?;
        let close = next.item == self.mentions[index].last + 1;
        (close && !describes(next)).then_some(index + 1).or(Some(index))
    }

    /// A word that may stand between a figure and its noun.
    fn is_bridge(&self, item: usize) -> bool {
        match &self.items[item].what {
            What::Term => {
                let term = self.term(item);
                let preposition = [Role::In, Role::On, Role::For, Role::Under, Role::From].iter().any(|r| term.is(*r));
                !preposition && !term.is(Role::Or)
            }
            What::Time(_) => false,
            _ => false,
        }
    }

    /// A word that says nothing of its own.
    pub fn is_empty_word(&self, item: usize) -> bool {
        match &self.items[item].what {
            What::Term => {
                let term = self.term(item);
                term.is_noise() && !term.is(Role::Not) && !term.is(Role::No)
            }
            What::Spoken(_) => true,
            _ => false,
        }
    }

    /// The preposition right before a figure, articles aside.
    pub fn preposition(&self, item: usize) -> Option<Role> {
        let mut at = item;
        while at > self.clause.from {
            at -= 1;
            for role in [Role::For, Role::In, Role::On, Role::Under, Role::To, Role::At, Role::From] {
                if self.has_role(at, role) {
                    return Some(role);
                }
            }
            let article = self.has_role(at, Role::A) || self.has_role(at, Role::Definite);
            if !article {
                return None;
            }
        }
        None
    }

    /// "my", "the" stands before a figure: "the 75".
    pub fn is_definite(&self, item: usize) -> bool {
        item > self.clause.from && self.has_role(item - 1, Role::Definite)
    }

    /// "ref 4411", "number 01632": no figure of ours.
    pub fn after_code(&self, item: usize) -> bool {
        (self.clause.from..item).rev().take(3).any(|i| self.has_role(i, Role::Code))
    }
}
