//! Times of the day: "at 11 last night", "from about 2 till 6", "back on by 3". In: figures of a clause, the event of the turn. Out:
//! that they are no figures of ours, and how long an event lasted. Knows no date.

use super::bind::Binder;
use super::found::Found;
use super::items::What;
use super::lexicon::Sense;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{How, Mark, Said, Says, Subject, TimeRelation};
use super::time_words::Time;
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::units::{Amount, unit};

/// Hours of half a day: without "am" and "pm" an hour comes round after so many.
const HALF_DAY: f64 = 12.0;
const DAY: f64 = 24.0;

/// An hour of the day that was said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hour {
    pub hour: f64,
    /// Said by the clock of a whole day, or with "am" or "pm".
    pub exact: bool,
    /// First and last term.
    pub terms: (usize, usize),
}

impl Binder<'_, '_> {
    /// Notes a time of the day; true when the figure is one.
    pub fn is_hour(&mut self, item: usize, measure: &Measure) -> bool {
        let half = item + 1 < self.clause.to && self.items[item + 1].what == What::Term;
        let behind = if half { self.words[self.terms[self.items[item + 1].first].first].text.as_str() } else { "" };
        let exact = matches!(behind, "am" | "pm" | "oclock");
        let led = self.preposition(item).is_some_and(|r| matches!(r, Role::At | Role::From | Role::To))
            || item > self.clause.from && (self.has_role(item - 1, Role::By) || self.has_role(item - 1, Role::Since));
        let hours = self.hours_in(item);
        let span = hours.len() == 2 && measure.low.is_some() && measure.high.is_some();
        let whole = hours.iter().all(|h| (0.0..=DAY).contains(h) && h.fract() == 0.0);
        if hours.is_empty() || !whole || !measure.is_plain() || measure.article || !(exact || led || span) {
            return false;
        }
        if !exact && !self.tells_when(item) {
            return false;
        }
        let last = if exact { item + 1 } else { item };
        let terms = (self.items[item].first, self.items[last].last);
        let turned = |h: f64| if behind == "pm" && h < HALF_DAY { h + HALF_DAY } else { h };
        for hour in hours {
            self.state.hours.push(Hour { hour: turned(hour), exact: exact || hour > HALF_DAY, terms });
        }
        true
    }

    /// The figures of an item, each by itself.
    fn hours_in(&self, item: usize) -> Vec<f64> {
        let value = |t: usize| {
            let term = &self.terms[t];
            let word = term.senses.iter().find_map(|s| if let Sense::Number(n) = s { Some(*n) } else { None });
            term.numeral().map(|n| n.value).or(word)
        };
        (self.items[item].first..=self.items[item].last).filter_map(value).collect()
    }

    /// The clause, or what was told just before, says that something happened, or at what time of the day.
    fn tells_when(&self, item: usize) -> bool {
        let stopped = |kind: &str| kind == self.name(name::POWER_CUT) || kind == self.name(name::FILTER_OFF);
        let told = self.event_in_clause().is_some_and(|k| matches!(k, name::POWER_CUT | name::FILTER_OFF))
            || self.state.event.as_ref().and_then(|e| e.kind.as_deref()).is_some_and(stopped)
            || self
                .found
                .iter()
                .any(|f| f.subject.kind.as_deref().is_some_and(stopped) || f.attribute() == Some("running"))
            || self
                .mentions
                .iter()
                .any(|m| matches!(m.noun, Noun::State { thing: name::FILTER, attribute: name::RUNNING, .. }))
            || self.state.wanted.iter().any(|w| w.attribute == self.name(name::LASTED));
        let day = |i: &super::items::Item| match &i.what {
            What::Time(Time::Span { relation: TimeRelation::Ago, measure }) => {
                measure.value().is_some_and(|v| v <= 1.0)
            }
            What::Time(Time::Moment { name, .. }) => *name == name::MORNING || self.name(*name) == "yesterday night",
            _ => false,
        };
        let beside = self.items.get(item + 1).is_some_and(day);
        // "tank at 26", "pH at 7".
        let of_water = |m: &super::mention::Mention| {
            matches!(m.noun, Noun::Label { thing: name::READING | name::TANK, .. } | Noun::Tank)
        };
        let label = self.mentions.iter().any(|m| of_water(m) && m.last < item && m.last + 3 > item);
        beside || told && !label
    }
}

/// "went at 11 last night and came back at 5": six hours.
pub fn lasted(turn: &mut Turn) {
    let [from, to] = turn.state.hours[..] else { return };
    let stopped = |s: &Subject| {
        let kind = s.kind.as_deref().unwrap_or_default();
        s.thing == "event" && (kind == turn.name(name::POWER_CUT) || kind == turn.name(name::FILTER_OFF))
    };
    let of = turn.latest(|s| stopped(&s.subject)).map(|s| s.subject);
    let of = of.or_else(|| turn.state.wanted.iter().map(|w| w.of.clone()).find(|s| stopped(s)));
    let (Some(of), Some(hour)) = (of, unit::by_name("h")) else { return };
    let lasts = |s: &super::reading::Statement| {
        s.subject == of && matches!(&s.says, Says::Value { attribute, .. } if attribute == "lasted")
    };
    if turn.reading.statements.iter().any(lasts) {
        return;
    }
    // "was off between 8 and 12": it runs again.
    let stands = |s: &super::reading::Statement| {
        s.subject.thing == "filter"
            && matches!(&s.says, Says::Value { attribute, value: Said::Word(w), .. } if attribute == "running" && w == "no")
    };
    if let Some(at) = turn.reading.statements.iter().position(stands) {
        turn.forget(at);
    }
    let round = if from.exact && to.exact { DAY } else { HALF_DAY };
    let hours = (to.hour - from.hour).rem_euclid(round);
    let hours = if hours == 0.0 { round } else { hours };
    let value = Said::Time { relation: TimeRelation::For, amount: Amount::exact(hours, hour) };
    let says = Says::Value { attribute: "lasted".into(), how: How::Set, value };
    let terms = [from, to].iter().flat_map(|h| h.terms.0..=h.terms.1).collect();
    turn.state_fact(Found::new(of, says, terms).marked(Some(Mark::Derived)));
}
