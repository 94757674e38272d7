//! Tanks: volumes, which tank is meant, three sizes. In: figures and mentions of a clause. Out: findings on tanks.
//! Knows no fish and no medium.

use super::bind::Binder;
use super::found::{Doubt, Found, subject};
use super::lexicon::Sense;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{Doubtful, Mark, Says, Subject};
use super::sizes::Sizes;
use crate::knowledge::language::Role;
use crate::units::{Dimension, Unit, unit};

/// Beyond these a box without units is no tank of inches, or none of centimetres (litres; settled choice).
const LARGEST_BOX: f64 = 2500.0;
const SMALLEST_BOX: f64 = 4.0;

impl Binder<'_, '_> {
    pub fn tank(&self, number: u16) -> Subject {
        Subject { number, tank: number, ..subject(self.name(name::TANK), None) }
    }

    /// A volume that is the tank's: as sold, or what it really holds.
    pub fn tank_volume(&mut self, item: usize, measure: &Measure) -> bool {
        let Some(_) = measure.unit_of(Dimension::VOLUME) else { return false };
        if self.is_grams_alone(item, measure) {
            return true;
        }
        let mut terms = self.terms_of(item, item);
        for mention in self.mentions.iter_mut().filter(|m| m.noun == Noun::Tank) {
            if mention.item == item + 1 || mention.last + 1 == item {
                mention.taken = true;
            }
        }
        if let Some(index) = self.mentions.iter().position(|m| m.noun == Noun::Tank && m.taken) {
            terms = self.joined_terms(item, &self.mentions[index].clone());
        }
        let holds = self.clause_has(|s| matches!(s, Sense::Label { thing: name::TANK, attribute: name::WATER }))
            && self.state.size_of(self.state.tank).is_some();
        if holds {
            let tank = self.tank(self.state.tank);
            self.value(item, tank, (name::TANK, name::WATER), measure, terms, false);
            return true;
        }
        let number = self.tank_number(item, measure);
        self.state.tank = number;
        let tank = self.tank(number);
        self.value(item, tank, (name::TANK, name::NOMINAL), measure, terms, false);
        true
    }

    /// Which tank a volume speaks of: one of that size, the one spoken of, or a new one.
    fn tank_number(&mut self, item: usize, measure: &Measure) -> u16 {
        let volume = measure.unit_of(Dimension::VOLUME).map(|u| u.name);
        if let Some(value) = measure.value()
            && let Some(number) = self.state.tank_of_size(value, volume)
        {
            return number;
        }
        let current = self.state.tanks.iter().find(|t| t.number == self.state.tank);
        let unsized_tank = self.state.tanks.iter().find(|t| t.size.is_none()).map(|t| t.number);
        let other = (self.clause.from..item).any(|i| self.has_role(i, Role::Other) || self.has_role(i, Role::Another));
        match current {
            None => unsized_tank.unwrap_or(1),
            Some(tank) if tank.size.is_none() && !other => tank.number,
            Some(tank) => {
                if let Some(number) = unsized_tank {
                    return number;
                }
                let placed = matches!(self.preposition(item), Some(Role::In | Role::On | Role::For));
                let listed = tank.here
                    && matches!(self.clause.joint, Some(Role::And | Role::With))
                    && (item > 0 && self.has_role(item - 1, Role::A) || self.is_first_figure(item));
                if placed || listed || other { self.state.next_tank() } else { tank.number }
            }
        }
    }

    fn is_first_figure(&self, item: usize) -> bool {
        (self.clause.from..item).all(|i| self.is_empty_word(i))
    }

    /// "30 g" with nothing beside it: gallons or grams.
    fn is_grams_alone(&mut self, item: usize, measure: &Measure) -> bool {
        let both = measure.has_unit("gal") && measure.has_unit("g");
        let alone = self.items.len() == 1 && self.state.tanks.is_empty();
        if !(both && alone) {
            return false;
        }
        let terms = self.terms_of(item, item);
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

    /// "on a 55", "in the 75", "the 10": a tank by its size alone.
    pub fn tank_reference(&mut self, item: usize, measure: &Measure) -> bool {
        let placed = matches!(self.preposition(item), Some(Role::In | Role::On | Role::For));
        let articled =
            item > self.clause.from && (self.has_role(item - 1, Role::Definite) || self.has_role(item - 1, Role::A));
        let tank_behind = self.mentions.iter().any(|m| {
            m.noun == Noun::Tank
                && m.item == item + 1
                && (placed || articled)
                && measure.value().is_some_and(|v| v > 20.0)
        });
        let counted = self.right(item).is_some_and(|r| {
            matches!(self.mentions[r].noun, Noun::Stock { .. } | Noun::Filter(_)) && self.mentions[r].item == item + 1
        });
        let fits = (articled || tank_behind) && !counted && !measure.article && (measure.bare || measure.hedged);
        if !fits {
            return false;
        }
        if self.items[item].last > self.items[item].first && !measure.hedged
            || self.term(item).numeral().is_none() && !placed
        {
            return false;
        }
        let Some(value) = measure.value() else { return false };
        if let Some(number) = self.state.tank_of_size(value, None) {
            self.state.tank = number;
            let terms = self.terms_of(item, item);
            let mut found = Found::new(self.tank(number), Says::Present, terms);
            (found.bare, found.definite) = (true, true);
            self.push(found);
            return true;
        }
        let Some(unit) = self.volume_unit() else { return false };
        let guessed = Measure { units: vec![unit], bare: false, ..measure.clone() };
        let number = self.tank_number(item, &guessed);
        self.state.tank = number;
        let terms = self.terms_of(item, item);
        let tank = self.tank(number);
        self.value(item, tank, (name::TANK, name::NOMINAL), &guessed, terms, false);
        if let Some(last) = self.found.last_mut() {
            last.mark = Some(Mark::Hint);
            last.via = last.via.or(Some(Role::In));
        }
        true
    }

    /// Three sizes: of the basket or the block named beside them, else of the tank.
    pub fn sizes(&mut self, item: usize, sizes: Sizes) {
        let near = self.left(item).or_else(|| self.right(item)).map(|i| (i, self.mentions[i].clone()));
        let (of, targets) = match near.as_ref().map(|(_, m)| m.noun) {
            Some(Noun::Label { attribute: name::BASKETS, .. }) => {
                let filter = self.filter_subject(None, item);
                (filter, [name::BASKET_LENGTH, name::BASKET_WIDTH, name::BASKET_HEIGHT])
            }
            Some(Noun::Medium(Some(_))) => {
                let mention = near.as_ref().map(|(_, m)| m.clone());
                let of = mention.map_or_else(|| subject("medium", None), |m| self.mention_subject(&m));
                (of, [name::LENGTH, name::WIDTH, name::HEIGHT])
            }
            _ => (self.tank(self.state.tank), [name::LENGTH, name::WIDTH, name::HEIGHT]),
        };
        let mut terms = self.terms_of(item, item);
        if let Some((index, mention)) = near {
            self.mentions[index].taken = true;
            if !matches!(mention.noun, Noun::Label { .. }) || of.thing == "filter" {
                terms = self.joined_terms(item, &mention);
            }
        }
        let mut sizes = sizes.sizes;
        let mut mark = None;
        if sizes.iter().all(|s| s.units.is_empty()) {
            let Some(unit) = self.unit_of_box(&sizes, &terms) else { return };
            sizes.iter_mut().for_each(|s| s.units = vec![unit]);
            mark = Some(Mark::Hint);
        }
        // "48 x 18 x 21 in approx": the hedge behind holds for all three.
        for (measure, target) in sizes.iter().zip(targets) {
            let thing = if of.thing == "filter" {
                name::FILTER
            } else if of.thing == "medium" {
                name::MEDIUM
            } else {
                name::TANK
            };
            let before = self.found.len();
            self.value(item, of.clone(), (thing, target), measure, terms.clone(), false);
            for found in &mut self.found[before..] {
                found.mark = found.mark.or(mark);
            }
        }
    }

    /// Centimetres or inches for a box without a unit: the one that is plausible; both: taken as centimetres and asked.
    fn unit_of_box(&mut self, sizes: &[Measure], terms: &[usize]) -> Option<&'static Unit> {
        let values: Vec<f64> = sizes.iter().filter_map(|s| s.likely).collect();
        let [a, b, c] = values[..] else { return None };
        let litres = a * b * c / 1000.0;
        let in_inches = litres * 2.54 * 2.54 * 2.54;
        let said = self.said(terms);
        match (litres >= SMALLEST_BOX, in_inches <= LARGEST_BOX) {
            (true, false) => unit::by_name("cm"),
            (false, true) => unit::by_name("in"),
            _ => {
                let ask = format!(
                    "Is {said} in centimetres (about {} litres) or inches (about {} litres)?",
                    litres.round(),
                    in_inches.round()
                );
                let readings = ["cm", "in"]
                    .into_iter()
                    .filter_map(unit::by_name)
                    .map(|u| {
                        let targets = [name::LENGTH, name::WIDTH, name::HEIGHT];
                        let statements = sizes
                            .iter()
                            .zip(targets)
                            .map(|(s, t)| self.offer(self.tank(self.state.tank), t, s.amount(u)))
                            .collect();
                        let word = if u.name == "cm" { "centimetres" } else { "inches" };
                        (word.to_string(), statements)
                    })
                    .collect();
                self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms.to_vec()) });
                None
            }
        }
    }
}
