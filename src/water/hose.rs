//! Hoses and siphons: friction, head lost, the flow that a level difference drives.
//! In: flow, bore, length, fittings. Out: heads, speeds, flows. Knows no pump.

use super::head_loss::Fluid;
use super::packing::GRAVITY;
use super::range::{OutOfRange, not_negative, positive, result, within};
use crate::units::measure::{Area, Flow, Length, Measure, Share, Speed};
use std::f64::consts::PI;

/// Reynolds number above which the flow in a hose is turbulent.
const TURBULENT: f64 = 2300.0;

/// A hose and what hinders the water in it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Hose {
    pub bore: Length,
    pub length: Length,
    /// Sum of the losses of entry (0.5), exit (1), elbows (0.9), taps (0.2 to 5), strainer (1 to 3), spray bar (2 to 10); all from memory.
    pub fittings: Share,
    /// How much rougher than smooth: 1; corrugated 3 to 5 (from memory).
    pub roughness: Share,
}

impl Hose {
    /// A smooth hose.
    pub const fn smooth(bore: Length, length: Length, fittings: Share) -> Self {
        Self { bore, length, fittings, roughness: Share::ratio(1.0) }
    }

    /// Bore and length in metres, sum of losses, roughness.
    fn known(self) -> Result<(f64, f64, f64, f64), OutOfRange> {
        Ok((
            positive("hose bore", self.bore)?,
            not_negative("hose length", self.length)?,
            within("sum of fittings", self.fittings, Share::ratio(0.0), Share::ratio(1000.0))?,
            within("roughness", self.roughness, Share::ratio(1.0), Share::ratio(10.0))?,
        ))
    }

    fn section(self) -> Result<f64, OutOfRange> {
        let bore = positive("hose bore", self.bore)?;
        Ok(Area::from_base(PI / 4.0 * bore * bore).in_base())
    }
}

/// Speed of the water in a hose: flow / (pi / 4 bore^2).
///
/// Flow 0 or more, bore more than 0; else `OutOfRange`. Source: continuity. Check: 600 L/h in 12 mm: 1.474 m/s.
pub fn hose_speed(flow: Flow, hose: Hose) -> Result<Speed, OutOfRange> {
    let flow = not_negative("flow", flow)?;
    result("speed in the hose", flow / hose.section()?)
}

/// Reynolds number in a hose: density x speed x bore / viscosity.
///
/// As `hose_speed`. Source: by definition. Check: 600 L/h in 12 mm, 25 degC: 19811.
pub fn hose_reynolds(flow: Flow, hose: Hose, fluid: Fluid) -> Result<Share, OutOfRange> {
    let (density, viscosity) = fluid.known()?;
    let speed = hose_speed(flow, hose)?.in_base();
    result("Reynolds number", density * speed * hose.bore.in_base() / viscosity)
}

/// Friction factor of a smooth hose: 64 / Re below 2300, else 0.3164 / Re^0.25.
///
/// Reynolds number more than 0, up to a million; else `OutOfRange`. Source: Poiseuille, Blasius (textbook, from memory); within 3 % of the
/// fluids library. Check: 19811: 0.0267.
pub fn friction_factor(reynolds: Share) -> Result<Share, OutOfRange> {
    positive("Reynolds number", reynolds)?;
    let re = within("Reynolds number", reynolds, Share::ratio(0.0), Share::ratio(1e6))?;
    result("friction factor", friction(re))
}

fn friction(re: f64) -> f64 {
    if re < TURBULENT { 64.0 / re } else { 0.3164 / re.sqrt().sqrt() }
}

/// Head lost in a hose: (f x roughness x length / bore + fittings) v^2 / 2g. No flow, no loss.
///
/// Flow 0 or more, bore more than 0, length 0 or more, fittings 0 to 1000, roughness 1 to 10, Reynolds number up to a million; else `OutOfRange`.
/// Source: Darcy & Weisbach with `friction_factor`. Check: 600 L/h through 3 m of 12 mm, fittings 4: 1.18 m.
pub fn hose_head(flow: Flow, hose: Hose, fluid: Fluid) -> Result<Length, OutOfRange> {
    let (bore, length, fittings, roughness) = hose.known()?;
    let re = hose_reynolds(flow, hose, fluid)?;
    if re.in_base() == 0.0 {
        return Ok(Length::metres(0.0));
    }
    let f = friction_factor(re)?.in_ratio() * roughness;
    let v = hose_speed(flow, hose)?.in_base();
    result("head", (f * length / bore + fittings) * v * v / (2.0 * GRAVITY))
}

/// Speed in a full siphon or hose that a level difference drives: sqrt(2 g dh / (f length / bore + fittings)), f of the speed itself.
///
/// Level difference 0 or more; length and fittings not both 0; else as `hose_head`. `fittings` includes the exit (1). Between laminar and turbulent,
/// where no speed fits, the speed at the change is given. Source: `hose_head` solved for the speed; checked by root finding (scipy). Check: 0.3 m,
/// 16 mm, 2 m, fittings 3: 0.955 m/s.
pub fn siphon_speed(difference: Length, hose: Hose, fluid: Fluid) -> Result<Speed, OutOfRange> {
    let (density, viscosity) = fluid.known()?;
    let (bore, length, fittings, roughness) = hose.known()?;
    let drive = 2.0 * GRAVITY * not_negative("level difference", difference)?;
    positive("length and fittings", Share::ratio(length / bore + fittings))?;
    // Laminar: fittings v^2 + (64 u L / (r D^2)) v = drive, written so that nothing is divided by small fittings.
    let linear = 64.0 * roughness * viscosity * length / (density * bore * bore);
    let change = TURBULENT * viscosity / (density * bore);
    let laminar =
        if drive == 0.0 { 0.0 } else { 2.0 * drive / (linear + (linear * linear + 4.0 * fittings * drive).sqrt()) };
    if laminar < change {
        return result("speed in the hose", laminar);
    }
    let mut f: f64 = 0.03;
    let mut v = 0.0;
    for _ in 0..60 {
        v = (drive / (f * roughness * length / bore + fittings)).sqrt();
        let next = 0.3164 / (density * v * bore / viscosity).sqrt().sqrt();
        let settled = (next - f).abs() < 1e-13;
        f = next;
        if settled {
            break;
        }
    }
    result("speed in the hose", v.max(change))
}

/// Flow of a full siphon or hose that a level difference drives: speed x pi / 4 bore^2.
///
/// As `siphon_speed`. Check: 0.3 m, 16 mm, 2 m, fittings 3: 691 L/h.
pub fn siphon_flow(difference: Length, hose: Hose, fluid: Fluid) -> Result<Flow, OutOfRange> {
    let speed = siphon_speed(difference, hose, fluid)?.in_base();
    result("flow", speed * hose.section()?)
}
