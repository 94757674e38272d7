//! Courses: a reading that has gone from one figure to another: "pH has dropped from 7.6 to 6.4", "flow is down to 500 from 900
//! l/h". In: figures and mentions of a clause. Out: the later figure as a finding; the former is history. Knows no chemistry.

use super::bind::Binder;
use super::items::What;
use super::measure::Measure;
use super::mention::Noun;
use super::name::{self, Name};
use crate::knowledge::language::Role;
use crate::units::Dimension;

impl Binder<'_, '_> {
    /// Reads the courses of the clause; their figures are read no more.
    pub fn courses(&mut self) {
        let (from, to) = (self.clause.from, self.clause.to);
        let figure = |i: usize| match &self.items[i].what {
            What::Amount(m) if !m.refused && !m.article => Some((i, m.clone())),
            _ => None,
        };
        let figures: Vec<(usize, Measure)> = (from..to).filter_map(figure).collect();
        let moved = (from..to).any(|i| self.has_role(i, Role::Course) || self.has_role(i, Role::DownTo));
        let (first, last, now) = match figures.as_slice() {
            // "went up to 8.2": the end of a way, no bound.
            [(item, end)] if moved && self.terms[self.items[*item].first].is_up_to() && end.low.is_none() => {
                let end = Measure { low: end.high, likely: end.high, strict: false, hedged: false, ..end.clone() };
                (*item, *item, end)
            }
            // "has crept up from 24 to 29": heard as a range.
            [(item, range)] if moved && self.is_from_to(*item, range) => {
                let end = Measure { low: range.high, likely: range.high, hedged: false, ..range.clone() };
                (*item, *item, end)
            }
            [(one, was), (two, is)] if self.joins_course(*one, *two, moved) => {
                // "down to 6.4 from 7.6": the former stands behind.
                let turned = self.follows_from(*two);
                let (of, other) = if turned { (was, is) } else { (is, was) };
                let end = of.high.or(of.likely).or(of.low);
                let units = if of.units.is_empty() { other.units.clone() } else { of.units.clone() };
                (
                    *one,
                    *two,
                    Measure { low: end, likely: end, high: end, strict: false, hedged: false, units, ..of.clone() },
                )
            }
            _ => return,
        };
        let Some((index, thing, attribute, measure)) = self.label_of_course(first, last, now) else {
            // "it's gone from 7.6 to 6.4": nobody died.
            self.mentions.retain(|m| !matches!(m.noun, Noun::State { thing: name::EVENT, kind: name::FISH_DIED, .. }));
            return;
        };
        let mention = self.mentions[index].clone();
        self.mentions[index].taken = true;
        let mut terms = self.terms_of(first, last);
        terms.extend(self.terms_of(mention.item, mention.last));
        terms.extend((from..to).filter(|i| self.has_role(*i, Role::Course)).map(|i| self.items[i].first));
        // Which way it went is told by the figures.
        let way = |m: &super::mention::Mention| {
            matches!(m.noun, Noun::State { thing: name::READING, attribute: name::TREND, .. })
                || matches!(m.noun, Noun::State { thing: name::FILTER, attribute: name::FLOW_STATE, .. })
        };
        self.mentions.iter_mut().filter(|m| way(m)).for_each(|m| m.taken = true);
        let subject = match thing {
            name::READING => {
                self.state.label = Some(attribute);
                self.reading_subject(attribute, mention.item)
            }
            _ => self.subject_for(thing, None, mention.item),
        };
        let thing = if subject.thing == "source" { name::SOURCE } else { thing };
        self.value(last, subject, (thing, attribute), &measure, terms, mention.corrected);
        self.done.extend(first..=last);
    }

    /// "from 10 to 40", as one range.
    fn is_from_to(&self, item: usize, range: &Measure) -> bool {
        let begins = self.terms[self.items[item].first].is(Role::Versus)
            || self.follows_from(item)
            || item > self.clause.from && self.has_role(item - 1, Role::Course);
        begins && range.low.zip(range.high).is_some_and(|(low, high)| low < high) && range.likely.is_none()
    }

    /// "from" stands before a figure, small words aside.
    fn follows_from(&self, item: usize) -> bool {
        let before = (self.clause.from..item).rev().take(2);
        before.take_while(|i| self.items[*i].what == What::Term).any(|i| self.has_role(i, Role::From))
            || self.terms[self.items[item].first].is(Role::From)
    }

    /// "from 7.6 down to 6.4", "6.4 from 7.6": two figures joined as the ends of a way.
    fn joins_course(&self, one: usize, two: usize, moved: bool) -> bool {
        let between = one + 1..two;
        let small = |i: usize| {
            let role = |r| self.has_role(i, r);
            self.items[i].what == What::Term
                && (role(Role::To)
                    || role(Role::Course)
                    || role(Role::From)
                    || role(Role::All)
                    || self.is_empty_word(i))
        };
        let to = between.clone().any(|i| self.has_role(i, Role::To) || self.has_role(i, Role::DownTo))
            || self.terms[self.items[two].first].is_up_to();
        let from = self.follows_from(one);
        let turned = self.follows_from(two);
        moved && between.clone().all(small) && (to && from || turned || to && between.clone().count() <= 3)
    }

    /// The name that the course is of, and the figure in its unit.
    fn label_of_course(&self, first: usize, last: usize, now: Measure) -> Option<(usize, Name, Name, Measure)> {
        let inches = now.has_unit("in").then(|| Measure { units: Vec::new(), ..now.clone() });
        let near = |m: &super::mention::Mention| if m.item < first { first - m.item } else { m.item - last + 100 };
        let mut labels: Vec<usize> = (0..self.mentions.len())
            .filter(|i| matches!(self.mentions[*i].noun, Noun::Label { .. }) && !self.mentions[*i].taken)
            .collect();
        labels.sort_by_key(|i| near(&self.mentions[*i]));
        labels.into_iter().find_map(|index| {
            let Noun::Label { thing, attribute } = self.mentions[index].noun else { return None };
            // A flow that changes was measured.
            let attribute = if attribute == name::RATED_FLOW { name::MEASURED_FLOW } else { attribute };
            let courses = thing == name::READING
                || (thing, attribute) == (name::TANK, name::TEMPERATURE)
                || (thing, attribute) == (name::FILTER, name::MEASURED_FLOW);
            let flow = self.listener.attributes.get(thing, attribute)?.dimension == Some(Dimension::FLOW);
            let fits = |m: &Measure| self.fits(thing, attribute, m) && !(flow && m.is_plain());
            let measure = [Some(now.clone()), inches.clone()].into_iter().flatten().find(|m| fits(m))?;
            courses.then_some((index, thing, attribute, measure))
        })
    }
}
