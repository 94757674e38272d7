//! Ammonia: how much of total ammonia nitrogen is in the toxic, un-ionised form, and how much total is bearable.
//! In: temperature, pH, salinity, ionic strength. Out: fractions and concentrations. Knows no species and no advice.

use super::range::{OutOfRange, held, not_negative, positive, result, within};
use crate::units::measure::{Acidity, Concentration, IonicStrength, Salinity, Share, Temperature};

/// pH between which a reading is believed; outside it, ask again.
fn believable(ph: Acidity) -> Result<f64, OutOfRange> {
    within("pH", ph, Acidity::ph(5.0), Acidity::ph(10.0))
}

fn fraction(pka: f64, ph: f64) -> f64 {
    1.0 / (1.0 + 10f64.powf(pka - ph))
}

/// pKa of ammonium in pure water, temperature in degrees Celsius already checked.
fn emerson(t: f64) -> f64 {
    0.09018 + 2729.92 / (t + 273.15)
}

/// Fraction of total ammonia nitrogen that is un-ionised (NH3-N / TAN), 0 to 1, fresh water.
///
/// `temperature` 0 to 50 degC, pH 5 to 10; else `OutOfRange`. For less than 5 g/kg of salt. Source: Emerson, Russo, Lund & Thurston 1975,
/// J. Fish. Res. Board Can. 32:2379-2383, pKa = 0.09018 + 2729.92 / T(K) (constants read); 2727.92, also met in print, is a misprint.
/// Check: 20 degC, pH 8.0 gives 0.0381.
pub fn unionised_fraction(temperature: Temperature, ph: Acidity) -> Result<Share, OutOfRange> {
    let t = within("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(50.0))?;
    Ok(Share::ratio(fraction(emerson(t), believable(ph)?)))
}

/// The same with the salts of the water allowed for: it lowers the fraction by 5 % in soft tap water, 10 % in hard.
///
/// Ionic strength 0 to 0.1 mol/L; else as `unionised_fraction`. Limits in print were mostly derived without it, so leave it out when
/// comparing with them. Source: Emerson et al. 1975 with the activity of Davies. Check: PHREEQC within 6 %: 15 degC, pH 8, 0.001: 0.0257.
pub fn unionised_fraction_at_strength(
    temperature: Temperature,
    ph: Acidity,
    strength: IonicStrength,
) -> Result<Share, OutOfRange> {
    let t = within("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(50.0))?;
    let i =
        within("ionic strength", strength, IonicStrength::moles_per_litre(0.0), IonicStrength::moles_per_litre(0.1))?;
    Ok(Share::ratio(fraction(emerson(t) - super::carbonate::log_activity(t, i), believable(ph)?)))
}

/// The same in brackish and sea water, pH read on ordinary (NBS) buffers.
///
/// Temperature 0 to 35 degC, salinity 5 to 40 g/kg, pH 5 to 10; else `OutOfRange`. Two digits at most; it does not join the fresh-water
/// formula smoothly at 5 g/kg. Source: US EPA 440/5-88-004 (1989) after Hampson 1977 and Whitfield 1974 (quoted from memory).
/// Check: Bower & Bidwell 1978 within 8 %: 20 degC, 34 g/kg, pH 7.5: 0.0096.
pub fn unionised_fraction_in_salt(
    temperature: Temperature,
    salinity: Salinity,
    ph: Acidity,
) -> Result<Share, OutOfRange> {
    let t = within("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(35.0))?;
    let (low, high) = (Salinity::grams_per_kilogram(5.0), Salinity::grams_per_kilogram(40.0));
    within("salinity", salinity, low, high)?;
    let s = salinity.in_grams_per_kilogram();
    let strength = 19.9273 * s / (1000.0 - 1.005109 * s);
    let pka = 9.245 + 0.116 * strength + 0.0324 * (25.0 - t);
    Ok(Share::ratio(fraction(pka, believable(ph)?)))
}

/// Un-ionised ammonia, as N, in fresh water: fraction x total ammonia as N.
///
/// TAN 0 or more; else as `unionised_fraction`. Kits read total ammonia, not this. Check: 0.5 mg/L at 20 degC, pH 8: 0.0191 mg/L.
pub fn unionised_ammonia(
    tan: Concentration,
    temperature: Temperature,
    ph: Acidity,
) -> Result<Concentration, OutOfRange> {
    let tan = not_negative("total ammonia", tan)?;
    result("un-ionised ammonia", tan * unionised_fraction(temperature, ph)?.in_base())
}

/// Total ammonia (as N) that keeps un-ionised ammonia (as N) at a limit, fresh water: limit / fraction.
///
/// Limit more than 0, likely 0.02 mg/L N (EIFAC Technical Paper 11, 1970, 0.025 as NH3, quoted from memory); 0.05 harms the fish (University
/// of Florida IFAS FA16, read as reproduced); halve it for fry and soft-skinned fish (from memory). Else as `unionised_fraction`.
/// No outside check of the quotient: it is the fraction turned round. Check: 0.02 at 25 degC, pH 8: 0.37 mg/L.
pub fn bearable_ammonia(
    limit: Concentration,
    temperature: Temperature,
    ph: Acidity,
) -> Result<Concentration, OutOfRange> {
    let limit = positive("limit of un-ionised ammonia", limit)?;
    result("total ammonia", limit / unionised_fraction(temperature, ph)?.in_base())
}

/// Whom a criterion for wild waters protects.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Protected {
    /// Salmon and trout live there (one-hour criterion only).
    pub salmonids: bool,
    /// Mussels (and their like among snails) live there.
    pub mussels: bool,
    /// Eggs, larvae or fry of fish live there (thirty-day criterion without mussels only).
    pub early_stages: bool,
}

/// pH and temperature for the criteria: held at their borders, 6.5 to 9 and 0 to 30 degC.
fn criterion_inputs(ph: Acidity, temperature: Temperature) -> Result<(f64, f64), OutOfRange> {
    Ok((
        held("pH", ph, Acidity::ph(6.5), Acidity::ph(9.0))?,
        held("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(30.0))?,
    ))
}

/// Acute criterion for wild fresh waters: total ammonia (as N) that one hour's mean should not pass.
///
/// Outside pH 6.5 to 9 and 0 to 30 degC the border value is held; only a non-number gives `OutOfRange`. Source: US EPA 2013,
/// EPA-822-R-13-001 (read as a state agency codes it for 9VAC25-260-155). Check: pH 7, 20 degC: 17 mg/L. Not a limit for an emergency.
pub fn acute_criterion(
    ph: Acidity,
    temperature: Temperature,
    protected: Protected,
) -> Result<Concentration, OutOfRange> {
    let (ph, t) = criterion_inputs(ph, temperature)?;
    let a = 1.0 + 10f64.powf(7.204 - ph);
    let b = 1.0 + 10f64.powf(ph - 7.204);
    let most = if protected.mussels { 23.12 } else { 62.15 };
    let warm = most * 10f64.powf(0.036 * (20.0 - t));
    let k = 0.7249 * (0.0114 / a + 1.6181 / b);
    let limit = if protected.salmonids { (0.275 / a + 39.0 / b).min(k * warm) } else { k * warm.min(51.93) };
    Ok(Concentration::milligrams_per_litre(limit))
}

/// Chronic criterion for wild fresh waters: total ammonia (as N) that thirty days' mean should not pass; the highest four-day mean
/// within them 2.5 times that.
///
/// Range, errors and source as `acute_criterion`. For a tank without mussels the one with early stages and without mussels is the nearer.
/// Check: pH 7, 20 degC: 1.9 mg/L with mussels, 6.5 without.
pub fn chronic_criterion(
    ph: Acidity,
    temperature: Temperature,
    protected: Protected,
) -> Result<Concentration, OutOfRange> {
    let (ph, t) = criterion_inputs(ph, temperature)?;
    let bracket = 0.0278 / (1.0 + 10f64.powf(7.688 - ph)) + 1.1994 / (1.0 + 10f64.powf(ph - 7.688));
    let factor = if protected.mussels {
        0.8876 * 2.126 * 10f64.powf(0.028 * (20.0 - t.max(7.0)))
    } else if protected.early_stages {
        0.9405 * 6.92f64.min(7.547 * 10f64.powf(0.028 * (20.0 - t)))
    } else {
        0.9405 * 7.547 * 10f64.powf(0.028 * (20.0 - t.max(7.0)))
    };
    Ok(Concentration::milligrams_per_litre(bracket * factor))
}
