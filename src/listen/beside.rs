//! What a figure with a unit goes to: the noun beside it, the subject that carries on, or what such a unit alone means. In:
//! a measure and the tables beside and alone. Out: findings. Knows no label.

use super::attributes::Is;
use super::bind::Binder;
use super::items::What;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use crate::knowledge::language::Role;
use crate::units::Dimension;

/// A litre in base units.
const LITRE: f64 = 1e-3;
/// Litres of one medium beyond which a figure behind it is the tank's, while that has none (settled choice: an aquarium filter
/// holds less).
const MOST_OF_A_MEDIUM: f64 = 25.0;

impl Binder<'_, '_> {
    /// Gives the figure to one mention, if the tables let it take such a unit.
    pub fn beside(&mut self, item: usize, measure: &Measure, index: usize) -> bool {
        let mention = self.mentions[index].clone();
        let (thing, attribute) = match mention.noun {
            Noun::Label { thing, attribute } | Noun::State { thing, attribute, .. } => (thing, Some(attribute)),
            noun => (noun.thing(), None),
        };
        for unit in &measure.units {
            let is = if unit.name == "%" { Is::Share } else { Is::Quantity(unit.dimension) };
            let table = &self.listener.attributes;
            let state = matches!(mention.noun, Noun::State { .. });
            let target = table.beside(thing, attribute, is).or_else(|| table.beside(thing, None, is).filter(|_| state));
            let Some(target) = target else { continue };
            if target == (name::TANK, name::NOMINAL) {
                return self.tank_volume(item, measure);
            }
            if state && target.0 == name::TANK && target.1 != name::SUBSTRATE_DEPTH {
                continue;
            }
            // "30 g of salt" is grams: only a tank is counted in gallons by a letter.
            if unit.name == "gal" && measure.has_unit("g") {
                continue;
            }
            // "10-16 mm clay": the size of the pieces, not how thick they lie.
            let target = match mention.noun {
                Noun::Medium(Some(kind))
                    if target.1 == name::THICKNESS && unit.name == "mm" && self.listener.grained.contains(&kind) =>
                {
                    (name::MEDIUM, name::SIZE)
                }
                _ => target,
            };
            let terms = self.joined_terms(item, &mention);
            let subject = self.mention_subject(&mention);
            let same = target.0 == thing || thing == name::TREATMENT;
            let subject = if same { subject } else { self.subject_for(target.0, None, mention.item) };
            let leaned = mention.corrected;
            if matches!(mention.noun, Noun::Filter(Some(_))) && !mention.taken {
                self.filter_named(&mention);
            }
            // "a plec near enough 14 inches": one of them.
            let single = (mention.article || mention.definite) && !mention.plural && !mention.taken && !self.asking;
            if single
                && target == (name::STOCK, name::LENGTH)
                && matches!(mention.noun, Noun::Stock { kind: Some(_), stage: None })
            {
                self.stock_present(index);
            }
            // "3 in of gravel" tells the bed as well.
            self.mentions[index].taken = !state || thing == name::EVENT;
            let of = subject.clone();
            self.value(item, subject, target, measure, terms.clone(), leaned);
            if thing == name::MEDIUM && self.state.order.is_some() {
                let of = self.found.last().map_or(of, |f| f.subject.clone());
                self.place_in_order(&of, terms, &mention);
            }
            return true;
        }
        false
    }

    /// Gives the figure to the subject that carries on from the clause before.
    pub fn carried(&mut self, item: usize, measure: &Measure) -> bool {
        // "maximum 50 euro": what may be spent, not what a thing costs.
        if measure.low.is_none() && measure.unit_of(Dimension::MONEY).is_some() {
            return false;
        }
        if !self.mentions.is_empty() && self.mentions.iter().any(|m| !matches!(m.noun, Noun::State { .. })) {
            return false;
        }
        let Some(subject) = self.state.subject.clone() else { return false };
        let Some(thing) = self.listener.lexicon.names.find(&subject.thing) else { return false };
        // A figure in the middle of other talk ("cannot see more than a few inches") is not the fish's.
        let talk = (self.clause.from..self.clause.to).any(|i| {
            self.items[i].what == What::Term && (self.has_role(i, Role::Not) || self.term(i).senses.is_empty())
        });
        if talk {
            return false;
        }
        // "5 kg lava, 300 l": a medium that has its amount takes no second one while the tank has no size.
        let amount_told = thing == name::MEDIUM
            && self.state.last.as_ref().is_some_and(|(_, a)| a == "mass" || a == "volume")
            && self.state.size_of(self.state.tank).is_none();
        // "carbon in for 6 months, 100 litres": nobody has so much of it; it is the tank.
        let litres = measure.unit_of(Dimension::VOLUME).zip(measure.value()).map(|(u, v)| u.to_base(v) / LITRE);
        let too_much = thing == name::MEDIUM
            && litres.is_some_and(|n| n > MOST_OF_A_MEDIUM)
            && self.state.size_of(self.state.tank).is_none();
        for unit in &measure.units {
            let is = if unit.name == "%" { Is::Share } else { Is::Quantity(unit.dimension) };
            let Some(target) = self.listener.attributes.beside(thing, None, is) else { continue };
            if (amount_told || too_much) && unit.dimension == Dimension::VOLUME {
                continue;
            }
            if target.0 == thing && target != (name::TANK, name::NOMINAL) {
                let terms = self.terms_of(item, item);
                let before = self.found.len();
                self.value(item, subject, target, measure, terms, false);
                if self.clause.joint == Some(Role::And) && thing == name::STOCK {
                    self.found[before..].iter_mut().for_each(|f| f.joins = true);
                }
                return true;
            }
        }
        false
    }

    /// What a unit alone means: litres the tank, litres an hour the filter.
    pub fn alone(&mut self, item: usize, measure: &Measure) -> bool {
        for unit in &measure.units {
            let is = if unit.name == "%" { Is::Share } else { Is::Quantity(unit.dimension) };
            let Some(target) = self.listener.attributes.alone(is) else { continue };
            if target == (name::TANK, name::NOMINAL) {
                return self.tank_volume(item, measure);
            }
            let terms = self.terms_of(item, item);
            let subject = match target.0 {
                name::FILTER => self.filter_subject(None, item),
                // Only foam is measured in pores; it may be named behind.
                name::MEDIUM if self.speaks_of_guard() => {
                    let of = self.filter_subject(None, item);
                    self.value(item, of, (name::FILTER, name::GUARD_PORES), measure, terms, false);
                    return true;
                }
                name::MEDIUM => match self.foam_of(item) {
                    Some(medium) => medium,
                    None => return false,
                },
                thing => self.subject_for(thing, None, item),
            };
            self.value(item, subject, target, measure, terms.clone(), false);
            if target.0 == name::MEDIUM
                && let Some(of) = self.found.last().map(|f| f.subject.clone())
                && let Some(mention) = self.mentions.first().cloned()
            {
                self.place_in_order(&of, terms, &mention);
            }
            return true;
        }
        false
    }

    /// The guard of the intake is named in the clause, or was told last.
    fn speaks_of_guard(&self) -> bool {
        self.state.last.as_ref().is_some_and(|(_, a)| a == "intake guard")
            || self.mentions.iter().any(|m| matches!(m.noun, Noun::State { attribute: name::INTAKE_GUARD, .. }))
    }

    /// "foam 30 ppi 5 cm": the noun before a figure that it has taken already.
    pub fn past_figure(&mut self, item: usize, measure: &Measure) -> bool {
        let Some(index) = self.mentions.iter().rposition(|m| m.last < item) else { return false };
        let between = self.mentions[index].last + 1..item;
        let figures = between.clone().all(|i| matches!(&self.items[i].what, What::Amount(m) if !m.units.is_empty()));
        let medium = matches!(self.mentions[index].noun, Noun::Medium(Some(_)));
        let length = measure.unit_of(Dimension::LENGTH).is_some();
        // "a plec in my 180 litre near enough 14 inches".
        let fish = matches!(self.mentions[index].noun, Noun::Stock { kind: Some(_), .. });
        let over_tank = between.clone().any(|i| self.done.contains(&i))
            && between.clone().all(|i| {
                self.done.contains(&i)
                    || self.items[i].what == What::Term && (self.is_empty_word(i) || self.is_place_word(i))
            });
        if fish && length && over_tank {
            return self.beside(item, measure, index);
        }
        medium && figures && length && !between.is_empty() && self.beside(item, measure, index)
    }
}
