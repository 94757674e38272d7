//! Amounts: a number with its unit, hedges, bounds and ranges. In: terms and the language's tables. Out: a measure with
//! every unit that the words allow. Knows no things; `bind.rs` decides what is measured.

use super::lexicon::Sense;
use super::measure::Measure;
use super::quantity_words::{number, share};
use super::stream::{Read, Terms, fail, mark, role, sense};
use super::unit_words::{is_long_word, money_before, per_hour, unit_term, units};
use crate::knowledge::language::{Bound, Language, Role};
use crate::units::{Dimension, unit};
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt};
use nom::sequence::{pair, preceded};

/// The grammar of amounts with the tables it needs.
#[derive(Clone, Copy)]
pub struct Grammar<'g> {
    pub language: &'g Language,
}

/// What was said before a number.
#[derive(Clone, Copy)]
enum Before {
    Hedge(usize),
    Bound(Bound),
}

impl<'g> Grammar<'g> {
    /// "about 55 gal", "40-80 l", "under 20", "2 1/2 inches or so", "between 4 and 6".
    pub fn amount<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
        let (mut rest, mut before) = (input, Vec::new());
        while let Ok((next, word)) = alt((hedge_before, bound_before)).parse(rest) {
            before.push(word);
            // "I think it's 100": small words may stand between.
            rest = skip_small(next);
            if before.len() > 4 {
                break;
            }
        }
        let core = alt((
            |i| self.range(i),
            |i| self.plus_minus(i),
            |i| self.vague(i),
            |i| self.multiplied(i),
            |i| self.single(i),
        ))
        .parse(rest);
        let (mut rest, mut measure) = match core {
            Ok(found) => found,
            Err(_) if before.is_empty() => return fail(input),
            // A hedge too far from its number is no hedge.
            Err(_) => return fail(input),
        };
        let mut widest: Option<usize> = measure.hedge;
        let mut bound = None;
        for word in &before {
            match word {
                Before::Hedge(index) => widest = self.wider(widest, *index),
                Before::Bound(b) => bound = Some(*b),
            }
        }
        loop {
            if let Ok((next, Before::Hedge(index))) = hedge_after(rest) {
                widest = self.wider(widest, index);
                rest = next;
            } else if let Ok((next, Before::Bound(b))) = bound_after(rest) {
                bound = Some(b);
                rest = next;
            } else if let Ok((next, ())) = role(Role::Each)(rest) {
                measure.each = true;
                rest = next;
            } else if let Ok((next, ())) = role(Role::Altogether)(rest) {
                measure.in_all = true;
                rest = next;
            } else {
                break;
            }
        }
        if let Some(index) = widest
            && let Some(hedge) = self.language.hedges.get(index)
        {
            measure = measure.widened(hedge.low, hedge.likely, hedge.high);
        }
        if let Some(bound) = bound {
            measure = bounded(measure, bound);
        }
        Ok((rest, measure))
    }

    /// A hedge that stands behind a figure.
    pub fn hedge_behind<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, usize> {
        match hedge_after(input)? {
            (rest, Before::Hedge(index)) => Ok((rest, index)),
            _ => fail(input),
        }
    }

    fn wider(&self, one: Option<usize>, other: usize) -> Option<usize> {
        let width = |i: usize| self.language.hedges.get(i).map_or(0.0, |h| h.high - h.low);
        match one {
            Some(i) if width(i) >= width(other) => Some(i),
            _ => Some(other),
        }
    }

    /// "a few", "several", "a couple of dozen".
    fn vague<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
        let (rest, index) = sense(|s| match s {
            Sense::Vague(i) => Some(*i),
            _ => None,
        })(input)?;
        let Some(vague) = self.language.vague.get(index as usize) else { return fail(input) };
        let mut measure = Measure::exact(vague.likely, 0);
        (measure.low, measure.high, measure.hedged) = (Some(vague.low), Some(vague.high), true);
        measure.vague = true;
        let (rest, _) = opt(role(Role::Of)).parse(rest)?;
        self.with_unit(rest, measure)
    }

    /// One number and its unit.
    fn single<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
        // "gph=400": the unit as a label.
        if input.second().is_some_and(|t| t.is_mark('=') || t.is_mark(':'))
            && let Ok((rest, found)) = unit_term(input)
            && found.iter().any(|u| u.name.len() > 1)
            && let Ok((rest, measure)) = number(rest.skip(1))
        {
            return Ok((rest, Measure { units: found, bare: false, ..measure }));
        }
        if let Ok(found) = money_before(input) {
            return Ok(found);
        }
        if let Ok((rest, measure)) = number(input) {
            return self.with_unit(rest, measure);
        }
        // "an inch", "a kilo".
        if let Ok((rest, ())) = role(Role::A)(input)
            && let Ok((after, found)) = unit_term(rest)
            && rest.first().is_some_and(|t| t.first == t.last && !t.tight)
            && found.iter().all(|u| u.dimension != Dimension::TIME)
            && is_long_word(rest)
        {
            return Ok((after, Measure { units: found, ..Measure::exact(1.0, 0) }));
        }
        // "half a kilo" and "a third of the water", but never a lone "half".
        let (rest, measure) = share(input)?;
        let (rest, measure) = self.with_unit(rest, measure)?;
        Ok((rest, measure))
    }

    fn with_unit<'t, 'l: 't>(&self, input: Terms<'t, 'l>, mut measure: Measure) -> Read<'t, 'l, Measure> {
        // "500ish lph": the hedge stands between.
        if let Ok((after, index)) = self.hedge_behind(input)
            && let Ok((after, units)) = units(after)
        {
            return Ok((after, Measure { units, bare: false, hedge: Some(index), ..measure }));
        }
        let Ok((rest, units)) = units(input) else {
            if let Ok((rest, ())) = per_hour(input) {
                measure.per_hour = true;
                return Ok((rest, measure));
            }
            return Ok((input, measure));
        };
        measure.bare = false;
        measure.units = units;
        // "3 foot 6" is 42 inches.
        if measure.has_unit("ft")
            && let Some(feet) = measure.likely
            && let Ok((after, inches)) = number(rest)
            && let Some(more) = inches.likely.filter(|m| *m < 12.0 && inches.units.is_empty() && !inches.refused)
        {
            let inch_follows = unit_term(after).ok().filter(|(_, u)| u.iter().any(|u| u.name == "in"));
            let ends = after.first().is_none_or(|t| t.labels().next().is_some() || t.names_thing(super::name::TANK));
            let after = inch_follows.map(|(after, _)| after).or(ends.then_some(after));
            if let Some(after) = after {
                let mut whole = Measure::exact(feet * 12.0 + more, 0);
                whole.units = unit::by_name("in").into_iter().collect();
                whole.leaned = true;
                return Ok((after, whole));
            }
        }
        Ok((rest, measure))
    }

    /// "40 to 80", "40-80 l", "between 4 and 6 in", "10 or 12", "from 20 l to 30 l".
    fn range<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
        let (start, between) = opt(role(Role::Versus)).parse(input)?;
        let (rest, low) = number(start)?;
        let (rest, low_units) = match units(rest) {
            Ok((rest, units)) => (rest, units),
            Err(_) => (rest, Vec::new()),
        };
        let dash = map(mark('-'), |()| Role::To);
        let to = map(role(Role::To), |()| Role::To);
        let or = map(role(Role::Or), |()| Role::Or);
        let and = map(role(Role::And), |()| Role::And);
        let perhaps = map(role(Role::Perhaps), |()| Role::Or);
        let (rest, joint) = alt((dash, to, or, and, perhaps)).parse(rest)?;
        if joint == Role::And && between.is_none() {
            return fail(input);
        }
        let (after, high) = number(rest)?;
        let (Some(a), Some(b)) = (low.likely, high.likely) else { return fail(input) };
        // "0-0-40" is a row of readings, "8-2" no range.
        let row = after.first().is_some_and(|t| t.is_mark('-') && t.tight) && joint == Role::To;
        if low.refused || high.refused || b <= a || row {
            return fail(input);
        }
        // "2 or 3 inch ones" and "one or two"; but "40 or 4 feet" is a choice of two things.
        let mut measure =
            Measure { low: Some(a), high: Some(b), decimals: low.decimals.max(high.decimals), ..Measure::default() };
        measure.hedged = true;
        let (rest, measure) = self.with_unit(after, measure)?;
        let agree = low_units.is_empty() || low_units.iter().any(|u| measure.units.contains(u));
        if !agree {
            return fail(input);
        }
        Ok((rest, measure))
    }

    /// "25 plus or minus 1", "50±5".
    fn plus_minus<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
        let words = preceded((role(Role::Plus), role(Role::Or), role(Role::Minus)), number);
        let sign = preceded(mark('±'), number);
        let (rest, (middle, width)) = pair(number, alt((sign, words))).parse(input)?;
        let (Some(m), Some(w)) = (middle.likely, width.likely) else { return fail(input) };
        let mut measure = Measure::exact(m, middle.decimals);
        (measure.low, measure.high, measure.hedged) = (Some(m - w), Some(m + w), true);
        self.with_unit(rest, measure)
    }

    /// "2 x 3 kg", "3@1lb", "2 lots of 6".
    fn multiplied<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
        let (rest, times) = number(input)?;
        let sign = alt((mark('x'), mark('@'), map((role(Role::Times), opt(role(Role::Of))), |_| ())));
        let (rest, ()) = { sign }.parse(rest)?;
        let (rest, each) = self.single(rest)?;
        let (Some(times), false) = (times.likely, times.refused || each.refused) else { return fail(input) };
        // A third size behind makes it a box.
        if rest.first().is_some_and(|t| t.is_mark('x') || t.is(Role::By)) {
            return fail(input);
        }
        Ok((rest, Measure { times: Some(times), bare: false, ..each }))
    }
}

fn bounded(mut measure: Measure, bound: Bound) -> Measure {
    let value = measure.likely.or(measure.high).or(measure.low);
    measure.hedged = true;
    measure.likely = None;
    match bound {
        Bound::Below | Bound::AtMost => (measure.low, measure.high) = (None, value),
        Bound::AtLeast | Bound::Above => (measure.low, measure.high) = (value, None),
    }
    measure.strict = matches!(bound, Bound::Below | Bound::Above);
    measure
}

fn hedge_before<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Before> {
    if let Ok((rest, ())) = mark('~')(input) {
        return Ok((rest, Before::Hedge(0)));
    }
    sense(|s| match s {
        Sense::Hedge { index, after: false } => Some(Before::Hedge(*index as usize)),
        _ => None,
    })(input)
}

fn hedge_after<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Before> {
    sense(|s| match s {
        Sense::Hedge { index, after: true } => Some(Before::Hedge(*index as usize)),
        _ => None,
    })(input)
}

fn bound_before<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Before> {
    let sign = |c: char, plain: Bound, equal: Bound| {
        move |input: Terms<'t, 'l>| {
            let (rest, ()) = mark(c)(input)?;
            match mark('=')(rest) {
                Ok((rest, ())) => Ok((rest, Before::Bound(equal))),
                Err(_) => Ok((rest, Before::Bound(plain))),
            }
        }
    };
    let word = sense(|s| match s {
        Sense::Bound { bound, after: false } => Some(Before::Bound(*bound)),
        _ => None,
    });
    alt((
        sign('<', Bound::Below, Bound::AtMost),
        sign('>', Bound::Above, Bound::AtLeast),
        map(mark('≥'), |()| Before::Bound(Bound::AtLeast)),
        map(mark('≤'), |()| Before::Bound(Bound::AtMost)),
        word,
    ))
    .parse(input)
}

fn bound_after<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Before> {
    if let Some(term) = input.first()
        && term.is_mark('+')
        && term.tight
        && input.second().is_none_or(|t| !t.tight || t.mark().is_some())
    {
        return Ok((input.skip(1), Before::Bound(Bound::AtLeast)));
    }
    sense(|s| match s {
        Sense::Bound { bound, after: true } => Some(Before::Bound(*bound)),
        _ => None,
    })(input)
}

/// "it's", "there is", "a" between a hedge and its number.
fn skip_small<'t, 'l: 't>(input: Terms<'t, 'l>) -> Terms<'t, 'l> {
    let mut rest = input;
    for _ in 0..3 {
        match rest.first() {
            // "ones" is a small word, "one thousand" is a number.
            Some(t) if t.senses.iter().any(|s| matches!(s, Sense::Number(_))) => break,
            Some(t)
                if t.is(Role::It)
                    || t.is(Role::Be)
                    || t.is(Role::Have)
                    || (t.is(Role::A) && small_then_number(rest)) =>
            {
                rest = rest.skip(1)
            }
            _ => break,
        }
    }
    if number(rest).is_ok() { rest } else { input }
}

fn small_then_number<'t, 'l: 't>(input: Terms<'t, 'l>) -> bool {
    input.second().is_some_and(|t| t.numeral().is_some())
}
