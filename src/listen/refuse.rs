//! Figures that cannot be used: negative, loose, in cups, with letters of no unit behind them. In: figures of a clause.
//! Out: what to ask, with readings where there are some. Knows no plausible range.

use super::bind::Binder;
use super::found::{Doubt, subject};
use super::items::What;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{Doubtful, Statement, Subject};
use crate::knowledge::language::Role;
use crate::units::{Dimension, unit};

/// A number without a unit from which on it may be the size of a tank, gallons or litres.
const LEAST_SIZE: f64 = 2.0;

impl Binder<'_, '_> {
    pub fn refuse(&mut self, item: usize, measure: &Measure) {
        let terms = self.terms_of(item, item);
        let what = match self.right_noun(item) {
            Some(index) if matches!(self.mentions[index].noun, Noun::Stock { .. }) => {
                let mention = &self.mentions[index];
                format!("How many {}?", self.said(&self.terms_of(mention.item, mention.last)))
            }
            _ if measure.unit_of(Dimension::VOLUME).is_some() => "What size is it?".to_string(),
            _ => "What is the figure?".to_string(),
        };
        self.doubts.push(Doubt::new(Doubtful::Implausible, what, terms));
    }

    /// A figure without anything to measure.
    pub fn loose(&mut self, item: usize, measure: &Measure) {
        // "the hang-on one", "one two three": a pronoun, no figure.
        let first = self.items[item].first;
        let word = measure.bare && self.term(item).numeral().is_none() && first == self.items[item].last
            || self.terms[first].is(Role::One) && measure.is_plain();
        if word || measure.article {
            return;
        }
        // "I am 74": how old somebody is.
        if item > self.clause.from + 1
            && self.has_role(item - 1, Role::Be)
            && self.has_role(item - 2, Role::Person)
            && !self.has_role(item - 2, Role::It)
        {
            return;
        }
        // "12/3": a day of the year.
        let slash = |i: usize| {
            matches!(self.items.get(i).map(|i| &i.what), Some(What::Mark('/'))) && self.terms[self.items[i].first].tight
        };
        if measure.bare && (slash(item + 1) || item > 0 && slash(item - 1)) {
            return;
        }
        let terms = self.terms_of(item, item);
        let said = self.said(&terms).to_string();
        let mut doubt = Doubt::new(Doubtful::Loose, format!("{said} what?"), terms);
        if !measure.is_plain() {
            doubt.ask = format!("{said} of what?");
        } else if self.clause.to - self.clause.from <= 4 || self.left(item).is_some() {
            doubt.readings = self.offers(item, measure);
            if let [(one, _), (two, _), ..] = doubt.readings.as_slice() {
                doubt.ask = format!("{said} {one}, or {two}?");
            }
        }
        self.doubts.push(doubt);
    }

    /// Words that are none of ours stand in the clause, too: the figure is more likely theirs.
    fn beside_unknown(&self) -> bool {
        (self.clause.from..self.clause.to).filter(|i| self.items[*i].what == What::Term).any(|i| {
            self.term(i).senses.iter().all(|s| matches!(s, super::lexicon::Sense::Common)) && self.term(i).letters > 1
        })
    }

    /// What a bare figure may be: a flow behind a filter, else the size of the tank.
    fn offers(&self, item: usize, measure: &Measure) -> Vec<(String, Vec<Statement>)> {
        let left = self.left(item).map(|l| self.mentions[l].noun);
        let flow = matches!(left, Some(Noun::Filter(_) | Noun::Label { thing: name::FILTER, .. }));
        let (of, attribute, units): (Subject, _, &[(&str, &str)]) = if flow {
            let of = Subject { number: self.state.filter, tank: self.state.tank, ..subject("filter", None) };
            (of, name::RATED_FLOW, &[("gallons an hour", "gal/h"), ("litres an hour", "L/h")])
        } else if self.state.size_of(self.state.tank).is_some()
            || measure.value().is_some_and(|v| v < LEAST_SIZE)
            || (self.clause.from..self.clause.to).any(|i| matches!(self.items[i].what, What::Time(_)))
            || self.beside_unknown()
            || self.right(item).is_some_and(|r| matches!(self.mentions[r].noun, Noun::Medium(_)))
        {
            // "2 died on Monday, 1 on Tuesday": no size of a tank.
            return Vec::new();
        } else {
            (self.tank(self.state.tank), name::NOMINAL, &[("gallons", "gal"), ("litres", "L")])
        };
        let Some(known) = self.listener.attributes.get(if flow { name::FILTER } else { name::TANK }, attribute) else {
            return Vec::new();
        };
        let mut offers = Vec::new();
        for (word, unit_name) in units {
            let Some(unit) = unit::by_name(unit_name) else { continue };
            let mut amount = measure.amount(unit);
            if let Some(other) = measure.other
                && !super::value::is_plausible(known, &amount)
            {
                amount = crate::units::Amount::exact(other, unit);
            }
            if super::value::is_plausible(known, &amount) {
                let mut statement = self.offer(of.clone(), attribute, amount);
                if measure.other.is_some() {
                    statement.mark = Some(super::reading::Mark::Hint);
                }
                offers.push((word.to_string(), vec![statement]));
            }
        }
        offers
    }

    /// "need media 4 55": for a 55, or four of them?
    pub fn spoken_for(&mut self, item: usize, measure: &Measure) -> bool {
        let spoken = item > self.clause.from && self.items[item - 1].what == What::Spoken(Role::For);
        let Some(before) = self.left(item - usize::from(spoken)).filter(|_| spoken && measure.bare) else {
            return false;
        };
        let mention = self.mentions[before].clone();
        let what = self.said(&self.terms_of(mention.item, mention.last)).to_string();
        let (digit, said) = (self.said(&self.terms_of(item - 1, item - 1)), self.said(&self.terms_of(item, item)));
        let ask = format!("{what} for a {said} (gallons or litres), or {digit} lots of {what}?");
        let doubt = Doubt { readings: self.offers(item, measure), ..Doubt::new(Doubtful::Ambiguous, ask, Vec::new()) };
        self.doubts.push(doubt);
        true
    }

    /// "3 capfuls", "a cup of gravel", "10 pints": vessels without a size.
    pub fn in_vessels(&mut self, item: usize, measure: &Measure) -> bool {
        if !measure.is_plain() || !self.has_role(item + 1, Role::Vessel) {
            return false;
        }
        let terms = self.terms_of(item, item + 1);
        let said = self.said(&terms).to_string();
        self.vessel(item + 1);
        self.doubts.push(Doubt::new(
            Doubtful::NoFigure,
            format!("{said}: how many litres or millilitres is that?"),
            terms,
        ));
        true
    }

    /// What is in a vessel of unknown size is not read as something with an amount.
    pub fn vessel(&mut self, item: usize) {
        let next = self.mentions.iter_mut().find(|m| m.item > item && m.item <= item + 2);
        if let Some(mention) = next {
            mention.taken = true;
        }
    }

    /// "40b": letters that are no unit; the number may be a size.
    pub fn odd_letters(&mut self, item: usize, measure: &Measure) -> bool {
        if !measure.bare || item + 1 >= self.clause.to || self.items[item + 1].what != What::Term {
            return false;
        }
        let next = self.term(item + 1);
        // "40 breeder", "20 long": a size of the trade by its gallons.
        let trade = next.is(Role::TradeSize)
            && self.state.size_of(self.state.tank).is_none()
            && self.listener.cues.is_sold_size(measure.value());
        let odd = next.tight && !next.hyphen && next.senses.is_empty() && self.words[next.first].text.len() <= 3;
        if !trade && !odd {
            return false;
        }
        if let Some(mention) = self.mentions.iter_mut().find(|m| trade && m.item == item + 1) {
            mention.taken = true;
        }
        let terms = self.terms_of(item, item + 1);
        let said = self.said(&terms).to_string();
        let readings = self.offers(item, measure);
        if trade && let Some(gallon) = unit::by_name("gal") {
            let of = self.tank(self.state.tank);
            let number = measure.value().map(super::value::plain_number).unwrap_or_default();
            self.set(
                of,
                name::NOMINAL,
                measure.amount(gallon),
                self.terms_of(item, item),
                Some(super::reading::Mark::Hint),
            );
            let ask = format!("{said}: {number} gallons?");
            self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Taken, ask, Vec::new()) });
            return true;
        }
        let ask = match readings.first() {
            Some((word, _)) => {
                format!("{said}: {} {word}?", measure.value().map(super::value::plain_number).unwrap_or_default())
            }
            None => format!("{said} what?"),
        };
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Loose, ask, terms) });
        true
    }

    /// "no 3 inch fish", "no 3rd tray": a limit on what is there, not a figure of it.
    pub fn is_limit(&mut self, item: usize, measure: &Measure) -> bool {
        let no = item > self.clause.from
            && self.has_role(item - 1, Role::No)
            && measure.unit_of(Dimension::LENGTH).is_some();
        let Some(index) = self.right_noun(item).filter(|_| no) else { return false };
        if !matches!(self.mentions[index].noun, Noun::Stock { .. }) {
            return false;
        }
        let mention = self.mentions[index].clone();
        let of = self.mention_subject(&mention);
        (self.state.subject, self.state.stock) = (Some(of.clone()), Some(of));
        self.mentions[index].taken = true;
        true
    }

    /// "3 l/min pump", no filter in sight: is it the filter's?
    pub fn pump_of_what(&mut self, item: usize, measure: &Measure) -> bool {
        let pump =
            self.has_role(item + 1, Role::Device) || item > self.clause.from && self.has_role(item - 1, Role::Device);
        if !pump || !self.state.filters.is_empty() || self.mentions.iter().any(|m| matches!(m.noun, Noun::Filter(_))) {
            return false;
        }
        let Some(unit) = measure.unit_of(Dimension::FLOW) else { return false };
        let from = if self.has_role(item + 1, Role::Device) { item } else { item - 1 };
        let terms = self.terms_of(from, from + 1);
        let of = Subject { number: self.state.filter, tank: self.state.tank, ..subject("filter", None) };
        let said = self.said(&self.terms_of(item, item)).to_string();
        let readings =
            vec![("the filter's pump".to_string(), vec![self.offer(of, name::RATED_FLOW, measure.amount(unit))])];
        let ask = format!("Is the {said} the filter's pump?");
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        true
    }

    /// "two pounds for the rings": weight or money?
    pub fn pounds(&mut self, item: usize, measure: &Measure) -> bool {
        if !(measure.has_unit("lb") && measure.has_unit("GBP")) {
            return false;
        }
        let medium = self.right_noun(item).or_else(|| self.left(item)).map(|i| self.mentions[i].clone());
        let medium = medium.filter(|m| matches!(m.noun, Noun::Medium(Some(_)) | Noun::Treatment(_)));
        let placed = (item + 1..self.clause.to).any(|i| self.has_role(i, Role::For));
        let price = self.has_role(item + 1, Role::For) || medium.is_none() && placed;
        let bound = measure.low.is_none() || measure.high.is_none();
        if medium.is_some() && !price || medium.is_none() && (bound || self.asking) {
            return false;
        }
        let terms = self.terms_of(item, item);
        let said = self.said(&terms).to_string();
        let mut readings = Vec::new();
        let named = (item + 1..self.clause.to).find_map(|i| self.mentions.iter().find(|m| m.item == i).cloned());
        if let (Some(mention), Some(lb), Some(pound)) = (named, unit::by_name("lb"), unit::by_name("GBP"))
            && matches!(mention.noun, Noun::Medium(Some(_)))
        {
            let of = self.mention_subject(&mention);
            readings.push(("weight".to_string(), vec![self.offer(of.clone(), name::MASS, measure.amount(lb))]));
            readings.push(("money".to_string(), vec![self.offer(of, name::COST, measure.amount(pound))]));
        }
        self.doubts.push(Doubt {
            readings,
            ..Doubt::new(Doubtful::Ambiguous, format!("{said} in weight, or in money?"), terms)
        });
        true
    }

    /// "8 oz dechlor": by volume or by weight?
    pub fn ounces(&mut self, item: usize, measure: &Measure) -> bool {
        if !(measure.has_unit("floz") && measure.has_unit("oz")) {
            return false;
        }
        let near = self
            .right_noun(item)
            .or_else(|| self.left(item))
            .filter(|i| matches!(self.mentions[*i].noun, Noun::Treatment(_)));
        let Some(index) = near else { return false };
        self.mentions[index].taken = true;
        let mention = self.mentions[index].clone();
        let of = self.mention_subject(&mention);
        let terms = self.joined_terms(item, &mention);
        let said = self.said(&self.terms_of(item, item)).to_string();
        let mut readings = Vec::new();
        if let (Some(fluid), Some(weight)) = (unit::by_name("floz"), unit::by_name("oz")) {
            readings
                .push(("fluid ounces".to_string(), vec![self.offer(of.clone(), name::VOLUME, measure.amount(fluid))]));
            readings.push(("ounces by weight".to_string(), vec![self.offer(of, name::MASS, measure.amount(weight))]));
        }
        let ask = format!("{said}: fluid ounces, or ounces by weight?");
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        true
    }
}
