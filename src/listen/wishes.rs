//! Wishes: what is wanted or shunned says nothing of what is there. In: mentions and findings of a clause. Out: `wanted` in
//! the place of a count or a kind. Knows no question.

use super::bind::Binder;
use super::found::subject;
use super::mention::{Mention, Noun};
use super::name;
use super::reading::{Says, Subject};
use super::stock::mention_mark;
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// What is wanted or shunned: says nothing of what is there.
    pub fn wishes(&mut self) {
        let (from, to) = (self.clause.from, self.clause.to);
        let shun = (from..to).find(|i| self.has_role(*i, Role::Shun));
        let wish = (from..to).find(|i| self.has_role(*i, Role::Wish));
        let carried = self.wishing
            && !(from..to).any(|i| self.has_role(i, Role::Have) || self.has_role(i, Role::Be))
            && self.found.is_empty()
            && !self.asking;
        // "want 6 neons, 3 corys": the second is wanted, too.
        let listed = self.wishing
            && !self.wished_filter
            && shun.or(wish).is_none()
            && !self.asking
            && self.state.last.as_ref().is_some_and(|(s, a)| s.thing == "stock" && (a == "wanted" || a == "count"))
            && !(from..to).any(|i| self.has_role(i, Role::Have) || self.has_role(i, Role::Be));
        if listed {
            for found in self.found.iter_mut().filter(|f| f.subject.thing == "stock") {
                if let Says::Value { attribute, .. } = &mut found.says
                    && attribute == "count"
                {
                    *attribute = "wanted".to_string();
                }
            }
            let bare = |m: &Mention| {
                matches!(m.noun, Noun::Stock { kind: Some(_), stage: None }) && !m.negated && !m.definite && !m.taken
            };
            let wished: Vec<usize> = (0..self.mentions.len()).filter(|i| bare(&self.mentions[*i])).collect();
            wished.into_iter().for_each(|index| self.wanted_fish(index));
        }
        // "wanted to save money so I've put": the wish ends where something was done.
        let done = |i: usize| {
            self.has_role(i, Role::So) || i > from && self.has_role(i, Role::Person) && self.has_role(i + 1, Role::Have)
        };
        let end = wish.filter(|_| shun.is_none()).and_then(|w| (w + 1..to).find(|i| done(*i))).unwrap_or(to);
        let Some(at) = shun.or(wish).or(carried.then_some(from)) else { return };
        let behind_filter: Vec<usize> = wish.map_or(vec![], |wish| self.terms_behind_filter(wish));
        // "want 6 more": the count found is a wish.
        for found in &mut self.found {
            let stock_count = found.subject.thing == "stock" && found.attribute() == Some("count");
            if found.terms.first().is_some_and(|term| behind_filter.contains(term)) {
                continue;
            }
            let before_shun = shun.is_none_or(|s| found.terms.iter().all(|t| *t < self.items[s].first));
            if stock_count
                && before_shun
                && !carried
                && let Says::Value { attribute, .. } = &mut found.says
            {
                *attribute = "wanted".to_string();
            }
        }
        for index in 0..self.mentions.len() {
            let mention = self.mentions[index].clone();
            if mention.item < at || mention.item >= end || mention.taken {
                continue;
            }
            if let Noun::Stock { kind: Some(_), stage: None } = mention.noun
                && wish.is_some()
                && shun.is_none()
                && !mention.negated
                && !mention.definite
                && !self.asking
            {
                self.wanted_fish(index);
                continue;
            }
            // "looking to swap the hob for a canister": the first is there.
            let joint = (mention.last + 1..end).find(|i| self.has_role(*i, Role::For) || self.has_role(*i, Role::To));
            // "wants to go from sponge to canister": the one behind "from" is there, the other is wished for.
            let before = mention.item.checked_sub(1).filter(|i| *i >= from);
            let from_it = before.is_some_and(|i| self.has_role(i, Role::From));
            if from_it && matches!(mention.noun, Noun::Filter(_)) {
                continue;
            }
            let swapped = joint.is_some_and(|j| self.mentions.iter().any(|m| m.item > j && m.item < end))
                && (from..mention.item).any(|i| self.has_role(i, Role::Swap));
            if swapped {
                continue;
            }
            let wanted = match mention.noun {
                Noun::Medium(Some(_)) | Noun::Treatment(_) => true,
                Noun::Filter(_) => {
                    shun.is_some()
                        || mention.article
                        || carried
                        || (from..to).any(|i| self.has_role(i, Role::Swap))
                        || before.is_some_and(|i| self.has_role(i, Role::To))
                }
                _ => false,
            };
            if !wanted {
                continue;
            }
            // "ext not int": the first is wanted, the second only shows what is not.
            if mention.negated && matches!(mention.noun, Noun::Filter(Some(_))) && carried {
                self.mentions[index].taken = true;
                continue;
            }
            let yes = shun.is_none() && !mention.negated;
            self.mentions[index].taken = true;
            let mut terms = self.terms_of(mention.item, mention.last);
            terms.extend(self.terms_of(at, at));
            let of = match mention.noun {
                Noun::Filter(_) => Subject { tank: self.state.tank, ..subject("filter", None) },
                _ => self.mention_subject(&mention),
            };
            let kind = match mention.noun {
                Noun::Filter(Some(kind)) if yes => self.name(kind).to_string(),
                _ => self.name(if yes { name::YES } else { name::NO }).to_string(),
            };
            self.word(of, name::WANTED, &kind, terms, mention_mark(&mention));
        }
    }

    /// "wants a crab", "want to put discus in": how many, when it is one; else not said.
    fn wanted_fish(&mut self, index: usize) {
        self.mentions[index].taken = true;
        let mention = self.mentions[index].clone();
        let of = self.mention_subject(&mention);
        let terms = self.terms_of(mention.item, mention.last);
        if mention.article && !mention.plural {
            self.set(of, name::WANTED, crate::units::Amount::count(1.0), terms, mention_mark(&mention));
        } else {
            self.level(of, name::WANTED, super::reading::Level::Unknown, terms);
        }
    }

    /// "I want to go from a hang-on to a canister, 12 tetras": the terms behind the filter that is wished for, unless they are
    /// joined to it; those fish are there.
    fn terms_behind_filter(&self, wish: usize) -> Vec<usize> {
        let filter = |m: &&Mention| matches!(m.noun, Noun::Filter(_)) && m.item > wish;
        let Some(last) = self.mentions.iter().filter(filter).map(|m| m.last).max() else { return vec![] };
        match (last + 1..self.clause.to).any(|i| self.has_role(i, Role::And)) {
            true => vec![],
            false => (self.items[last].last + 1..=self.items[self.clause.to - 1].last).collect(),
        }
    }
}
