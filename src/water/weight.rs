//! Weight of a filled tank, what gravel and stones take of its water, and what stands on the floor.
//! In: measures, volumes, densities. Out: masses, volumes, pressures. Knows no floor and gives no verdict.

use super::packing::GRAVITY;
use super::range::{OutOfRange, not_negative, positive, result, share};
use crate::units::measure::{Area, Concentration, Length, Mass, Pressure, Share, Volume};

/// Water left in a tank once a bed and stones are in: base - bed area x depth x (1 - porosity) - stones / their density.
///
/// Base more than 0; the others 0 or more; porosity 0 to 1: gravel and sand 0.40 (0.35 to 0.45), lava or baked clay 0.5 to 0.6 (from memory);
/// stone density more than 0; a result that is not more than 0 is refused too: `OutOfRange`. Source: arithmetic. Check: 46 L, 1711 cm2 x 5 cm,
/// porosity 0.4: 40.87 L.
pub fn water_left(
    base: Volume,
    bed: Area,
    depth: Length,
    porosity: Share,
    stones: Mass,
    stone_density: Concentration,
) -> Result<Volume, OutOfRange> {
    let base = positive("water", base)?;
    let bed = not_negative("bed area", bed)? * not_negative("bed depth", depth)?;
    let grains = bed * (1.0 - share("porosity of the bed", porosity)?);
    let rock = not_negative("mass of stones", stones)? / positive("density of stones", stone_density)?;
    positive("water left", Volume::base(base - grains - rock)).map(Volume::base)
}

/// Mass of the panes of a box: four sides standing beside a bottom let in between them.
///
/// Measures more than 0, glass less than half of length and width; density more than 0: glass 2500 kg/m3 (EN 572-1, quoted from memory),
/// acrylic 1190; else `OutOfRange`. Source: geometry, 0.5 % for how the panes meet. Check: 60 x 30 x 30 cm, 5 mm: 8.8 kg.
pub fn pane_mass(
    length: Length,
    width: Length,
    height: Length,
    glass: Length,
    density: Concentration,
) -> Result<Mass, OutOfRange> {
    let (l, w) = (positive("tank length", length)?, positive("tank width", width)?);
    let h = positive("tank height", height)?;
    let g = positive("glass thickness", glass)?;
    let inner_l = positive("tank length", Length::metres(l - 2.0 * g))?;
    let inner_w = positive("tank width", Length::metres(w - 2.0 * g))?;
    let area = 2.0 * l * h + 2.0 * inner_w * h + inner_l * inner_w;
    result("mass of the panes", area * g * positive("pane density", density)?)
}

/// Mass of a filled tank: panes + water x its density + bed x (1 - porosity) x 2650 kg/m3 + the rest (stand, lid, stones).
///
/// All 0 or more, porosity 0 to 1, water density more than 0; else `OutOfRange`. `water` already holds the water between the grains: it is not
/// counted twice. Source: arithmetic; quartz 2650 kg/m3 (handbook value, from memory). Check: 60 x 30 x 30 cm, 46.2 L: 54.9 kg.
pub fn filled_mass(
    panes: Mass,
    water: Volume,
    water_density: Concentration,
    bed: Volume,
    porosity: Share,
    rest: Mass,
) -> Result<Mass, OutOfRange> {
    const QUARTZ: f64 = 2650.0;
    let panes = not_negative("mass of the panes", panes)?;
    let water = not_negative("water", water)? * positive("water density", water_density)?;
    let bed = not_negative("bed volume", bed)? * (1.0 - share("porosity of the bed", porosity)?) * QUARTZ;
    result("mass of the tank", panes + water + bed + not_negative("mass of the rest", rest)?)
}

/// Mean pressure of a mass on its own footprint: mass x g / (length x width).
///
/// Mass 0 or more, measures more than 0; else `OutOfRange`. Nearly every tank exceeds the mean load of a room on its own footprint and most
/// stand safely: never a verdict. Source: by definition. Check: 62 kg on 60 x 30 cm: 3.378 kPa (kN/m2).
pub fn footprint_pressure(mass: Mass, length: Length, width: Length) -> Result<Pressure, OutOfRange> {
    let mass = not_negative("mass", mass)?;
    let area = positive("length of the footprint", length)? * positive("width of the footprint", width)?;
    result("pressure on the floor", mass * GRAVITY / area)
}
