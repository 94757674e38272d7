//! Binding: which thing and attribute each figure of a clause measures, nearest first. In: items, mentions, what is
//! known. Out: findings and doubts. The tables beside and alone decide; the files by thing know the exceptions.

use super::clause::Clause;
use super::found::{Doubt, Found, Target};
use super::items::{Item, What};
use super::lexicon::Sense;
use super::line::Listener;
use super::measure::Measure;
use super::mention::{Mention, Noun};
use super::name::{self, Name};
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
    /// What is said takes the place of what was said.
    pub correcting: bool,
    /// The time of a washing was told as the filter's.
    pub cleaned_told: bool,
    /// A wish was said earlier in the sentence.
    pub wishing: bool,
    pub wished_filter: bool,
    /// First and last term of what was said not to be so.
    pub denied: Vec<(usize, usize)>,
    /// Figures that have been given already.
    pub done: Vec<usize>,
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

    /// Reads every figure of the clause; those that say which tank is meant come first.
    pub fn figures(&mut self) {
        for item in self.clause.from..self.clause.to {
            if let What::Amount(measure) = &self.items[item].what
                && (matches!(self.preposition(item), Some(Role::In | Role::On | Role::To))
                    || self.preposition(item) == Some(Role::From) && self.is_moved())
                && !self.done.contains(&item)
                && !self.is_claimed_before(item)
            {
                self.state.moved |= self.is_moved();
                let measure = measure.clone();
                let volume = measure.unit_of(Dimension::VOLUME).is_some() && !self.is_share_of_container(item);
                let placed = volume && self.tank_volume(item, &measure)
                    || measure.is_plain() && self.tank_reference(item, &measure);
                if placed {
                    self.done.push(item);
                }
            }
        }
        for item in self.clause.from..self.clause.to {
            if self.done.contains(&item) || item < self.clause.answer {
                continue;
            }
            match self.items[item].what.clone() {
                What::Amount(measure) => self.amount(item, measure),
                What::Sizes(sizes) => self.sizes(item, sizes),
                What::Row(row) => self.row(item, row),
                What::Timed(volume, time) => self.timed_flow(item, &volume, &time),
                What::Time(time) => self.time(item, time),
                What::Uncounted => self.uncounted(item),
                What::Mark(_) | What::Term | What::Spoken(_) | What::Model => {}
            }
        }
    }

    /// Something is said to have gone from one tank to another.
    fn is_moved(&self) -> bool {
        (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Move))
    }

    fn amount(&mut self, item: usize, measure: Measure) {
        if measure.refused {
            return self.refuse(item, &measure);
        }
        if self.after_code(item)
            || self.beside_elsewhere(item)
            || self.is_limit(item, &measure)
            || self.is_hour(item, &measure)
        {
            return;
        }
        if self.in_vessels(item, &measure)
            || self.odd_letters(item, &measure)
            || self.pump_of_what(item, &measure)
            || self.pounds(item, &measure)
            || self.ounces(item, &measure)
        {
            return;
        }
        let done = self.labelled(item, &measure)
            || self.counted_as_figure(item, &measure)
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
            let deep = binder.has_role(mention.item, Role::Deep) && !binder.is_pond();
            (!mention.taken && !deep && binder.fits(thing, attribute, measure)).then_some((index, (thing, attribute)))
        };
        // "nitrate out of the tap is 40": the place stands between.
        let further =
            left.filter(|l| matches!(self.mentions[*l].noun, Noun::Source | Noun::Tank)).and_then(|l| l.checked_sub(1));
        let behind = right.filter(|r| !self.has_own_figure(*r));
        // "12 goldfish" behind a label further left: a count.
        let counts = measure.is_plain()
            && right.is_some_and(|r| {
                self.mentions[r].item == item + 1 && matches!(self.mentions[r].noun, Noun::Stock { .. })
            })
            && left.is_some_and(|l| {
                self.mentions[l].last + 1 < item
                    && (self.mentions[l].last + 1..item)
                        .any(|i| self.term(i).senses.iter().any(|s| matches!(s, Sense::Ask(_))))
            });
        // "no3 in the 75 is 10": the tank's size stands between; "0.5 on the ammonia": the name behind a preposition.
        let over_place = self.label_over_place(item);
        let on_the = self.label_on_the(item);
        let Some((index, (thing, attribute))) = fits(self, left.filter(|_| !counts))
            .or_else(|| fits(self, further))
            .or_else(|| fits(self, behind))
            .or_else(|| fits(self, over_place))
            .or_else(|| fits(self, on_the))
        else {
            return false;
        };
        self.mentions[index].taken = true;
        let mention = self.mentions[index].clone();
        let terms = self.joined_terms(item, &mention);
        if thing == name::READING {
            self.state.label = Some(attribute);
            if self.is_history(item) {
                return true;
            }
            let subject = self.reading_subject(attribute, mention.item);
            let of = if subject.thing == "source" { name::SOURCE } else { thing };
            let mut terms = terms;
            if of == name::SOURCE {
                terms.extend(self.source_terms());
            }
            self.value(item, subject, (of, attribute), measure, terms, mention.corrected);
            return true;
        }
        // "sump holds 60 litres": its own water.
        let of_sump = |m: &&Mention| m.last < mention.item && m.noun == Noun::Filter(Some(name::SUMP));
        if let Some(sump) = self.mentions.iter().rfind(of_sump).filter(|_| attribute == name::WATER).cloned() {
            let of = self.filter_named(&sump);
            self.value(item, of, (name::FILTER, name::SUMP_VOLUME), measure, terms, false);
            return true;
        }
        // "the plec's about a foot long": of the fish in the clause.
        let fish = self
            .mentions
            .iter()
            .rfind(|m| thing == name::STOCK && m.last < item && matches!(m.noun, Noun::Stock { .. }))
            .cloned();
        let subject = match fish {
            Some(fish) => self.mention_subject(&fish),
            None => self.subject_for(thing, None, mention.item),
        };
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

    /// In "nh3 0 no2 0 no3 60" each name has its figure behind it: no figure may go to the name that follows.
    fn has_own_figure(&self, index: usize) -> bool {
        let figure = |i: usize| i < self.clause.to && matches!(self.items[i].what, What::Amount(_));
        let is_label = |m: &&Mention| matches!(m.noun, Noun::Label { .. });
        let last = self
            .mentions
            .iter()
            .rfind(is_label)
            .map_or(index, |m| self.mentions.iter().position(|n| n.item == m.item).unwrap_or(index));
        // "4 baskets 6 litres": litres are no number of baskets.
        let next = self.mentions[index].last + 1;
        let takes = |binder: &Self| match (&binder.mentions[index].noun, binder.items.get(next).map(|i| &i.what)) {
            (Noun::Label { thing, attribute }, Some(What::Amount(m))) => binder.fits(*thing, *attribute, m),
            _ => true,
        };
        let own = figure(next) && takes(self);
        // The last name of the row tells the style.
        own && figure(self.mentions[last].last + 1)
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
                || dimension == Dimension::VOLUME && matches!(attribute, name::CLAIM | name::WATER)
                || dimension == Dimension::FLOW && measure.bare && self.state.flow_unit.is_some()
                || dimension == Dimension::LENGTH
                    && thing == name::TANK
                    && measure.bare
                    && self.state.size_unit.is_some();
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
        self.of_the_source(item, measure)
            || self.size_of_sump(item, measure)
            || self.tank_reference(item, measure)
            || self.spoken_for(item, measure)
            || self.instead_of(item, measure)
            || self.biggest_and_rest(item, measure)
            || self.another_guess(item, measure)
            || self.tank_at(item, measure)
            || self.tank_is(item, measure)
            || self.lone_size(item, measure)
            || self.salinity(item, measure)
            || self.share_of_water(item, measure)
            || self.count(item, measure)
            || self.answers(item, measure)
            || self.guessed_unit(item, measure)
            || self.start_of_rise(item, measure)
            || self.carried_label(item, measure)
            || self.flow_by_label(item, measure)
    }

    /// A figure with a unit and no label: the noun beside it, the subject carried on, or what such a unit alone means.
    fn measured(&mut self, item: usize, measure: &Measure) -> bool {
        if let Some(times) = measure.times
            && self.sized_count(item, measure, times)
        {
            return true;
        }
        let placed = matches!(self.preposition(item), Some(Role::In | Role::On | Role::Under | Role::For))
            && measure.unit_of(Dimension::VOLUME).is_some()
            && !self.is_share_of_container(item);
        // "the 30 litre just a sponge": a tank by its size.
        let named = item > self.clause.from
            && self.has_role(item - 1, Role::Definite)
            && measure.unit_of(Dimension::VOLUME).is_some_and(|u| u.name != "mL")
            && !self.has_role(item + 1, Role::Of)
            && !self.is_share_of_container(item)
            && self
                .right(item)
                .is_none_or(|r| !matches!(self.mentions[r].noun, Noun::Label { .. } | Noun::Source | Noun::Change));
        if named && self.tank_volume(item, measure) {
            return true;
        }
        if self.high_or_wide(item, measure) {
            return true;
        }
        if self.inches_of_fish(item, measure)
            || self.biggest_and_rest(item, measure)
            || self.tank_length(item, measure)
            || measure.unit_of(Dimension::CONCENTRATION).is_some() && self.carried_label(item, measure)
        {
            return true;
        }
        if placed && self.tank_volume(item, measure) {
            return true;
        }
        let (left, right) = (self.left(item), self.right(item));
        let near: Vec<usize> = match (left, right) {
            (Some(l), Some(r)) => {
                // A size stands before the noun it belongs to when it touches it: "3 inch angels".
                // "tank's 5 foot fish 7": feet are the tank's.
                let of_tank =
                    self.mentions[l].noun == Noun::Tank && self.mentions[l].last + 1 == item && measure.has_unit("ft");
                // "sump 100 gal moving bed 10 l": the noun behind has a figure of its own.
                let own = self.items.get(self.mentions[r].last + 1).is_some_and(|i| {
                    self.mentions[r].last + 1 < self.clause.to && matches!(&i.what, What::Amount(m) if m.units.iter().any(|u| measure.unit_of(u.dimension).is_some()))
                });
                let right_first = !of_tank
                    && !own
                    && (self.mentions[r].item == item + 1
                        || self.has_role(item + 1, Role::Of)
                        || self.mentions[l].taken_by_figure());
                match (right_first, own) {
                    (_, true) => vec![l],
                    (true, _) => vec![r, l],
                    _ => vec![l, r],
                }
            }
            (l, r) => r.into_iter().chain(l).collect(),
        };
        for index in near {
            // "2 kg of clay carry 150 l": what has its amount takes no second one.
            let has_amount = matches!(self.mentions[index].noun, Noun::Medium(_))
                && self.mentions[index].taken
                && self.mentions[index].last + 1 < item
                && measure.unit_of(Dimension::VOLUME).is_some()
                && self.state.size_of(self.state.tank).is_none();
            if !has_amount && self.beside(item, measure, index) {
                return true;
            }
        }
        self.answers(item, measure)
            || self.carried(item, measure)
            || self.past_figure(item, measure)
            || self.alone(item, measure)
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
