//! Neighbours: the noun beside a figure, the preposition before it, what parts them. In: items and mentions of a clause.
//! Out: indices of mentions. Knows no things.

use super::bind::Binder;
use super::items::What;
use super::mention::{Mention, Noun};
use super::name;
use crate::knowledge::language::Role;
use crate::units::Dimension;

/// From here on a bare figure behind "order" is its number (settled choice).
const SHORTEST_ORDER: f64 = 100.0;

impl Binder<'_, '_> {
    /// The mention right of an item, past words that do not part them; with how many items lie between.
    pub fn right(&self, item: usize) -> Option<usize> {
        let index = self.mentions.iter().position(|m| m.item > item)?;
        let gap = item + 1..self.mentions[index].item;
        // "10 1 inch guppies": the size stands between the count and its noun.
        let plain = matches!(&self.items[item].what, What::Amount(m) if m.is_plain());
        // "2 kg of 10-16 mm clay": so does the size of the pieces.
        let heavy = matches!(&self.items[item].what, What::Amount(m) if m.unit_of(Dimension::MASS).is_some());
        let size = |i: usize| {
            plain && i == item + 1 && matches!(&self.items[i].what, What::Amount(m) if !m.is_plain())
                || heavy
                    && i == item + 2
                    && self.has_role(item + 1, Role::Of)
                    && matches!(&self.items[i].what, What::Amount(m) if m.unit_of(Dimension::LENGTH).is_some())
        };
        let times = |i: usize| i == item + 1 && matches!(self.items[i].what, What::Mark('x' | '@'));
        let near = gap.clone().all(|i| self.is_bridge(i) || size(i) || times(i))
            && gap.filter(|i| !self.is_empty_word(*i) && !times(*i)).count() <= 1;
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

    pub fn is_sign(&self, item: usize) -> bool {
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
        let between = self.mentions[index].last + 1;
        let close = next.item == between || next.item == between + 1 && self.has_role(between, Role::Of);
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
            What::Model => true,
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

    /// The preposition before a figure, articles and small words aside: "for a damn 40 gallon".
    pub fn preposition(&self, item: usize) -> Option<Role> {
        for at in (self.clause.from..item).rev().take(4) {
            for role in [Role::For, Role::In, Role::On, Role::Under, Role::To, Role::At, Role::From] {
                if self.has_role(at, role) {
                    return Some(role);
                }
            }
            let small = self.has_role(at, Role::A) || self.has_role(at, Role::Definite) || self.is_empty_word(at);
            let verb = self.has_role(at, Role::Be) || self.has_role(at, Role::Have) || self.has_role(at, Role::It);
            if !small || verb {
                return None;
            }
        }
        None
    }

    /// A light or a heater beside a figure: its watts are not the filter's.
    pub fn beside_elsewhere(&self, item: usize) -> bool {
        let at = |i: usize| {
            self.has_role(i, Role::Elsewhere) || self.has_role(i, Role::Part) && !self.has_role(i, Role::Device)
        };
        // "lost 20 litres": gone, and no size.
        let lost = |i: usize| {
            self.has_role(i, Role::Lose) && matches!(&self.items[item].what, What::Amount(m) if !m.is_plain())
        };
        item > self.clause.from && (at(item - 1) || lost(item - 1)) || at(item + 1)
    }

    /// "my", "the" stands before a figure: "the 75".
    pub fn is_definite(&self, item: usize) -> bool {
        item > self.clause.from && self.has_role(item - 1, Role::Definite)
    }

    /// "ref 4411", "number 01632": no figure of ours.
    pub fn after_code(&self, item: usize) -> bool {
        // "order 4471", "the order is 20391".
        let long = matches!(&self.items[item].what, What::Amount(m) if m.bare && m.value().is_some_and(|v| v >= SHORTEST_ORDER));
        let order = |i: usize| self.items[i].what == What::Term && self.words[self.term(i).last].text == "order";
        (self.clause.from..item).rev().take(3).any(|i| self.has_role(i, Role::Code) || long && order(i))
    }

    /// The name before a tank that is only the place: "no3 in the 75 is 10".
    pub fn label_over_place(&self, item: usize) -> Option<usize> {
        let index = self.mentions.iter().rposition(|m| m.last < item && matches!(m.noun, Noun::Label { .. }))?;
        let between = self.mentions[index].last + 1..item;
        let placed = between.clone().any(|i| self.done.contains(&i));
        let small = |i: usize| self.done.contains(&i) || self.items[i].what == What::Term && self.is_empty_word(i);
        let says = self.has_role(item - 1, Role::Be);
        (placed && says && between.clone().all(small)).then_some(index)
    }

    /// "0.5 on the ammonia".
    pub fn label_on_the(&self, item: usize) -> Option<usize> {
        let at = self.has_role(item + 1, Role::On) || self.has_role(item + 1, Role::For);
        let named = item + if self.has_role(item + 2, Role::Definite) { 3 } else { 2 };
        let reading = |m: &Mention| m.item == named && matches!(m.noun, Noun::Label { thing: name::READING, .. });
        self.mentions.iter().position(reading).filter(|_| at)
    }

    pub fn is_place_word(&self, item: usize) -> bool {
        let term = self.term(item);
        (term.is(Role::In) || term.is(Role::On)) && !term.has_content()
    }

    /// "for aquariums up to 150 l": what the maker says.
    pub fn is_claimed_before(&self, item: usize) -> bool {
        self.mentions
            .iter()
            .any(|m| matches!(m.noun, Noun::Label { attribute: name::CLAIM, .. }) && m.last < item && m.last + 5 > item)
    }

    /// "in 5 lb", "in a 10 litre bucket": no tank behind the figure, but a vessel or a medium.
    pub fn is_share_of_container(&self, item: usize) -> bool {
        self.right(item)
            .is_some_and(|r| matches!(self.mentions[r].noun, Noun::Medium(_) | Noun::Treatment(_) | Noun::Label { .. }))
    }
}
