//! Rules' names for the calculations of density, salinity and weight.
//! In: volumes, masses, temperatures. Out: masses, pressures, volumes. Knows no formula.

use crate::units::measure::{
    Area, Concentration, Length, Mass, Pressure, Salinity, Share, Temperature, Viscosity, Volume,
};
use crate::water::basis::grounds::{FROM_MEMORY, PRACTICE, READ, WORKED_OUT};
use crate::water::{density, packing, tank, weight};

const STATE: &str = "Millero & Poisson 1981 (UNESCO EOS-80)";

super::signatures! {
    "water density"("salinity" salinity: Salinity, "temperature" t: Temperature) -> Concentration
        = density::density(salinity, t);
        READ, STATE, "equation of state at one atmosphere",
        "density of water, fresh or salt";
    "water viscosity"("temperature" t: Temperature) -> Viscosity
        = density::viscosity(t);
        FROM_MEMORY, "within 1.2 % of IAPWS 2008", "2.414e-5 x 10^(247.8 / (T - 140))",
        "dynamic viscosity of fresh water";
    "specific gravity"("salinity" salinity: Salinity, "temperature" t: Temperature, "reference" reference: Temperature) -> Share
        = density::specific_gravity(salinity, t, reference);
        READ, STATE, "density / density of fresh water at the reference",
        "what a hydrometer shows";
    "salinity"("specific gravity" gravity: Share, "temperature" t: Temperature, "reference" reference: Temperature) -> Salinity
        = density::salinity_from_gravity(gravity, t, reference);
        READ, STATE, "specific gravity turned round",
        "salinity from a hydrometer";
    "water left"("base" base: Volume, "bed area" bed: Area, "bed depth" depth: Length, "porosity" porosity: Share, "stones" stones: Mass, "stone density" stone: Concentration) -> Volume
        = weight::water_left(base, bed, depth, porosity, stones, stone);
        WORKED_OUT, "arithmetic", "base - area x depth x (1 - porosity) - stones / density",
        "water left in a tank once gravel and stones are in";
    "pane mass"("length" length: Length, "width" width: Length, "height" height: Length, "glass" glass: Length, "pane density" pane: Concentration) -> Mass
        = weight::pane_mass(length, width, height, glass, pane);
        WORKED_OUT, "geometry", "(2 length height + 2 inner width height + bottom) x glass x density",
        "mass of an empty box-shaped tank";
    "tank mass"("panes" panes: Mass, "water" water: Volume, "water density" dense: Concentration, "bed volume" bed: Volume, "porosity" porosity: Share, "rest" rest: Mass) -> Mass
        = weight::filled_mass(panes, water, dense, bed, porosity, rest);
        WORKED_OUT, "arithmetic", "panes + water x density + bed x (1 - porosity) x 2650 kg/m3 + rest",
        "mass of a filled tank with stand and stones";
    "footprint pressure"("mass" mass: Mass, "length" length: Length, "width" width: Length) -> Pressure
        = weight::footprint_pressure(mass, length, width);
        WORKED_OUT, "by definition", "mass x 9.80665 / (length x width)",
        "mean pressure of a tank on its own footprint; never a verdict";
    "flooded media mass"("media" media: Volume, "bulk density" bulk: Concentration, "void" void: Share) -> Mass
        = packing::flooded_mass(media, bulk, void);
        WORKED_OUT, "arithmetic", "media x (bulk density + void x 997)",
        "mass of media with the water between its grains";
    "drained media mass"("media" media: Volume, "bulk density" bulk: Concentration, "void" void: Share, "grain void" grain: Share) -> Mass
        = packing::drained_mass(media, bulk, void, grain);
        WORKED_OUT, "arithmetic", "media x (bulk density + (1 - void) x grain void x 997)",
        "mass of media that keeps the water inside its grains";
    "likely glass"("water height" height: Length) -> Length
        = tank::likely_glass(height);
        PRACTICE, "common practice", "5, 6, 8, 11, 15 mm below 30, 40, 50, 60 cm and above",
        "glass a tank of a height likely has, when nobody has measured it";
}
