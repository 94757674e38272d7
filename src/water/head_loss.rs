//! Head lost in a bed of loose grains and in foam.
//! In: grain or pore size, void, speed, depth, the water. Out: pressures, heads. Knows no dirt: see `clogging`.

use super::packing::GRAVITY;
use super::range::{OutOfRange, not_negative, positive, result, some_share, within};
use crate::units::measure::{Area, Concentration, Length, PoreCount, Pressure, Share, Speed, Viscosity};

/// The water that flows.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Fluid {
    pub density: Concentration,
    pub viscosity: Viscosity,
}

impl Fluid {
    /// Fresh water of 25 degC.
    pub const WARM: Self = Self {
        density: Concentration::kilograms_per_cubic_metre(super::packing::WATER_DENSITY),
        viscosity: Viscosity::pascal_seconds(0.000890),
    };

    /// Density and viscosity in base units, both more than 0.
    pub(super) fn known(self) -> Result<(f64, f64), OutOfRange> {
        Ok((positive("water density", self.density)?, positive("viscosity", self.viscosity)?))
    }
}

/// Height of water that a pressure holds up: pressure / (density x g).
///
/// Pressure 0 or more; else `OutOfRange`. Source: by definition. Check: 47.25 Pa: 4.83 mm.
pub fn head(pressure: Pressure, fluid: Fluid) -> Result<Length, OutOfRange> {
    let (density, _) = fluid.known()?;
    result("head", not_negative("pressure", pressure)? / (density * GRAVITY))
}

/// A bed of grains with water going through it.
struct Bed {
    grain: f64,
    void: f64,
    speed: f64,
    depth: f64,
    density: f64,
    viscosity: f64,
}

impl Bed {
    fn new(grain: Length, void: Share, speed: Speed, depth: Length, fluid: Fluid) -> Result<Self, OutOfRange> {
        let (density, viscosity) = fluid.known()?;
        Ok(Self {
            grain: positive("grain size", grain)?,
            void: within("void share", void, Share::ratio(0.36), Share::ratio(0.48))?,
            speed: not_negative("speed", speed)?,
            depth: not_negative("bed depth", depth)?,
            density,
            viscosity,
        })
    }

    /// Pa from viscosity, for a constant of 150 (Ergun) or 180 (Kozeny and Carman).
    fn viscous(&self, constant: f64) -> f64 {
        let solid = 1.0 - self.void;
        constant * self.viscosity * solid * solid * self.speed / (self.void.powi(3) * self.grain * self.grain)
            * self.depth
    }

    /// Pa from inertia.
    fn inertial(&self) -> f64 {
        let solid = 1.0 - self.void;
        1.75 * self.density * solid * self.speed * self.speed / (self.void.powi(3) * self.grain) * self.depth
    }
}

/// Pressure lost over a bed of loose grains: [150 u (1-e)^2 v / (e^3 d^2) + 1.75 r (1-e) v^2 / (e^3 d)] x depth.
///
/// Grain more than 0 (broken grain: sphericity x sieve size), void 0.36 to 0.48, speed (superficial) and depth 0 or more; else `OutOfRange`. Good
/// correlations differ by up to 25 %; wall and shape +-50 % (from memory). Source: Ergun 1952 (quoted from memory; equal to the fluids library).
/// Check: 1 mm, void 0.38, 10 mm/s, 0.1 m: 1132 Pa.
pub fn grain_loss(
    grain: Length,
    void: Share,
    speed: Speed,
    depth: Length,
    fluid: Fluid,
) -> Result<Pressure, OutOfRange> {
    let bed = Bed::new(grain, void, speed, depth, fluid)?;
    result("pressure lost", bed.viscous(150.0) + bed.inertial())
}

/// Share of that loss that comes from viscosity: 1 for slow flow through fine grain.
///
/// As `grain_loss`, but speed and depth more than 0. Check: 1 mm, void 0.38, 10 mm/s: 0.826.
pub fn viscous_share(grain: Length, void: Share, speed: Speed, fluid: Fluid) -> Result<Share, OutOfRange> {
    positive("speed", speed)?;
    let bed = Bed::new(grain, void, speed, Length::metres(1.0), fluid)?;
    result("viscous share", bed.viscous(150.0) / (bed.viscous(150.0) + bed.inertial()))
}

/// Pressure lost by viscosity alone: 180 u (1-e)^2 v / (e^3 d^2) x depth.
///
/// As `grain_loss`. Source: Kozeny & Carman (textbook, from memory). No outside check: see `grain_loss`. Check: 1 mm, void 0.38, 10 mm/s, 0.1 m: 1122 Pa.
pub fn viscous_grain_loss(
    grain: Length,
    void: Share,
    speed: Speed,
    depth: Length,
    fluid: Fluid,
) -> Result<Pressure, OutOfRange> {
    let bed = Bed::new(grain, void, speed, depth, fluid)?;
    result("pressure lost", bed.viscous(180.0))
}

/// Reynolds number of a bed: density x speed x grain / (viscosity x (1 - void)).
///
/// As `grain_loss`. Source: by definition. Check: 1 mm, void 0.38, 10 mm/s: 18.07.
pub fn bed_reynolds(grain: Length, void: Share, speed: Speed, fluid: Fluid) -> Result<Share, OutOfRange> {
    let bed = Bed::new(grain, void, speed, Length::metres(0.0), fluid)?;
    result("Reynolds number", bed.density * bed.speed * bed.grain / (bed.viscosity * (1.0 - bed.void)))
}

/// Size to count with for broken grain: sphericity x sieve size.
///
/// Sieve size more than 0, sphericity more than 0, up to 1, for broken grain 0.6 to 0.8 (from memory); else `OutOfRange`. No outside check.
pub fn effective_grain(sieve: Length, sphericity: Share) -> Result<Length, OutOfRange> {
    let sieve = positive("sieve size", sieve)?;
    result("grain size", sieve * some_share("sphericity", sphericity)?)
}

/// Permeability of clean foam: c x cell^2.
///
/// 1 to 200 ppi; c 0.001 to 0.2, likely 0.02 (0.008 to 0.05, an estimate bounded by one orifice for each cell); else `OutOfRange`. Source: scaling of
/// Bhattacharya, Calmidi & Mahajan 2002 (abstract read). A factor 2.5 either way. Check: 10 ppi, 0.02: 1.29e-7 m2.
pub fn foam_permeability(ppi: PoreCount, c: Share) -> Result<Area, OutOfRange> {
    let cell = super::pore::cell(ppi)?.in_base();
    let c = within("permeability factor", c, Share::ratio(0.001), Share::ratio(0.2))?;
    result("permeability", c * cell * cell)
}

/// Pressure lost in clean foam: (u v / K + r F v^2 / sqrt(K)) x thickness.
///
/// Permeability more than 0, speed and thickness 0 or more, F 0 to 1, likely 0.09 (from memory); else `OutOfRange`. Squeezed foam closes fast: never
/// jam it in oversize. Source: Darcy and Forchheimer's form as in Mills 2005, J. Mater. Sci. 40:5845-5851 (abstract read). No outside check of c
/// and F. Check: 20 ppi, c 0.02, 20 mm/s, 5 cm: 3.8 mm of water.
pub fn foam_loss(
    permeability: Area,
    inertia: Share,
    speed: Speed,
    thickness: Length,
    fluid: Fluid,
) -> Result<Pressure, OutOfRange> {
    let (density, viscosity) = fluid.known()?;
    let k = positive("permeability", permeability)?;
    let f = super::range::share("inertia factor", inertia)?;
    let v = not_negative("speed", speed)?;
    let gradient = viscosity * v / k + density * f * v * v / k.sqrt();
    result("pressure lost", gradient * not_negative("foam thickness", thickness)?)
}
