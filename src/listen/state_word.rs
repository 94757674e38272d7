//! States: what a word like "cloudy", "bare", "gasping", "running" is said of, and what follows from it. In: mentions of a
//! clause. Out: findings. Knows no figure.

use super::bind::Binder;
use super::found::{Found, subject};
use super::lexicon::Sense;
use super::mention::{Mention, Noun};
use super::name::{self, Name};
use super::reading::{Level, Says, Subject};
use super::stock::mention_mark;
use crate::knowledge::language::{LevelWord, Role};

impl Binder<'_, '_> {
    /// A label of the filter without figure: "flow unknown", "no guard".
    pub fn filter_label(&mut self, index: usize, attribute: Name) {
        let mention = self.mentions[index].clone();
        let terms = self.terms_of(mention.item, mention.last);
        let unknown = self.clause_has(|s| matches!(s, Sense::Level(LevelWord::Unknown)));
        if unknown && attribute == name::RATED_FLOW {
            let of = self.filter_subject(None, mention.item);
            return self.level(of, attribute, Level::Unknown, terms);
        }
        if mention.negated && attribute == name::INTAKE_GUARD {
            let of = self.filter_subject(None, mention.item);
            self.word(of, attribute, self.name(name::NONE), terms, None);
        }
    }

    /// A state: "cloudy", "bare", "gasping", "running".
    pub fn state_word(&mut self, index: usize, thing: Name, attribute: Name, kind: Name) {
        let mention = self.mentions[index].clone();
        let terms = self.terms_of(mention.item, mention.last);
        let mark = mention_mark(&mention);
        if thing == name::EVENT {
            let text = self.name(kind).to_string();
            let of = self.event(&text);
            // Danger is told, and denied, where it is looked for.
            if self.listener.cues.dangers.iter().any(|d| d.gives == text) {
                return;
            }
            if let Some(by) = self.denied_by(self.items[mention.item].first) {
                return self.deny_event(of, [terms, vec![by]].concat());
            }
            let of_reading = self.mentions.iter().any(|m| matches!(m.noun, Noun::Label { thing: name::READING, .. }));
            if kind == name::MEDICATED && of_reading {
                return;
            }
            if kind == name::SPAWNED {
                self.spawned(index);
            }
            if mention.negated {
                self.deny(&terms);
            } else if !self.found.iter().any(|f| f.subject == of && f.says == Says::Present) {
                self.push(Found::new(of.clone(), Says::Present, terms.clone()).marked(mark));
            }
            // "the small one died": one of them.
            let one = |i: usize| {
                self.has_role(i, Role::One) || self.has_role(i, Role::Smaller) || self.has_role(i, Role::Larger)
            };
            if kind == name::FISH_DIED && !mention.negated && mention.item > self.clause.from && one(mention.item - 1) {
                let definite = (self.clause.from..mention.item).any(|i| self.has_role(i, Role::Definite));
                let counted = self.found.iter().any(|f| f.subject == of && f.attribute() == Some("count"));
                if definite && !counted {
                    let says = Says::Value {
                        attribute: self.name(name::COUNT).to_string(),
                        how: super::reading::How::Set,
                        value: super::reading::Said::Amount(crate::units::Amount::count(1.0)),
                    };
                    self.push(Found::new(of, says, terms).marked(Some(super::reading::Mark::Derived)));
                }
            }
            return;
        }
        // "humming really loud": how much of it, no other noise.
        if (thing, attribute) == (name::FILTER, name::NOISE)
            && self.found.iter().any(|f| f.attribute() == Some(self.name(name::NOISE)))
        {
            return;
        }
        // "ok 8 corys": a word of courtesy, not their health.
        let before_stock = self.mentions.get(index + 1).is_some_and(|m| matches!(m.noun, Noun::Stock { .. }));
        if thing == name::STOCK && self.term(mention.item).level().is_some() && before_stock {
            return;
        }
        // The event tells it already.
        if attribute == name::CLEANED_WITH && self.happened().is_some_and(|e| e.starts_with("washed")) {
            return;
        }
        if matches!(attribute, name::AMMONIA_AS | name::NITRITE_AS | name::NITRATE_AS) {
            return self.counted_as(index);
        }
        let mut terms = terms;
        if (thing, attribute) == (name::FILTER, name::INTAKE_GUARD) {
            let of_guard = |m: &&Mention| m.noun == Noun::Label { thing, attribute };
            let labels: Vec<Mention> = self.mentions.iter().filter(of_guard).cloned().collect();
            labels.iter().for_each(|m| terms.extend(self.terms_of(m.item, m.last)));
        }
        let mut kind = self.name(kind);
        // "dechlor forgot", "conditioner not used": denied behind the noun.
        let undone =
            |i: usize| i > mention.last && [Role::Forgot, Role::Not, Role::Never].iter().any(|r| self.has_role(i, *r));
        if attribute == name::TREATED && kind == "yes" && (self.clause.from..self.clause.to).any(undone) {
            kind = "no";
        } else if mention.negated {
            let Some(opposite) = self.opposite(thing, attribute, kind) else { return self.deny(&terms) };
            kind = opposite;
        }
        let of = match thing {
            name::STOCK => self.stock_of_state(index),
            name::TANK if attribute == name::SUBSTRATE && self.is_medium_here() => return,
            // "a bag of zeolite": what is behind it, not before.
            name::MEDIUM if attribute == name::BAGGED && self.has_role(mention.last + 1, Role::Of) => {
                let next = self.mentions.get(index + 1).filter(|m| m.item <= mention.last + 3).cloned();
                match next.filter(|m| matches!(m.noun, Noun::Medium(Some(_)))) {
                    Some(medium) => self.mention_subject(&medium),
                    None => return,
                }
            }
            // "coarse foam": the grade of the medium behind it.
            name::MEDIUM if attribute == name::GRADE => {
                let next = self.mentions.get(index + 1).filter(|m| m.item == mention.last + 1).cloned();
                let before =
                    index.checked_sub(1).map(|i| self.mentions[i].clone()).filter(|m| m.last + 1 == mention.item);
                let medium = |m: &Mention| matches!(m.noun, Noun::Medium(Some(_)));
                match next.filter(medium).or(before.filter(medium)) {
                    Some(medium) => self.mention_subject(&medium),
                    None => return,
                }
            }
            _ => self.subject_for(thing, None, mention.item),
        };
        self.word(of.clone(), attribute, kind, terms.clone(), mark);
        // "the canister stopped": neither running nor flowing.
        if thing == name::FILTER && matches!(attribute, name::RUNNING | name::FLOW_STATE) && !mention.negated {
            for (other_attribute, other) in self.other_states(mention.item, attribute) {
                let other = self.name(other).to_string();
                self.word(of.clone(), other_attribute, &other, terms.clone(), mark);
            }
        }
    }

    /// What else a word says of the filter's running.
    fn other_states(&self, item: usize, told: Name) -> Vec<(Name, Name)> {
        let of = |s: &Sense| match s {
            Sense::State { thing: name::FILTER, attribute, kind } => Some((*attribute, *kind)),
            _ => None,
        };
        let both = |a: &(Name, Name)| a.0 != told && matches!(a.0, name::RUNNING | name::FLOW_STATE);
        self.term(item).senses.iter().filter_map(of).filter(both).collect()
    }

    /// The other of two kinds, or "none" where the attribute has it.
    fn opposite(&self, thing: Name, attribute: Name, kind: &str) -> Option<&'static str> {
        match kind {
            "yes" => Some("no"),
            "no" => Some("yes"),
            _ if attribute == name::INTAKE_GUARD && thing == name::FILTER => Some("none"),
            "dirty" if thing == name::FILTER => Some("clean"),
            "clogged" => Some("clean"),
            _ => None,
        }
    }

    pub fn is_medium_here(&self) -> bool {
        self.mentions.iter().any(|m| matches!(m.noun, Noun::Medium(_) | Noun::Filter(_)))
    }

    /// The fish that a state word belongs to: the one behind it, before it, spoken of, or any.
    fn stock_of_state(&mut self, index: usize) -> Subject {
        let is_stock = |m: &Mention| matches!(m.noun, Noun::Stock { .. });
        let next =
            self.mentions.get(index + 1).filter(|m| is_stock(m) && m.item <= self.mentions[index].last + 2).cloned();
        let before = self.mentions[..index].iter().rev().find(|m| is_stock(m)).cloned();
        match next.or(before) {
            Some(mention) => self.mention_subject(&mention),
            None => match self.state.stock.clone().filter(|_| self.is_one_kind()) {
                Some(stock) => stock,
                None => Subject { tank: self.state.tank, ..subject("stock", None) },
            },
        }
    }

    /// Only one kind of fish is known, or fish were spoken of last.
    pub fn is_one_kind(&self) -> bool {
        let mut kinds: Vec<&Option<String>> =
            self.state.held.iter().filter(|s| s.subject.thing == "stock").map(|s| &s.subject.kind).collect();
        kinds.sort_unstable();
        kinds.dedup();
        kinds.len() == 1 || self.state.subject.as_ref().is_some_and(|s| s.thing == "stock")
    }
}
