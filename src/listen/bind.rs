//! Binding: which thing and attribute each figure of a clause measures, nearest first. In: items, mentions, what is
//! known. Out: findings and doubts. The tables beside and alone decide; the files by thing know the exceptions.

use super::attributes::Is;
use super::clause::Clause;
use super::found::{Doubt, Found, Target};
use super::items::{Item, What};
use super::lexicon::Sense;
use super::line::Listener;
use super::measure::Measure;
use super::mention::{Mention, Noun};
use super::name::{self, Name};
use super::reading::{Doubtful, How, Mark, Said, Says, Subject};
use super::state::State;
use super::term::{Heard, Term};
use super::words::Word;
use crate::knowledge::language::Role;
use crate::units::Dimension;

/// One clause being read.
pub struct Binder<'d, 'l> {
    pub listener: &'l Listener,
    pub text: &'d str,
    pub words: &'d [Word],
    pub terms: &'d [Term<'l>],
    pub items: &'d [Item],
    pub heard: &'d [Heard],
    pub clause: Clause,
    pub mentions: Vec<Mention>,
    pub state: &'d mut State,
    pub found: Vec<Found>,
    pub doubts: Vec<Doubt>,
    /// The clause is no plain statement: nothing may be guessed to be a new thing.
    pub asking: bool,
}

impl<'d, 'l> Binder<'d, 'l> {
    pub fn term(&self, item: usize) -> &'d Term<'l> {
        &self.terms[self.items[item].first]
    }

    pub fn name(&self, name: Name) -> &'l str {
        self.listener.lexicon.text(name)
    }

    /// Terms as they were typed.
    pub fn said(&self, terms: &[usize]) -> &'d str {
        let spans =
            terms.iter().map(|t| self.words[self.terms[*t].first].span.to(self.words[self.terms[*t].last].span));
        spans.reduce(|a, b| a.to(b)).map_or("", |s| s.of(self.text))
    }

    /// The terms of items `from..=to`.
    pub fn terms_of(&self, from: usize, to: usize) -> Vec<usize> {
        (self.items[from].first..=self.items[to].last).collect()
    }

    pub fn has_role(&self, item: usize, role: Role) -> bool {
        item >= self.clause.from
            && item < self.clause.to
            && match self.items[item].what {
                What::Term => self.term(item).is(role),
                What::Spoken(r) => r == role,
                _ => false,
            }
    }

    /// Reads every figure of the clause.
    pub fn figures(&mut self) {
        for item in self.clause.from..self.clause.to {
            match self.items[item].what.clone() {
                What::Amount(measure) => self.amount(item, measure),
                What::Sizes(sizes) => self.sizes(item, sizes),
                What::Row(row) => self.row(item, row),
                What::Timed(volume, time) => self.timed_flow(item, &volume, &time),
                What::Time(time) => self.time(item, time),
                What::Uncounted => self.uncounted(item),
                What::Mark(_) | What::Term | What::Spoken(_) => {}
            }
        }
    }

    fn amount(&mut self, item: usize, measure: Measure) {
        if measure.refused {
            return self.refuse(item, &measure);
        }
        if self.after_code(item) {
            return;
        }
        let done = self.labelled(item, &measure)
            || self.event_count(item, &measure)
            || self.filter_figure(item, &measure)
            || if measure.is_plain() { self.plain(item, &measure) } else { self.measured(item, &measure) };
        if !done {
            self.loose(item, &measure);
        }
    }

    /// A figure beside the name of an attribute: "temp 25", "5 ft head", "nitrate 40".
    fn labelled(&mut self, item: usize, measure: &Measure) -> bool {
        let (left, right) = (self.left(item), self.right(item));
        let fits = |binder: &Self, index: Option<usize>| -> Option<(usize, Target)> {
            let index = index?;
            let mention = &binder.mentions[index];
            let Noun::Label { thing, attribute } = mention.noun else { return None };
            (!mention.taken && binder.fits(thing, attribute, measure)).then_some((index, (thing, attribute)))
        };
        let Some((index, (thing, attribute))) = fits(self, left).or_else(|| fits(self, right)) else { return false };
        self.mentions[index].taken = true;
        let mention = self.mentions[index].clone();
        if attribute == name::BASKETS && !measure.is_plain() {
            return false;
        }
        let terms = self.joined_terms(item, &mention);
        let subject = self.subject_for(thing, None, mention.item);
        self.value(item, subject, (thing, attribute), measure, terms, mention.corrected);
        true
    }

    /// The terms of a figure and of the noun it goes to.
    pub fn joined_terms(&self, item: usize, mention: &Mention) -> Vec<usize> {
        let mut terms = self.terms_of(item, item);
        terms.extend(self.terms_of(mention.item, mention.last));
        terms.sort_unstable();
        terms.dedup();
        terms
    }

    /// Whether an attribute can take the figure.
    pub fn fits(&self, thing: Name, attribute: Name, measure: &Measure) -> bool {
        let Some(known) = self.listener.attributes.get(thing, attribute) else { return false };
        let Some(dimension) = known.dimension else { return false };
        if measure.is_plain() {
            let without_unit = dimension == Dimension::CONCENTRATION
                || dimension == Dimension::ACIDITY
                || dimension == Dimension::TEMPERATURE
                || dimension == Dimension::NUMBER && (!known.is_share || measure.likely.is_some_and(|v| v < 1.0))
                || attribute == name::CLAIM;
            return without_unit && (known.is_share || !measure.article);
        }
        if known.is_share {
            return measure.has_unit("%");
        }
        if dimension == Dimension::NUMBER {
            return measure.units.iter().any(|u| u.dimension == dimension && u.name != "%") && !known.is_count;
        }
        if dimension == Dimension::TEMPERATURE && measure.units.iter().any(|u| u.name.ends_with('H')) {
            return false;
        }
        measure.unit_of(dimension).is_some()
    }

    /// A figure without a unit: a count, if something beside it can be counted.
    fn plain(&mut self, item: usize, measure: &Measure) -> bool {
        if measure.per_hour {
            let subject = self.filter_subject(None, item);
            return self.flow_without_unit(item, measure, subject);
        }
        self.tank_reference(item, measure) || self.count(item, measure) || self.guessed_unit(item, measure)
    }

    /// A figure with a unit and no label: the noun beside it, the subject carried on, or what such a unit alone means.
    fn measured(&mut self, item: usize, measure: &Measure) -> bool {
        if let Some(times) = measure.times
            && self.sized_count(item, measure, times)
        {
            return true;
        }
        let placed = matches!(self.preposition(item), Some(Role::In | Role::On | Role::Under | Role::For))
            && measure.unit_of(Dimension::VOLUME).is_some();
        if placed && self.tank_volume(item, measure) {
            return true;
        }
        let (left, right) = (self.left(item), self.right(item));
        let near: Vec<usize> = match (left, right) {
            (Some(l), Some(r)) => {
                // A size stands before the noun it belongs to when it touches it: "3 inch angels".
                let right_first = self.mentions[r].item == item + 1
                    || self.has_role(item + 1, Role::Of)
                    || self.mentions[l].taken_by_figure();
                if right_first { vec![r, l] } else { vec![l, r] }
            }
            (l, r) => r.into_iter().chain(l).collect(),
        };
        for index in near {
            if self.beside(item, measure, index) {
                return true;
            }
        }
        self.carried(item, measure) || self.alone(item, measure)
    }

    /// Gives the figure to one mention, if the tables let it take such a unit.
    fn beside(&mut self, item: usize, measure: &Measure, index: usize) -> bool {
        let mention = self.mentions[index].clone();
        let (thing, attribute) = match mention.noun {
            Noun::Label { thing, attribute } | Noun::State { thing, attribute, .. } => (thing, Some(attribute)),
            noun => (noun.thing(), None),
        };
        for unit in &measure.units {
            let is = if unit.name == "%" { Is::Share } else { Is::Quantity(unit.dimension) };
            let Some(target) = self.listener.attributes.beside(thing, attribute, is) else { continue };
            if target == (name::TANK, name::NOMINAL) {
                return self.tank_volume(item, measure);
            }
            // "30 g of salt" is grams: only a tank is counted in gallons by a letter.
            if unit.name == "gal" && measure.has_unit("g") {
                continue;
            }
            let terms = self.joined_terms(item, &mention);
            let subject = self.mention_subject(&mention);
            let same = target.0 == thing || thing == name::TREATMENT;
            let subject = if same { subject } else { self.subject_for(target.0, None, mention.item) };
            let leaned = mention.corrected;
            self.mentions[index].taken = true;
            self.value(item, subject, target, measure, terms, leaned);
            return true;
        }
        false
    }

    /// Gives the figure to the subject that carries on from the clause before.
    fn carried(&mut self, item: usize, measure: &Measure) -> bool {
        if !self.mentions.is_empty() && self.mentions.iter().any(|m| !matches!(m.noun, Noun::State { .. })) {
            return false;
        }
        let Some(subject) = self.state.subject.clone() else { return false };
        let Some(thing) = self.listener.lexicon.names.find(&subject.thing) else { return false };
        for unit in &measure.units {
            let is = if unit.name == "%" { Is::Share } else { Is::Quantity(unit.dimension) };
            let Some(target) = self.listener.attributes.beside(thing, None, is) else { continue };
            if target.0 == thing && target != (name::TANK, name::NOMINAL) {
                let terms = self.terms_of(item, item);
                self.value(item, subject, target, measure, terms, false);
                return true;
            }
        }
        false
    }

    /// What a unit alone means: litres the tank, litres an hour the filter.
    fn alone(&mut self, item: usize, measure: &Measure) -> bool {
        for unit in &measure.units {
            let is = if unit.name == "%" { Is::Share } else { Is::Quantity(unit.dimension) };
            let Some(target) = self.listener.attributes.alone(is) else { continue };
            if target == (name::TANK, name::NOMINAL) {
                return self.tank_volume(item, measure);
            }
            let terms = self.terms_of(item, item);
            let subject = match target.0 {
                name::FILTER => self.filter_subject(None, item),
                name::MEDIUM => match self.state.medium.clone() {
                    Some(medium) => medium,
                    None => return false,
                },
                thing => self.subject_for(thing, None, item),
            };
            self.value(item, subject, target, measure, terms, false);
            return true;
        }
        false
    }

    /// Writes the value down, in the right unit, if it is plausible.
    pub fn value(
        &mut self,
        item: usize,
        subject: Subject,
        (thing, attribute): Target,
        measure: &Measure,
        terms: Vec<usize>,
        corrected: bool,
    ) {
        let Some((amount, mark)) = self.amount_for(thing, attribute, measure, item) else {
            let what = self.listener.attributes.get(thing, attribute).map_or("", |a| &a.called).to_string();
            let doubt = self.implausible(thing, attribute, measure, &subject, &what, terms.clone());
            self.doubts.push(doubt);
            return;
        };
        let mark = if corrected { Some(Mark::Spelling) } else { mark };
        let attribute_text = self.name(attribute).to_string();
        // Every filter of a group is told the same.
        let subjects = if thing == name::FILTER && self.state.group.len() > 1 {
            self.group_subjects(&subject, measure)
        } else {
            vec![subject]
        };
        let via = self.preposition(item);
        let definite = self.is_definite(item);
        for subject in subjects {
            let says = Says::Value { attribute: attribute_text.clone(), how: How::Set, value: Said::Amount(amount) };
            let mut found = Found::new(subject, says, terms.clone()).marked(mark);
            (found.via, found.definite) = (via, definite);
            found.vague = measure.hedged && measure.bare && measure.likely.is_some() && measure.units.is_empty();
            self.push(found);
        }
    }

    pub fn push(&mut self, found: Found) {
        if !self.asking || !found.bare {
            self.state.take(&found);
        }
        self.found.push(found);
    }

    /// A state or kind as a value.
    pub fn word(&mut self, subject: Subject, attribute: Name, kind: &str, terms: Vec<usize>, mark: Option<Mark>) {
        let says = Says::Value {
            attribute: self.name(attribute).to_string(),
            how: How::Set,
            value: Said::Word(kind.to_string()),
        };
        self.push(Found::new(subject, says, terms).marked(mark));
    }

    fn refuse(&mut self, item: usize, measure: &Measure) {
        let mut terms = self.terms_of(item, item);
        let what = match self.right(item) {
            Some(index) if matches!(self.mentions[index].noun, Noun::Stock { .. }) => {
                let mention = &self.mentions[index];
                format!("How many {}?", self.said(&self.terms_of(mention.item, mention.last)))
            }
            _ => "What is the figure?".to_string(),
        };
        if measure.value().is_some_and(|v| v < 0.0) {
            terms.dedup();
        }
        self.doubts.push(Doubt::new(Doubtful::Implausible, what, terms));
    }

    /// A figure without anything to measure.
    fn loose(&mut self, item: usize, measure: &Measure) {
        // "the hang-on one", "one two three": a pronoun, no figure.
        let word =
            measure.bare && self.term(item).numeral().is_none() && self.items[item].first == self.items[item].last;
        if word || measure.article {
            return;
        }
        let terms = self.terms_of(item, item);
        let said = self.said(&terms);
        let (why, ask) = if measure.is_plain() {
            (Doubtful::Loose, format!("{said} what?"))
        } else {
            (Doubtful::Loose, format!("{said} of what?"))
        };
        self.doubts.push(Doubt::new(why, ask, terms));
    }

    /// Whether a word of the clause has that sense.
    pub fn clause_has(&self, test: impl Fn(&Sense) -> bool) -> bool {
        (self.clause.from..self.clause.to)
            .filter(|i| self.items[*i].what == What::Term)
            .any(|i| self.term(i).senses.iter().any(&test))
    }
}

impl Mention {
    /// A figure before it has gone to it already.
    fn taken_by_figure(&self) -> bool {
        self.taken && !matches!(self.noun, Noun::Stock { .. } | Noun::Filter(_) | Noun::Medium(_))
    }
}
