//! Times: "3 weeks ago", "since Tuesday", "every fortnight", "twice a week", "3 week old", "for 6 hours". In: terms.
//! Out: a relation to now with a span or a moment. Knows no things.

use super::amount::Grammar;
use super::lexicon::Sense;
use super::measure::Measure;
use super::name::Name;
use super::quantity_words::number;
use super::reading::TimeRelation;
use super::sizes::unit_list;
use super::stream::{Read, Terms, fail, one, role, sense};
use crate::knowledge::language::Role;
use crate::units::{Dimension, Unit};
use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;

/// A time as said.
#[derive(Clone, Debug, PartialEq)]
pub enum Time {
    Span {
        relation: TimeRelation,
        measure: Measure,
    },
    Moment {
        relation: TimeRelation,
        name: Name,
    },
    /// So often in a span: "twice a day".
    Rate {
        count: Measure,
        per: &'static Unit,
    },
}

impl Grammar<'_> {
    pub fn time<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Time> {
        alt((
            |i| self.since(i),
            |i| self.rate(i),
            |i| self.ago_or_old(i),
            |i| self.one_word(i),
            |i| self.every(i),
            |i| self.lasting(i),
            |i| self.day(i),
        ))
        .parse(input)
    }

    /// "fortnightly", "yesterday": a word of the `times` list.
    fn one_word<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Time> {
        let (rest, index) = sense(|s| match s {
            Sense::Time(i) => Some(*i),
            _ => None,
        })(input)?;
        let Some(entry) = self.language.times.get(index as usize) else { return fail(input) };
        let Ok(amount) = crate::units::parse::quantity(&entry.time) else { return fail(input) };
        let relation = match entry.how.as_str() {
            "every" => TimeRelation::Every,
            "for" => TimeRelation::For,
            "in" => TimeRelation::In,
            _ => TimeRelation::Ago,
        };
        let measure = Measure {
            low: amount.low,
            likely: amount.likely,
            high: amount.high,
            decimals: amount.decimals,
            units: vec![amount.unit],
            ..Measure::default()
        };
        Ok((rest, Time::Span { relation, measure }))
    }

    /// "since Tuesday", "since last night", "since 6am".
    fn since<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Time> {
        let (rest, ()) = role(Role::Since)(input)?;
        let (rest, _) = opt(alt((role(Role::Definite), role(Role::On)))).parse(rest)?;
        // "since 6am": the morning.
        let hour = rest.first().and_then(|t| t.numeral()).filter(|n| n.is_whole && (1.0..=12.0).contains(&n.value));
        let am = rest.second().is_some_and(|t| t.tight && t.is(Role::Be));
        if hour.is_some() && am {
            let name = super::name::MORNING;
            return Ok((rest.skip(2), Time::Moment { relation: TimeRelation::Since, name }));
        }
        // "since 6 this morning".
        if hour.is_some()
            && let Ok((rest, name)) = moment(rest.skip(1))
        {
            return Ok((rest, Time::Moment { relation: TimeRelation::Since, name }));
        }
        // "since a month", "since about two weeks": so long ago.
        let lasting = alt((|i| self.amount_of_time(i), |i| a_unit(i), |i| self.a_listed_unit(i))).parse(rest);
        if let Ok((rest, measure)) = lasting {
            return Ok((rest, span(TimeRelation::Ago, measure)));
        }
        let (rest, name) = moment(rest)?;
        Ok((rest, Time::Moment { relation: TimeRelation::Since, name }))
    }

    /// "on Monday", "last sat", "mon" alone.
    fn day<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Time> {
        let (rest, _) = opt(alt((role(Role::On), role(Role::Definite)))).parse(input)?;
        let (rest, name) = moment(rest)?;
        Ok((rest, Time::Moment { relation: TimeRelation::Since, name }))
    }

    /// "every month", "every 6 wks", "every other week", "once every 2 weeks".
    fn every<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Time> {
        let (rest, ()) = role(Role::Every)(input)?;
        let (rest, other) = opt(role(Role::Other)).parse(rest)?;
        let by = if other.is_some() { 2.0 } else { 1.0 };
        if let Ok((rest, measure)) = self.amount_of_time(rest) {
            return Ok((rest, span(TimeRelation::Every, measure)));
        }
        // "every Saturday".
        if let Ok((after, _)) = moment(rest)
            && let Some(week) = crate::units::unit::by_name("wk")
        {
            let measure = Measure { units: vec![week], ..Measure::exact(by, 0) };
            return Ok((after, span(TimeRelation::Every, measure)));
        }
        let (rest, unit) = time_unit(rest)?;
        let measure = Measure { units: vec![unit], ..Measure::exact(by, 0) };
        Ok((rest, span(TimeRelation::Every, measure)))
    }

    /// "twice a week", "once a month", "3 times a day", "weekly twice".
    fn rate<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Time> {
        let (rest, count) = number(input)?;
        if !count.units.is_empty() {
            return fail(input);
        }
        let (rest, times) = opt(role(Role::Times)).parse(rest)?;
        let once = times.is_some() || input.first().is_some_and(|t| t.is(Role::Times));
        if !once {
            return fail(input);
        }
        // "a day", "a week" are words of the list of times by themselves.
        if let Ok((rest, Time::Span { relation: TimeRelation::Every, measure })) = self.one_word(rest)
            && let Some(unit) = measure.units.first()
        {
            return Ok((rest, Time::Rate { count, per: unit }));
        }
        let (rest, _) =
            alt((role(Role::A), role(Role::Per), role(Role::Every), role(Role::Each), role(Role::In), role(Role::By)))
                .parse(rest)?;
        let (rest, unit) = time_unit(rest)?;
        Ok((rest, Time::Rate { count, per: unit }))
    }

    /// "3 weeks ago", "a month back", "2 yrs old", "day 19", "3 week old".
    fn ago_or_old<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Time> {
        // "day 19": so many days since the start.
        if let Ok((rest, unit)) = time_unit(input)
            && let Ok((after, count)) = number(rest)
            && count.bare
            && !count.refused
            && input.first().is_some_and(|t| !t.tight && !t.plural)
            && !matches!(unit.name, "h" | "min" | "s")
        {
            let measure = Measure { units: vec![unit], bare: false, ..count };
            return Ok((after, span(TimeRelation::Ago, measure)));
        }
        let (rest, measure) =
            alt((|i| self.amount_of_time(i), |i| a_unit(i), |i| self.a_listed_unit(i))).parse(input)?;
        if let Ok((rest, ())) = role(Role::Ago)(rest) {
            return Ok((rest, span(TimeRelation::Ago, measure)));
        }
        let (rest, ()) = role(Role::Old)(rest)?;
        Ok((rest, span(TimeRelation::Old, measure)))
    }

    /// "for 6 hours", "in 2 days", or a span of time alone.
    fn lasting<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Time> {
        let (rest, opener) = opt(alt((
            nom::combinator::value(TimeRelation::For, role(Role::For)),
            nom::combinator::value(TimeRelation::In, role(Role::In)),
        )))
        .parse(input)?;
        // "for a week": no habit, as "a week" alone is.
        if opener == Some(TimeRelation::For)
            && let Ok((rest, measure)) = self.a_listed_unit(rest)
        {
            return Ok((rest, span(TimeRelation::For, measure)));
        }
        let (rest, measure) = alt((|i| self.amount_of_time(i), |i| a_unit(i))).parse(rest)?;
        Ok((rest, span(opener.unwrap_or(TimeRelation::For), measure)))
    }
}

fn span(relation: TimeRelation, measure: Measure) -> Time {
    Time::Span { relation, measure: Measure { bare: false, ..measure } }
}

fn moment<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Name> {
    sense(|s| match s {
        Sense::Moment(name) => Some(*name),
        _ => None,
    })(input)
}

fn time_unit<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, &'static Unit> {
    one(|t| t.units().find(|u| u.dimension == Dimension::TIME))(input)
}

/// "a month", "a year", "an hour".
impl Grammar<'_> {
    /// "a month" is a word of the list of times as well; "a month back" is no habit.
    fn a_listed_unit<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
        match self.one_word(input)? {
            (rest, Time::Span { relation: TimeRelation::Every, measure }) => Ok((rest, measure)),
            _ => fail(input),
        }
    }
}

fn a_unit<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let (rest, ()) = role(Role::A)(input)?;
    let (rest, unit) = time_unit(rest)?;
    Ok((rest, Measure { units: unit_list(unit.name), ..Measure::exact(1.0, 0) }))
}
