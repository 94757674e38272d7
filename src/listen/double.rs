//! Words that name a filter and a medium alike ("sponge"): which is meant, by the place they stand in. In: mentions of a
//! clause. Out: one meaning, or a question with all of them. Knows no figure's value.

use super::bind::Binder;
use super::found::{Doubt, subject};
use super::items::What;
use super::lexicon::Sense;
use super::mention::Noun;
use super::name::{self, Name};
use super::reading::{Doubtful, How, Said, Says, Statement, Subject};
use crate::knowledge::language::Role;
use crate::units::Dimension;

/// What a double word was found to be.
enum Meant {
    Filter,
    Medium,
    /// The filter, more likely than not.
    RatherFilter,
    /// The medium, more likely than not.
    RatherMedium,
    Unclear,
}

impl Binder<'_, '_> {
    /// Decides every double word of the clause.
    pub fn double_words(&mut self) {
        for index in 0..self.mentions.len() {
            let mention = &self.mentions[index];
            if mention.item != mention.last {
                continue;
            }
            let Some((filter, medium)) = self.both(mention.item) else { continue };
            if !matches!(mention.noun, Noun::Filter(Some(_)) | Noun::Medium(Some(_))) {
                continue;
            }
            match self.meant(index) {
                Meant::Filter => self.mentions[index].noun = Noun::Filter(Some(filter)),
                Meant::Medium => self.mentions[index].noun = Noun::Medium(Some(medium)),
                Meant::RatherFilter => {
                    self.mentions[index].noun = Noun::Filter(Some(filter));
                    self.mentions[index].leaned = true;
                    self.ask_about(index, filter, medium);
                }
                Meant::RatherMedium => {
                    self.mentions[index].noun = Noun::Medium(Some(medium));
                    self.ask_about(index, filter, medium);
                }
                Meant::Unclear => self.ask_which(index, filter, medium),
            }
        }
    }

    /// The filter and the medium of one name.
    fn both(&self, item: usize) -> Option<(Name, Name)> {
        let senses = self.term(item).senses;
        let of = |thing: Name| {
            senses.iter().find_map(|s| match s {
                Sense::Named { thing: t, kind, .. } if *t == thing => Some(*kind),
                _ => None,
            })
        };
        Some((of(name::FILTER)?, of(name::MEDIUM)?))
    }

    fn meant(&self, index: usize) -> Meant {
        let mention = &self.mentions[index];
        let (from, to) = (self.clause.from, self.clause.to);
        let item = mention.item;
        let figure = |i: usize| match (i >= from && i < to).then(|| &self.items[i].what) {
            Some(What::Amount(m)) => Some(m),
            _ => None,
        };
        // "2x sponge": the sign stands between.
        let signed = item > from + 1 && matches!(self.items[item - 1].what, What::Mark('x'));
        let before = item.checked_sub(if signed { 2 } else { 1 }).and_then(figure);
        let beside = [before, figure(item + 1)];
        let medium_figure = beside.into_iter().flatten().any(|m| {
            [Dimension::MASS, Dimension::PER_LENGTH, Dimension::LENGTH].iter().any(|d| m.unit_of(*d).is_some())
        });
        let volume_behind = figure(item + 1).is_some_and(|m| m.unit_of(Dimension::VOLUME).is_some());
        let volume_of = item > from + 1
            && self.has_role(item - 1, Role::Of)
            && figure(item - 2).is_some_and(|m| m.unit_of(Dimension::VOLUME).is_some());
        let of = item > from && self.has_role(item - 1, Role::Of);
        let filter_elsewhere = self
            .mentions
            .iter()
            .enumerate()
            .any(|(n, m)| n != index && matches!(m.noun, Noun::Filter(_)) && self.both(m.item).is_none());
        let inside = (item + 1..to).any(|i| self.has_role(i, Role::In)) && filter_elsewhere;
        // "clean the sponge", none being known.
        let known = !self.state.filters.is_empty() || self.state.held.iter().any(|s| s.subject.thing == "medium");
        if self.asking && !known && !filter_elsewhere && mention.definite && !mention.negated && !medium_figure && !of {
            return Meant::RatherMedium;
        }
        // "a canister of 1000 l/h with sponge": in it.
        let in_filter = self.clause.joint == Some(Role::With)
            && !self.clause.starts
            && self.state.subject.as_ref().is_some_and(|s| s.thing == "filter");
        // "the 30 litre just a sponge": what runs on that tank.
        let on_this = (from..item).any(|i| {
            figure(i).is_some_and(|m| m.unit_of(Dimension::VOLUME).is_some())
                && i > from
                && self.has_role(i - 1, Role::Definite)
        }) && !of;
        if on_this {
            return Meant::Filter;
        }
        if in_filter
            || medium_figure
            || volume_behind
            || volume_of
            || of
            || inside
            || self.asking && !filter_elsewhere
            || mention.negated
        {
            return Meant::Medium;
        }
        if self.mentions.iter().any(|m| matches!(m.noun, Noun::Label { attribute: name::BASKETS | name::POSITION, .. }))
        {
            return Meant::Medium;
        }
        let counted = before.is_some_and(|m| m.is_plain() && !m.article)
            || before.is_some_and(|m| m.unit_of(Dimension::VOLUME).is_some())
                && self.state.size_of(self.state.tank).is_none();
        let on_a_tank = (item + 1..to).any(|i| self.has_role(i, Role::In) || self.has_role(i, Role::On))
            && self.items[item + 1..to].iter().any(|i| matches!(i.what, What::Amount(_)));
        let joined = self.clause.joint == Some(Role::And) && !self.state.filters.is_empty();
        if counted || on_a_tank || filter_elsewhere && !self.asking {
            return Meant::Filter;
        }
        if joined {
            return Meant::RatherFilter;
        }
        Meant::Unclear
    }

    /// The word was taken for one of them; both are offered.
    fn ask_about(&mut self, index: usize, filter: Name, medium: Name) {
        let doubt = self.doubt_of(index, filter, medium);
        self.doubts.push(Doubt { why: Doubtful::Taken, terms: Vec::new(), ..doubt });
    }

    fn ask_which(&mut self, index: usize, filter: Name, medium: Name) {
        let doubt = self.doubt_of(index, filter, medium);
        self.mentions[index].taken = true;
        self.doubts.push(doubt);
    }

    fn doubt_of(&self, index: usize, filter: Name, medium: Name) -> Doubt {
        let mention = self.mentions[index].clone();
        let word = self.said(&self.terms_of(mention.item, mention.last)).to_string();
        let says = |attribute: &str, kind: &str| Says::Value {
            attribute: attribute.to_string(),
            how: How::Set,
            value: Said::Word(kind.to_string()),
        };
        let of_filter = Subject { number: self.state.filter, tank: self.state.tank, ..subject("filter", None) };
        let statement = |of: Subject, says: Says| Statement { span: Default::default(), subject: of, says, mark: None };
        let medium_there = Subject { tank: self.state.tank, ..subject("medium", Some(self.name(medium))) };
        let readings = vec![
            (
                format!("a {word} filter driven by air"),
                vec![statement(of_filter.clone(), says("kind", self.name(filter)))],
            ),
            (format!("a {word} inside a filter"), vec![statement(medium_there, Says::Present)]),
            ("over the intake".to_string(), vec![statement(of_filter, says("intake guard", self.name(name::SPONGE)))]),
        ];
        let ask = format!("A {word} filter of its own, {word} inside another filter, or one over the intake?");
        let terms = self.terms_of(mention.item, mention.last);
        Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) }
    }
}
