//! Several filters told together: each of a group, one after the other, one unknown; flows without a unit. In: figures of a
//! clause. Out: findings on filters, or what to ask. Knows no fish.

use super::bind::Binder;
use super::found::{Doubt, subject};
use super::lexicon::Sense;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{Doubtful, Subject};
use crate::knowledge::language::Role;
use crate::units::{Dimension, unit};

/// No filter moves fewer litres or gallons an hour (settled choice): a smaller figure beside such words is another's.
const LEAST_FLOW: f64 = 30.0;

impl Binder<'_, '_> {
    /// All filters that a figure holds for: each of a group, or the next of "one 200, one 350".
    pub fn group_subjects(&mut self, of: &Subject, measure: &Measure) -> Vec<Subject> {
        let group = self.state.group.clone();
        let at = |number: u16| Subject { number, ..of.clone() };
        let singly = (self.clause.from..self.clause.to).any(|i| self.is_the_word_one(i));
        if singly && !measure.each && self.state.told < group.len() {
            self.state.told += 1;
            return vec![at(group[self.state.told - 1])];
        }
        group.into_iter().map(at).collect()
    }

    /// "2 canisters, one 1400 lph, one unknown".
    pub fn unknown_of_group(&mut self) {
        let group = self.state.group.clone();
        if group.len() < 2 || self.state.told == 0 || self.state.told >= group.len() {
            return;
        }
        let unknown = |s: &Sense| matches!(s, Sense::Level(crate::knowledge::language::LevelWord::Unknown));
        let at = (self.clause.from..self.clause.to)
            .find(|i| self.items[*i].what == super::items::What::Term && self.term(*i).senses.iter().any(unknown));
        let Some(at) = at.filter(|a| *a > self.clause.from && self.is_the_word_one(*a - 1)) else { return };
        let of = Subject { number: group[self.state.told], tank: self.state.tank, ..subject("filter", None) };
        self.state.told += 1;
        let terms = self.terms_of(at - 1, at);
        self.level(of, name::RATED_FLOW, super::reading::Level::Unknown, terms);
    }

    pub fn is_the_word_one(&self, item: usize) -> bool {
        let first = self.items[item].first;
        self.items[item].last == first
            && self.terms[first].senses.iter().any(|s| matches!(s, Sense::Number(n) if *n == 1.0))
            && self.terms[first].is(Role::One)
    }

    /// "a 12000 lph one", "the one", "one of them": stands for a thing; only "it's one" may be a figure.
    pub fn is_pronoun_one(&self, item: usize) -> bool {
        let said = item > self.clause.from && (self.has_role(item - 1, Role::Be) || self.has_role(item - 1, Role::Now));
        self.terms[self.items[item].first].is(Role::One)
            && self.items[item].first == self.items[item].last
            && (!said || self.has_role(item + 1, Role::Of))
    }

    /// A bare figure behind a filter that the same line gave a unit for another: "one 200 one 350 gph".
    pub fn guessed_unit(&mut self, item: usize, measure: &Measure) -> bool {
        if !measure.bare || self.state.group.is_empty() || self.state.told >= self.state.group.len() {
            return false;
        }
        let later = self.items[item + 1..self.clause.to].iter().find_map(|i| match &i.what {
            super::items::What::Amount(m) => m.unit_of(Dimension::FLOW),
            _ => None,
        });
        let Some(unit) = later else { return false };
        let one_before = item > self.clause.from && self.is_the_word_one(item - 1);
        if !one_before {
            return false;
        }
        let guessed = Measure { units: vec![unit], bare: false, ..measure.clone() };
        let of = self.filter_subject(None, item);
        let terms = self.terms_of(item, item);
        self.value(item, of, (name::FILTER, name::RATED_FLOW), &guessed, terms, false);
        true
    }

    /// "1200 on the box": a flow, by the words beside it; nobody said in what.
    pub fn flow_by_label(&mut self, item: usize, measure: &Measure) -> bool {
        let near = self.right(item).into_iter().chain(self.left(item));
        let label = |i: &usize| {
            let mention = &self.mentions[*i];
            !mention.taken && mention.noun == Noun::Label { thing: name::FILTER, attribute: name::RATED_FLOW }
        };
        let Some(index) = near.into_iter().find(label) else { return false };
        if !measure.is_plain() || measure.value().is_none_or(|v| v < LEAST_FLOW) || self.asking {
            return false;
        }
        self.mentions[index].taken = true;
        let of = self.filter_subject(None, item);
        self.flow_without_unit(item, measure, of)
    }

    /// "600 an hour": litres or gallons is not said.
    pub fn flow_without_unit(&mut self, item: usize, measure: &Measure, of: Subject) -> bool {
        if self.flow_of_all(item, measure) {
            return true;
        }
        let terms = self.terms_of(item, item);
        let number = measure.value().map(super::value::plain_number).unwrap_or_default();
        let readings = [("litres", "L/h"), ("gallons", "gal/h")]
            .into_iter()
            .filter_map(|(word, name)| Some((word, unit::by_name(name)?)))
            .map(|(word, u)| (word.to_string(), vec![self.offer(of.clone(), name::RATED_FLOW, measure.amount(u))]))
            .collect();
        let ask = format!("{number} litres an hour, or gallons?");
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        true
    }
}
