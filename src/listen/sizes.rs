//! Rows of figures: three sizes of a box, three readings, a flow timed with a bucket. In: terms. Out: measures in order.
//! Knows no things.

use super::amount::Grammar;
use super::measure::Measure;
use super::quantity_words::number;
use super::stream::{Read, Terms, fail, mark, one, role};
use super::term::Term;
use super::unit_words::units;
use crate::knowledge::language::Role;
use crate::units::{Dimension, Unit, unit};
use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;

/// Sizes of a box in the order length, width, height.
#[derive(Clone, Debug, PartialEq)]
pub struct Sizes {
    pub sizes: Vec<Measure>,
    /// "36-15-18": a dash joins readings, too.
    pub dashed: bool,
}

impl Grammar<'_> {
    /// "36x15x18 in", "4ft x 18\" x 2'", "120 by 40 by 50 cm"; one unit at the end holds for all.
    pub fn sizes<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Sizes> {
        let (mut rest, first) = size(input)?;
        let mut sizes = vec![first];
        let (mut dashed, mut spoken) = (false, false);
        while sizes.len() < 3 {
            let said = rest.first().is_some_and(|t| t.is(Role::By));
            let by = alt((mark('x'), mark('*'), role(Role::By)));
            let (next, ()) = match { by }.parse(rest) {
                Ok(found) => found,
                Err(_) => match one(|t| (t.is_mark('-') && t.tight).then_some(()))(rest) {
                    Ok(found) if sizes.len() == 1 || dashed => {
                        dashed = true;
                        found
                    }
                    _ => break,
                },
            };
            let (next, measure) = size(next)?;
            spoken |= said;
            sizes.push(measure);
            rest = next;
        }
        // "4 m by 2.5 m": length and width, when a unit says that they are sizes.
        let two = sizes.len() == 2 && !dashed && sizes.last().is_some_and(|s| !s.units.is_empty())
            // "4 x 6 inch angels" are four fish; "2.5 by 3 metres" are two sizes.
            && (spoken || sizes.iter().all(|s| !s.units.is_empty()));
        if sizes.len() < 3 && !two {
            return fail(input);
        }
        if dashed && sizes.iter().any(|s| s.likely.is_none_or(|v| v < 4.0)) {
            return fail(input);
        }
        // One unit at the end, or at the start, holds for those without.
        let last = sizes.iter().rev().find(|s| !s.units.is_empty()).map(|s| s.units.clone());
        if let Some(units) = last {
            sizes.iter_mut().filter(|s| s.units.is_empty()).for_each(|s| s.units = units.clone());
        }
        // "48 x 18 x 21 in approx": the hedge holds for all three.
        if let Ok((after, index)) = self.hedge_behind(rest)
            && let Some(hedge) = self.language.hedges.get(index)
        {
            sizes = sizes.into_iter().map(|s| s.widened(hedge.low, hedge.likely, hedge.high)).collect();
            return Ok((after, Sizes { sizes, dashed }));
        }
        Ok((rest, Sizes { sizes, dashed }))
    }

    /// "36l 15w 18h inches": the letters say which size it is, not what it is measured in.
    pub fn lettered_sizes<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Sizes> {
        let mut rest = input;
        let mut sizes = [const { None }; 3];
        for _ in 0..3 {
            let (next, measure) = number(rest)?;
            let (next, unit) = opt(units_but_letters).parse(next)?;
            let (next, place) = one(letter)(next)?;
            sizes[place] = Some(Measure { units: unit.unwrap_or_default(), ..measure });
            rest = match alt((mark('x'), mark(','), role(Role::By))).parse(next) {
                Ok((after, ())) => after,
                Err(_) => next,
            };
        }
        let Ok((rest, tail)) = opt(units).parse(rest) else { return fail(input) };
        let [Some(length), Some(width), Some(height)] = sizes else { return fail(input) };
        let mut sizes = vec![length, width, height];
        if let Some(tail) = tail {
            sizes.iter_mut().filter(|s| s.units.is_empty()).for_each(|s| s.units = tail.clone());
        }
        Ok((rest, Sizes { sizes, dashed: false }))
    }

    /// "0/0/80", "0-0-40", "7.4/0/0/40": figures joined by slashes or dashes without blanks.
    pub fn row<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Vec<Measure>> {
        let (mut rest, first) = plain(input)?;
        let mut row = vec![first];
        let mut joint = None;
        loop {
            let step = one(|t| t.mark().filter(|m| matches!(m, '/' | '-') && t.tight));
            let Ok((next, c)) = step(rest) else { break };
            if joint.is_some_and(|j| j != c) {
                break;
            }
            let Ok((next, figure)) = plain(next) else { break };
            if !next_is_tight(rest) {
                break;
            }
            joint = Some(c);
            row.push(figure);
            rest = next;
            if row.len() > 8 {
                break;
            }
        }
        let dash = joint == Some('-');
        if row.len() < 2 || (dash && row.len() != 3) || (row.len() == 2 && !is_pair_of_readings(&row)) {
            return fail(input);
        }
        // Figures with a unit behind the last are sizes or a range.
        if dash && units(rest).is_ok() {
            return fail(input);
        }
        Ok((rest, row))
    }

    /// "0 0 40": three bare figures with blanks, the first two small.
    pub fn spaced_row<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Option<(Vec<Measure>, Terms<'t, 'l>)> {
        let (rest, first) = plain(input).ok()?;
        let (rest, second) = plain(rest).ok()?;
        let (rest, third) = plain(rest).ok()?;
        let small = |m: &Measure| m.value().is_some_and(|v| v <= 8.0);
        let ends = rest.first().is_none_or(|t| t.numeral().is_none() && t.units().next().is_none());
        (small(&first) && small(&second) && ends).then(|| (vec![first, second, third], rest))
    }

    /// "10 litres in 45 seconds", "1 litre in 24 s": a flow, measured.
    pub fn timed_flow<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, (Measure, Measure)> {
        if let Ok(found) = self.time_then_volume(input) {
            return Ok(found);
        }
        let (rest, volume) = number(input)?;
        let (rest, volume_units) = units(rest)?;
        if !volume_units.iter().any(|u| u.dimension == Dimension::VOLUME) {
            return fail(input);
        }
        // "a 10 litre bucket in 45 s": the vessel may be named.
        let (rest, _) = opt(one(|t: &Term| {
            (t.sort == super::words::Sort::Word
                && !t.is(Role::In)
                && !t.is(Role::Took)
                && t.numeral().is_none()
                && t.units().next().is_none())
            .then_some(())
        }))
        .parse(rest)?;
        let (rest, ()) = alt((role(Role::In), role(Role::Took))).parse(rest)?;
        let (rest, mut time) = self.amount_of_time(rest)?;
        let volume = Measure { units: volume_units, bare: false, ..volume };
        time.bare = false;
        Ok((rest, (volume, time)))
    }

    /// "50 seconds for 9 litres", "45 s to fill a 10 litre bucket".
    fn time_then_volume<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, (Measure, Measure)> {
        let (rest, mut time) = self.amount_of_time(input)?;
        if !time.units.iter().any(|u| matches!(u.name, "s" | "min")) {
            return fail(input);
        }
        let (rest, ()) = alt((role(Role::For), role(Role::Per), role(Role::ToFill))).parse(rest)?;
        let (rest, _) = opt(alt((role(Role::A), role(Role::Definite)))).parse(rest)?;
        let (rest, volume) = number(rest)?;
        let (rest, volume_units) = units(rest)?;
        if !volume_units.iter().any(|u| u.dimension == Dimension::VOLUME) {
            return fail(input);
        }
        let volume = Measure { units: volume_units, bare: false, ..volume };
        time.bare = false;
        Ok((rest, (volume, time)))
    }

    /// A number with a unit of time.
    pub fn amount_of_time<'t, 'l: 't>(&self, input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
        let (rest, mut measure) = self.amount(input)?;
        let time: Vec<&'static Unit> =
            measure.units.iter().filter(|u| u.dimension == Dimension::TIME).copied().collect();
        if time.is_empty() {
            return fail(input);
        }
        measure.units = time;
        Ok((rest, measure))
    }
}

fn is_pair_of_readings(row: &[Measure]) -> bool {
    row[0].likely == Some(0.0) && row[1].likely.is_some_and(|v| v > 16.0)
}

fn next_is_tight(rest: Terms) -> bool {
    rest.second().is_some_and(|t| t.tight)
}

fn plain<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    one(|t| t.numeral().filter(|n| n.is_figure).map(|n| Measure::exact(n.value, n.decimals)))(input)
}

fn size<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let (rest, mut measure) = number(input)?;
    if measure.refused {
        return fail(input);
    }
    if let Ok((rest, found)) = units(rest) {
        let lengths: Vec<&'static Unit> = found.iter().filter(|u| u.dimension == Dimension::LENGTH).copied().collect();
        if lengths.is_empty() {
            return fail(input);
        }
        measure.units = lengths;
        measure.bare = false;
        return Ok((rest, measure));
    }
    measure.bare = false;
    Ok((rest, measure))
}

fn units_but_letters<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Vec<&'static Unit>> {
    if input.first().is_some_and(|t| letter(t).is_some()) {
        return fail(input);
    }
    units(input)
}

/// l, w, h (and "long", "wide", "high") behind a figure: which of the three sizes it is.
fn letter(term: &Term) -> Option<usize> {
    use super::name::{HEIGHT, LENGTH, TANK, WIDTH};
    term.labels().find_map(|(thing, attribute)| match attribute {
        _ if thing != TANK => None,
        LENGTH => Some(0),
        WIDTH => Some(1),
        HEIGHT => Some(2),
        _ => None,
    })
}

/// The unit of that name as a list.
pub fn unit_list(name: &str) -> Vec<&'static Unit> {
    unit::by_name(name).into_iter().collect()
}
