//! The new water beside the tank's: "tap nitrate 40", "no3 40 tap 5". In: mentions and figures of a clause. Out: whose reading a
//! figure is. Knows no unit.

use super::bind::Binder;
use super::items::What;
use super::measure::Measure;
use super::mention::{Mention, Noun};
use super::name;
use crate::knowledge::language::Role;

/// The new water, or what kind it is.
fn is_source(mention: &Mention) -> bool {
    mention.noun == Noun::Source
        || matches!(mention.noun, Noun::State { thing: name::SOURCE, attribute: name::KIND, .. })
}

impl Binder<'_, '_> {
    /// Whether the clause speaks of the new water, not of the tank's.
    pub fn is_of_source(&self, item: usize) -> bool {
        let figure = |i: usize| i < self.clause.to && matches!(self.items[i].what, What::Amount(_));
        let source = self.mentions.iter().any(|m| {
            // "no3 40 tap 5", "no3 60 tank 20 tap": the tap has a figure of its own, and the one before is the tank's.
            let before = if m.item > item { (item..m.item).filter(|i| figure(*i)).count() } else { 0 };
            let own = before > 1 || before == 1 && figure(m.last + 1);
            is_source(m) && !own
        });
        source && !self.mentions.iter().any(|m| m.noun == Noun::Tank && m.item < item)
    }

    /// "no3 40 tap 5", "60 tank 20 tap": a bare figure beside the new water, when a reading was just spoken of.
    pub fn of_the_source(&mut self, item: usize, measure: &Measure) -> bool {
        let Some(attribute) = self.state.label else { return false };
        let before = self.mentions.iter().rev().find(|m| m.last < item).filter(|m| is_source(m)).cloned();
        let before = before.filter(|m| (m.last + 1..item).all(|i| self.has_role(i, Role::Be)));
        let behind = || self.mentions.iter().find(|m| m.item == item + 1 && is_source(m)).cloned();
        let Some(source) = before.or_else(behind) else { return false };
        let known = self.listener.attributes.get(name::SOURCE, attribute).is_some();
        if !known || !self.fits(name::READING, attribute, measure) {
            return false;
        }
        let terms = self.joined_terms(item, &source);
        let subject = self.subject_for(name::SOURCE, None, item);
        self.value(item, subject, (name::SOURCE, attribute), measure, terms, false);
        true
    }

    /// The words that say the new water is meant; taken.
    pub fn source_terms(&mut self) -> Vec<usize> {
        let mut terms = Vec::new();
        for index in 0..self.mentions.len() {
            let mention = self.mentions[index].clone();
            let kind = matches!(mention.noun, Noun::State { thing: name::SOURCE, attribute: name::KIND, .. });
            if mention.noun == Noun::Source {
                self.mentions[index].taken = true;
            }
            if mention.noun == Noun::Source || kind {
                terms.extend(self.terms_of(mention.item, mention.last));
            }
        }
        terms
    }
}
