//! Figures of events and habits: how often something is done, how many died or were added. In: rates and counts of a clause.
//! Out: findings. Knows no moment.

use super::bind::Binder;
use super::found::Found;
use super::lexicon::Sense;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{How, Said, Says, TimeRelation};
use crate::knowledge::language::Role;
use crate::units::Amount;

impl Binder<'_, '_> {
    /// "twice a day", "3 times a week": feeds, changes, cleanings.
    pub fn rate(&mut self, item: usize, count: &Measure, per: &'static crate::units::Unit) {
        let Some(n) = count.value().filter(|n| *n > 0.0) else { return };
        let terms = self.terms_of(item, item);
        let food = |m: &super::mention::Mention| matches!(m.noun, Noun::Feed | Noun::State { thing: name::FEED, .. });
        let feeding = self.mentions.iter().any(food)
            || self.state.subject.as_ref().is_some_and(|s| s.thing == "feed") && self.mentions.is_empty();
        if feeding && per.name == "d" {
            let of = self.subject_for(name::FEED, None, item);
            self.take_mentions(Noun::Feed);
            self.value(
                item,
                of,
                (name::FEED, name::TIMES_PER_DAY),
                &Measure { bare: true, ..Measure::exact(n, 0) },
                terms,
                false,
            );
            return;
        }
        let every = Amount::exact(1.0 / n, per);
        let every = if n == 1.0 { Amount::exact(1.0, per) } else { every };
        let (of, attribute) = if self.mentions.iter().any(|m| m.noun == Noun::Change)
            || self.state.subject.as_ref().is_some_and(|s| s.thing == "change")
        {
            (self.subject_for(name::CHANGE, None, item), name::EVERY)
        } else if feeding {
            (self.subject_for(name::FEED, None, item), name::EVERY)
        } else if self.clause_has(|s| matches!(s, Sense::Label { attribute: name::CLEANED | name::CLEAN_EVERY, .. })) {
            (self.subject_for(name::FILTER, None, item), name::CLEAN_EVERY)
        } else {
            return;
        };
        let says = Says::Value {
            attribute: self.name(attribute).to_string(),
            how: How::Set,
            value: Said::Time { relation: TimeRelation::Every, amount: every },
        };
        self.push(Found::new(of, says, terms));
    }

    /// A count in a clause that tells of deaths or additions: it counts what happened, not what is there.
    pub fn event_count(&mut self, item: usize, measure: &Measure) -> bool {
        let Some(kind) = self.event_in_clause() else { return false };
        if self.clause_negates() {
            return true;
        }
        // "lost 2 neons from 20", "3 out of 12 died": what there were.
        if measure.is_plain() && item > self.clause.from && self.has_role(item - 1, Role::From) {
            return true;
        }
        let counted = matches!(kind, name::FISH_DIED | name::FISH_ADDED);
        if !counted || !measure.units.is_empty() || measure.article && self.right(item).is_none() {
            return false;
        }
        let of_many = item > self.clause.from
            && self.has_role(item - 1, Role::Of)
            && self.found.iter().any(|f| f.attribute() == Some("count") && f.subject.thing == "event");
        if of_many {
            return false;
        }
        let text = self.name(kind).to_string();
        let of = self.event(&text);
        let mut terms = self.terms_of(item, item);
        let stock = self.right(item).filter(|r| matches!(self.mentions[*r].noun, Noun::Stock { .. }));
        if kind == name::FISH_DIED
            && let Some(index) = stock
        {
            self.mentions[index].taken = true;
            terms.extend(self.terms_of(self.mentions[index].item, self.mentions[index].last));
            // "lost 3 neons, 9 left": the neons were spoken of.
            let fish = self.mentions[index].clone();
            self.state.stock = Some(self.mention_subject(&fish));
        }
        self.value(item, of, (name::EVENT, name::COUNT), measure, terms, false);
        // What was added is there.
        if kind == name::FISH_ADDED && stock.is_some() {
            self.count(item, measure);
        }
        true
    }
}
