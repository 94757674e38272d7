//! Nitrification on surfaces: rate per area, and the ammonia a filter leaves standing.
//! In: concentrations, rates, areas, flows. Out: rates per area, concentrations. Knows no medium and no fish.

use super::range::{OutOfRange, not_negative, positive, result};
use super::temperature_factor::temperature_factor;
use crate::units::measure::{
    Area, ArealRate, Concentration, Diffusivity, Flow, Length, MassRate, Measure, Share, Speed, Temperature,
};

/// Ammonia nitrogen removed per area while the rate rises in a straight line with concentration: r1 x TAN x temperature factor.
///
/// `r1` (at 20 degC) 0 or more, likely 0.8 m/day (0.3 to 1.5, from memory); TAN (as N) 0 or more, meant for below 0.5 to 1 mg/L;
/// theta and temperature as `temperature_factor`; else `OutOfRange`. Source: Malone et al. 2006 and Malone & Pfeiffer 2006,
/// Aquacult. Eng. 34:214-223 and 389-402 (abstracts read). No outside check of r1. Check: 0.8, 0.1 mg/L, 25 degC: 0.107 g/m2/day.
pub fn linear_rate(
    r1: Speed,
    tan: Concentration,
    theta: Share,
    temperature: Temperature,
) -> Result<ArealRate, OutOfRange> {
    let r1 = not_negative("rate per area", r1)?;
    let tan = not_negative("total ammonia", tan)?;
    result("areal rate", r1 * tan * at_20(theta, temperature)?)
}

/// The same by Monod's law, for TAN above 0.5 mg/L: r_max x S / (K + S) x temperature factor.
///
/// `greatest` 0 or more, likely 0.9 g/m2/day (0.5 to 1.5); `half` more than 0, likely 0.5 mg/L (0.3 to 1.5), both from memory;
/// TAN 0 or more; else `OutOfRange`. No outside check: the constants are estimates. Check: 0.9, 0.5, 1 mg/L, 20 degC: 0.6 g/m2/day.
pub fn monod_rate(
    greatest: ArealRate,
    half: Concentration,
    tan: Concentration,
    theta: Share,
    temperature: Temperature,
) -> Result<ArealRate, OutOfRange> {
    let greatest = not_negative("greatest rate per area", greatest)?;
    let half = positive("half-saturation", half)?;
    let tan = not_negative("total ammonia", tan)?;
    result("areal rate", greatest * tan / (half + tan) * at_20(theta, temperature)?)
}

/// The same of half order, for a film that ammonia does not reach through: k x sqrt(TAN), k in g/m2/day at 1 mg/L.
///
/// `k` 0 or more, about 0.5 (from memory); TAN 0 or more, not below 0.5 mg/L in earnest: at 0.02 it gives four times the straight
/// line. Source: Harremoes 1978 (quoted from memory). No outside check: the constant is an estimate. Check: 0.5 at 1 mg/L, 20 degC: 0.5.
pub fn half_order_rate(
    k: ArealRate,
    tan: Concentration,
    theta: Share,
    temperature: Temperature,
) -> Result<ArealRate, OutOfRange> {
    let k = not_negative("half-order rate", k)?;
    not_negative("total ammonia", tan)?;
    let root = tan.in_milligrams_per_litre().sqrt();
    result("areal rate", k * root * at_20(theta, temperature)?)
}

/// The most that diffusion brings to a surface through the stagnant water on it: D x TAN / thickness.
///
/// D and thickness more than 0, TAN 0 or more; else `OutOfRange`. D of ammonium 1.96e-9 m2/s (25 degC), thickness 100 um (50 to 200),
/// both from memory. Source: Fick's law. Check: 0.1 mg/L, 100 um: 0.169 g/m2/day. No rate of bacteria can beat it.
pub fn film_ceiling(diffusivity: Diffusivity, tan: Concentration, layer: Length) -> Result<ArealRate, OutOfRange> {
    let d = positive("diffusivity", diffusivity)?;
    let tan = not_negative("total ammonia", tan)?;
    result("areal rate", d * tan / positive("stagnant layer", layer)?)
}

/// The rate to count with at home: the straight line, but never more than diffusion brings.
///
/// Inputs, ranges, sources as `linear_rate` and `film_ceiling`. Check (25 degC, 0.1 mg/L): 0.04 / 0.11 / 0.17 g N/m2/day for r1 of
/// 0.3 / 0.8 / 1.5 m/day.
pub fn areal_rate(
    r1: Speed,
    tan: Concentration,
    theta: Share,
    temperature: Temperature,
    diffusivity: Diffusivity,
    layer: Length,
) -> Result<ArealRate, OutOfRange> {
    let linear = linear_rate(r1, tan, theta, temperature)?;
    let ceiling = film_ceiling(diffusivity, tan, layer)?;
    Ok(ArealRate::base(linear.in_base().min(ceiling.in_base())))
}

fn at_20(theta: Share, temperature: Temperature) -> Result<f64, OutOfRange> {
    Ok(temperature_factor(theta, temperature, Temperature::celsius(20.0))?.in_base())
}

/// How often the water in one pass could be cleaned: rate x area / flow. Under 0.3 the media sets the result, over 3 the flow.
///
/// Rate and area 0 or more, flow more than 0; else `OutOfRange`. Source: plug flow, worked out. Check: 0.3 m/day, 0.5 m2, 100 L/h: 0.0625.
pub fn transfer_units(r1: Speed, area: Area, flow: Flow) -> Result<Share, OutOfRange> {
    let r1 = not_negative("rate per area", r1)?;
    let area = not_negative("media area", area)?;
    result("transfer units", r1 * area / positive("flow", flow)?)
}

/// Share of the ammonia taken out in one pass: 1 - exp(-rate x area / flow), plug flow.
///
/// Inputs as `transfer_units`; `r1` at the temperature of the water. Source: worked out; checked by integrating along the bed (scipy).
/// Check: 0.3 m/day, 0.5 m2, 100 L/h: 0.0606.
pub fn single_pass_share(r1: Speed, area: Area, flow: Flow) -> Result<Share, OutOfRange> {
    let units = transfer_units(r1, area, flow)?.in_base();
    Ok(Share::ratio(-(-units).exp_m1()))
}

/// Total ammonia (as N) at which a filter settles: made / (flow x single-pass share), one well-mixed tank, nothing removed elsewhere.
///
/// Made 0 or more; rate, area and flow more than 0 (without them the ammonia never settles); else `OutOfRange`. Source: worked out.
/// Check: 37 mg N/day, 300 L/h, 1 m2, 0.8 m/day: 0.049 mg/L.
pub fn standing_ammonia(made: MassRate, flow: Flow, area: Area, r1: Speed) -> Result<Concentration, OutOfRange> {
    let made = not_negative("ammonia made", made)?;
    positive("rate per area", r1)?;
    positive("media area", area)?;
    let cleaned = flow.in_base() * single_pass_share(r1, area, flow)?.in_base();
    result("total ammonia", made / positive("flow cleaned", Flow::from_base(cleaned))?)
}
