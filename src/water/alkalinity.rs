//! What nitrification does to KH, and how to raise it.
//! In: nitrogen, hardness, water. Out: hardness, times, masses. Knows no equilibrium: see `carbonate`.

use super::nitrogen_forms::NITROGEN;
use super::range::{OutOfRange, known, not_negative, positive, result, within};
use crate::units::measure::{CACO3_PER_EQUIVALENT, Concentration, Mass, MassRate, Share, Time, Volume};

/// g of alkalinity (as CaCO3) for each g of nitrogen nitrified: two equivalents, 100.0872 / 14.007 = 7.1455. Denitrification gives half back.
pub const ALKALINITY_PER_NITROGEN: f64 = 2.0 * CACO3_PER_EQUIVALENT / NITROGEN;
/// g of NaHCO3 in one equivalent.
const BICARBONATE: f64 = 84.006;

fn factor(per_nitrogen: Share) -> Result<f64, OutOfRange> {
    within("alkalinity per nitrogen", per_nitrogen, Share::ratio(-4.0), Share::ratio(8.0))
}

/// KH used by nitrification: nitrogen x factor / water, as CaCO3; a negative factor (denitrification) gives a negative result, a gain.
///
/// Nitrogen 0 or more, water more than 0; factor -4 to 8: 7.1455 stoichiometric, 7.05 with growth of cells (Ebeling, Timmons & Bisogni 2006,
/// Aquaculture 257:346-358, quoted from memory), -3.57 for nitrogen denitrified; else `OutOfRange`. Measured in attached growth 6.3 to 7.4 (US EPA
/// 1975 as quoted in a thesis, read). Source: stoichiometry. Check: 1 mg/L N takes 0.400 dKH; 10 mg/L of nitrate made took 0.90 dKH.
pub fn kh_used(nitrogen: Mass, per_nitrogen: Share, water: Volume) -> Result<Concentration, OutOfRange> {
    let nitrogen = not_negative("nitrogen", nitrogen)?;
    result("KH used", nitrogen * factor(per_nitrogen)? / positive("water", water)?)
}

/// Time until KH has fallen to a floor, without a change: (now - floor) x water / (ammonia made x factor); nothing when it is there already.
///
/// KH and floor 0 or more, ammonia (as N) and factor more than 0; else `OutOfRange`. Source: mass balance. Check: 4 to 2 dKH, 2 g of feed a day at
/// 40 % and 0.092, 200 L: 13.6 days.
pub fn time_to_kh(
    now: Concentration,
    floor: Concentration,
    made: MassRate,
    per_nitrogen: Share,
    water: Volume,
) -> Result<Time, OutOfRange> {
    let fall = not_negative("KH", now)? - not_negative("KH floor", floor)?;
    let used =
        positive("ammonia made", made)? * positive("alkalinity per nitrogen", Share::ratio(factor(per_nitrogen)?))?;
    result("time", (fall * positive("water", water)? / used).max(0.0))
}

/// Baking soda (NaHCO3) to raise KH: rise x water x 84.006 / 50.04.
///
/// Rise and water 0 or more; else `OutOfRange`. At most 1 dKH a day (common practice); it raises pH, and with ammonia present that makes it toxic:
/// test first. Source: arithmetic. Check: 1 dKH in 100 L: 2.996 g.
pub fn bicarbonate(rise: Concentration, water: Volume) -> Result<Mass, OutOfRange> {
    let rise = not_negative("KH rise", rise)?;
    result("baking soda", rise * not_negative("water", water)? * BICARBONATE / CACO3_PER_EQUIVALENT)
}

/// KH after baking soda: now + mass / water x 50.04 / 84.006.
///
/// KH and mass 0 or more, water more than 0; else `OutOfRange`. Source: `bicarbonate` turned round. Check: 2.996 g in 100 L: 1 dKH more.
pub fn kh_after_bicarbonate(now: Concentration, soda: Mass, water: Volume) -> Result<Concentration, OutOfRange> {
    let now = not_negative("KH", now)?;
    let added = not_negative("baking soda", soda)? / positive("water", water)?;
    known("KH", Concentration::base(now + added * CACO3_PER_EQUIVALENT / BICARBONATE)).map(Concentration::base)
}
