//! What a volume of media carries: its surface, the ammonia it takes, the feed and fish that make as much.
//! In: volumes, surfaces, rates. Out: areas, masses per time, masses. Knows no kind of medium by name.

use super::range::{OutOfRange, not_negative, positive, result, share, some_share, within};
use crate::units::measure::{
    Area, ArealRate, Concentration, Length, Mass, MassRate, Rate, Share, SpecificSurface, SurfacePerMass, Volume,
};

/// Surface that the water really reaches: volume x specific surface x `used` share.
///
/// All 0 or more, share up to 1: 0.8 behind a good pre-filter, 0.5 shared with dirt, 0.2 dirty (estimates); else `OutOfRange`.
/// Source: by definition. Check: 1 L at 1100 m2/m3, half used: 0.55 m2.
pub fn media_area(media: Volume, surface: SpecificSurface, used: Share) -> Result<Area, OutOfRange> {
    let media = not_negative("media", media)?;
    let surface = not_negative("specific surface", surface)?;
    result("media area", media * surface * share("used share of the surface", used)?)
}

/// Ammonia nitrogen a surface takes a day: area x rate.
///
/// Both 0 or more; else `OutOfRange`. Source: by definition; the rate carries the doubt. Check: 0.55 m2 at 0.107 g/m2/day: 58.9 mg N/day.
pub fn capacity(area: Area, rate: ArealRate) -> Result<MassRate, OutOfRange> {
    let area = not_negative("media area", area)?;
    result("capacity", area * not_negative("areal rate", rate)?)
}

/// Media needed to take so much ammonia nitrogen: made / (rate x specific surface x used).
///
/// Made 0 or more, the others more than 0; else `OutOfRange`. Source: `media_area` and `capacity` turned round.
/// Check: 7.496 g/day at 0.57 g/m2/day, 300 m2/m3, all used: 43.8 L (FAO Technical Paper 589, quoted from memory).
pub fn media_needed(
    made: MassRate,
    rate: ArealRate,
    surface: SpecificSurface,
    used: Share,
) -> Result<Volume, OutOfRange> {
    let area = area_needed(made, rate)?.in_base();
    let surface = positive("specific surface", surface)?;
    result("media", area / (surface * some_share("used share of the surface", used)?))
}

/// Surface needed to take so much ammonia nitrogen: made / rate.
///
/// Made 0 or more, rate more than 0; else `OutOfRange`. Source: by definition. Check: 7.496 g/day at 0.57 g/m2/day: 13.15 m2.
pub fn area_needed(made: MassRate, rate: ArealRate) -> Result<Area, OutOfRange> {
    let made = not_negative("ammonia made", made)?;
    result("media area", made / positive("areal rate", rate)?)
}

/// Feed whose ammonia a capacity takes: capacity / (protein x made per protein).
///
/// Capacity 0 or more; protein more than 0, up to 1; made per protein more than 0, up to 0.16, likely 0.092; else `OutOfRange`.
/// Source: Timmons & Ebeling's factor (quoted from memory) turned round. Check: 58.9 mg N/day at 40 %: 1.60 g a day.
pub fn feed_carried(capacity: MassRate, protein: Share, made: Share) -> Result<MassRate, OutOfRange> {
    let capacity = not_negative("capacity", capacity)?;
    let protein = some_share("protein share of the feed", protein)?;
    positive("ammonia made per protein", made)?;
    let made = within("ammonia made per protein", made, Share::ratio(0.0), Share::ratio(0.16))?;
    result("feed", capacity / (protein * made))
}

/// Fish that eat so much feed: feed / share of body mass fed a day.
///
/// Feed 0 or more, share more than 0, up to 0.5 a day; else `OutOfRange`. Source: by definition. Check: 1.6 g a day at 1 %: 160 g.
pub fn fish_carried(feed: MassRate, fed: Rate) -> Result<Mass, OutOfRange> {
    let feed = not_negative("feed", feed)?;
    positive("feed share per day", fed)?;
    let fed = within("feed share per day", fed, Rate::per_day(0.0), Rate::per_day(0.5))?;
    result("fish mass", feed / fed)
}

/// Tank that a filter carries: capacity / ammonia made per volume of water.
///
/// `load` as mass per volume and time (37 mg N/day in 100 L is 0.37 mg/L a day), more than 0; capacity 0 or more; else `OutOfRange`.
/// Give it as a range with the load assumed, never as one tank size. No outside check: a ratio.
pub fn tank_carried(capacity: MassRate, load: crate::units::measure::ConcentrationRate) -> Result<Volume, OutOfRange> {
    let capacity = not_negative("capacity", capacity)?;
    result("water", capacity / positive("ammonia made per water", load)?)
}

/// Surface per mass of medium: specific surface / bulk density.
///
/// Surface 0 or more, density more than 0; else `OutOfRange`. Source: by definition. Check: 400 m2/m3 at 500 kg/m3: 0.8 m2/kg.
pub fn surface_per_mass(surface: SpecificSurface, bulk: Concentration) -> Result<SurfacePerMass, OutOfRange> {
    let surface = not_negative("specific surface", surface)?;
    result("surface per mass", surface / positive("bulk density", bulk)?)
}

/// Specific surface of a bed of spheres: 6 (1 - void) / diameter.
///
/// Diameter more than 0, void 0 to 1; else `OutOfRange`. Source: geometry. Check: 10 mm, void 0.42: 348 m2/m3.
pub fn sphere_surface(diameter: Length, void: Share) -> Result<SpecificSurface, OutOfRange> {
    let d = positive("grain size", diameter)?;
    result("specific surface", 6.0 * (1.0 - share("void share", void)?) / d)
}

/// Specific surface of a bed of solid cylinders: (pi D L + pi D^2/2) / (pi D^2 L/4) x (1 - void).
///
/// Measures more than 0, void 0 to 1; else `OutOfRange`. Source: geometry. Check: 15 x 15 mm, void 0.40: 240 m2/m3.
pub fn cylinder_surface(diameter: Length, length: Length, void: Share) -> Result<SpecificSurface, OutOfRange> {
    let d = positive("grain size", diameter)?;
    let l = positive("grain length", length)?;
    result("specific surface", (4.0 / d + 2.0 / l) * (1.0 - share("void share", void)?))
}

/// A bed of rings: its specific surface, and the void that the bores add to the gaps between them.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RingBed {
    pub surface: SpecificSurface,
    pub void: Share,
}

/// A bed of rings packed with `gaps` (likely 0.40) between their outer envelopes: outside, bore and both ends count.
///
/// Measures more than 0, bore less than the outer diameter, gaps 0 to 1; else `OutOfRange`. Source: geometry.
/// Check: 10 x 10 mm, bore 5 mm, gaps 0.40: 450 m2/m3, void 0.55.
pub fn ring_bed(outer: Length, length: Length, bore: Length, gaps: Share) -> Result<RingBed, OutOfRange> {
    let d = positive("grain size", outer)?;
    let l = positive("grain length", length)?;
    let hole = positive("bore", bore)?;
    if hole >= d {
        return Err(OutOfRange::between("bore", bore, 0.0, d));
    }
    let gaps = share("share of the gaps", gaps)?;
    // Per envelope pi D^2 L/4: skins pi D L and pi B L, two end faces pi (D^2 - B^2)/4.
    let per_envelope = (4.0 * (d + hole) / (d * d)) + 2.0 * (1.0 - (hole / d).powi(2)) / l;
    Ok(RingBed {
        surface: result("specific surface", per_envelope * (1.0 - gaps))?,
        void: Share::ratio(gaps + (1.0 - gaps) * (hole / d).powi(2)),
    })
}
