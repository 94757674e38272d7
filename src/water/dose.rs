//! Mass of something for a concentration in the tank. Arithmetic only: the label and the vet decide whether and how much.
//! In: targets, water, shares, days. Out: masses, volumes. Knows no remedy.

use super::range::{OutOfRange, not_negative, positive, result, share, some_share};
use crate::units::measure::{Concentration, Mass, Share, Time, Volume};

/// g of NH4Cl and of NH3 for each g of nitrogen in them.
const AMMONIUM_CHLORIDE_PER_NITROGEN: f64 = 53.489 / super::nitrogen_forms::NITROGEN;
const AMMONIA_PER_NITROGEN: f64 = 17.031 / super::nitrogen_forms::NITROGEN;

/// Mass for a concentration of the active part: target x water / active share.
///
/// Target and water 0 or more, active share more than 0, up to 1; else `OutOfRange`. The water really in the tank: its nominal size overdoses by 10
/// to 30 %. Source: arithmetic. Check: 0.15 mg/L of copper in 208 L from CuSO4.5H2O (25.45 % copper): 0.1226 g.
pub fn dose(target: Concentration, water: Volume, active: Share) -> Result<Mass, OutOfRange> {
    let wanted = not_negative("target", target)? * not_negative("water", water)?;
    result("dose", wanted / some_share("active share", active)?)
}

/// What to add back after a change so that the level is the target again: target x [1 - (1 - changed) 0.5^(time / half-life)] x water.
///
/// Target, water, time 0 or more, changed share 0 to 1; half-life 0 means that it does not decay; else `OutOfRange`. Never a full dose for a part
/// change. Source: arithmetic. Check: 3000 mg/L, 100 L, a quarter changed: 75 g.
pub fn redose(
    target: Concentration,
    water: Volume,
    changed: Share,
    time: Time,
    half_life: Time,
) -> Result<Mass, OutOfRange> {
    let full = not_negative("target", target)? * not_negative("water", water)?;
    let kept = 1.0 - share("share changed", changed)?;
    let time = not_negative("time since the dose", time)?;
    let half_life = not_negative("half-life", half_life)?;
    let left = if half_life == 0.0 || time == 0.0 { 1.0 } else { 0.5f64.powf(time / half_life) };
    result("dose", full * (1.0 - kept * left))
}

/// Ammonium chloride for a total ammonia (as N): target x water x 3.819.
///
/// Both 0 or more; else `OutOfRange`. Target 1 to 2, never above 4 mg/L (common practice). Source: arithmetic. Check: 2 mg/L in 100 L: 0.764 g.
pub fn ammonium_chloride(target: Concentration, water: Volume) -> Result<Mass, OutOfRange> {
    let nitrogen = not_negative("target", target)? * not_negative("water", water)?;
    result("ammonium chloride", nitrogen * AMMONIUM_CHLORIDE_PER_NITROGEN)
}

/// Ammonia solution for a total ammonia (as N): target x water x 1.2159 / (strength x density). Plain ammonia only: no soap, no scent.
///
/// Target and water 0 or more, strength (mass share of NH3) more than 0, up to 1, density more than 0; else `OutOfRange`. Source: arithmetic. Check:
/// 2 mg/L in 100 L, 9.5 % of 0.96 kg/L: 2.67 mL.
pub fn ammonia_solution(
    target: Concentration,
    water: Volume,
    strength: Share,
    density: Concentration,
) -> Result<Volume, OutOfRange> {
    let nitrogen = not_negative("target", target)? * not_negative("water", water)?;
    let strong = some_share("strength", strength)? * positive("density of the solution", density)?;
    result("ammonia solution", nitrogen * AMMONIA_PER_NITROGEN / strong)
}
