//! How the temperature changes a rate.
//! In: theta or an activation energy, temperatures. Out: a factor. Knows no rate.

use super::range::{OutOfRange, held, result, within};
use crate::units::measure::{Share, Temperature};

/// Factor on a rate known at `reference`: theta^(t - reference).
///
/// Temperature 5 to 30 degC: above, the value at 30 is held; below 5, `OutOfRange` (ask again). Theta 0.9 to 1.2: for the capacity
/// of a grown filter 1.06 (1.02 to 1.09); reference 0 to 40 degC, mostly 20. Source: form of US EPA 1993, EPA/625/R-93/010 (quoted from
/// memory); the thetas are fitted between Zhu & Chen 2002, Aquacult. Eng. 26:221-237, Salvetti et al. 2006, Water Res. 40:2981-2993
/// and Hoang et al. 2014, Water Res. 49:215-224 (abstracts read). Check: theta 1.103 from 15 to 20 degC: 1.63, as exp(0.098 x 5).
pub fn temperature_factor(theta: Share, temperature: Temperature, reference: Temperature) -> Result<Share, OutOfRange> {
    let theta = within("theta", theta, Share::ratio(0.9), Share::ratio(1.2))?;
    let reference = within("reference temperature", reference, Temperature::celsius(0.0), Temperature::celsius(40.0))?;
    if temperature.in_celsius() < 5.0 {
        return Err(OutOfRange::of("temperature", temperature, 5.0, 30.0));
    }
    let t = held("temperature", temperature, Temperature::celsius(5.0), Temperature::celsius(30.0))?;
    result("temperature factor", theta.powf(t - reference))
}

/// The same by Arrhenius' law, relative to 20 degC: exp(-E/R (1/T - 1/293.15)), `energy` in kJ/mol.
///
/// Temperature 5 to 30 degC (held above, `OutOfRange` below), energy 0 to 150. 68 kJ/mol stands for single cells of ammonia oxidisers
/// (Vannecke & Volcke, supplement on nitrifying biofilm models, read): an upper bound, since films are limited by diffusion. No outside check of the energy.
/// Check: 68 kJ/mol at 10 degC: 0.3733.
pub fn arrhenius_factor(energy: Share, temperature: Temperature) -> Result<Share, OutOfRange> {
    const GAS_CONSTANT: f64 = 8.314;
    let energy = within("activation energy", energy, Share::ratio(0.0), Share::ratio(150.0))?;
    if temperature.in_celsius() < 5.0 {
        return Err(OutOfRange::of("temperature", temperature, 5.0, 30.0));
    }
    let t = held("temperature", temperature, Temperature::celsius(5.0), Temperature::celsius(30.0))?;
    let inverse = 1.0 / (t + 273.15) - 1.0 / 293.15;
    result("temperature factor", (-energy * 1000.0 / GAS_CONSTANT * inverse).exp())
}
