//! A power cut: oxygen of the tank, oxygen shut up in a canister.
//! In: volumes, surfaces, uses, oxygen levels. Out: levels, times. Knows no advice.

use super::range::{OutOfRange, not_negative, positive, result};
use crate::units::measure::{Area, Concentration, ConcentrationRate, Flow, MassRate, Measure, Speed, Time, Volume};

/// A tank without its pump.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct StillTank {
    pub water: Volume,
    /// Open surface.
    pub surface: Area,
    /// How fast oxygen comes in through the still surface: likely 0.01 m/h (0.005 to 0.02, an estimate).
    pub transfer: Speed,
    /// All oxygen use: fish, filter, floor, plants by night.
    pub used: MassRate,
    pub saturation: Concentration,
}

impl StillTank {
    /// Gain through the surface as a volume per time, and the others in base units.
    fn known(self) -> Result<(f64, f64, f64, f64), OutOfRange> {
        Ok((
            positive("water", self.water)?,
            not_negative("surface", self.surface)? * not_negative("oxygen transfer", self.transfer)?,
            not_negative("oxygen used", self.used)?,
            not_negative("oxygen saturation", self.saturation)?,
        ))
    }
}

/// Oxygen that a still tank settles at: saturation - use / (transfer x surface). Below nothing: all of it will be used up.
///
/// Water more than 0, transfer and surface more than 0, use and saturation 0 or more; else `OutOfRange`. Source: mass balance; checked by solving
/// the equation (scipy). Check: 0.5 m2, 0.01 m/h, 70 mg/h, 8.2 mg/L: -5.8 mg/L.
pub fn settled_oxygen(tank: StillTank) -> Result<Concentration, OutOfRange> {
    let (_, gain, used, saturation) = tank.known()?;
    let gain = positive("oxygen transfer", Flow::from_base(gain))?;
    result("oxygen", saturation - used / gain)
}

/// When a level is reached.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Until {
    After(Time),
    /// The surface brings enough.
    Never,
}

/// Time until the oxygen of a still tank has fallen from a start to a limit; `Never` where it settles above.
///
/// Water more than 0, the others 0 or more; without a surface the fall is a straight line; else `OutOfRange`. Source: closed form of dC/dt =
/// k A/V (Cs - C) - R/V; checked by solving the equation (scipy). Check: 200 L, 0.5 m2, 0.01 m/h, 70 mg/h, 8.2, from 7.5 to 3 mg/L: 16.5 h.
pub fn time_to_oxygen(tank: StillTank, start: Concentration, limit: Concentration) -> Result<Until, OutOfRange> {
    let (water, gain, used, saturation) = tank.known()?;
    let start = not_negative("oxygen at the start", start)?;
    let fall = start - not_negative("oxygen limit", limit)?;
    if fall <= 0.0 {
        return Ok(Until::After(Time::seconds(0.0)));
    }
    let rate = gain / water;
    if rate == 0.0 {
        return if used == 0.0 { Ok(Until::Never) } else { result("time", fall * water / used).map(Until::After) };
    }
    // How far the start stands above where it settles; only if the limit lies on the way is it reached.
    let above = start - (saturation - used / gain);
    if fall >= above {
        return Ok(Until::Never);
    }
    result("time", -(-fall / above).ln_1p() / rate).map(Until::After)
}

/// The pessimist's time, with no oxygen through the surface: water x (start - limit) / use; nothing when it is there already.
///
/// Water and levels 0 or more, use more than 0; else `OutOfRange`. Source: mass balance. Check: 200 L, 7.5 to 3 mg/L, 70 mg/h: 12.9 h.
pub fn time_without_surface(
    water: Volume,
    start: Concentration,
    limit: Concentration,
    used: MassRate,
) -> Result<Time, OutOfRange> {
    let fall = not_negative("oxygen at the start", start)? - not_negative("oxygen limit", limit)?;
    result("time", (not_negative("water", water)? * fall / positive("oxygen used", used)?).max(0.0))
}

/// Time until a stopped closed canister has used up its oxygen: water x oxygen / (media x uptake).
///
/// Water and oxygen 0 or more, media more than 0, uptake more than 0, likely 5 mg per litre of media and hour (1 to 20, an estimate); else
/// `OutOfRange`. No outside check. Check: 6 L at 7 mg/L, 3 L of media: 2.8 h.
pub fn canister_time(
    water: Volume,
    oxygen: Concentration,
    media: Volume,
    uptake: ConcentrationRate,
) -> Result<Time, OutOfRange> {
    let held = not_negative("water in the canister", water)? * not_negative("oxygen", oxygen)?;
    let taken = positive("media", media)? * positive("oxygen uptake", uptake)?;
    result("time", held / positive("oxygen used", MassRate::from_base(taken))?)
}
