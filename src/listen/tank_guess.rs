//! Tanks told by half: a unit that comes later or not at all, a second guess, a letter that may be grams. In: figures of a
//! clause. Out: findings marked as guessed, and what to ask. Knows no fish.

use super::bind::Binder;
use super::found::{Doubt, subject};
use super::items::What;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{Doubtful, Mark, Subject};
use crate::knowledge::language::Role;
use crate::units::{Dimension, unit};

/// "The tank is 26" is its warmth, in degrees of Celsius.
const WARMTH: std::ops::RangeInclusive<f64> = 10.0..=36.0;

impl Binder<'_, '_> {
    /// "30 g" with nothing beside it: gallons or grams.
    pub fn is_grams_alone(&mut self, item: usize, measure: &Measure) -> bool {
        let both = measure.has_unit("gal") && measure.has_unit("g");
        let alone = (0..self.items.len())
            .all(|i| i == item || matches!(self.items[i].what, What::Mark(_)) || self.is_empty_word(i));
        if !(both && alone) || self.state.volume_unit.is_some_and(|u| u != "gal") {
            return false;
        }
        let terms = self.terms_of(item, item);
        if !self.state.tanks.is_empty() {
            // A tank was spoken of: taken for it, and asked.
            let unsized_tank = self.state.size_of(self.state.tank).is_none();
            if let Some(gallon) = unit::by_name("gal").filter(|_| unsized_tank) {
                let of = self.tank(self.state.tank);
                let amount = measure.amount(gallon);
                let readings = vec![("gallons".to_string(), vec![self.offer(of.clone(), name::NOMINAL, amount)])];
                let said = measure.value().map(super::value::plain_number).unwrap_or_default();
                let ask = format!("{said} gallons?");
                self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Taken, ask, Vec::new()) });
                self.set(of, name::NOMINAL, amount, terms, Some(Mark::Hint));
            }
            return unsized_tank;
        }
        let mut readings = Vec::new();
        if let (Some(gallon), Some(gram)) = (unit::by_name("gal"), unit::by_name("g")) {
            let tank = self.offer(self.tank(1), name::NOMINAL, measure.amount(gallon));
            let medium = self.offer(subject(self.name(name::MEDIUM), None), name::MASS, measure.amount(gram));
            readings.push(("gallons".to_string(), vec![tank]));
            readings.push(("grams of something".to_string(), vec![medium]));
        }
        let number = measure.value().map(super::value::plain_number).unwrap_or_default();
        let ask = format!("{number} gallons, or {number} grams of something?");
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        true
    }

    /// "25 litres but I'd say more like thirty": a second guess at what was told last.
    pub fn another_guess(&mut self, item: usize, measure: &Measure) -> bool {
        let but = self.clause.joint == Some(Role::But) && measure.is_plain() && measure.hedged;
        let told = self.state.last.as_ref().is_some_and(|(s, a)| s.thing == "tank" && a == "nominal");
        let Some(size) = self.state.size_of(self.state.tank).filter(|_| but && told && self.mentions.is_empty()) else {
            return false;
        };
        let guessed = Measure { units: vec![size.unit], bare: false, ..measure.clone() };
        let of = self.tank(self.state.tank);
        let terms = self.terms_of(item, item);
        let said = self.said(&terms).to_string();
        self.value(item, of, (name::TANK, name::NOMINAL), &guessed, terms, false);
        let former = size.likely.map(super::value::plain_number).unwrap_or_default();
        let ask =
            format!("{former} {unit}, or {said}? Length, width and height would settle it.", unit = size.unit.shown);
        self.doubts.push(Doubt::new(Doubtful::Taken, ask, Vec::new()));
        true
    }

    /// "tank at 26": its temperature, by the figure.
    pub fn tank_at(&mut self, item: usize, measure: &Measure) -> bool {
        let at = item > self.clause.from && self.has_role(item - 1, Role::At);
        let Some(index) = self.left(item).filter(|_| at && measure.bare) else { return false };
        let tank = self.mentions[index].noun == Noun::Tank && self.mentions[index].last + 2 == item;
        if !tank || !self.fits(name::TANK, name::TEMPERATURE, measure) {
            return false;
        }
        let mention = self.mentions[index].clone();
        let terms = self.joined_terms(item, &mention);
        let of = self.tank(self.state.tank);
        self.value(item, of, (name::TANK, name::TEMPERATURE), measure, terms, false);
        true
    }

    /// "rated for 300 litres and the tank is 240": in the unit of the line.
    pub fn tank_is(&mut self, item: usize, measure: &Measure) -> bool {
        let is = item > self.clause.from && self.has_role(item - 1, Role::Be) && measure.bare;
        let Some(index) = self.left(item).filter(|_| is && self.state.volume_unit.is_some()) else { return false };
        let unsized_tank = self.state.size_of(self.state.tank).is_none();
        if self.mentions[index].noun != Noun::Tank
            || !unsized_tank
            || self.clause.to > item + 1
            || measure.value().is_none_or(|v| WARMTH.contains(&v))
        {
            return false;
        }
        let Some(unit) = self.volume_unit() else { return false };
        let mention = self.mentions[index].clone();
        self.mentions[index].taken = true;
        let terms = self.joined_terms(item, &mention);
        let of = self.tank(self.state.tank);
        self.set(of, name::NOMINAL, measure.amount(unit), terms, Some(Mark::Hint));
        true
    }

    /// "my pond pump is 6000 litres": an hour, most likely.
    pub fn volume_of_pump(&mut self, item: usize, measure: &Measure) -> bool {
        let pump = (self.clause.from..item).rev().take(3).any(|i| self.has_role(i, Role::Device));
        let Some(unit) = measure.unit_of(Dimension::VOLUME).filter(|_| pump) else { return false };
        let flow = match unit.name {
            "L" => "L/h",
            "gal" | "usgal" | "impgal" => "gal/h",
            _ => return false,
        };
        let Some(an_hour) = unit::by_name(flow) else { return false };
        let of = Subject { number: self.state.filter, tank: self.state.tank, ..subject("filter", None) };
        let readings = vec![
            ("an hour".to_string(), vec![self.offer(of, name::RATED_FLOW, measure.amount(an_hour))]),
            (
                "the water it stands in".to_string(),
                vec![self.offer(self.tank(self.state.tank), name::NOMINAL, measure.amount(unit))],
            ),
        ];
        let terms = self.terms_of(item, item);
        let ask = format!("{} an hour, or the water it stands in?", self.said(&terms));
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        true
    }

    /// "on the 40": nobody said of what.
    pub fn gallons_or_litres(&mut self, measure: &Measure, number: u16) {
        let of = self.tank(number);
        let said = measure.value().map(super::value::plain_number).unwrap_or_default();
        let units = [("gallons", "gal"), ("litres", "L")].into_iter().filter_map(|(w, u)| Some((w, unit::by_name(u)?)));
        let readings = units
            .map(|(w, u)| (w.to_string(), vec![self.offer(of.clone(), name::NOMINAL, measure.amount(u))]))
            .collect();
        let ask = format!("{said} gallons, or litres?");
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Taken, ask, Vec::new()) });
    }

    /// "75 with discus, 20 with shrimp, both gal"; "55 and 20 g": a size whose unit comes later in the line.
    pub fn lone_size(&mut self, item: usize, measure: &Measure) -> bool {
        let alone = measure.bare && self.clause.to == item + 1 && self.is_first_figure(item);
        let joint = self.items.get(self.clause.to).filter(|i| i.what == What::Term).map(|i| &self.terms[i.first]);
        let next = self.items.get(self.clause.to + 1).map(|i| &i.what);
        let with = joint.is_some_and(|t| t.is(Role::With));
        let and_volume = joint.is_some_and(|t| t.is(Role::And))
            && matches!(next, Some(What::Amount(m)) if m.unit_of(Dimension::VOLUME).is_some());
        // "three tanks: 20, 40 and 75 gallons".
        let unsized_tank = self.state.tanks.iter().find(|t| t.here && t.size.is_none()).map(|t| t.number);
        let several = self.state.tanks.len() > 1 && unsized_tank.is_some();
        if !alone || !(with || and_volume || several) || self.state.volume_unit.is_none() {
            return false;
        }
        let Some(unit) = self.volume_unit() else { return false };
        let guessed = Measure { units: vec![unit], bare: false, ..measure.clone() };
        let number = match measure.value().and_then(|v| self.state.tank_of_size(v, None)) {
            Some(number) => number,
            None if several => unsized_tank.unwrap_or(1),
            None if self.state.tanks.iter().any(|t| t.here && t.size.is_some()) => self.state.next_tank(),
            None => self.tank_number(item, &guessed),
        };
        self.state.tank = number;
        self.state.placed = true;
        let terms = self.terms_of(item, item);
        let tank = self.tank(number);
        self.value(item, tank, (name::TANK, name::NOMINAL), &guessed, terms, false);
        true
    }

    /// "18 inches deep": of a tank its height, or from front to back.
    pub fn high_or_wide(&mut self, item: usize, measure: &Measure) -> bool {
        let deep = self.has_role(item + 1, Role::Deep) && !self.is_pond();
        let of_tank =
            self.mentions.iter().all(|m| matches!(m.noun, Noun::Tank | Noun::Label { thing: name::TANK, .. }));
        let Some(unit) = measure.unit_of(Dimension::LENGTH).filter(|_| deep && of_tank) else { return false };
        let of = self.tank(self.state.tank);
        let readings = [("high", name::HEIGHT), ("front to back", name::WIDTH)].into_iter();
        let readings = readings
            .map(|(word, a)| (word.to_string(), vec![self.offer(of.clone(), a, measure.amount(unit))]))
            .collect();
        let said = self.said(&self.terms_of(item, item)).to_string();
        let ask = format!("{said} high, or {said} front to back?");
        let terms = self.terms_of(item, item + 1);
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        true
    }
}
