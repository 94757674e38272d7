//! Units as they are said: "l/h", "litres an hour", "£", the sign for inches. In: terms. Out: every unit that a word or sign
//! allows. Knows no number.

use super::measure::Measure;
use super::quantity_words::number;
use super::stream::{Read, Terms, fail, mark, one, role};
use crate::knowledge::language::Role;
use crate::units::{Dimension, Unit, unit};
use nom::Parser;
use nom::branch::alt;

/// "£40", "$30".
pub fn money_before<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Measure> {
    let (rest, name) = one(|t| match t.mark() {
        Some('£') => Some("GBP"),
        Some('$') => Some("USD"),
        Some('€') => Some("EUR"),
        _ => None,
    })(input)?;
    let (rest, mut measure) = number(rest)?;
    measure.units = unit::by_name(name).into_iter().collect();
    measure.bare = false;
    Ok((rest, measure))
}

/// "an hour", "/h", "per hour".
pub fn per_hour<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, ()> {
    let (rest, _) = per(input)?;
    let (rest, ()) = one(|t| t.units().any(|u| u.name == "h").then_some(()))(rest)?;
    Ok((rest, ()))
}

pub fn per<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, ()> {
    alt((role(Role::Per), role(Role::A), mark('/'))).parse(input)
}

/// The units that a word or sign allows.
pub fn unit_term<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Vec<&'static Unit>> {
    let Some(term) = input.first() else { return fail(input) };
    let named = |name: &str| -> Vec<&'static Unit> { unit::by_name(name).into_iter().collect() };
    match term.mark() {
        Some('"') => return Ok((input.skip(1), named("in"))),
        Some('\'') => return Ok((input.skip(1), named("ft"))),
        Some('%') => return Ok((input.skip(1), named("%"))),
        Some('£') if term.tight => return Ok((input.skip(1), named("GBP"))),
        Some('€') => return Ok((input.skip(1), named("EUR"))),
        Some('$') if term.tight => return Ok((input.skip(1), named("USD"))),
        _ => {}
    }
    let found: Vec<&'static Unit> = term.units().collect();
    if found.is_empty() {
        return fail(input);
    }
    // "6 in the tank": the preposition.
    if term.is(Role::In) && !term.tight {
        let place = input.second().is_some_and(|t| {
            t.is(Role::A)
                || t.is(Role::Definite)
                || t.is(Role::It)
                || t.is(Role::Each)
                || t.numeral().is_some()
                || t.is(Role::Altogether)
        });
        if place {
            return fail(input);
        }
    }
    Ok((input.skip(1), found))
}

/// Units with what makes a flow of them: "litres an hour".
pub fn units<'t, 'l: 't>(input: Terms<'t, 'l>) -> Read<'t, 'l, Vec<&'static Unit>> {
    // "20-gallon": a hyphen between number and unit.
    let hyphen = input.first().is_some_and(|t| t.is_mark('-') && t.tight)
        && input.second().is_some_and(|t| t.tight && t.units().next().is_some());
    let (rest, found) = unit_term(if hyphen { input.skip(1) } else { input })?;
    let volumes = found.iter().any(|u| u.dimension == Dimension::VOLUME);
    if volumes
        && let Ok((after, ())) = alt((per, role(Role::In))).parse(rest)
        && let Ok((after, time)) = one(|t| t.units().find(|u| u.dimension == Dimension::TIME))(after)
    {
        let flows: Vec<&'static Unit> = found
            .iter()
            .filter(|u| u.dimension == Dimension::VOLUME)
            .filter_map(|u| unit::by_name(&format!("{}/{}", u.name, time.name)))
            .collect();
        if !flows.is_empty() {
            return Ok((after, flows));
        }
    }
    Ok((rest, found))
}

/// The word of a unit, not a letter that may be anything: a letter has other uses as well.
pub fn is_long_word(input: Terms) -> bool {
    input.first().is_some_and(|t| t.letters > 2)
}
