//! Oxygen inside porous media, and what that means for the removal of nitrate.
//! In: diffusivity, oxygen at the skin, uptake; loads. Out: depths, cores, shares, rates asked. Knows no brand of claim.

use super::nitrogen_forms::NITROGEN;
use super::packing::media_volume;
use super::range::{OutOfRange, not_negative, positive, result, some_share};
use super::waste::{ammonia_from_feed, feed};
use crate::units::measure::{
    ArealRate, Concentration, ConcentrationRate, Diffusivity, Length, Mass, MassRate, Rate, Share, Volume,
};
use std::f64::consts::PI;

/// g of oxygen for each g of nitrogen nitrified in full: 2 O2, 63.996 / 14.007 = 4.569.
pub const OXYGEN_PER_NITROGEN: f64 = 63.996 / NITROGEN;

/// D x S and k in base units, all more than 0.
fn supply_and_uptake(d: Diffusivity, skin: Concentration, uptake: ConcentrationRate) -> Result<(f64, f64), OutOfRange> {
    let supply = positive("diffusivity", d)? * positive("oxygen at the skin", skin)?;
    Ok((supply, positive("oxygen uptake", uptake)?))
}

/// How deep oxygen goes into a slab that takes it up at a steady rate: sqrt(2 D S / k).
///
/// All more than 0; else `OutOfRange`. D in grains 1.0e-9 m2/s (0.5 to 1.7e-9), uptake 3 g/m3 an hour (0.5 to 20), both from memory.
/// Source: zero-order uptake, worked out (Harremoes 1978, quoted from memory). Check: 1e-9, 7 mg/L, 2 g/m3/h: 5.0 mm.
pub fn oxygen_depth(d: Diffusivity, skin: Concentration, uptake: ConcentrationRate) -> Result<Length, OutOfRange> {
    let (supply, k) = supply_and_uptake(d, skin, uptake)?;
    result("oxygen depth", (2.0 * supply / k).sqrt())
}

/// Oxygen that goes into such a slab per area: sqrt(2 D S k).
///
/// Inputs, errors and source as `oxygen_depth`. Check: 5e-10, 4 mg/L, 0.5 g/m3/h: 0.0644 g/m2/day.
pub fn oxygen_flux(d: Diffusivity, skin: Concentration, uptake: ConcentrationRate) -> Result<ArealRate, OutOfRange> {
    let (supply, k) = supply_and_uptake(d, skin, uptake)?;
    result("oxygen flux", (2.0 * supply * k).sqrt())
}

/// How deep oxygen goes when the flux into the slab is known instead: 2 D S / flux.
///
/// All more than 0; else `OutOfRange`. Source: `oxygen_depth` and `oxygen_flux` joined. Check: 5e-10, 4 mg/L, 0.0644 g/m2/day: 5.37 mm.
pub fn oxygen_depth_from_flux(d: Diffusivity, skin: Concentration, flux: ArealRate) -> Result<Length, OutOfRange> {
    let supply = positive("diffusivity", d)? * positive("oxygen at the skin", skin)?;
    result("oxygen depth", 2.0 * supply / positive("oxygen flux", flux)?)
}

/// Diameter of the largest sphere that oxygen reaches to the middle: 2 sqrt(6 D S / k).
///
/// Inputs, errors and source as `oxygen_depth`. Check: 1e-9, 7 mg/L, 10 g/m3/h: 7.8 mm.
pub fn aerobic_sphere(d: Diffusivity, skin: Concentration, uptake: ConcentrationRate) -> Result<Length, OutOfRange> {
    let (supply, k) = supply_and_uptake(d, skin, uptake)?;
    result("aerobic sphere", 2.0 * (6.0 * supply / k).sqrt())
}

/// The middle of a grain that oxygen does not reach.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Core {
    pub diameter: Length,
    pub shell: Length,
    /// Share of the grain's volume without oxygen.
    pub share: Share,
}

/// The core without oxygen of a porous sphere: r in S = k/(6D) (R^2 - 3 r^2 + 2 r^3/R); none when oxygen reaches the middle.
///
/// Grain size more than 0; else as `oxygen_depth`. Source: zero-order uptake, worked out; checked by integrating outwards (scipy).
/// Check: 25 mm, 1e-9, 7 mg/L, 10 g/m3/h: core 20.19 mm, 0.527 of the volume.
pub fn oxygen_free_core(
    grain: Length,
    d: Diffusivity,
    skin: Concentration,
    uptake: ConcentrationRate,
) -> Result<Core, OutOfRange> {
    let radius = positive("grain size", grain)? / 2.0;
    let (supply, k) = supply_and_uptake(d, skin, uptake)?;
    let reached = 6.0 * supply / (k * radius * radius);
    // With x = r/R the cubic 1 - 3x^2 + 2x^3 = reached is cos of a triple angle about x = 1/2.
    let x = if reached >= 1.0 {
        0.0
    } else {
        (0.5 + (((2.0 * reached - 1.0).acos() + 4.0 * PI) / 3.0).cos()).clamp(0.0, 1.0)
    };
    Ok(Core {
        diameter: result("core", 2.0 * radius * x)?,
        shell: result("shell", radius * (1.0 - x))?,
        share: Share::ratio(x * x * x),
    })
}

/// The rule of thumb "about 1 kg of porous media per 100 L", put to the numbers.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PorousRule {
    /// Nitrogen to be removed.
    pub nitrogen: MassRate,
    pub media: Volume,
    /// Removal that each volume of media would have to reach.
    pub asked: ConcentrationRate,
    /// Oxygen uptake of the grains from nitrification alone, spread evenly through them.
    pub uptake: ConcentrationRate,
    /// Largest grain that stays aerobic to the middle, for D 1.0e-9 m2/s and that uptake.
    pub aerobic: Length,
    /// The same for a dirtier grain: D 0.5e-9 m2/s and twice the uptake.
    pub aerobic_dirty: Length,
    /// Chemical oxygen demand that removing the nitrogen takes, with growth of the cells (yield 0.45).
    pub demand: MassRate,
    /// Chemical oxygen demand in the solids of the feed (0.25 g per g, 1.2 g per g of solids).
    pub supply: MassRate,
}

/// Puts a mass of porous media to the test of a load: what each litre would have to remove, and whether its grains can be anoxic at all.
///
/// All more than 0; feed share up to 0.5 a day; protein, made per protein and their ranges as for ammonia from feed; `grains` is the share
/// of the bulk that is grain, up to 1; else `OutOfRange`. 7 mg/L of oxygen at the skin. Source: worked out on estimates (yield,
/// solids from memory); no measurement in a home tank is known. Check: 50 g, 1 %, 40 %, 0.092, 1 kg at 450 kg/m3: 8.28 mg N/L a day asked,
/// grains up to 14.5 mm aerobic; a fed reactor reached 18.5 (Grommen, Verhaege & Verstraete 2005, read).
pub fn porous_rule(
    fish: Mass,
    fed: Rate,
    protein: Share,
    made: Share,
    media: Mass,
    bulk: Concentration,
    grains: Share,
) -> Result<PorousRule, OutOfRange> {
    positive("fish mass", fish)?;
    positive("feed share per day", fed)?;
    positive("media mass", media)?;
    positive("ammonia made per protein", made)?;
    some_share("protein share of the feed", protein)?;
    let feed = feed(fish, fed)?;
    let nitrogen = ammonia_from_feed(feed, protein, made)?;
    let volume = media_volume(media, bulk)?;
    let grain = volume.in_base() * some_share("grain share of the media", grains)?;
    let uptake = result("oxygen uptake", nitrogen.in_base() * OXYGEN_PER_NITROGEN / grain)?;
    let twice = result("oxygen uptake", 2.0 * ConcentrationRate::in_base(uptake))?;
    let skin = Concentration::milligrams_per_litre(7.0);
    let clean = Diffusivity::square_metres_per_second(1.0e-9);
    let dirty = Diffusivity::square_metres_per_second(0.5e-9);
    Ok(PorousRule {
        nitrogen,
        media: volume,
        asked: result("removal asked", nitrogen.in_base() / volume.in_base())?,
        uptake,
        aerobic: aerobic_sphere(clean, skin, uptake)?,
        aerobic_dirty: aerobic_sphere(dirty, skin, twice)?,
        demand: denitrification_demand(nitrogen, Share::ratio(0.45))?,
        supply: result("demand in the solids", feed.in_base() * 0.25 * 1.2)?,
    })
}

/// Chemical oxygen demand that denitrification takes: 2.8555 g per g N / (1 - yield); yield 0 is without growth, 0.45 likely (from memory).
///
/// Nitrogen 0 or more, yield 0 or more and less than 1; else `OutOfRange`. Source: five electrons per nitrate. Check: 1 g N: 2.86 g, 5.19 g.
pub fn denitrification_demand(nitrogen: MassRate, growth: Share) -> Result<MassRate, OutOfRange> {
    let nitrogen = not_negative("nitrogen removed", nitrogen)?;
    let growth_share = super::range::share("yield", growth)?;
    if growth_share >= 1.0 {
        return Err(OutOfRange::between("yield", growth, 0.0, 1.0));
    }
    result("oxygen demand", nitrogen * (39.9975 / NITROGEN) / (1.0 - growth_share))
}
