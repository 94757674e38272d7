//! Carbonate: how KH, pH and dissolved CO2 hang together in fresh water.
//! In: KH, temperature, pH, partial pressure. Out: concentrations, pH. Knows no other buffer: with one, CO2 comes out too high.

use super::range::{OutOfRange, not_negative, positive, within};
use super::root;
use crate::units::measure::{Acidity, Concentration, Pressure, Temperature, Volume};

/// g of CO2 in a mol.
const CARBON_DIOXIDE: f64 = 44.009;

/// log10 of the activity of a single ion after Davies, for an ionic strength in mol/L; temperature in degrees Celsius.
pub(super) fn log_activity(t: f64, strength: f64) -> f64 {
    let permittivity = 87.740 + t * (-0.40008 + t * (9.398e-4 - t * 1.410e-6));
    let a = 1.82e6 * (permittivity * (t + 273.15)).powf(-1.5);
    let root = strength.sqrt();
    -a * (root / (1.0 + root) - 0.3 * strength)
}

/// log10 of the constants of carbonate in fresh water.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Constants {
    /// CO2 gas to CO2 dissolved, mol/L/atm: Henry's constant.
    pub henry: f64,
    /// CO2 + H2O to H+ and HCO3-.
    pub first: f64,
    /// HCO3- to H+ and CO3--.
    pub second: f64,
    /// Water to H+ and OH-.
    pub water: f64,
}

/// log10 of the carbonate constants at a temperature.
///
/// 0 to 50 degC; else `OutOfRange`. Source: Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040 (first and second constant read in
/// phreeqc.dat, Henry's from memory), water Nordstrom et al. 1990 (from memory). Check: within 0.012 of Millero 1979; 25 degC: first -6.352.
pub fn constants(temperature: Temperature) -> Result<Constants, OutOfRange> {
    let t = within("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(50.0))?;
    let k = t + 273.15;
    let (log, inverse) = (k.log10(), 1.0 / k);
    let of = |a: f64, b: f64, c: f64, d: f64, e: f64| a + b * k + inverse * (c + e * inverse) + d * log;
    Ok(Constants {
        henry: of(108.3865, 0.01985076, -6919.53, -40.45154, 669365.0),
        first: of(-356.3094, -0.06091964, 21834.37, 126.8339, -1684915.0),
        second: of(-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9),
        water: of(-283.9710, -0.05069842, 13323.00, 102.24447, -1119669.0),
    })
}

/// A water of given alkalinity and temperature, ready to be solved for any pH.
struct Water {
    /// eq/L
    alkalinity: f64,
    henry: f64,
    k1: f64,
    k2: f64,
    kw: f64,
    /// Activities of ions of one and of two charges.
    g1: f64,
    g2: f64,
}

impl Water {
    fn new(kh: Concentration, temperature: Temperature) -> Result<Self, OutOfRange> {
        Self::with(kh, temperature, constants(temperature)?)
    }

    /// The same with constants of that temperature already worked out.
    fn with(kh: Concentration, temperature: Temperature, logs: Constants) -> Result<Self, OutOfRange> {
        within("KH", kh, Concentration::german_degrees(0.5), Concentration::german_degrees(25.0))?;
        within("temperature", temperature, Temperature::celsius(5.0), Temperature::celsius(35.0))?;
        let alkalinity = kh.in_milliequivalents_per_litre() / 1000.0;
        // The ionic strength of a water of sodium hydrogencarbonate is its alkalinity.
        let g1 = 10f64.powf(log_activity(temperature.in_celsius(), alkalinity));
        let power = |log: f64| 10f64.powf(log);
        Ok(Self {
            alkalinity,
            henry: power(logs.henry),
            k1: power(logs.first),
            k2: power(logs.second),
            kw: power(logs.water),
            g1,
            g2: g1.powi(4),
        })
    }

    fn hydrogencarbonate(&self, h: f64) -> f64 {
        let others = self.kw / (h * self.g1) - h / self.g1;
        (self.alkalinity - others) / (1.0 + 2.0 * self.k2 * self.g1 / (self.g2 * h))
    }

    /// CO2 in mol/L; below nothing where the alkalinity cannot make the pH.
    fn carbon_dioxide(&self, h: f64) -> f64 {
        self.hydrogencarbonate(h) * self.g1 * h / self.k1
    }

    /// CO2, HCO3 and CO3 together, mol/L.
    fn total_carbon(&self, h: f64) -> f64 {
        let hco3 = self.hydrogencarbonate(h);
        hco3 * (1.0 + self.g1 * h / self.k1 + self.k2 * self.g1 / (self.g2 * h))
    }

    /// The pH at which `amount`, falling with pH, is `wanted` (mol/L).
    fn ph_for(&self, wanted: f64, amount: impl Fn(&Self, f64) -> f64) -> Acidity {
        let target = wanted.ln();
        Acidity::ph(root::between(4.0, 10.5, |ph| {
            let found = amount(self, 10f64.powf(-ph));
            if found > 0.0 { found.ln() - target } else { f64::NEG_INFINITY }
        }))
    }
}

/// pH between which carbonate is taken for the only buffer.
fn buffered(ph: Acidity) -> Result<f64, OutOfRange> {
    within("pH", ph, Acidity::ph(6.0), Acidity::ph(8.5))
}

/// Dissolved CO2 from KH and pH, fresh water of less than 3 g/kg.
///
/// KH (as CaCO3) 0.5 to 25 dKH, 5 to 35 degC, pH 6 to 8.5; else `OutOfRange`. Too high where phosphate, humic acids or borate buffer too; a pH
/// wrong by 0.2 is a factor 1.6: one digit. Source: carbonate equilibrium, Plummer & Busenberg 1982, Davies activity. Check: PHREEQC within 0.2 %:
/// 4 dKH, 15 degC, pH 6.6: 39.7 mg/L.
pub fn carbon_dioxide(kh: Concentration, temperature: Temperature, ph: Acidity) -> Result<Concentration, OutOfRange> {
    let water = Water::new(kh, temperature)?;
    let moles = water.carbon_dioxide(10f64.powf(-buffered(ph)?));
    not_negative("dissolved CO2", Concentration::grams_per_litre(moles * CARBON_DIOXIDE)).map(Concentration::base)
}

/// The rule of thumb for it: 3 x dKH x 10^(7 - pH) mg/L. It gives 0.74 of the true value at 15 degC, 0.87 to 0.92 at 25, and is right near 30 only.
///
/// KH 0 or more, pH 6 to 8.5; else `OutOfRange`. Basis: common practice. Check: 4 dKH, pH 7: 12 mg/L, where the equilibrium gives 13.5 at 25 degC.
pub fn carbon_dioxide_by_thumb(kh: Concentration, ph: Acidity) -> Result<Concentration, OutOfRange> {
    not_negative("KH", kh)?;
    let milligrams = 3.0 * kh.in_german_degrees() * 10f64.powf(7.0 - buffered(ph)?);
    super::range::result("dissolved CO2", Concentration::milligrams_per_litre(milligrams).in_base())
}

/// pH of a water after airing, from its KH and the CO2 of the air.
///
/// KH and temperature as `carbon_dioxide`; CO2 of the air 100 to 10000 microatmospheres: outdoors 420, lived-in rooms 600 to 1200 (from memory);
/// else `OutOfRange`. Source: as `carbon_dioxide`. Check: PHREEQC within 0.03: 4 dKH, 25 degC, 420: 8.32. A glass of tank water stirred for a
/// day whose pH rises by more than 0.3 says that the tank holds surplus CO2 (common practice).
pub fn aired_ph(kh: Concentration, temperature: Temperature, air: Pressure) -> Result<Acidity, OutOfRange> {
    let water = Water::new(kh, temperature)?;
    let (low, high) = (Pressure::microatmospheres(100.0), Pressure::microatmospheres(10000.0));
    within("CO2 of the air", air, low, high)?;
    let dissolved = water.henry * air.in_atmospheres();
    Ok(water.ph_for(dissolved, Water::carbon_dioxide))
}

/// pH of two waters mixed: their alkalinity and their total carbon mix, their pH does not. Say "about".
///
/// Volumes 0 or more, not both 0; KH, pH and the temperature of the mix as `carbon_dioxide`; else `OutOfRange`. Source: as `carbon_dioxide`. No
/// outside check of the mix: the equilibrium is checked. Check: equal waters keep their pH.
pub fn mixed_ph(
    first: (Volume, Concentration, Acidity),
    second: (Volume, Concentration, Acidity),
    temperature: Temperature,
) -> Result<Acidity, OutOfRange> {
    let logs = constants(temperature)?;
    let carbon = |(_, kh, ph): (Volume, Concentration, Acidity)| -> Result<f64, OutOfRange> {
        let water = Water::with(kh, temperature, logs)?;
        Ok(water.total_carbon(10f64.powf(-buffered(ph)?)))
    };
    let (a, b) = (not_negative("volume", first.0)?, not_negative("volume", second.0)?);
    let part = a / positive("volume", Volume::base(a + b))?;
    let kh = super::dilution::mixed(first.0, first.1, second.0, second.1)?;
    let mixed = carbon(first)? * part + carbon(second)? * (1.0 - part);
    Ok(Water::with(kh, temperature, logs)?.ph_for(mixed, Water::total_carbon))
}
