//! Rules' names for the calculations of media: surface, capacity, mass, bags.
//! In: volumes, surfaces, densities. Out: areas, masses, capacities. Knows no formula.

use crate::units::measure::{
    Area, ArealRate, Concentration, ConcentrationRate, Length, Mass, MassRate, PoreCount, Pressure, Rate, Share,
    SpecificSurface, SurfacePerMass, Volume,
};
use crate::water::basis::grounds::{MEMORY, PRACTICE, WORKED_OUT};
use crate::water::{media, packing, pore};

super::signatures! {
    "media area"("media" volume: Volume, "specific surface" surface: SpecificSurface, "used share" used: Share) -> Area
        = media::media_area(volume, surface, used);
        WORKED_OUT, "by definition", "media x specific surface x used share",
        "surface that the water really reaches";
    "media capacity"("media area" area: Area, "areal rate" rate: ArealRate) -> MassRate
        = media::capacity(area, rate);
        WORKED_OUT, "by definition", "area x areal rate",
        "ammonia nitrogen a surface takes a day";
    "media area needed"("ammonia made" made: MassRate, "areal rate" rate: ArealRate) -> Area
        = media::area_needed(made, rate);
        WORKED_OUT, "by definition", "made / areal rate",
        "surface that takes so much ammonia nitrogen";
    "media needed"("ammonia made" made: MassRate, "areal rate" rate: ArealRate, "specific surface" surface: SpecificSurface, "used share" used: Share) -> Volume
        = media::media_needed(made, rate, surface, used);
        WORKED_OUT, "by definition", "made / (areal rate x specific surface x used share)",
        "media that takes so much ammonia nitrogen";
    "feed carried"("capacity" capacity: MassRate, "protein" protein: Share, "made per protein" made: Share) -> MassRate
        = media::feed_carried(capacity, protein, made);
        MEMORY, "Timmons & Ebeling, Recirculating Aquaculture", "capacity / (protein x 0.092)",
        "feed a day whose ammonia a capacity takes";
    "fish carried"("feed" feed: MassRate, "feed share per day" fed: Rate) -> Mass
        = media::fish_carried(feed, fed);
        WORKED_OUT, "by definition", "feed / feed share",
        "fish that eat so much feed";
    "tank carried"("capacity" capacity: MassRate, "ammonia made per water" load: ConcentrationRate) -> Volume
        = media::tank_carried(capacity, load);
        WORKED_OUT, "by definition", "capacity / ammonia made per water",
        "water that a filter carries at a load";
    "surface per mass"("specific surface" surface: SpecificSurface, "bulk density" bulk: Concentration) -> SurfacePerMass
        = media::surface_per_mass(surface, bulk);
        WORKED_OUT, "by definition", "specific surface / bulk density",
        "surface that a mass of medium brings";
    "sphere surface"("grain size" grain: Length, "void" void: Share) -> SpecificSurface
        = media::sphere_surface(grain, void);
        WORKED_OUT, "geometry", "6 (1 - void) / size",
        "outer surface of a bed of round grains";
    "cylinder surface"("diameter" diameter: Length, "length" length: Length, "void" void: Share) -> SpecificSurface
        = media::cylinder_surface(diameter, length, void);
        WORKED_OUT, "geometry", "(4 / diameter + 2 / length) x (1 - void)",
        "outer surface of a bed of solid cylinders";
    "ring surface"("diameter" diameter: Length, "length" length: Length, "bore" bore: Length, "gaps" gaps: Share) -> SpecificSurface
        = media::ring_bed(diameter, length, bore, gaps).map(|bed| bed.surface);
        WORKED_OUT, "geometry", "(outside + bore + both ends) / envelope x (1 - gaps)",
        "outer surface of a bed of rings";
    "ring void"("diameter" diameter: Length, "length" length: Length, "bore" bore: Length, "gaps" gaps: Share) -> Share
        = media::ring_bed(diameter, length, bore, gaps).map(|bed| bed.void);
        WORKED_OUT, "geometry", "gaps + (1 - gaps) x (bore / diameter)^2",
        "void of a bed of rings, bores included";
    "foam cell"("pores" ppi: PoreCount) -> Length
        = pore::cell(ppi);
        WORKED_OUT, "by definition", "1 inch / pores per inch",
        "size of a foam's cells; a body as wide is kept out";
    "foam window"("pores" ppi: PoreCount, "window share" share: Share) -> Length
        = pore::window(ppi, share);
        crate::water::basis::grounds::FROM_MEMORY, "share of the cell from memory", "cell x 0.5",
        "size of the openings between cells; a narrower body passes";
    "coarsest foam"("body width" width: Length) -> PoreCount
        = pore::coarsest_foam(width);
        WORKED_OUT, "by definition", "1 inch / width",
        "fewest pores per inch that keep out a body of a width";
    "foam strut"("pores" ppi: PoreCount, "void" void: Share) -> Length
        = pore::strut(ppi, void);
        MEMORY, "Calmidi 1998, for metal foam", "1.18 sqrt((1 - void) / 3 pi) / (1 - exp(-(1 - void) / 0.04)) x cell",
        "thickness of a foam's struts";
    "foam surface"("pores" ppi: PoreCount, "void" void: Share) -> SpecificSurface
        = pore::foam_surface(ppi, void);
        MEMORY, "Calmidi 1998, for metal foam", "4 (1 - void) / strut",
        "surface of clean foam";
    "media mass"("space" space: Volume, "bulk density" bulk: Concentration, "packing" packing_share: Share) -> Mass
        = packing::media_mass(space, bulk, packing_share);
        PRACTICE, "packing: common practice", "space x bulk density x packing",
        "mass of media that a space takes";
    "packed media"("space" space: Volume, "packing" packing_share: Share) -> Volume
        = packing::packed_volume(space, packing_share);
        PRACTICE, "packing: common practice", "space x packing",
        "media that a space takes, loose or in bags";
    "media volume"("media mass" mass: Mass, "bulk density" bulk: Concentration) -> Volume
        = packing::media_volume(mass, bulk);
        WORKED_OUT, "by definition", "mass / bulk density",
        "space that a mass of media fills";
    "bags"("need" need: Mass, "bag size" size: Mass) -> Share
        = packing::bags(need, size).map(|bags| bags.count);
        WORKED_OUT, "arithmetic", "ceil(need / size)",
        "whole bags for a need";
    "left in bags"("need" need: Mass, "bag size" size: Mass) -> Mass
        = packing::bags(need, size).map(|bags| bags.left);
        WORKED_OUT, "arithmetic", "bags x size - need",
        "what is left over of whole bags";
    "layer pressure"("grain density" grain: Concentration, "void" void: Share, "depth" depth: Length) -> Pressure
        = packing::layer_pressure(grain, void, depth);
        WORKED_OUT, "buoyancy", "(grain density - 997) x (1 - void) x 9.81 x depth",
        "pressure of a layer under water on what lies below it";
}
