//! Media: their order in the water's way, colours, which foam is meant. In: mentions of a clause. Out: findings on media.
//! Knows no volume and no mass.

use super::bind::Binder;
use super::found::{Doubt, Found, subject};
use super::items::What;
use super::lexicon::Sense;
use super::mention::{Mention, Noun};
use super::name::{self, Name};
use super::reading::{Doubtful, Says, Statement, Subject};
use super::stock::mention_mark;
use crate::knowledge::language::Role;

/// Places in the water's way by number.
pub const PLACES: [&str; 5] = ["first", "second", "third", "fourth", "fifth"];

impl Binder<'_, '_> {
    /// A medium without any figure: there, or not; in its place when an order was announced.
    pub fn medium_present(&mut self, index: usize) {
        let mention = self.mentions[index].clone();
        let of = self.mention_subject(&mention);
        let terms = self.terms_of(mention.item, mention.last);
        if let Some(colour) = self.colour(&mention) {
            let mut with_colour = terms.clone();
            with_colour.push(self.items[mention.item - 1].first);
            self.word(of.clone(), name::COLOUR, &colour, with_colour, mention_mark(&mention));
        }
        if !mention.negated && self.place_in_order(&of, terms.clone(), &mention) {
            return;
        }
        let placed = self.position_beside(index);
        if let Some((kind, position_index)) = placed {
            self.mentions[position_index].taken = true;
            let place = self.mentions[position_index].clone();
            let mut terms = terms;
            terms.extend(self.terms_of(place.item, place.last));
            let kind = self.name(kind).to_string();
            return self.word(of, name::POSITION, &kind, terms, mention_mark(&mention));
        }
        if mention.negated && self.is_bare_not(index) {
            self.none_or_not_wanted(&of, &mention);
        }
        let says = if mention.negated { Says::Absent } else { Says::Present };
        let mut found = Found::new(of, says, terms).marked(mention_mark(&mention));
        (found.bare, found.definite) = (!mention.negated, mention.definite);
        self.push(found);
    }

    /// "not carbon" with no other medium to set it against.
    fn is_bare_not(&self, index: usize) -> bool {
        let item = self.mentions[index].item;
        let before = item.checked_sub(1).filter(|i| *i >= self.clause.from && self.has_role(*i, Role::Not));
        let Some(before) = before else { return false };
        let verb = self.term(before).senses.iter().any(|s| matches!(s, Sense::Ask(_)));
        let other = |m: &Mention| matches!(m.noun, Noun::Medium(Some(_))) && !m.negated;
        !verb && !self.asking && self.state.medium.is_none() && !self.mentions.iter().any(other)
    }

    fn none_or_not_wanted(&mut self, of: &Subject, mention: &Mention) {
        let said = self.said(&self.terms_of(mention.item, mention.last)).to_string();
        let statement = |says: Says| Statement { span: Default::default(), subject: of.clone(), says, mark: None };
        let shunned = Says::Value {
            attribute: self.name(name::WANTED).to_string(),
            how: super::reading::How::Set,
            value: super::reading::Said::Word(self.name(name::NO).to_string()),
        };
        let readings = vec![
            ("none in it".to_string(), vec![statement(Says::Absent)]),
            ("not wanted".to_string(), vec![statement(Says::Absent), statement(shunned)]),
        ];
        let ask = format!("No {said} in the filter, or none wanted?");
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Taken, ask, Vec::new()) });
    }

    /// The place of a medium when "bottom to top" or "order:" was said before.
    pub fn place_in_order(&mut self, of: &Subject, terms: Vec<usize>, mention: &Mention) -> bool {
        let Some(place) = self.state.order else { return false };
        if self.asking {
            return false;
        }
        self.state.order = Some(place + 1);
        let kind = PLACES.get(place).copied().unwrap_or("last");
        self.word(of.clone(), name::POSITION, kind, terms, mention_mark(mention));
        true
    }

    /// "carbon in top", "foam bottom".
    fn position_beside(&self, index: usize) -> Option<(Name, usize)> {
        let next = self.mentions.get(index + 1)?;
        match next.noun {
            Noun::State { thing: name::MEDIUM, attribute: name::POSITION, kind }
                if next.item <= self.mentions[index].last + 3 =>
            {
                Some((kind, index + 1))
            }
            _ => None,
        }
    }

    fn colour(&self, mention: &Mention) -> Option<String> {
        let before = mention.item.checked_sub(1).filter(|i| *i >= self.clause.from)?;
        (self.items[before].what == What::Term && self.has_role(before, Role::Colour))
            .then(|| self.said(&self.terms_of(before, before)).to_lowercase())
    }

    /// "bottom to top:", "order:": what follows stands in the water's way in that order.
    pub fn announce_order(&mut self) {
        // "order 4471" has a number, not an order.
        let numbered = |i: usize| i + 1 < self.clause.to && matches!(self.items[i + 1].what, What::Amount(_));
        let direction =
            (self.clause.from..self.clause.to).find(|i| self.has_role(*i, Role::Direction) && !numbered(*i));
        if let Some(at) = direction
            && self.state.order.is_none()
        {
            self.state.order = Some(0);
            // "bottom to top" says which end is meant; "order:" does not.
            let term = self.term(at);
            let names_an_end = |w: &super::words::Word| {
                let entry = self.listener.lexicon.entry(&w.text);
                entry.is_some_and(|e| {
                    e.senses.iter().any(|s| matches!(s, Sense::State { attribute: name::POSITION | name::ENTERS, .. }))
                })
            };
            let told = self.words[term.first..=term.last].iter().any(names_an_end) || term.last > term.first + 3;
            if !told && !self.asking {
                let ask = "Is that the order in which the water meets them, or from top to bottom?";
                self.doubts.push(Doubt::new(Doubtful::Taken, ask, Vec::new()));
            }
        }
    }

    /// The foam that pores belong to: named here or behind, spoken of, or foam as such.
    pub fn foam_of(&mut self, item: usize) -> Option<Subject> {
        let before =
            self.mentions.iter().rev().find(|m| m.last < item && matches!(m.noun, Noun::Medium(Some(_)))).cloned();
        if let Some(mention) = before {
            return Some(self.mention_subject(&mention));
        }
        let behind = self.items.iter().skip(item + 1).take(5).find_map(|i| match i.what {
            What::Term => self.terms[i.first].senses.iter().find_map(|s| match s {
                Sense::Named { thing: name::MEDIUM, kind, .. } => Some(*kind),
                _ => None,
            }),
            _ => None,
        });
        let foam = || {
            self.listener.lexicon.entry("foam")?.senses.iter().find_map(|s| match s {
                Sense::Named { thing: name::MEDIUM, kind, .. } => Some(*kind),
                _ => None,
            })
        };
        let named = |kind: Name| Subject { tank: self.state.tank, ..subject("medium", Some(self.name(kind))) };
        let spoken = self.state.medium.clone();
        let subject = behind.map(named).or(spoken).or_else(|| foam().map(named))?;
        self.state.medium = Some(subject.clone());
        Some(subject)
    }

    /// "order: coarse, med, rings": foams by their grade alone.
    pub fn graded_layers(&mut self) {
        let order =
            self.state.order.is_some() || (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Direction));
        let item = self.clause.to - 1;
        let alone = (self.clause.from..item).all(|i| {
            self.has_role(i, Role::Direction)
                || !matches!(self.items[i].what, super::items::What::Term)
                || self.is_empty_word(i)
        });
        if !order || !alone || self.items[item].what != super::items::What::Term {
            return;
        }
        let grade = self.term(item).senses.iter().find_map(|s| match s {
            super::lexicon::Sense::State { thing: name::MEDIUM, attribute: name::GRADE, kind } => Some(*kind),
            _ => None,
        });
        let foam =
            grade.and_then(|g| self.listener.lexicon.names.find(&format!("foam-{}", self.name(g).replace(' ', "-"))));
        let Some(foam) = foam else { return };
        self.mentions.retain(|m| m.item != item);
        self.mentions.push(super::mention::Mention::of(item, Noun::Medium(Some(foam))));
    }
}
