//! Density, viscosity and specific gravity of water.
//! In: temperature, salinity. Out: densities, viscosities, salinities. Knows no tank.

use super::range::{OutOfRange, held, known, within};
use super::root;
use crate::units::measure::{Concentration, Measure, Salinity, Share, Temperature, Viscosity};

/// kg/m3 at one atmosphere; g/kg and degrees Celsius already in range.
fn equation_of_state(s: f64, t: f64) -> f64 {
    let fresh =
        999.842594 + t * (6.793952e-2 + t * (-9.095290e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))));
    let a = 0.824493 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)));
    let b = -5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6);
    fresh + s * (a + b * s.sqrt() + 4.8314e-4 * s)
}

/// Density of water at one atmosphere.
///
/// 0 to 40 degC and 0 to 42 g/kg; outside, the border value is held; only a non-number gives `OutOfRange`. Source: Millero & Poisson 1981
/// (UNESCO EOS-80). Check: 0 g/kg, 4 degC: 999.975 kg/m3 (IAPWS-95); 35 g/kg, 30 degC: 1021.73 kg/m3.
pub fn density(salinity: Salinity, temperature: Temperature) -> Result<Concentration, OutOfRange> {
    let (low, high) = (Salinity::grams_per_kilogram(0.0), Salinity::grams_per_kilogram(42.0));
    let s = held("salinity", salinity, low, high)?;
    let t = held("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(40.0))?;
    let s = Salinity::base(s).in_grams_per_kilogram();
    Ok(Concentration::kilograms_per_cubic_metre(equation_of_state(s, t)))
}

/// Dynamic viscosity of fresh water: 2.414e-5 x 10^(247.8 / (T - 140)), T in kelvin.
///
/// 0 to 40 degC; outside, the border value is held; only a non-number gives `OutOfRange`. From memory; within 1.2 % of IAPWS 2008 from 5 to
/// 35 degC. Check: 25 degC: 0.000890 Pa s.
pub fn viscosity(temperature: Temperature) -> Result<Viscosity, OutOfRange> {
    let t = held("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(40.0))?;
    let kelvin = t + 273.15;
    Ok(Viscosity::pascal_seconds(2.414e-5 * 10f64.powf(247.8 / (kelvin - 140.0))))
}

/// Reference temperature printed on a hydrometer: 15, 20 and 25 degC are met.
fn reference_density(reference: Temperature) -> Result<f64, OutOfRange> {
    let t = within("reference temperature", reference, Temperature::celsius(0.0), Temperature::celsius(40.0))?;
    Ok(equation_of_state(0.0, t))
}

/// Specific gravity: density of the sample / density of fresh water at the reference temperature of the hydrometer.
///
/// Salinity 0 to 42 g/kg, temperatures 0 to 40 degC; else `OutOfRange`. Source: ratio of Millero & Poisson 1981. Check: 35 g/kg at 25/25
/// degC: 1.0264. An instrument reads to 0.001, which is 1.3 g/kg.
pub fn specific_gravity(
    salinity: Salinity,
    temperature: Temperature,
    reference: Temperature,
) -> Result<Share, OutOfRange> {
    let (low, high) = (Salinity::grams_per_kilogram(0.0), Salinity::grams_per_kilogram(42.0));
    within("salinity", salinity, low, high)?;
    let t = within("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(40.0))?;
    let sample = equation_of_state(salinity.in_grams_per_kilogram(), t);
    Ok(Share::ratio(sample / reference_density(reference)?))
}

/// Salinity from a specific gravity, by search between 0 and 45 g/kg.
///
/// Temperatures 0 to 40 degC; a gravity that no salinity of 0 to 45 g/kg gives is refused with `OutOfRange`. Source: `specific_gravity`
/// turned round. Check: 1.0264 at 25/25 degC: 35 g/kg.
pub fn salinity_from_gravity(
    gravity: Share,
    temperature: Temperature,
    reference: Temperature,
) -> Result<Salinity, OutOfRange> {
    let wanted = known("specific gravity", gravity)?;
    let t = within("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(40.0))?;
    let fresh = reference_density(reference)?;
    let (low, high) = (equation_of_state(0.0, t) / fresh, equation_of_state(45.0, t) / fresh);
    if !(low..=high).contains(&wanted) {
        return Err(OutOfRange::of("specific gravity", gravity, low, high));
    }
    let s = root::between(0.0, 45.0, |s| equation_of_state(s, t) / fresh - wanted);
    Ok(Salinity::from_base(s / 1000.0))
}
