//! What a reading counts and whose it is: nitrogen or the ion, the tank against the tap. In: mentions of a clause. Out:
//! findings on the reading. Knows no chemistry.

use super::bind::Binder;
use super::items::What;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// A reading counted as nitrogen or as the ion.
    pub fn counted_as(&mut self, index: usize) {
        let mention = self.mentions[index].clone();
        let Noun::State { attribute, kind, .. } = mention.noun else { return };
        let kind_text = self.name(kind).to_string();
        let of = self.subject_for(name::READING, None, mention.item);
        let terms = self.terms_of(mention.item, mention.last);
        // "as N" alone goes to the reading said last.
        let last = self.state.last.clone().map(|(_, a)| a);
        let target = match last.as_deref() {
            Some("ammonia") => name::AMMONIA_AS,
            Some("nitrite") => name::NITRITE_AS,
            Some("nitrate") => name::NITRATE_AS,
            _ => attribute,
        };
        self.word(of, target, &kind_text, terms, None);
    }

    /// "NO3-N 8.1": the figure of a reading that is named as what it counts.
    pub fn counted_as_figure(&mut self, item: usize, measure: &Measure) -> bool {
        let before = self.left(item).filter(|l| self.mentions[*l].last + 1 >= item.saturating_sub(1));
        let Some(index) = before else { return false };
        let Noun::State { thing: name::READING, attribute, .. } = self.mentions[index].noun else { return false };
        let reading = match attribute {
            name::AMMONIA_AS => name::AMMONIA,
            name::NITRITE_AS => name::NITRITE,
            name::NITRATE_AS => name::NITRATE,
            _ => return false,
        };
        let alone = self.said(&self.terms_of(self.mentions[index].item, self.mentions[index].last)).len() > 2;
        if !alone || !self.fits(name::READING, reading, measure) {
            return false;
        }
        let mention = self.mentions[index].clone();
        let of = self.reading_subject(reading, mention.item);
        let terms = self.joined_terms(item, &mention);
        self.value(item, of, (name::READING, reading), measure, terms, false);
        self.counted_as(index);
        self.mentions[index].taken = true;
        true
    }

    /// "the tank has none": zero of the reading told of the tap.
    pub fn none_in_tank(&mut self) {
        let Some(attribute) = self.state.label else { return };
        let none = (self.clause.from..self.clause.to).find(|i| self.has_role(*i, Role::No));
        let tank = self.mentions.iter().position(|m| m.noun == Noun::Tank);
        let only = self.mentions.iter().all(|m| m.noun == Noun::Tank);
        let figures = self.items[self.clause.from..self.clause.to].iter().any(|i| matches!(i.what, What::Amount(_)));
        let source = self.state.last.as_ref().is_some_and(|(s, _)| s.thing == "source");
        let (Some(none), Some(tank)) = (none, tank) else { return };
        if !only || figures || !source || none < self.mentions[tank].last {
            return;
        }
        self.mentions[tank].taken = true;
        let mut terms = self.terms_of(none, none);
        terms.extend(self.terms_of(self.mentions[tank].item, self.mentions[tank].last));
        let of = self.subject_for(name::READING, None, none);
        let zero = Measure::exact(0.0, 0);
        self.value(none, of, (name::READING, attribute), &zero, terms, false);
    }
}
