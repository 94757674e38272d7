//! Numbers in words and digits: "fifty-five", "1 1/2", "a hundred and twenty", "half a dozen", "1 200". In: terms.
//! Out: a measure without a unit. Knows no units and no things.

use super::lexicon::Sense;
use super::measure::Measure;
use super::number::Numeral;
use super::stream::{Read, Terms, fail, one, role, sense};
use crate::knowledge::language::Role;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt, verify};
use nom::sequence::{pair, preceded};

fn literal<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Numeral> {
    one(|t| t.numeral())(input)
}

fn tight_literal<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Numeral> {
    one(|t| t.numeral().filter(|_| t.tight))(input)
}

/// "1/2", "3/4" with nothing between; "1/0" is no figure.
fn slash_fraction<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let (rest, (above, below)) = pair(
        verify(literal, |n| n.is_whole),
        preceded(one(|t| (t.is_mark('/') && t.tight).then_some(())), verify(tight_literal, |n| n.is_whole)),
    )
    .parse(input)?;
    let usual = matches!(below.value as u32, 2..=5 | 8 | 10 | 16) && above.value < below.value && above.value > 0.0;
    // A third number behind makes it a row of readings or a date.
    if rest.first().is_some_and(|t| t.is_mark('/') && t.tight) {
        return fail(input);
    }
    if below.value == 0.0 {
        return Ok((rest, Measure { refused: true, ..Measure::exact(0.0, 0) }));
    }
    if !usual {
        return fail(input);
    }
    Ok((rest, Measure { article: true, ..Measure::exact(above.value / below.value, 2) }))
}

/// "½", "1½", "1 1/2".
fn mixed<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let (rest, whole) = verify(literal, |n| n.is_whole && n.is_figure && n.value < 1000.0).parse(input)?;
    let part = alt((
        map(one(|t| t.numeral().filter(|n| !n.is_whole && n.digits == 0 && n.value < 1.0 && n.decimals == 0)), |n| {
            n.value
        }),
        map(verify(slash_fraction, |m| !m.refused), |m| m.likely.unwrap_or(0.0)),
    ))
    .parse(rest)?;
    let (rest, part) = part;
    Ok((rest, Measure::exact(whole.value + part, 1)))
}

/// "1 200 l/h": a blank as thousands mark, only when a unit follows at once.
fn spaced_thousands<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let (rest, first) =
        verify(literal, |n| n.is_whole && n.is_figure && n.value < 1000.0 && n.value >= 1.0).parse(input)?;
    let group = one(|t| (!t.tight).then_some(()).and(t.numeral()).filter(|n| n.is_whole && (n.digits == 3)));
    let (rest, second) = group(rest)?;
    match rest.first() {
        Some(term) if term.units().next().is_some() && second.value < 1000.0 => {
            Ok((rest, Measure::exact(first.value * 1000.0 + second.value, 0)))
        }
        _ => fail(input),
    }
}

/// Digits as they stand, with "k" behind them, and what they may mean besides.
fn digits<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let (mut rest, numeral) = literal(input)?;
    let mut measure = Measure::exact(numeral.value, numeral.decimals);
    measure.other = numeral.other;
    measure.refused = !numeral.is_figure;
    measure.bare = true;
    if let Some(next) = rest.first() {
        let multiplier = next.senses.iter().find_map(|s| match s {
            Sense::Multiplier(by) if *by >= 100.0 => Some(*by),
            _ => None,
        });
        // "2k" and "2 thousand", but "25 K" after a blank is no thousand.
        if let Some(by) = multiplier
            && (next.tight || next.last > next.first || by != 1000.0 || !is_letter(next))
        {
            measure = Measure::exact(numeral.value * by, 0);
            rest = rest.skip(1);
        }
        // Two fractions run together are no figure.
        if next.tight && next.numeral().is_some_and(|n| n.decimals == 0 && n.digits == 0) && numeral.digits == 0 {
            measure.refused = true;
            rest = rest.skip(1);
        }
    }
    Ok((rest, measure))
}

fn is_letter(term: &super::term::Term) -> bool {
    term.senses.iter().any(|s| matches!(s, Sense::Role(Role::Times))) || term.first == term.last && term.tight
}

fn small<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, f64> {
    sense(|s| match s {
        Sense::Number(n) => Some(*n),
        _ => None,
    })(input)
}

fn multiplier<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, f64> {
    sense(|s| match s {
        Sense::Multiplier(n) if *n >= 100.0 => Some(*n),
        _ => None,
    })(input)
}

fn fraction_word<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, f64> {
    sense(|s| match s {
        Sense::Fraction(n) => Some(*n),
        _ => None,
    })(input)
}

fn dozen<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, f64> {
    sense(|s| match s {
        Sense::Group(n) => Some(*n),
        _ => None,
    })(input)
}

/// "fifty-five", "a hundred and twenty", "two thousand five hundred".
fn spoken<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, f64> {
    let (mut rest, mut total, mut group) =
        match alt((small, preceded(role(Role::A), multiplier), multiplier)).parse(input) {
            Ok((rest, n)) => (rest, 0.0, n),
            Err(e) => return Err(e),
        };
    // "thousand one hundred" begins with its thousand.
    if group >= 1000.0 {
        (total, group) = (group, 0.0);
    }
    // Small numbers follow tens only: "twenty four", never "four twenty".
    let mut tens = (20.0..100.0).contains(&group) && group % 10.0 == 0.0;
    let mut after_hundred = group >= 100.0 || total > 0.0;
    loop {
        if let Ok((next, by)) = multiplier(rest) {
            if by >= 1000.0 {
                total += group.max(1.0) * by;
                group = 0.0;
            } else {
                group = group.max(1.0) * by;
            }
            (rest, tens, after_hundred) = (next, false, true);
            continue;
        }
        let joined = preceded(opt(role(Role::And)), small).parse(rest);
        match joined {
            Ok((next, n)) if after_hundred && n < 100.0 => {
                group += n;
                tens = n >= 20.0 && n % 10.0 == 0.0;
                (rest, after_hundred) = (next, false);
            }
            _ => match small(rest) {
                Ok((next, n)) if tens && (1.0..10.0).contains(&n) => {
                    group += n;
                    (rest, tens) = (next, false);
                }
                _ => break,
            },
        }
    }
    Ok((rest, total + group))
}

/// "zero point five", "7 point 8", "point two five": a number as it is read out. A lone "point five" needs a second digit
/// behind it or no unit: "the deepest point two metres" is no fraction.
fn read_out<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let whole = alt((spoken, map(verify(literal, |n| n.is_whole && n.is_figure), |n| n.value)));
    let (rest, whole) = opt(whole).parse(input)?;
    let (mut rest, ()) = role(Role::Point)(rest)?;
    let mut digits = String::new();
    while let Ok((next, n)) = small(rest) {
        if !(0.0..10.0).contains(&n) || digits.len() > 4 {
            break;
        }
        digits.push_str(&format!("{n}"));
        rest = next;
    }
    if digits.is_empty() && whole.is_some() {
        let (next, numeral) = verify(literal, |n| n.is_whole && n.is_figure && n.digits <= 3).parse(rest)?;
        digits = format!("{:0>1$}", numeral.value, numeral.digits as usize);
        rest = next;
    }
    let measured = rest.first().is_some_and(|t| t.units().next().is_some());
    if digits.is_empty() || whole.is_none() && digits.len() == 1 && measured {
        return fail(input);
    }
    let Ok(value) = format!("{}.{digits}", whole.unwrap_or(0.0)).parse::<f64>() else { return fail(input) };
    Ok((rest, Measure { bare: true, ..Measure::exact(value, digits.len() as u8) }))
}

/// "one twenty litres": a hundred and twenty, or one of twenty; only where a unit follows.
fn run_together<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let (rest, hundreds) = verify(small, |n| (1.0..10.0).contains(n)).parse(input)?;
    let (_, after) = small(rest)?;
    let (rest, more) = spoken(rest)?;
    let tens = (10.0..100.0).contains(&after) && more < 100.0;
    let measured = rest.first().is_some_and(|t| t.units().any(|u| u.dimension == crate::units::Dimension::VOLUME));
    if !tens || !measured {
        return fail(input);
    }
    Ok((rest, Measure { other: Some(hundreds * 100.0 + more), ..Measure::exact(more, 0) }))
}

/// "one and a half", "two and three quarters".
fn spoken_mixed<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let whole = alt((spoken, map(verify(literal, |n| n.is_whole && n.is_figure), |n| n.value)));
    let part = preceded((role(Role::And), opt(role(Role::A))), fraction_word);
    map(pair(whole, part), |(a, b)| Measure::exact(a + b, 2)).parse(input)
}

/// "half a dozen", "two dozen", "a pair", "a score".
fn groups<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let how_many = alt((
        map((fraction_word, opt(role(Role::A))), |(n, _)| n),
        small,
        map(verify(literal, |n| n.is_whole && n.is_figure && n.value < 100.0), |n| n.value),
        map(role(Role::A), |()| 1.0),
    ));
    map((opt(how_many), dozen, opt(role(Role::Of))), |(n, size, _)| Measure {
        article: n.is_none(),
        ..Measure::exact(n.unwrap_or(1.0) * size, 0)
    })
    .parse(input)
}

/// "a third of", "half a" before a unit, "three quarters of a".
fn part<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let (rest, (article, n, of, _)) =
        (opt(role(Role::A)), fraction_word, opt((role(Role::Of), opt(role(Role::A)))), opt(role(Role::A)))
            .parse(input)?;
    // "my third discus", "the fifth tank": which one, and no part of it.
    let ordinal = article.is_none() && of.is_none() && n < 0.5 && n != 0.25;
    let thing = |t: &super::term::Term| {
        t.senses.iter().any(|s| match s {
            Sense::Named { .. } => true,
            Sense::Thing(thing) => {
                *thing == super::name::TANK || *thing == super::name::FILTER || *thing == super::name::STOCK
            }
            _ => false,
        })
    };
    if ordinal && rest.first().is_some_and(thing) {
        return fail(input);
    }
    Ok((rest, Measure { article: true, ..Measure::exact(n, 2) }))
}

/// A number in any form, without unit or hedge.
pub fn number<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let negative = one(|t| (t.is_mark('-') && !t.tight).then_some(()));
    if let Ok((rest, ())) = negative(input)
        && rest.first().is_some_and(|t| t.tight && t.numeral().is_some())
    {
        let (rest, measure) = digits(rest)?;
        return Ok((rest, Measure { refused: true, ..measure.map(|v| -v) }));
    }
    alt((
        read_out,
        run_together,
        mixed,
        slash_fraction,
        spoken_mixed,
        groups,
        spaced_thousands,
        digits,
        map(spoken, |n| Measure::exact(n, 0)),
    ))
    .parse(input)
}

/// A part of one, in words.
pub fn share<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    part(input)
}
