//! Compounds: words of ours that only describe a noun that is none of ours: "foam mattress", "a bowl of soup", "the car's filter".
//! In: mentions of a clause. Out: the same without them. Knows no figure.

use super::bind::Binder;
use super::lexicon::Sense;
use super::mention::{Mention, Noun};
use super::name;
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// Takes out every mention that belongs to such a noun.
    pub fn compounds(&mut self) {
        let mut index = 0;
        while index < self.mentions.len() {
            let mention = &self.mentions[index];
            let describes = self.may_describe(mention) && self.is_other(mention.last + 1)
                || self.may_hold(mention) && self.holds_other(mention)
                || self.is_of_house(mention)
                || self.is_no_season(mention);
            if describes {
                self.mentions.remove(index);
            } else {
                index += 1;
            }
        }
    }

    /// "glass lid", "gravel path", "young man", "dirty hands".
    fn may_describe(&self, mention: &Mention) -> bool {
        match mention.noun {
            Noun::Medium(_) | Noun::Plant(_) => !mention.plural,
            Noun::Stock { kind: None, .. } => !mention.plural,
            Noun::State { thing, attribute, .. } => matches!(
                (thing, attribute),
                (name::TANK, name::SHAPE | name::SUBSTRATE | name::LOOKS | name::SMELL)
                    | (name::FILTER, name::LOOKS | name::NOISE)
                    | (name::STOCK, _)
            ),
            _ => false,
        }
    }

    /// A noun of the house or a part right there.
    fn is_other(&self, item: usize) -> bool {
        let mentioned = self.mentions.iter().any(|m| m.item <= item && item <= m.last);
        !mentioned && (self.has_role(item, Role::Elsewhere) || self.has_role(item, Role::Part)) && !self.is_device(item)
    }

    /// "the dirty pump": the filter's.
    fn is_device(&self, item: usize) -> bool {
        self.has_role(item, Role::Device)
    }

    fn may_hold(&self, mention: &Mention) -> bool {
        matches!(
            mention.noun,
            Noun::State { thing: name::TANK, attribute: name::SHAPE, .. }
                | Noun::State { thing: name::FILTER, attribute: name::NOISE, .. }
        )
    }

    /// "a cube of ice", "the hum of the fridge".
    fn holds_other(&self, mention: &Mention) -> bool {
        let mut item = mention.last + 1;
        if !self.has_role(item, Role::Of) {
            return false;
        }
        item += 1;
        while self.has_role(item, Role::Definite) || self.has_role(item, Role::A) {
            item += 1;
        }
        let plain = item < self.clause.to
            && self.items[item].what == super::items::What::Term
            && self.term(item).senses.iter().all(|s| matches!(s, Sense::Common));
        self.is_other(item) || plain
    }

    /// "coffee filter", "the phone rings".
    fn is_of_house(&self, mention: &Mention) -> bool {
        let thing = matches!(mention.noun, Noun::Filter(_) | Noun::Medium(_) | Noun::Tank);
        mention.item > self.clause.from
            && thing
            && self.has_role(mention.item - 1, Role::Elsewhere)
            && !self.has_role(mention.item - 1, Role::Part)
    }

    /// "a spring holds the lid", "spring cleaning"; but "in spring", "spring is here", "spring".
    fn is_no_season(&self, mention: &Mention) -> bool {
        let spring = |kind| self.name(kind) == "spring";
        let season =
            matches!(mention.noun, Noun::State { thing: name::TANK, attribute: name::SEASON, kind } if spring(kind));
        let (item, next) = (mention.item, mention.last + 1);
        let one_word = self.term(item).first == self.term(item).last;
        let dated = item > self.clause.from
            && [Role::In, Role::Definite, Role::Since, Role::Order].iter().any(|r| self.has_role(item - 1, *r));
        let ends = next >= self.clause.to
            || self.has_role(next, Role::Be)
            || self.items[next].what != super::items::What::Term;
        let article = item > self.clause.from && self.has_role(item - 1, Role::A);
        season && one_word && (article || !dated && !ends)
    }
}
