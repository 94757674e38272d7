//! Lengths of fish: told again without a unit, of all together, of the biggest and the rest. In: figures of a clause. Out:
//! findings on stock groups, or what to ask. Counts nothing.

use super::bind::Binder;
use super::found::{Doubt, Found};
use super::items::What;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{Doubtful, How, Mark, Said, Says, Subject};
use crate::knowledge::language::Role;
use crate::units::{Amount, Dimension};

impl Binder<'_, '_> {
    /// "the neons are 1in, angels 3": the unit of the figure before, when a length was the talk.
    pub fn length_again(&mut self, item: usize, measure: &Measure, index: usize) -> bool {
        let Some((_, attribute)) = &self.state.last else { return false };
        if attribute != "length" || !self.correcting {
            return false;
        }
        let mention = self.mentions[index].clone();
        let subject = self.mention_subject(&mention);
        let unit = self.state.length_unit;
        let known = self.state.held.iter().any(|s| {
            super::state::same_thing(&s.subject, &subject) && super::correct::attribute_of(s) == Some("length")
        });
        let (Some(unit), true) = (unit, known) else { return false };
        self.mentions[index].taken = true;
        let measure = Measure { units: vec![unit], bare: false, ..measure.clone() };
        let terms = self.joined_terms(item, &mention);
        self.value(item, subject, (name::STOCK, name::LENGTH), &measure, terms, false);
        true
    }

    /// "tank's 5 foot fish 7": seven of them, or one of seven inches?
    pub fn number_or_length(&mut self, item: usize, measure: &Measure, index: usize) -> bool {
        let mention = self.mentions[index].clone();
        let generic = matches!(mention.noun, Noun::Stock { kind: None, stage: None }) && mention.last + 1 == item;
        let sized = (self.clause.from..mention.item)
            .any(|i| matches!(&self.items[i].what, What::Amount(m) if m.unit_of(Dimension::LENGTH).is_some()));
        let inch = crate::units::unit::by_name("in").filter(|_| generic && sized && measure.bare);
        let Some(inch) = inch else { return false };
        self.mentions[index].taken = true;
        let terms = self.joined_terms(item, &mention);
        let of = self.mention_subject(&mention);
        let said = self.said(&self.terms_of(item, item)).to_string();
        let readings = vec![
            ("fish".to_string(), vec![self.offer(of.clone(), name::COUNT, measure.count())]),
            ("inches".to_string(), vec![self.offer(of, name::LENGTH, measure.amount(inch))]),
        ];
        let ask = format!("{said} fish, or a fish of {said} inches?");
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        true
    }

    /// "12 inches of goldfish": the length of all together, which says nothing of one.
    pub fn inches_of_fish(&mut self, item: usize, measure: &Measure) -> bool {
        if measure.unit_of(Dimension::LENGTH).is_none() || !self.has_role(item + 1, Role::Of) {
            return false;
        }
        let stock = |m: &super::mention::Mention| matches!(m.noun, Noun::Stock { .. }) && m.item == item + 2;
        let Some(index) = self.mentions.iter().position(stock) else { return false };
        self.mentions[index].taken = true;
        let mention = self.mentions[index].clone();
        let terms = self.joined_terms(item, &mention);
        let of = self.mention_subject(&mention);
        self.value(item, of, (name::STOCK, name::TOTAL_LENGTH), measure, terms, mention.corrected);
        let said = self.said(&self.terms_of(mention.item, mention.last)).to_string();
        let ask = format!("How many {said}, and how long is each?");
        self.doubts.push(Doubt::new(Doubtful::NoFigure, ask, Vec::new()));
        true
    }

    /// "biggest one is 5 inches, the rest 2 each, twelve altogether": of fish named later, or not at all.
    pub fn biggest_and_rest(&mut self, item: usize, measure: &Measure) -> bool {
        if self.mentions.iter().any(|m| !matches!(m.noun, Noun::State { .. })) {
            return false;
        }
        let has = |binder: &Self, role: Role| (binder.clause.from..item).any(|i| binder.has_role(i, role));
        let biggest = has(self, Role::Biggest) && measure.unit_of(Dimension::LENGTH).is_some();
        let of = || Subject { tank: self.state.tank, ..super::found::subject(self.name(name::STOCK), None) };
        let terms = self.terms_of(item, item);
        if biggest {
            let of = self.state.stock.clone().unwrap_or_else(of);
            self.value(item, of, (name::STOCK, name::LENGTH), measure, terms, false);
            return true;
        }
        let Some(of) = self.state.stock.clone() else { return false };
        // The rest are smaller: the group reaches from them to the biggest.
        let told = self.state.last.as_ref().is_some_and(|(s, a)| s.thing == "stock" && a == "biggest");
        let unit = self.state.length_unit.filter(|_| measure.is_plain());
        let unit = unit.or_else(|| measure.unit_of(Dimension::LENGTH));
        let (Some(unit), Some(small)) = (unit.filter(|_| told && has(self, Role::Rest)), measure.value()) else {
            return false;
        };
        let top = match self.state.biggest {
            Some(a) if a.unit.name == unit.name => a.likely.or(a.high),
            _ => None,
        };
        let Some(top) = top.filter(|t| *t > small) else { return false };
        let range = Amount { decimals: 0, ..Amount::range(small, top, unit) };
        let says = Says::Value { attribute: self.name(name::LENGTH).into(), how: How::Set, value: Said::Amount(range) };
        self.push(Found::new(of, says, terms).marked(Some(Mark::Derived)));
        true
    }

    /// "8 x 3in comets": a count and a size; "3 x 1.2 l trays": a count and a volume.
    pub fn sized_count(&mut self, item: usize, measure: &Measure, times: f64) -> bool {
        let near = self.right_noun(item).or_else(|| self.left(item));
        let Some(index) = near else { return false };
        let mention = self.mentions[index].clone();
        let single = Measure { times: None, ..measure.clone() };
        let count = Measure { bare: true, ..Measure::exact(times, 0) };
        match mention.noun {
            Noun::Stock { .. } if measure.unit_of(Dimension::LENGTH).is_some() => {
                self.count_of(item, &count, index);
                let subject = self.mention_subject(&mention);
                let terms = self.joined_terms(item, &mention);
                self.value(item, subject, (name::STOCK, name::LENGTH), &single, terms, mention.corrected);
                true
            }
            Noun::Label { attribute: name::BASKETS, .. } if measure.unit_of(Dimension::VOLUME).is_some() => {
                let terms = self.joined_terms(item, &mention);
                let filter = self.filter_subject(None, item);
                self.mentions[index].taken = true;
                self.value(item, filter.clone(), (name::FILTER, name::BASKETS), &count, terms.clone(), false);
                self.value(item, filter, (name::FILTER, name::BASKET_VOLUME), &single, terms, false);
                true
            }
            Noun::Medium(_) | Noun::Treatment(_) => {
                let subject = self.mention_subject(&mention);
                let terms = self.joined_terms(item, &mention);
                self.mentions[index].taken = true;
                let (target, dimension) = if measure.unit_of(Dimension::MASS).is_some() {
                    (name::MASS, Dimension::MASS)
                } else {
                    (name::VOLUME, Dimension::VOLUME)
                };
                if measure.unit_of(dimension).is_none() {
                    return false;
                }
                self.value(item, subject.clone(), (name::MEDIUM, name::COUNT), &count, terms.clone(), false);
                self.value(item, subject, (name::MEDIUM, target), &single, terms, false);
                true
            }
            _ => false,
        }
    }
}
