//! What media weighs and how much of it goes in: packing, bags, pressure of a layer.
//! In: volumes, densities, packing shares. Out: masses, volumes, counts, pressures. Knows no medium by name.

use super::range::{OutOfRange, not_negative, positive, result, share, some_share};
use crate::units::measure::{Concentration, Length, Mass, Pressure, Share, Volume};

/// Standard gravity, m/s2 (exact by definition).
pub const GRAVITY: f64 = 9.80665;
/// Density of water in the hydraulic formulae here, kg/m3: 25 degC.
pub const WATER_DENSITY: f64 = 997.05;

/// Mass of media that a space takes: space x bulk density x packing.
///
/// Space 0 or more, density more than 0, packing more than 0, up to 1: 1.00 loose and levelled, 0.87 (0.85 to 0.90) in net bags
/// (common practice); else `OutOfRange`. Source: by definition. Check: 3 L, 450 kg/m3: 1.35 kg loose, 1.1745 kg in bags.
pub fn media_mass(space: Volume, bulk: Concentration, packing: Share) -> Result<Mass, OutOfRange> {
    let bulk = positive("bulk density", bulk)?;
    result("media mass", packed_volume(space, packing)?.in_base() * bulk)
}

/// Media that a space takes: space x packing. The rest is gaps that let water pass.
///
/// Space 0 or more, packing more than 0, up to 1; else `OutOfRange`. Source: by definition. Check: 3 L at 0.87: 2.61 L.
pub fn packed_volume(space: Volume, packing: Share) -> Result<Volume, OutOfRange> {
    let space = not_negative("media space", space)?;
    result("media", space * some_share("packing", packing)?)
}

/// Space that a mass of media fills: mass / bulk density.
///
/// Mass 0 or more, density more than 0; else `OutOfRange`. Source: by definition. Check: 1 kg at 450 kg/m3: 2.22 L.
pub fn media_volume(mass: Mass, bulk: Concentration) -> Result<Volume, OutOfRange> {
    let mass = not_negative("media mass", mass)?;
    result("media", mass / positive("bulk density", bulk)?)
}

/// Whole bags for a need, and what is left over.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Bags {
    pub count: Share,
    pub left: Mass,
}

/// Whole bags for a need: need / size, rounded up; the quotient is first rounded to 9 places, so that an exact fit costs no bag more.
///
/// Need 0 or more, size more than 0, at most a million bags; else `OutOfRange`. Source: arithmetic. Check: 2.4 kg in 0.5 kg bags: 5, 0.1 kg left.
pub fn bags(need: Mass, size: Mass) -> Result<Bags, OutOfRange> {
    let need = not_negative("media needed", need)?;
    let size = positive("bag size", size)?;
    let quotient =
        super::range::within("number of bags", Share::ratio(need / size), Share::ratio(0.0), Share::ratio(1e6))?;
    let count = ((quotient * 1e9).round() / 1e9).ceil();
    Ok(Bags { count: Share::ratio(count), left: result("media left", (count * size - need).max(0.0))? })
}

/// Pressure of a layer under water on what lies below: (grain density - 997) x (1 - void) x g x depth; nothing if it floats.
///
/// Grain density includes the grain's own flooded pores; more than 0. Void 0 to 1, depth 0 or more; else `OutOfRange`. Source: buoyancy.
/// Check: 10 cm of gravel (2650 kg/m3, void 0.40): 973 Pa. Floss yields at a few hundred Pa, firm foam at 2 to 4 kPa (from memory).
pub fn layer_pressure(grain: Concentration, void: Share, depth: Length) -> Result<Pressure, OutOfRange> {
    let heavier = (positive("grain density", grain)? - 997.0).max(0.0);
    let solid = 1.0 - share("void share", void)?;
    result("layer pressure", heavier * solid * GRAVITY * not_negative("layer depth", depth)?)
}

/// Mass of flooded media with the water between its grains: volume x (bulk density + void x 997).
///
/// Volume 0 or more, bulk density (dry, loose) more than 0, void 0 to 1; else `OutOfRange`. Source: arithmetic. No outside check. Check: 3 L at 450
/// kg/m3, void 0.55: 3.0 kg.
pub fn flooded_mass(media: Volume, bulk: Concentration, void: Share) -> Result<Mass, OutOfRange> {
    let media = not_negative("media", media)?;
    let water = share("void share", void)? * WATER_DENSITY;
    result("media mass", media * (positive("bulk density", bulk)? + water))
}

/// Mass of drained media that keeps the water inside its grains: volume x (bulk density + (1 - void) x grain void x 997).
///
/// As `flooded_mass`; grain void (pores within the grain) 0 to 1; drained foam keeps 0.2 to 0.5 kg a litre (an estimate) and is not meant here.
/// Source: arithmetic. No outside check. Check: 1 L at 450 kg/m3, void 0.55, grain void 0.55: 0.70 kg.
pub fn drained_mass(media: Volume, bulk: Concentration, void: Share, grain_void: Share) -> Result<Mass, OutOfRange> {
    let media = not_negative("media", media)?;
    let grains = 1.0 - share("void share", void)?;
    let water = grains * share("void share of the grain", grain_void)? * WATER_DENSITY;
    result("media mass", media * (positive("bulk density", bulk)? + water))
}
