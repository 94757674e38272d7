//! Tanks: volumes, which tank is meant, three sizes. In: figures and mentions of a clause. Out: findings on tanks.
//! Knows no fish and no medium.

use super::bind::Binder;
use super::found::{Found, subject};
use super::items::What;
use super::lexicon::Sense;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{Mark, Says, Subject};
use super::sizes::Sizes;
use crate::knowledge::language::Role;
use crate::units::Dimension;

impl Binder<'_, '_> {
    pub fn tank(&self, number: u16) -> Subject {
        Subject { number, tank: number, ..subject(self.name(name::TANK), None) }
    }

    /// A volume that is the tank's: as sold, or what it really holds.
    pub fn tank_volume(&mut self, item: usize, measure: &Measure) -> bool {
        let Some(_) = measure.unit_of(Dimension::VOLUME) else { return false };
        if self.is_grams_alone(item, measure) || self.volume_of_pump(item, measure) {
            return true;
        }
        // "2 litres of glass": of something that is none of ours, and no tank.
        let strange = |i: usize| {
            self.items[i].what == What::Term
                && self.term(i).senses.iter().all(|s| matches!(s, Sense::Common))
                && self.term(i).letters > 2
        };
        if self.has_role(item + 1, Role::Of) && item + 2 < self.clause.to && strange(item + 2) {
            self.loose(item, measure);
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
        // "exactly 84 litres, I measured it": what it really holds.
        let measured = self.line_has(|s| matches!(s, Sense::Label { attribute: name::MEASURED_FLOW, .. }))
            && !self.items.iter().any(|i| matches!(&i.what, What::Amount(m) if m.unit_of(Dimension::FLOW).is_some()));
        let part = item > self.clause.from && self.found.iter().any(|f| f.attribute() == Some("fill"))
            || self.has_role(item + 1, Role::Of)
                && (item + 2..(item + 5).min(self.clause.to)).any(|i| matches!(self.items[i].what, What::Amount(_)));
        // "he's in about 150 litres", of a tank that is half full: what is really in it.
        let full = |s: &super::reading::Statement| {
            s.subject.thing == "tank"
                && s.subject.number == self.state.tank
                && matches!(&s.says, Says::Value { attribute, .. } if attribute == self.name(name::FILL))
        };
        let filled = self.preposition(item) == Some(Role::In)
            && self.state.size_of(self.state.tank).is_none()
            && self.state.held.iter().any(full);
        if measured || part || filled {
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
    pub fn tank_number(&mut self, item: usize, measure: &Measure) -> u16 {
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
                let named = tank.here
                    && item > self.clause.from
                    && self.has_role(item - 1, Role::Definite)
                    && tank.size.is_some_and(|s| s.likely.is_some());
                let placed = named
                    || self.state.moved
                    || matches!(self.preposition(item), Some(Role::In | Role::On | Role::For));
                let listed = tank.here
                    && matches!(self.clause.joint, Some(Role::And | Role::With))
                    && (item > 0 && self.has_role(item - 1, Role::A) || self.is_first_figure(item))
                    || tank.here && self.is_next_of_list(item);
                if placed || listed || other { self.state.next_tank() } else { tank.number }
            }
        }
    }

    /// "a 60, a 120 and a 240": one tank after the other.
    fn is_next_of_list(&self, item: usize) -> bool {
        let told = self.state.last.as_ref().is_some_and(|(s, a)| s.thing == "tank" && a == "nominal");
        told && !self.correcting
            && item == self.clause.from + 1
            && self.has_role(self.clause.from, Role::A)
            && self.mentions.is_empty()
    }

    pub fn is_first_figure(&self, item: usize) -> bool {
        (self.clause.from..item).all(|i| self.is_empty_word(i))
    }

    /// "on a 55", "in the 75", "the 10": a tank by its size alone.
    pub fn tank_reference(&mut self, item: usize, measure: &Measure) -> bool {
        let moved =
            self.preposition(item) == Some(Role::To) && (self.clause.from..item).any(|i| self.has_role(i, Role::Move));
        self.state.moved |= moved;
        let placed = moved || matches!(self.preposition(item), Some(Role::In | Role::On | Role::For));
        let articled =
            item > self.clause.from && (self.has_role(item - 1, Role::Definite) || self.has_role(item - 1, Role::A));
        let tank_behind = self.mentions.iter().any(|m| {
            m.noun == Noun::Tank
                && m.item == item + 1
                && (placed || articled)
                && measure.value().is_some_and(|v| v > 20.0)
        });
        // "the 2 big ones": so many of something.
        let described = item + 1 < self.clause.to
            && self.items[item + 1].what == What::Term
            && (self.has_role(item + 1, Role::Larger)
                || self.has_role(item + 1, Role::Smaller)
                || self.listener.tank_names.contains_key(self.words[self.term(item + 1).first].text.as_str()));
        if described && measure.value().is_some_and(|v| v <= 12.0) {
            return false;
        }
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
        self.tank_of_figure(item, measure)
    }

    /// "3 foot tank", "on a 6 footer", "14 inch cube": one size of the tank.
    pub fn tank_length(&mut self, item: usize, measure: &Measure) -> bool {
        if measure.unit_of(Dimension::LENGTH).is_none() {
            return false;
        }
        let last = &self.terms[self.items[item].last];
        let footer = last.names_thing(name::TANK);
        let cube = self.right(item).filter(|r| {
            matches!(self.mentions[*r].noun, Noun::State { thing: name::TANK, attribute: name::SHAPE | name::KIND, .. })
                && self.mentions[*r].item == item + 1
        });
        let placed = matches!(self.preposition(item), Some(Role::On))
            && self.has_role(item - 1, Role::Definite)
            && self.mentions.iter().all(|m| !matches!(m.noun, Noun::Stock { .. } | Noun::Medium(_)));
        if !(footer || cube.is_some() || placed) {
            return false;
        }
        let number =
            if footer && self.state.tanks.iter().any(|t| t.here) && matches!(self.clause.joint, Some(Role::And)) {
                self.state.next_tank()
            } else {
                self.state.tank
            };
        self.state.tank = number;
        let terms = self.terms_of(item, item);
        let tank = self.tank(number);
        self.value(item, tank, (name::TANK, name::LENGTH), measure, terms, false);
        true
    }

    /// "a quarter of the water": a change; "half full": how full it is.
    pub fn share_of_water(&mut self, item: usize, measure: &Measure) -> bool {
        let part = measure.article && measure.value().is_some_and(|v| v > 0.0 && v < 1.0);
        if !part {
            return false;
        }
        let filled = self
            .mentions
            .iter()
            .position(|m| matches!(m.noun, Noun::Label { thing: name::TANK, attribute: name::FILL }));
        let terms = self.terms_of(item, item);
        if let Some(index) = filled {
            self.mentions[index].taken = true;
            let tank = self.tank(self.state.tank);
            self.value(item, tank, (name::TANK, name::FILL), measure, terms, false);
            if let Some(found) = self.found.last_mut() {
                found.mark = found.mark.or(Some(Mark::Derived));
            }
            return true;
        }
        // "took out what I could and changed half".
        let changed = item > self.clause.from
            && self.clause.to == item + 1
            && self
                .mentions
                .iter()
                .any(|m| matches!(m.noun, Noun::Label { attribute: name::CHANGED, .. }) && m.last + 1 == item);
        let changes = changed
            || self.mentions.iter().any(|m| m.noun == Noun::Change)
            || self.items[self.clause.from..self.clause.to].iter().any(|i| matches!(i.what, What::Time(_)));
        // "its flow's dropped by half since Christmas": of the flow, not of the water.
        let of_filter = self.mentions.iter().any(|m| m.noun.thing() == name::FILTER);
        if !changes || of_filter && !self.mentions.iter().any(|m| m.noun == Noun::Change) {
            return false;
        }
        let of = self.subject_for(name::CHANGE, None, item);
        self.value(item, of, (name::CHANGE, name::AMOUNT), measure, terms, false);
        true
    }

    /// Whether a word of the whole line has that sense.
    fn line_has(&self, test: impl Fn(&Sense) -> bool) -> bool {
        self.terms.iter().any(|t| t.senses.iter().any(&test))
    }

    /// "both on the 40": every filter of the call.
    pub fn both_serve(&mut self, number: u16, item: usize) {
        let tank = self.tank(number);
        if let Some(last) = self.found.last_mut() {
            last.mark = Some(Mark::Hint);
        }
        let numbers: Vec<u16> = self.state.filters.iter().map(|f| f.number).collect();
        for filter in numbers {
            let of = Subject { number: filter, tank: number, ..subject("filter", None) };
            let says = Says::Value {
                attribute: self.name(name::SERVES).to_string(),
                how: super::reading::How::Set,
                value: super::reading::Said::Thing(tank.clone()),
            };
            let terms = self.terms_of(item, item);
            self.push(Found::new(of, says, terms));
        }
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
            _ => {
                // "10x10x4in 30 ppi block": only foam is measured in pores.
                let pores = self.items[self.clause.from..self.clause.to]
                    .iter()
                    .any(|i| matches!(&i.what, What::Amount(m) if m.unit_of(Dimension::PER_LENGTH).is_some()));
                let foam = self.mentions.iter().find(|m| matches!(m.noun, Noun::Medium(Some(_)))).cloned();
                match foam.filter(|_| pores) {
                    Some(mention) => (self.mention_subject(&mention), [name::LENGTH, name::WIDTH, name::HEIGHT]),
                    None => (self.tank(self.state.tank), [name::LENGTH, name::WIDTH, name::HEIGHT]),
                }
            }
        };
        let mut terms = self.terms_of(item, item);
        if let Some((index, mention)) = near {
            self.mentions[index].taken |= matches!(mention.noun, Noun::Label { .. } | Noun::Tank | Noun::Medium(_));
            if !matches!(mention.noun, Noun::Label { .. }) || of.thing == "filter" {
                terms = self.joined_terms(item, &mention);
            }
        }
        let mut sizes = sizes.sizes;
        let mut mark = None;
        if sizes.iter().all(|s| s.units.is_empty()) {
            let Some(unit) = self.unit_of_box(item, &sizes, &terms) else { return };
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
}
