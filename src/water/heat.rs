//! Heat: what a tank loses, how long it warms, ice, evaporation, and what a pump adds. Estimates, +-30 %.
//! In: areas, temperatures, powers. Out: powers, times, masses. Knows no heater by name.

use super::range::{OutOfRange, known, not_negative, positive, result, share, within};
use crate::units::measure::{
    Area, HeatTransfer, Length, Mass, MassRate, Measure, Power, Pressure, Share, Temperature, Time, Volume, Warming,
};

/// Heat to warm a litre of water at 25 degC by one degree: 0.9971 kg x 4181 J, per m3.
const HEAT_OF_WATER: f64 = 0.9971e3 * 4181.0;
/// Heat that evaporating a kilogram takes, J.
const EVAPORATION: f64 = 2.44e6;

fn liquid(name: &'static str, t: Temperature) -> Result<f64, OutOfRange> {
    within(name, t, Temperature::celsius(0.0), Temperature::celsius(50.0))
}

/// Saturation vapour pressure of water: 0.61121 exp((18.678 - t/234.5) t / (257.14 + t)) kPa.
///
/// 0 to 50 degC; else `OutOfRange`. Source: Buck 1981, revised 1996 (quoted from memory); within 0.05 % of IAPWS-95. Check: 30 degC: 4.247 kPa.
pub fn vapour_pressure(temperature: Temperature) -> Result<Pressure, OutOfRange> {
    let t = liquid("temperature", temperature)?;
    Ok(Pressure::kilopascals(0.61121 * ((18.678 - t / 234.5) * t / (257.14 + t)).exp()))
}

/// Heat lost through walls and bottom, W, and the difference of temperature.
fn through_walls(wall: Area, glass: Length, water: f64, room: f64) -> Result<f64, OutOfRange> {
    let wall = not_negative("wall area", wall)?;
    let resistance = 0.13 + not_negative("glass thickness", glass)? / 1.0 + 0.005;
    Ok(wall * (water - room) / resistance)
}

/// Standing heat loss of a tank with a lid: walls dT / (0.13 + glass / 1.0 + 0.005) + top dT / 0.20.
///
/// `wall` is four sides and bottom. Areas and glass 0 or more, temperatures 0 to 50 degC; else `OutOfRange`. Negative where the room is the warmer.
/// An estimate, +-30 %: Rsi of EN ISO 6946, glass 1.0 W/mK of EN 572-1 (quoted from memory). No outside check of the model. Check: 0.72 m2, 5 mm,
/// 0.18 m2, 25 in 20 degC: 30.2 W.
pub fn lidded_loss(
    wall: Area,
    glass: Length,
    top: Area,
    water: Temperature,
    room: Temperature,
) -> Result<Power, OutOfRange> {
    let (tw, ta) = (liquid("water temperature", water)?, liquid("room temperature", room)?);
    let lid = not_negative("top area", top)? * (tw - ta) / 0.20;
    result("heat loss", through_walls(wall, glass, tw, ta)? + lid)
}

/// Standing heat loss of an open tank: walls as with a lid, top 8 dT, and evaporation (e(water) - humidity x e(room)) x 89 x 0.5 on the top.
///
/// Humidity 0 to 1; else as `lidded_loss`. It settles 1 to 2 degC below the room. Evaporation of indoor pools (ASHRAE HVAC Applications, activity
/// 0.5, quoted from memory). Check: 0.72 m2, 5 mm, 0.18 m2, 25 in 20 degC, half humid: 48.9 W.
pub fn open_loss(
    wall: Area,
    glass: Length,
    top: Area,
    water: Temperature,
    room: Temperature,
    humidity: Share,
) -> Result<Power, OutOfRange> {
    let (tw, ta) = (liquid("water temperature", water)?, liquid("room temperature", room)?);
    let area = not_negative("top area", top)?;
    let evaporated = area * evaporating_power(water, room, humidity)?;
    result("heat loss", through_walls(wall, glass, tw, ta)? + 8.0 * area * (tw - ta) + evaporated)
}

/// W/m2 that evaporation takes from still open water.
fn evaporating_power(water: Temperature, room: Temperature, humidity: Share) -> Result<f64, OutOfRange> {
    let humidity = share("humidity", humidity)?;
    let drive = vapour_pressure(water)?.in_kilopascals() - humidity * vapour_pressure(room)?.in_kilopascals();
    Ok(drive * 89.0 * 0.5)
}

/// Water that an open tank evaporates: top x evaporating power / 2.44 MJ/kg; nothing where the air gives water off instead.
///
/// Area 0 or more; else as `open_loss`. No outside check: an estimate, +-30 %. Check: 0.18 m2, 25 in 20 degC, half humid: 0.57 kg a day.
pub fn evaporation(top: Area, water: Temperature, room: Temperature, humidity: Share) -> Result<MassRate, OutOfRange> {
    let power = not_negative("top area", top)? * evaporating_power(water, room, humidity)?;
    result("evaporation", power.max(0.0) / EVAPORATION)
}

/// Heat that evaporating water takes away: evaporation x 2.44 MJ/kg. A kilogram a day is 28 W.
///
/// 0 or more; else `OutOfRange`. Source: heat of evaporation near 25 degC (from memory). No outside check.
pub fn cooling_by_evaporation(evaporation: MassRate) -> Result<Power, OutOfRange> {
    result("cooling", not_negative("evaporation", evaporation)? * EVAPORATION)
}

/// Heater for a standing loss: loss x (1 + margin), likely a third more than the loss in the coldest room; two of half the size fail more safely.
///
/// Loss 0 or more, margin 0 to 2; else `OutOfRange`. Basis: common practice. No outside check.
pub fn heater(loss: Power, margin: Share) -> Result<Power, OutOfRange> {
    let loss = not_negative("heat loss", loss)?;
    let margin = within("margin", margin, Share::ratio(0.0), Share::ratio(2.0))?;
    result("heater", loss * (1.0 + margin))
}

/// Time to warm a tank: water x 0.9971 x 4181 x rise / (heater - mean loss).
///
/// Water and rise 0 or more, heater more than the loss (else it never gets there), loss any; else `OutOfRange`. Source: heat capacity of water at 25
/// degC (IAPWS). Check: 100 L by 5 degC, 100 W against 20 W: 7.24 h.
pub fn warming_time(water: Volume, rise: Warming, heater: Power, loss: Power) -> Result<Time, OutOfRange> {
    let heat = not_negative("water", water)? * HEAT_OF_WATER * not_negative("rise of temperature", rise)?;
    let loss = known("heat loss", loss)?;
    let given = positive("heater", heater)?;
    if given <= loss {
        return Err(OutOfRange::between("heater", heater, loss, f64::INFINITY));
    }
    result("time", heat / (given - loss))
}

/// Ice (0 degC, in a sealed bag) to cool a tank: water x 0.9971 x 4.181 (start - end) / (333.55 + 4.19 end).
///
/// Water 0 or more, end 0 to 50 degC and not above the start; else `OutOfRange`. At most 1 to 2 degC an hour and 3 a day (common practice).
/// Source: heat balance, latent heat 333.55 kJ/kg. Check: 100 L from 30 to 28 degC: 1.85 kg.
pub fn ice(water: Volume, start: Temperature, end: Temperature) -> Result<Mass, OutOfRange> {
    let litres = Volume::from_base(not_negative("water", water)?).in_litres();
    let from = liquid("temperature", start)?;
    let to = within("temperature wanted", end, Temperature::celsius(0.0), start)?;
    result("ice", litres * 0.9971 * 4.181 * (from - to) / (333.55 + 4.19 * to))
}

/// How much warmer a pump makes a tank than it would be: power into the water / (outer surface x heat transfer).
///
/// Power 0 or more, surface more than 0, heat transfer more than 0, likely 8 W/m2K (6 to 10, an estimate); else `OutOfRange`. No outside check.
/// Check: 25 W, 1.6 m2: 2.0 degC.
pub fn pump_warming(power: Power, surface: Area, transfer: HeatTransfer) -> Result<Warming, OutOfRange> {
    let power = not_negative("power into the water", power)?;
    let lost = positive("outer surface", surface)? * positive("heat transfer", transfer)?;
    result("warming", power / positive("heat transfer", HeatTransfer::base(lost))?)
}
