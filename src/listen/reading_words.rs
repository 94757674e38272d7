//! Water tests: rows of three figures, zero and untested, levels in words, whose water it is. In: figures and mentions.
//! Out: findings on the reading or the source. Knows no chemistry.

use super::bind::Binder;
use super::found::Doubt;
use super::items::What;
use super::lexicon::Sense;
use super::measure::Measure;
use super::mention::Noun;
use super::name::{self, Name};
use super::reading::{Doubtful, Level, Mark, Subject, Wanted};
use crate::knowledge::language::{LevelWord, Role};

impl Binder<'_, '_> {
    /// "0/0/40": ammonia, nitrite, nitrate, in that order; four figures or two are asked about.
    pub fn row(&mut self, item: usize, row: Vec<Measure>) {
        let terms = self.terms_of(item, item);
        let said = self.said(&terms);
        let offers = |binder: &mut Self, names: &[Name], figures: &[Measure]| {
            let mut statements = Vec::new();
            for (attribute, measure) in names.iter().zip(figures) {
                let of = binder.subject_for(name::READING, None, item);
                if let Some((amount, _)) = binder.amount_for(name::READING, *attribute, measure, item) {
                    statements.push(binder.offer(of, *attribute, amount));
                }
            }
            statements
        };
        if self.is_history(item) {
            return;
        }
        match row.len() {
            3 if !self.is_code_like(&row) => {
                for (attribute, measure) in [name::AMMONIA, name::NITRITE, name::NITRATE].into_iter().zip(&row) {
                    let of = self.subject_for(name::READING, None, item);
                    self.value(item, of, (name::READING, attribute), measure, terms.clone(), false);
                }
            }
            2 => {
                let first = offers(self, &[name::NITRITE, name::NITRATE], &row);
                let second = offers(self, &[name::AMMONIA, name::NITRATE], &row);
                let readings = vec![("nitrite and nitrate".into(), first), ("ammonia and nitrate".into(), second)];
                let ask = format!("Which two readings are {said}?");
                self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
            }
            4 => {
                let with_ph = [name::PH, name::AMMONIA, name::NITRITE, name::NITRATE];
                let readings = vec![("pH, ammonia, nitrite, nitrate".to_string(), offers(self, &with_ph, &row))];
                let ask = format!("{said}: pH, ammonia, nitrite, nitrate in that order?");
                self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
            }
            _ => {}
        }
    }

    fn is_code_like(&self, row: &[Measure]) -> bool {
        row.iter().take(2).any(|m| m.value().is_some_and(|v| v > 12.0))
    }

    /// "never cleaned": never so far, of any attribute that is a time; "never had carbon": there is none.
    pub fn never_yet(&mut self) {
        let never = (self.clause.from..self.clause.to)
            .find(|i| self.items[*i].what == What::Term && self.term(*i).level() == Some(LevelWord::Never));
        let Some(at) = never else { return };
        for index in 0..self.mentions.len() {
            let mention = self.mentions[index].clone();
            let behind = mention.last + 1 == at && matches!(mention.noun, Noun::Label { .. });
            if mention.item < at && !behind || mention.taken {
                continue;
            }
            match mention.noun {
                Noun::Label { thing, attribute } => {
                    let known = self.listener.attributes.get(thing, attribute);
                    if thing != name::READING
                        && known.is_some_and(|k| k.dimension == Some(crate::units::Dimension::TIME))
                    {
                        self.mentions[index].taken = true;
                        let of = self.subject_for(thing, None, mention.item);
                        let mut terms = self.terms_of(mention.item, mention.last);
                        terms.extend(self.terms_of(at, at));
                        self.level(of, attribute, Level::Never, terms);
                    }
                }
                Noun::Medium(Some(_)) | Noun::Plant(_) | Noun::Change => self.mentions[index].negated = true,
                _ => {}
            }
        }
    }

    /// Levels, zeros and untested for the labels of the clause, before any figure is given to them.
    pub fn reading_levels(&mut self) {
        // A reading named without a figure: the figure may come in the next clause.
        if let Some(Noun::Label { thing: name::READING, attribute }) = self.mentions.last().map(|m| m.noun) {
            self.state.label = Some(attribute);
        }
        let readings: Vec<usize> = (0..self.mentions.len())
            .filter(|i| matches!(self.mentions[*i].noun, Noun::Label { thing: name::READING, .. }))
            .collect();
        if readings.is_empty() {
            return;
        }
        let has_test = self.mentions.iter().any(|m| m.noun == Noun::Test);
        for index in readings {
            let mention = self.mentions[index].clone();
            let Noun::Label { attribute, .. } = mention.noun else { continue };
            let Some((level, at)) = self.level_beside(index) else {
                if mention.negated && self.figure_beside(index).is_none() {
                    self.no_reading(index, attribute, has_test);
                }
                continue;
            };
            let level = match level {
                LevelWord::Unknown => Level::Unknown,
                LevelWord::Untested => Level::Untested,
                LevelWord::High => Level::High,
                LevelWord::Low => Level::Low,
                LevelWord::Fine => Level::Fine,
                LevelWord::OffChart => Level::OffChart,
                LevelWord::Never => Level::Never,
            };
            self.mentions[index].taken = true;
            let mut terms = self.terms_of(mention.item, mention.last);
            terms.extend(self.terms_of(at, at));
            // "nitrate isn't high": no level, and nothing to ask.
            let not = |i: usize| self.has_role(i, Role::Not) && self.term(i).level().is_none();
            if (mention.last + 1..at).any(not) && matches!(level, Level::High | Level::Low | Level::Fine) {
                self.deny(&terms);
                continue;
            }
            let of = self.reading_subject(attribute, mention.item);
            if of.thing == "source" {
                terms.extend(self.source_terms());
            }
            self.level(of.clone(), attribute, level, terms.clone());
            let called = self.called(name::READING, attribute);
            match level {
                Level::High | Level::Low => {
                    let ask = format!("What figure does the test show for {called}?");
                    let wants = Wanted::of(of, self.name(attribute));
                    self.doubts.push(Doubt::new(Doubtful::NoFigure, ask, Vec::new()).wanting(Some(wants)));
                }
                Level::OffChart => {
                    let ask = format!("What is the highest {called} on your chart?");
                    let wants = Wanted { at_least: true, ..Wanted::of(of, self.name(attribute)) };
                    self.doubts.push(Doubt::new(Doubtful::NoFigure, ask, Vec::new()).wanting(Some(wants)));
                }
                Level::Unknown if self.is_coloured(at) => {
                    let ask = format!("Which figures on the {called} card are nearest to that colour?");
                    self.doubts.push(Doubt::new(Doubtful::NoFigure, ask, Vec::new()));
                }
                _ => {}
            }
        }
    }

    /// "somewhere in the orange": a colour stands for the figure.
    fn is_coloured(&self, item: usize) -> bool {
        let term = self.term(item);
        let colour = |s: &Sense| matches!(s, Sense::Role(Role::Colour));
        let entry = |w: &super::words::Word| self.listener.lexicon.entry(&w.text);
        self.words[term.first..=term.last].iter().any(|w| entry(w).is_some_and(|e| e.senses.iter().any(colour)))
    }

    pub fn called(&self, thing: Name, attribute: Name) -> String {
        self.listener.attributes.get(thing, attribute).map_or(String::new(), |a| a.called.to_string())
    }

    /// The reading, or the source when the clause speaks of new water.
    pub fn reading_subject(&mut self, attribute: Name, item: usize) -> Subject {
        let source = self.is_of_source(item) && self.listener.attributes.get(name::SOURCE, attribute).is_some();
        self.subject_for(if source { name::SOURCE } else { name::READING }, None, item)
    }

    /// A level word beside a label, nearest first, with the item it stands at.
    fn level_beside(&self, index: usize) -> Option<(LevelWord, usize)> {
        let mention = &self.mentions[index];
        let next = self.mentions.get(index + 1).map_or(self.clause.to, |m| m.item);
        let before = index.checked_sub(1).map_or(self.clause.from, |i| self.mentions[i].last + 1);
        let level = |i: usize| match self.items[i].what {
            What::Term => self.term(i).level().map(|l| (l, i)),
            _ => None,
        };
        let forward =
            (mention.last + 1..next).take_while(|i| !matches!(self.items[*i].what, What::Amount(_))).find_map(level);
        forward.or_else(|| {
            (before..mention.item)
                .rev()
                .take_while(|i| !matches!(self.items[*i].what, What::Amount(_)))
                .find_map(level)
                .filter(|(l, _)| !matches!(l, LevelWord::Fine))
        })
    }

    fn figure_beside(&self, index: usize) -> Option<usize> {
        let mention = &self.mentions[index];
        let next = mention.last + 1;
        let behind = next < self.clause.to && matches!(self.items[next].what, What::Amount(_));
        behind.then_some(next)
    }

    /// "no nitrite": a zero beside other readings, else to be asked; "no nitrite test": untested.
    fn no_reading(&mut self, index: usize, attribute: Name, has_test: bool) {
        let mention = self.mentions[index].clone();
        let mut terms = self.terms_of(mention.item, mention.last);
        if let Some(at) =
            (self.clause.from..mention.item).rev().find(|i| self.has_role(*i, Role::No) || self.has_role(*i, Role::Not))
        {
            terms.extend(self.terms_of(at, at));
        }
        let of = self.reading_subject(attribute, mention.item);
        self.mentions[index].taken = true;
        if has_test {
            self.take_mentions(Noun::Test);
            return self.level(of, attribute, Level::Untested, terms);
        }
        let zero = Measure::exact(0.0, 0);
        let Some((amount, _)) = self.amount_for(name::READING, attribute, &zero, mention.item) else { return };
        let with_others = self.line_has_reading(mention.item);
        if with_others {
            return self.set(of, attribute, amount, terms, Some(Mark::Hint));
        }
        let called = self.called(name::READING, attribute);
        let untested = super::reading::Statement {
            span: Default::default(),
            subject: of.clone(),
            says: super::reading::Says::Value {
                attribute: self.name(attribute).to_string(),
                how: super::reading::How::Set,
                value: super::reading::Said::Level(Level::Untested),
            },
            mark: None,
        };
        let readings = vec![
            ("zero".to_string(), vec![self.offer(of, attribute, amount)]),
            ("not tested".to_string(), vec![untested]),
        ];
        let ask = format!("{}: tested and it showed zero, or not tested?", crate::source::words::capital(&called));
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
    }

    /// Another reading with a figure stands in the line.
    fn line_has_reading(&self, item: usize) -> bool {
        self.items.iter().enumerate().any(|(i, it)| {
            i != item && matches!(it.what, What::Row(_))
                || matches!(it.what, What::Term)
                    && self.terms[it.first].labels().any(|(t, _)| t == name::READING)
                    && self.items.get(i + 1).is_some_and(|n| matches!(n.what, What::Amount(_)))
        })
    }

    /// "was 80 a month back": what it was, not what it is.
    pub fn is_history(&self, item: usize) -> bool {
        let was = (self.clause.from..item).any(|i| self.has_role(i, Role::Was));
        let ago = self.items[self.clause.from..self.clause.to].iter().any(|i| match &i.what {
            What::Time(super::time_words::Time::Span { relation: super::reading::TimeRelation::Ago, measure }) => {
                measure.value().is_some_and(|v| v > 0.0)
            }
            _ => false,
        });
        let told = self.state.line_readings;
        was && (ago || self.goes_on_now()) || ago && told && matches!(self.items[item].what, What::Row(_))
    }

    /// "was 80, now 40": the next words of the line tell what is so today.
    fn goes_on_now(&self) -> bool {
        let mut rest = self.items[self.clause.to..].iter().filter(|i| !matches!(i.what, What::Mark(_)));
        rest.by_ref().take(2).any(|i| i.what == What::Term && self.terms[i.first].is(Role::Now))
    }

    /// "now it's 40", "and the tank 60": the reading named last.
    pub fn carried_label(&mut self, item: usize, measure: &Measure) -> bool {
        let Some(attribute) = self.state.label else { return false };
        if self.is_pronoun_one(item) {
            return false;
        }
        let tank = self.mentions.iter().position(|m| m.noun == Noun::Tank);
        let source = self.mentions.iter().any(|m| m.noun == Noun::Source);
        let others = self.mentions.iter().any(|m| !matches!(m.noun, Noun::Tank | Noun::Source | Noun::State { .. }));
        // "2 on Monday, 0.2 today": a row of the same reading.
        let dated = self.items[self.clause.from..self.clause.to].iter().any(|i| matches!(i.what, What::Time(_)));
        let said = tank.is_some()
            || source
            || (item + 1..self.clause.to).any(|i| self.has_role(i, Role::Now))
            || dated && self.items.len() > self.clause.to - self.clause.from
            || (self.clause.from..item)
                .any(|i| self.has_role(i, Role::It) || self.has_role(i, Role::Be) || self.has_role(i, Role::Now));
        // "nitrate 80 in the 55, 10 in the 20".
        let placed = self.has_role(item + 1, Role::In)
            && self.state.last.as_ref().is_some_and(|(s, a)| s.thing == "reading" && a == self.name(attribute))
            || self.has_role(item + 1, Role::In) && self.state.line_readings && measure.is_plain();
        let list = (matches!(self.clause.joint, Some(Role::And)) || placed)
            && (self.clause.from..item).all(|i| self.is_empty_word(i))
            && (self.clause.to == item + 1 || self.has_role(item + 1, Role::In) || self.has_role(item + 1, Role::On));
        if others || !(said || list) || !self.fits(name::READING, attribute, measure) {
            return false;
        }
        if self.told_of_another(item, attribute, measure) {
            return true;
        }
        if !self.can_be(name::READING, attribute, measure) {
            return false;
        }
        if self.is_history(item) {
            return true;
        }
        if let Some(index) = tank {
            self.mentions[index].taken = true;
        }
        let of = self.reading_subject(attribute, item);
        let mut terms = self.terms_of(item, item);
        let new_water = of.thing == "source";
        if new_water {
            terms.extend(self.source_terms());
        }
        let thing = if new_water { name::SOURCE } else { name::READING };
        let before = self.found.len();
        self.value(item, of, (thing, attribute), measure, terms, false);
        // The later figure takes the place of the one before.
        let now = dated || (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Now));
        if let Some(found) = self.found.get_mut(before).filter(|_| now && self.state.line_readings) {
            found.replaces = true;
        }
        true
    }

    /// "marine 1.025": a density, by its form.
    pub fn salinity(&mut self, item: usize, measure: &Measure) -> bool {
        let looks = measure.other.is_some() && measure.likely.is_some_and(|v| v > 1.0 && v < 1.05);
        let salty = self
            .mentions
            .iter()
            .any(|m| matches!(m.noun, Noun::State { thing: name::TANK, attribute: name::KIND, .. }));
        if !(looks && (salty || self.clause.to - self.clause.from == 1)) {
            return false;
        }
        let measure = Measure { other: None, ..measure.clone() };
        let of = self.subject_for(name::READING, None, item);
        let terms = self.terms_of(item, item);
        self.value(item, of, (name::READING, name::SALINITY), &measure, terms, false);
        true
    }

    /// A slip that may be two readings ("nitrte"): its figure is asked about, never given to either.
    pub fn unsure_readings(&mut self) {
        for item in self.clause.from..self.clause.to {
            if self.items[item].what != What::Term || !self.term(item).unsure {
                continue;
            }
            let word = self.words[self.term(item).first].text.clone();
            let names: Vec<Name> = super::spelling::candidates(&word, &self.listener.lexicon)
                .into_iter()
                .filter_map(|c| self.listener.lexicon.entry(c))
                .filter_map(|e| {
                    e.senses.iter().find_map(|s| match s {
                        super::lexicon::Sense::Label { thing: name::READING, attribute } => Some(*attribute),
                        _ => None,
                    })
                })
                .collect();
            if names.len() < 2 {
                continue;
            }
            let beside = [item + 1, item.wrapping_sub(1)].into_iter().find_map(|i| {
                let inside = i >= self.clause.from && i < self.clause.to;
                match inside.then(|| &self.items[i].what) {
                    Some(What::Amount(m)) => Some((i, m.clone())),
                    _ => None,
                }
            });
            let Some((at, measure)) = beside else { continue };
            let mut readings = Vec::new();
            for attribute in names {
                let of = self.subject_for(name::READING, None, item);
                if let Some((amount, _)) = self.amount_for(name::READING, attribute, &measure, at) {
                    readings.push((self.called(name::READING, attribute), vec![self.offer(of, attribute, amount)]));
                }
            }
            let said = self.said(&self.terms_of(at, at)).to_string();
            let ask = readings.iter().map(|(w, _)| format!("{w} {said}")).collect::<Vec<_>>().join(", or ") + "?";
            let mut terms = self.terms_of(at, at);
            terms.extend(self.terms_of(item, item));
            self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
            self.done.push(at);
        }
    }
}
