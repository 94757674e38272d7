//! Water changes, dripping, topping up and mixing, for anything the water carries and keeps: nitrate, salt, hardness, medicine.
//! In: levels, shares changed, counts. Out: levels, shares, counts. Knows no substance. pH does not mix so: see `carbonate`.

use super::range::{OutOfRange, known, not_negative, positive, result, share, some_share, within};
use crate::units::measure::{Concentration, Measure, Share, Temperature, Volume};

/// A whole number of changes, 0 to 100000.
fn times(input: &'static str, n: Share) -> Result<f64, OutOfRange> {
    within(input, n, Share::ratio(0.0), Share::ratio(1e5)).map(f64::round)
}

/// Level after `changes` equal water changes: source + (now - source)(1 - share)^n.
///
/// Levels 0 or more, share 0 to 1, changes 0 to 100000 (rounded to a whole number); else `OutOfRange`. Source: mass balance.
/// Check: 80 mg/L, two changes of 25 % with clean water: 45.
pub fn after_changes(
    now: Concentration,
    source: Concentration,
    changed: Share,
    changes: Share,
) -> Result<Concentration, OutOfRange> {
    let now = not_negative("level", now)?;
    let source = not_negative("level of the new water", source)?;
    let left = 1.0 - share("share changed", changed)?;
    result("level", source + (now - source) * left.powf(times("number of changes", changes)?))
}

/// How far `target` stands between the new water and what is there: (target - source) / (now - source), strictly within 0 to 1.
fn remaining(now: Concentration, target: Concentration, source: Concentration) -> Result<f64, OutOfRange> {
    let c = not_negative("level", now)?;
    let s = not_negative("level of the new water", source)?;
    let t = not_negative("target level", target)?;
    let (low, high) = (s.min(c), s.max(c));
    if !(t > low && t < high) {
        return Err(OutOfRange::between("target level", target, low, high));
    }
    Ok((t - s) / (c - s))
}

/// Share to change each time to come to a target in so many equal changes: 1 - ((target - source)/(now - source))^(1/n).
///
/// The target must lie strictly between the new water and the level now: the new water is the floor; changes 1 to 100000; else
/// `OutOfRange`. Source: mass balance; checked by root finding (scipy). Check: 80 to 20 in two changes with clean water: 0.5.
pub fn share_for_target(
    now: Concentration,
    target: Concentration,
    source: Concentration,
    changes: Share,
) -> Result<Share, OutOfRange> {
    let left = remaining(now, target, source)?;
    let n = within("number of changes", changes, Share::ratio(1.0), Share::ratio(1e5))?.round();
    Ok(Share::ratio(1.0 - left.powf(1.0 / n)))
}

/// Number of equal changes that reach a target, a whole number: ceil(ln((target - source)/(now - source)) / ln(1 - share)).
///
/// Share more than 0 and less than 1, target as `share_for_target`; else `OutOfRange`. Source: mass balance. An exact fit costs no change
/// more. Check: 80 to 20 with 25 % of clean water each: 5.
pub fn changes_for_target(
    now: Concentration,
    target: Concentration,
    source: Concentration,
    changed: Share,
) -> Result<Share, OutOfRange> {
    let left = remaining(now, target, source)?;
    let f = changed.in_base();
    if !(f > 0.0 && f < 1.0) {
        return Err(OutOfRange::between("share changed", changed, 0.0, 1.0));
    }
    let n = left.ln() / (-f).ln_1p() - 1e-9;
    result("number of changes", n.ceil().max(1.0))
}

/// Level that regular changes settle at, just before each: source + built up / share.
///
/// `built_up` is what comes in between two changes. Levels 0 or more, share more than 0, up to 1; else `OutOfRange`.
/// Source: mass balance; checked by 5000 rounds. Check: 10 mg/L a week, 25 % a week, clean water: 40.
pub fn settled_before(
    source: Concentration,
    built_up: Concentration,
    changed: Share,
) -> Result<Concentration, OutOfRange> {
    let source = not_negative("level of the new water", source)?;
    let p = not_negative("built up between changes", built_up)?;
    result("level", source + p / some_share("share changed", changed)?)
}

/// The same just after each change: source + built up (1 - share) / share. Check: 10 mg/L a week, 25 % a week, clean water: 30.
///
/// Ranges, errors and source as `settled_before`.
pub fn settled_after(
    source: Concentration,
    built_up: Concentration,
    changed: Share,
) -> Result<Concentration, OutOfRange> {
    settled_before(source, built_up, changed)?;
    let f = changed.in_base();
    result("level", source.in_base() + built_up.in_base() * (1.0 - f) / f)
}

/// Share to change each time so that the peak stays at a ceiling: built up / (ceiling - source). Above 1 it cannot be done: change oftener,
/// feed less, plants, other water.
///
/// Levels 0 or more, ceiling more than the new water's; else `OutOfRange`. Source: mass balance. Check: 10 a week, source 20, ceiling 40: 0.5.
pub fn share_that_holds(
    ceiling: Concentration,
    source: Concentration,
    built_up: Concentration,
) -> Result<Share, OutOfRange> {
    let s = not_negative("level of the new water", source)?;
    let c = not_negative("ceiling", ceiling)?;
    let p = not_negative("built up between changes", built_up)?;
    if c <= s {
        return Err(OutOfRange::between("ceiling", ceiling, s, f64::INFINITY));
    }
    result("share changed", p / (c - s))
}

/// Level while new water drips or runs through: source + (now - source) exp(-run / water).
///
/// Levels and run-through 0 or more, water more than 0; else `OutOfRange`. Source: mass balance, the tank well mixed; checked by solving
/// the equation (scipy). Check: half a volume of clean water dripped into 80 mg/L: 48.5.
pub fn after_dripping(
    now: Concentration,
    source: Concentration,
    run: Volume,
    water: Volume,
) -> Result<Concentration, OutOfRange> {
    let now = not_negative("level", now)?;
    let source = not_negative("level of the new water", source)?;
    let turns = not_negative("water run through", run)? / positive("water", water)?;
    result("level", source + (now - source) * (-turns).exp())
}

/// Level after topping up evaporated water so many times, always just refilled: now + n x evaporated share x source.
///
/// Levels 0 or more, evaporated share 0 or more and less than 1, times 0 to 100000; else `OutOfRange`. Source: mass balance.
/// Check: 6 dKH, 5 % a week of 12 dKH water, 4 weeks: 8.4.
pub fn after_topping_up(
    now: Concentration,
    source: Concentration,
    evaporated: Share,
    tops: Share,
) -> Result<Concentration, OutOfRange> {
    let now = not_negative("level", now)?;
    let source = not_negative("level of the new water", source)?;
    let e = evaporation(evaporated)?;
    result("level", now + times("number of top-ups", tops)? * e * source)
}

/// Level just before topping up, when a share has evaporated: now / (1 - share).
///
/// Level 0 or more, share 0 or more and less than 1; else `OutOfRange`. No outside check: mass balance. Check: 10 % gone: 1.11 times.
pub fn concentrated(now: Concentration, evaporated: Share) -> Result<Concentration, OutOfRange> {
    let now = not_negative("level", now)?;
    result("level", now / (1.0 - evaporation(evaporated)?))
}

fn evaporation(evaporated: Share) -> Result<f64, OutOfRange> {
    let e = share("evaporated share", evaporated)?;
    if e >= 1.0 {
        return Err(OutOfRange::between("evaporated share", evaporated, 0.0, 1.0));
    }
    Ok(e)
}

/// The mean of two waters weighted by their volumes; of any measure that mixes so (a level, a temperature, hardness; never pH).
///
/// Volumes 0 or more, not both 0; values finite; else `OutOfRange`. Source: heat or mass balance. Check: 100 L at 26 and 50 L at 15 degC: 22.3.
pub fn mixed<M: Measure>(v1: Volume, x1: M, v2: Volume, x2: M) -> Result<M, OutOfRange> {
    let (a, b) = (not_negative("volume", v1)?, not_negative("volume", v2)?);
    let all = positive("volume", Volume::base(a + b))?;
    let (x1, x2) = (known("value", x1)?, known("value", x2)?);
    // Shares first, so that the mean of two equal values is that value and large ones do not overflow.
    result("mixed value", x1 * (a / all) + x2 * (b / all))
}

/// The share of new water that takes a temperature to a target: (target - now) / (new - now).
///
/// Result 0 to 1, the two waters different; else `OutOfRange`. Keep the step within 2 degC for sensitive stock (common practice).
/// Source: heat balance. Check: 26 degC with 15 degC water to 24 degC: 0.182.
pub fn share_for_temperature(now: Temperature, new: Temperature, target: Temperature) -> Result<Share, OutOfRange> {
    let (x0, xs, xt) =
        (known("temperature", now)?, known("temperature of the new water", new)?, known("target temperature", target)?);
    if xs == x0 || !(xt >= x0.min(xs) && xt <= x0.max(xs)) {
        return Err(OutOfRange::of("target temperature", target, x0.min(xs), x0.max(xs)));
    }
    Ok(Share::ratio((xt - x0) / (xs - x0)))
}

/// What a day's change can do about ammonia or nitrite.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum DailyChange {
    /// Change this share (0: none is needed today).
    Share(Share),
    /// One change a day cannot keep it: feed nothing, change twice, bind the ammonia, move stock.
    NotWithOne,
}

/// Share to change today so that tomorrow, before the next change, a level is still at or under a ceiling: 1 - (ceiling - built up -
/// source)/(now - source), at least 0.
///
/// Levels 0 or more; else `OutOfRange`. Source: mass balance. Check: 2 mg/L now, ceiling 1, 0.3 a day, clean water: 0.65.
pub fn safe_daily_change(
    now: Concentration,
    ceiling: Concentration,
    source: Concentration,
    built_up: Concentration,
) -> Result<DailyChange, OutOfRange> {
    let c = not_negative("level", now)?;
    let most = not_negative("ceiling", ceiling)?;
    let s = not_negative("level of the new water", source)?;
    let p = not_negative("built up in a day", built_up)?;
    let room = most - p - s;
    Ok(if c <= s && c + p <= most {
        DailyChange::Share(Share::ratio(0.0))
    } else if room <= 0.0 || c <= s {
        DailyChange::NotWithOne
    } else {
        DailyChange::Share(Share::ratio((1.0 - room / (c - s)).max(0.0)))
    })
}
