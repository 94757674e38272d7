//! Groups of fish told of before and named by half: "the rams", "56 shrimp" of about sixty bees. In: mentions of a clause, what
//! is known. Out: mentions of the kind told before. Gives no figure.

use super::bind::Binder;
use super::found::subject;
use super::items::What;
use super::lexicon::Sense;
use super::measure::Measure;
use super::mention::Noun;
use super::name::{self, Name};
use super::reading::{Said, Subject};
use super::state::same_thing;
use crate::knowledge::language::Role;

/// The kind of health that means deaths.
const DYING: &str = "dying";
/// "3 of them" looks so many items back for what they are.
const NEAR: usize = 8;

impl Binder<'_, '_> {
    /// "the rams" after "two bolivian rams": those.
    pub fn fish_spoken_of(&mut self) {
        for index in 0..self.mentions.len() {
            let mention = &self.mentions[index];
            let Noun::Stock { kind: Some(kind), stage: None } = mention.noun else { continue };
            let word = super::words::folded(&self.words[self.term(mention.item).last].text);
            let name = self.name(kind);
            let told = |k: &str| {
                let ends = |with: &str| k.ends_with(with) && k[..k.len() - with.len()].ends_with(' ');
                k != name && (ends(&word) || ends(name))
            };
            let mut kinds: Vec<&str> = self.state.fish.iter().map(String::as_str).filter(|k| told(k)).collect();
            kinds.dedup();
            let known = self.state.fish.iter().any(|k| k == name);
            let ([one], false) = (kinds.as_slice(), known) else { continue };
            let Some(one) = self.listener.lexicon.names.find(one) else { continue };
            if mention.definite || self.counts_again(index, one) {
                self.mentions[index].noun = Noun::Stock { kind: Some(one), stage: None };
            }
        }
    }

    /// "56 shrimp" after "about sixty taiwan bees", or after we asked how many there are now: the same ones, counted.
    fn counts_again(&mut self, index: usize, kind: Name) -> bool {
        let Some(item) = self.mentions[index].item.checked_sub(1).filter(|i| *i >= self.clause.from) else {
            return false;
        };
        let What::Amount(measure) = &self.items[item].what else { return false };
        let Some(value) = measure.value().filter(|_| measure.is_plain()) else { return false };
        let of = subject(self.name(name::STOCK), Some(self.name(kind)));
        let asked = self.state.wanted.iter().any(|w| same_thing(&w.of, &of) && w.attribute == self.name(name::COUNT));
        let within = match self.state.value(&of, self.name(name::COUNT)) {
            Some(Said::Amount(a)) => {
                a.likely == Some(value) || a.low.is_some_and(|l| l <= value) && a.high.is_some_and(|h| value <= h)
            }
            _ => false,
        };
        let again = asked || within || self.correcting;
        if again {
            self.state.recounted = Some(of);
        }
        again
    }

    /// "five of them", "there's ten", "12 in all": the fish spoken of last.
    pub fn count_alone(&mut self, item: usize, measure: &Measure) -> bool {
        let Some(stock) = self.state.stock.clone() else { return false };
        let of_them = self.has_role(item + 1, Role::Of)
            && (item + 2 < self.clause.to)
            && (self.has_role(item + 2, Role::It) || self.has_role(item + 2, Role::Person));
        let there_is = (self.clause.from..item).any(|i| self.has_role(i, Role::Have))
            && (self.clause.from..item).all(|i| self.is_empty_word(i));
        let counted = measure.in_all && self.state.subject.as_ref().is_some_and(|s| s.thing == "stock");
        // "four left": of the fish spoken of.
        let left = self.has_role(item + 1, Role::Left) && (self.clause.from..item).all(|i| self.is_empty_word(i));
        // "the big one has mollies, 14": the name came without a number.
        let behind = self.clause.to == item + 1
            && self.clause.from == item
            && measure.value().is_some_and(|v| v.fract() == 0.0 && v >= 1.0)
            && self.state.uncounted;
        let alone = behind
            || self.clause.to - self.clause.from <= 2
                && measure.hedged
                && self.state.subject.as_ref().is_some_and(|s| s.thing == "stock")
                && measure.units.is_empty();
        // "had 20 neons, down to 14 now".
        let down_to = item > self.clause.from && self.has_role(item - 1, Role::DownTo) && measure.is_plain();
        let told = of_them || left || there_is && item + 1 == self.clause.to || counted || alone || down_to;
        // "two of the tetras died, the other eighteen are fine".
        let died = |e: &Subject| e.kind.as_deref() == Some(self.name(name::FISH_DIED));
        let others = item > self.clause.from
            && self.has_role(item - 1, Role::Other)
            && measure.value().is_some_and(|v| v > 1.0)
            && self.state.event.as_ref().is_some_and(died);
        let said = self.mentions.iter().all(|m| matches!(m.noun, Noun::State { .. } | Noun::Label { .. }));
        if !(told && self.mentions.is_empty() || others && said) {
            return false;
        }
        self.state.left_told |= left || others;
        let mut terms = self.terms_of(item, item);
        if of_them {
            terms.extend(self.terms_of(item + 1, item + 2));
        }
        // "my fish keep dying, 3 of them this week": dead, not there.
        let dies = |s: &Sense| match s {
            Sense::State { thing: name::STOCK, attribute: name::HEALTH, kind } => self.name(*kind) == DYING,
            Sense::State { thing: name::EVENT, kind, .. } => *kind == name::FISH_DIED,
            _ => false,
        };
        let before = &self.items[item.saturating_sub(NEAR)..item];
        let dying = before.iter().any(|i| i.what == What::Term && self.terms[i.first].senses.iter().any(dies));
        if of_them && dying {
            let of = self.event(self.name(name::FISH_DIED));
            self.value(item, of, (name::EVENT, name::COUNT), measure, terms, false);
            return true;
        }
        let before = self.found.len();
        self.value(item, stock, (name::STOCK, name::COUNT), measure, terms, false);
        if let Some(found) = self.found.get_mut(before) {
            found.replaces |= down_to;
        }
        true
    }
}
