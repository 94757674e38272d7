//! Oxygen: what water holds, what fish and nitrifiers use.
//! In: temperature, salinity, pressure, masses. Out: concentrations, masses per time. Knows no species.

use super::range::{OutOfRange, held, not_negative, positive, result, within};
use crate::units::measure::{Concentration, Flow, Length, Mass, MassRate, Pressure, Salinity, Share, Temperature};

/// Dissolved oxygen of water in touch with moist air.
///
/// 0 to 40 degC, 0 to 40 g/kg, 0.5 to 1.1 atm; outside, the border value is held; only a non-number gives `OutOfRange`. Source: Benson & Krause
/// 1980, 1984 (Limnol. Oceanogr. 25:662, 29:620) in the form of Standard Methods 4500-O (fresh-water coefficients read, salt and pressure terms
/// from memory). Check: 20 degC, fresh, 1 atm: 9.092 mg/L; EN 25814 prints 9.09.
pub fn saturation(
    temperature: Temperature,
    salinity: Salinity,
    pressure: Pressure,
) -> Result<Concentration, OutOfRange> {
    let t = held("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(40.0))?;
    let (low, high) = (Salinity::grams_per_kilogram(0.0), Salinity::grams_per_kilogram(40.0));
    let s = Salinity::base(held("salinity", salinity, low, high)?).in_grams_per_kilogram();
    let p = held("air pressure", pressure, Pressure::atmospheres(0.5), Pressure::atmospheres(1.1))?;
    let p = Pressure::base(p).in_atmospheres();

    let x = 1.0 / (t + 273.15);
    let fresh = -139.34411 + x * (1.575701e5 + x * (-6.642308e7 + x * (1.243800e10 - x * 8.621949e11)));
    let salt = s * (0.017674 + x * (-10.754 + x * 2140.7));
    let vapour = (11.8571 - 3840.70 * x - 216961.0 * x * x).exp();
    let theta = 0.000975 - 1.426e-5 * t + 6.436e-8 * t * t;
    let at_pressure = (p - vapour) * (1.0 - theta * p) / ((1.0 - vapour) * (1.0 - theta));
    Ok(Concentration::milligrams_per_litre((fresh - salt).exp() * at_pressure))
}

/// Air pressure at an altitude: (1 - 2.25577e-5 z)^5.25588 atm, z in m.
///
/// -400 to 5000 m; else `OutOfRange`. Weather adds +-3 %; a barometer "reduced to sea level" must not be used as it is. Source: US Standard
/// Atmosphere 1976 (quoted from memory). Check: 1000 m: 0.887 atm.
pub fn pressure_at(altitude: Length) -> Result<Pressure, OutOfRange> {
    let z = within("altitude", altitude, Length::metres(-400.0), Length::metres(5000.0))?;
    Ok(Pressure::atmospheres((1.0 - 2.25577e-5 * z).powf(5.25588)))
}

/// Oxygen that one resting fish uses: exp(15.7 - 5020/T) (m/50)^0.80 mmol/h, m in g, 31.998 mg/mmol.
///
/// 0.2 to 5000 g (the source's own fish start at 0.5 g), 0 to 32 degC; outside, the border value is held; a mass that is not more than 0 or a
/// non-number gives `OutOfRange`. A species may be off by a factor 2; awake and fed fish use 2 (1 to 3) times as much (from memory). Sum over
/// fish: small ones use more for their mass. Source: Clarke & Johnston 1999, J. Anim. Ecol. 68:893-905 (abstract read). No outside check of the
/// coefficients. Check: 1 g at 25 degC: 0.449 mg/h.
pub fn fish_use(mass: Mass, temperature: Temperature) -> Result<MassRate, OutOfRange> {
    positive("fish mass", mass)?;
    let m = Mass::base(held("fish mass", mass, Mass::grams(0.2), Mass::grams(5000.0))?).in_grams();
    let t = held("temperature", temperature, Temperature::celsius(0.0), Temperature::celsius(32.0))?;
    let millimoles = (15.7 - 5020.0 / (t + 273.15)).exp() * (m / 50.0).powf(0.80);
    Ok(MassRate::milligrams_per_hour(millimoles * 31.998))
}

/// Oxygen used by nitrifying so much nitrogen: nitrogen x `oxygen` per nitrogen.
///
/// Nitrogen 0 or more; `oxygen` 0 to 5: 4.57 in full (the cautious one), 3.43 to nitrite, 1.14 from nitrite on, 4.18 with growth of cells
/// (Ebeling, Timmons & Bisogni 2006, Aquaculture 257:346-358, quoted from memory); else `OutOfRange`. Source: stoichiometry.
/// Check: 1 g N: 4.57 g (US EPA 1975 as cited by Zhu & Chen 1999).
pub fn nitrification_use(nitrogen: MassRate, oxygen: Share) -> Result<MassRate, OutOfRange> {
    let nitrogen = not_negative("nitrogen", nitrogen)?;
    let factor = within("oxygen per nitrogen", oxygen, Share::ratio(0.0), Share::ratio(5.0))?;
    result("oxygen used", nitrogen * factor)
}

/// Most nitrogen that a flow can nitrify with the oxygen it brings: (in - out) x flow / `oxygen` per nitrogen; nothing when none is left over.
///
/// Oxygen levels and flow 0 or more; `oxygen` more than 0, up to 5, likely 4.57; else `OutOfRange`. Below about 4 mg/L at the outlet nitrifiers
/// slow. Source: mass balance. Check: 8 in, 4 out, 300 L/h: 0.26 g N/h.
pub fn nitrified_at_most(
    inlet: Concentration,
    outlet: Concentration,
    flow: Flow,
    oxygen: Share,
) -> Result<MassRate, OutOfRange> {
    let spent = not_negative("oxygen at the inlet", inlet)? - not_negative("oxygen at the outlet", outlet)?;
    let flow = not_negative("flow", flow)?;
    positive("oxygen per nitrogen", oxygen)?;
    let factor = within("oxygen per nitrogen", oxygen, Share::ratio(0.0), Share::ratio(5.0))?;
    result("nitrogen", spent.max(0.0) * flow / factor)
}

/// How saturated water is: measured / saturated.
///
/// Measured 0 or more, saturated more than 0; else `OutOfRange`. Source: by definition. No outside check: a ratio.
pub fn saturated_share(measured: Concentration, saturated: Concentration) -> Result<Share, OutOfRange> {
    let measured = not_negative("oxygen", measured)?;
    result("saturated share", measured / positive("saturation", saturated)?)
}
