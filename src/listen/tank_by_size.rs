//! Tanks named by their size alone: "the 450 discus tank", "the 240's clear now", "not the 60". In: figures and mentions of a
//! clause. Out: the tank spoken of, its size where it is a new one. Knows no unit that was not said.

use super::bind::Binder;
use super::found::{Doubt, Found};
use super::items::What;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{Doubtful, Mark, Says};
use crate::knowledge::language::Role;
use crate::units::unit;

/// A tank named by a bare figure is no smaller, whatever it is counted in (settled choice): "the 3 goldfish tank" is three fish.
const SMALLEST: f64 = 4.0;

impl Binder<'_, '_> {
    /// Finds the tanks that are named so, before anything else is read: what the clause says is of them.
    pub fn tanks_by_size(&mut self) {
        for item in self.clause.from..self.clause.to {
            let What::Amount(measure) = &self.items[item].what else { continue };
            if !measure.bare || measure.article || measure.refused || self.done.contains(&item) {
                continue;
            }
            let measure = measure.clone();
            if self.term(item).numeral().is_none() || measure.value().is_none_or(|v| v < SMALLEST) {
                continue;
            }
            if self.is_named_behind(item, &measure)
                || self.is_not_that_tank(item, &measure)
                || self.is_tank_of_fish(item, &measure)
                || self.owns(item, &measure)
            {
                self.done.push(item);
            }
        }
    }

    /// "300 display": the name needs no noun.
    fn is_named_behind(&mut self, item: usize, measure: &Measure) -> bool {
        let next = item + 1;
        if next >= self.clause.to || self.items[next].what != What::Term {
            return false;
        }
        let word = self.words[self.term(next).first].text.as_str();
        let Some(name) = self.listener.tank_names.get(word).filter(|_| self.listener.tank_nouns.contains(word)) else {
            return false;
        };
        let name = name.to_string();
        if !self.tank_of_figure(item, measure) {
            return false;
        }
        self.state.call("tank", &name, self.state.tank);
        let mut found = Found::new(self.tank(self.state.tank), Says::Present, self.terms_of(next, next));
        found.bare = true;
        self.push(found);
        true
    }

    /// "80 in the sump": its water, in the unit of the line or asked for.
    pub fn size_of_sump(&mut self, item: usize, measure: &Measure) -> bool {
        let named = item + if self.has_role(item + 2, Role::Definite) { 3 } else { 2 };
        let sump = self.mentions.iter().find(|m| m.item == named && m.noun == Noun::Filter(Some(name::SUMP))).cloned();
        let Some(sump) = sump.filter(|_| self.has_role(item + 1, Role::In) && measure.bare) else { return false };
        let of = self.filter_named(&sump);
        let terms = self.terms_of(item, item);
        if let Some(unit) = self.state.volume_unit.and_then(unit::by_name) {
            let guessed = Measure { units: vec![unit], bare: false, ..measure.clone() };
            self.value(item, of, (name::FILTER, name::SUMP_VOLUME), &guessed, terms, false);
            self.found.iter_mut().rev().take(1).for_each(|f| f.mark = f.mark.or(Some(Mark::Hint)));
            return true;
        }
        let units = [("gallons", "gal"), ("litres", "L")].into_iter().filter_map(|(w, u)| Some((w, unit::by_name(u)?)));
        let readings = units
            .map(|(w, u)| (w.to_string(), vec![self.offer(of.clone(), name::SUMP_VOLUME, measure.amount(u))]))
            .collect();
        let said = self.said(&terms).to_string();
        let ask = format!("{said} gallons, or litres?");
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        true
    }

    /// "not the 60", of a tank of that size: another one is meant.
    fn is_not_that_tank(&mut self, item: usize, measure: &Measure) -> bool {
        let not = item > self.clause.from + 1
            && self.has_role(item - 1, Role::Definite)
            && (self.has_role(item - 2, Role::Not) || self.has_role(item - 2, Role::No));
        let Some(number) = measure.value().filter(|_| not).and_then(|v| self.state.tank_of_size(v, None)) else {
            return false;
        };
        let mut found = Found::new(self.tank(number), Says::Present, self.terms_of(item - 2, item));
        found.bare = true;
        let tank = self.state.tank;
        self.push(found);
        self.state.tank = tank;
        true
    }

    /// "the 450 discus tank", "my 200 koi pond": a size, never a count.
    fn is_tank_of_fish(&mut self, item: usize, measure: &Measure) -> bool {
        let noun = |at: usize| self.mentions.iter().find(|m| m.item == at);
        let mut at = item + 1;
        let mut fish = false;
        while let Some(mention) = noun(at) {
            match mention.noun {
                Noun::Stock { .. } if !mention.plural => fish = true,
                Noun::State { thing: name::TANK, attribute: name::KIND, .. } => {}
                Noun::Tank if fish && !mention.plural => break,
                _ => return false,
            }
            at = mention.last + 1;
        }
        let kept = noun(at).is_some_and(|m| m.noun == Noun::Tank)
            || at > item + 1
                && self.mentions.iter().any(|m| {
                    let pond = matches!(m.noun, Noun::State { attribute: name::KIND, kind: name::POND, .. });
                    pond && m.last + 1 == at
                });
        if !(fish && kept) {
            return false;
        }
        let last = if noun(at).is_some() { at } else { at - 1 };
        self.tank_of_figure(item, measure);
        let number = self.state.tank;
        let mut found = Found::new(self.tank(number), Says::Present, self.terms_of(last, last));
        (found.bare, found.via) = (true, Some(Role::In));
        self.push(found);
        for mention in self.mentions.iter_mut().filter(|m| m.item == last && m.noun == Noun::Tank) {
            mention.taken = true;
        }
        true
    }

    /// "the 240's clear", "the 120's nitrate": a short "is" or "of the", behind a size.
    fn owns(&mut self, item: usize, measure: &Measure) -> bool {
        let next = item + 1;
        let owns = next < self.clause.to
            && self.items[next].what == What::Term
            && self.has_role(next, Role::Be)
            && self.term(next).tight
            && item > self.clause.from
            && self.has_role(item - 1, Role::Definite);
        owns && self.tank_of_figure(item, measure)
    }

    /// The tank of that size, or a new one; its unit is a guess.
    pub fn tank_of_figure(&mut self, item: usize, measure: &Measure) -> bool {
        let Some(value) = measure.value() else { return false };
        let terms = self.terms_of(item, item);
        if let Some(number) = self.state.tank_of_size(value, None) {
            self.state.tank = number;
            let mut found = Found::new(self.tank(number), Says::Present, terms);
            (found.bare, found.definite, found.via) = (true, true, Some(Role::In));
            self.push(found);
            return true;
        }
        let Some(unit) = self.volume_unit() else { return false };
        let guessed = Measure { units: vec![unit], bare: false, ..measure.clone() };
        // "the 55 has angels, the 10 has fry": of another size than the one just told.
        let here = self.state.tanks.iter().any(|t| t.number == self.state.tank && t.here && t.size.is_some());
        let definite = item > self.clause.from && self.has_role(item - 1, Role::Definite);
        let next = item + 1 < self.clause.to && (self.has_role(item + 1, Role::Have) || self.term(item + 1).tight);
        let another = here && definite && next;
        let number = if another { self.state.next_tank() } else { self.tank_number(item, &guessed) };
        self.state.placed |= another;
        self.state.tank = number;
        let tank = self.tank(number);
        self.value(item, tank, (name::TANK, name::NOMINAL), &guessed, terms, false);
        if self.state.volume_unit.is_none() && !self.asking {
            self.gallons_or_litres(&guessed, number);
        }
        if (self.clause.from..item).any(|i| self.has_role(i, Role::Both)) {
            self.both_serve(number, item);
        }
        if let Some(last) = self.found.last_mut().filter(|f| f.subject.thing == "tank") {
            last.mark = Some(Mark::Hint);
            last.via = last.via.or(Some(Role::In));
        }
        true
    }
}
