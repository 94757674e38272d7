//! Nitrate in a tank: how fast it rises, where regular changes let it settle, what was taken away unseen.
//! In: nitrogen made and taken up, water, changes. Out: concentrations as NO3, times, shares. Knows no plant and no medium.

use super::nitrogen_forms::NITRATE_PER_NITROGEN;
use super::range::{OutOfRange, known, not_negative, positive, result, share, some_share, within};
use crate::units::measure::{
    Area, ArealRate, Concentration, ConcentrationRate, MassRate, Measure, Share, Time, Volume,
};

/// Rise of nitrate (as NO3): (nitrogen made - taken up) / water x 4.4266. Negative when more is taken up than made.
///
/// Made and taken up (as N) 0 or more, water more than 0; else `OutOfRange`. About 0.98 of the ammonia becomes nitrate (from memory).
/// Source: mass balance. Check: 37 mg N/day in 100 L: 1.638 mg/L a day.
pub fn nitrate_rise(made: MassRate, taken_up: MassRate, water: Volume) -> Result<ConcentrationRate, OutOfRange> {
    let made = not_negative("nitrogen made", made)?;
    let taken_up = not_negative("nitrogen taken up", taken_up)?;
    let water = positive("water", water)?;
    result("nitrate rise", (made - taken_up) / water * NITRATE_PER_NITROGEN)
}

/// Rise of nitrate between two readings without a water change: (later - earlier) / time.
///
/// Readings 0 or more, time more than 0; else `OutOfRange`. Source: by definition. Check: 20 to 27 mg/L in 7 days: 1 mg/L a day.
pub fn measured_rise(
    earlier: Concentration,
    later: Concentration,
    time: Time,
) -> Result<ConcentrationRate, OutOfRange> {
    let rise = not_negative("later nitrate", later)? - not_negative("earlier nitrate", earlier)?;
    result("nitrate rise", rise / positive("time between readings", time)?)
}

/// Nitrate (as NO3) that builds up from feed in a time, all of it nitrified, nothing taken up: feed x protein x made x time / water x 4.4266.
///
/// Inputs and ranges as the ammonia made from feed; water more than 0, time 0 or more; else `OutOfRange`. Source: Timmons & Ebeling's
/// factor (quoted from memory), mass balance. Check: 2 g/day, 40 %, 0.092, 7 days, 200 L: 11.40 mg/L.
pub fn nitrate_from_feed(
    feed: MassRate,
    protein: Share,
    made: Share,
    time: Time,
    water: Volume,
) -> Result<Concentration, OutOfRange> {
    let nitrogen = super::waste::ammonia_from_feed(feed, protein, made)?;
    let rise = nitrate_rise(nitrogen, MassRate::base(0.0), water)?;
    result("nitrate", rise.in_base() * not_negative("time", time)?)
}

/// Where nitrate settles just before each change: tap + rise x interval / share changed.
///
/// Tap and interval 0 or more, rise any (a fall takes it below the tap's, at lowest to 0), share more than 0, up to 1; else `OutOfRange`.
/// Source: mass balance; checked by stepping 4000 changes. Check: tap 10, 1.638 a day, 7 days, 25 %: 55.9 mg/L.
pub fn settled_peak(
    tap: Concentration,
    rise: ConcentrationRate,
    interval: Time,
    changed: Share,
) -> Result<Concentration, OutOfRange> {
    let tap = not_negative("nitrate of the new water", tap)?;
    let rise = known("nitrate rise", rise)?;
    let interval = not_negative("time between changes", interval)?;
    let changed = some_share("share changed", changed)?;
    result("nitrate", (tap + rise * interval / changed).max(0.0))
}

/// Where nitrate settles just after each change: tap + rise x interval x (1 - share) / share.
///
/// As `settled_peak`. Check: tap 10, 1.638 a day, 7 days, 25 %: 44.4 mg/L.
pub fn settled_trough(
    tap: Concentration,
    rise: ConcentrationRate,
    interval: Time,
    changed: Share,
) -> Result<Concentration, OutOfRange> {
    settled_peak(tap, rise, interval, changed)?;
    let f = changed.in_base();
    let trough = tap.in_base() + rise.in_base() * interval.in_base() * (1.0 - f) / f;
    result("nitrate", trough.max(0.0))
}

/// Nitrate at a moment between regular changes: it rises evenly, and after each interval a share is changed. The saw-tooth.
///
/// Starts at `now`; the first change comes after one interval; at the moment of a change the level after it. Levels and time 0 or more,
/// interval more than 0, at most 100000 changes, rise any (a fall stops at 0), share 0 to 1 (0: no change); else `OutOfRange`.
/// Source: mass balance; each change as `dilution::after_changes`. Check: 20 mg/L, tap 10, 2 a day, 7 days, 25 %, after 10 days: 34.
pub fn stepped_nitrate(
    now: Concentration,
    tap: Concentration,
    rise: ConcentrationRate,
    interval: Time,
    changed: Share,
    time: Time,
) -> Result<Concentration, OutOfRange> {
    let now = not_negative("nitrate", now)?;
    let tap = not_negative("nitrate of the new water", tap)?;
    let rise = known("nitrate rise", rise)?;
    let every = positive("time between changes", interval)?;
    let left = 1.0 - share("share changed", changed)?;
    let passed = not_negative("time", time)?;
    // A change due at this very moment is made, in spite of rounding.
    let changes = within("number of changes", Share::ratio(passed / every), Share::ratio(0.0), Share::ratio(1e5))?;
    let changes = (changes + 1e-9).floor();
    let mut level = now;
    for _ in 0..changes as usize {
        level = tap + ((level + rise * every).max(0.0) - tap) * left;
    }
    result("nitrate", (level + rise * (passed - changes * every).max(0.0)).max(0.0))
}

/// Time until nitrate reaches a level without a change: (level - from) / rise; nothing when it is there already.
///
/// Levels 0 or more; rise more than 0 (else it is never reached); else `OutOfRange`. Source: by definition.
/// Check: 10 to 40 mg/L at 1.638 a day: 18.3 days.
pub fn time_to_level(from: Concentration, level: Concentration, rise: ConcentrationRate) -> Result<Time, OutOfRange> {
    let gap = not_negative("nitrate level", level)? - not_negative("nitrate", from)?;
    result("time", (gap / positive("nitrate rise", rise)?).max(0.0))
}

/// Share to change each time so that the settled peak stays at a ceiling: rise x interval / (ceiling - tap). Above 1 it cannot be
/// done with this tap or interval: change oftener, feed less, plants, other water. Nothing when nitrate does not rise.
///
/// Tap and interval 0 or more, ceiling more than the tap's; else `OutOfRange`. Source: `settled_peak` turned round.
/// Check: 1.638 a day, 7 days, tap 10, ceiling 40: 0.382.
pub fn share_that_holds(
    rise: ConcentrationRate,
    interval: Time,
    tap: Concentration,
    ceiling: Concentration,
) -> Result<Share, OutOfRange> {
    let rise = known("nitrate rise", rise)?;
    let interval = not_negative("time between changes", interval)?;
    let tap_level = not_negative("nitrate of the new water", tap)?;
    let room = known("nitrate ceiling", ceiling)? - tap_level;
    if room <= 0.0 {
        return Err(OutOfRange::between("nitrate ceiling", ceiling, tap_level, f64::INFINITY));
    }
    result("share changed", (rise * interval / room).max(0.0))
}

/// Nitrogen that went away unseen between two nitrate readings, and how wrong the readings alone can make that figure.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Missing {
    /// Nitrogen that the rise of nitrate shows.
    pub seen: MassRate,
    /// Made, less taken up, less seen: what porous media or mud may have removed. Can be negative.
    pub missing: MassRate,
    /// Error of `missing` from the two readings.
    pub error: MassRate,
}

/// Nitrogen missing between two nitrate readings (as NO3) without a water change: made - taken up - water x rise / 4.4266.
///
/// All 0 or more, water and time more than 0; `reading_error` is that of one reading; else `OutOfRange`. Kit errors kill short tests:
/// +-5 mg/L in 180 L over 7 days is +-41 mg N/day. Source: mass balance. Check: 60 made, 180 L, 20 to 27 mg/L in 7 days: 19.3 mg N/day missing.
pub fn missing_nitrogen(
    made: MassRate,
    taken_up: MassRate,
    water: Volume,
    earlier: Concentration,
    later: Concentration,
    time: Time,
    reading_error: Concentration,
) -> Result<Missing, OutOfRange> {
    let made = not_negative("nitrogen made", made)?;
    let taken_up = not_negative("nitrogen taken up", taken_up)?;
    let water = positive("water", water)?;
    let rise = measured_rise(earlier, later, time)?.in_base();
    let error = not_negative("reading error", reading_error)?;
    let seen = water * rise / NITRATE_PER_NITROGEN;
    let doubt = water * error * 2f64.sqrt() / time.to_base() / NITRATE_PER_NITROGEN;
    Ok(Missing {
        seen: result("nitrogen seen", seen)?,
        missing: result("nitrogen missing", made - taken_up - seen)?,
        error: result("error of the nitrogen missing", doubt)?,
    })
}

/// Nitrogen that floating plants take up: covered area x rate.
///
/// Area 0 or more; rate 0 or more, in room light 0.12 g N/m2 a day (0.03 to 0.40), a pond in full summer sun up to about 1.5 (from memory); else
/// `OutOfRange`. Floating plants take more than submersed ones in summer (Reddy & De Busk 1985, J. Environ. Qual. 14:459-462, abstract read).
/// No outside check: a product.
pub fn floating_uptake(covered: Area, rate: ArealRate) -> Result<MassRate, OutOfRange> {
    let covered = not_negative("covered area", covered)?;
    result("nitrogen taken up", covered * not_negative("uptake of plants", rate)?)
}

/// Nitrogen that a planted tank takes up: water x rate.
///
/// Both 0 or more; else `OutOfRange`. No outside check: a product.
pub fn planted_uptake(water: Volume, rate: ConcentrationRate) -> Result<MassRate, OutOfRange> {
    let water = not_negative("water", water)?;
    result("nitrogen taken up", water * not_negative("uptake of plants", rate)?)
}
