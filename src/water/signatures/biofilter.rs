//! Rules' names for the calculations of nitrification and of oxygen in porous media.
//! In: rates, concentrations, areas. Out: rates, concentrations, lengths. Knows no formula.

use crate::units::measure::{
    Area, ArealRate, Concentration, ConcentrationRate, Diffusivity, Flow, Length, Mass, MassRate, Rate, Share, Speed,
    Temperature,
};
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, READ, WORKED_OUT};
use crate::water::{nitrification, porous, temperature_factor};

const MALONE: &str = "Malone et al. 2006, Aquacult. Eng. 34:214-223";
const PLUG_FLOW: &str = "plug flow, one well-mixed tank";
const ZERO_ORDER: &str = "zero-order uptake; Harremoes 1978";

super::signatures! {
    "temperature factor"("theta" theta: Share, "temperature" t: Temperature, "reference" reference: Temperature) -> Share
        = temperature_factor::temperature_factor(theta, t, reference);
        READ, "form of US EPA 1993, EPA/625/R-93/010; Zhu & Chen 2002; Hoang et al. 2014", "theta^(t - reference)",
        "what a temperature makes of a filter's rate";
    "arrhenius factor"("activation energy in kJ per mol" energy: Share, "temperature" t: Temperature) -> Share
        = temperature_factor::arrhenius_factor(energy, t);
        READ, "Vannecke & Volcke, supplement on nitrifying biofilm models", "exp(-E / R x (1/T - 1/293.15))",
        "the same for single cells: an upper bound";
    "linear areal rate"("rate constant" r1: Speed, "total ammonia" tan: Concentration, "theta" theta: Share, "temperature" t: Temperature) -> ArealRate
        = nitrification::linear_rate(r1, tan, theta, t);
        READ, MALONE, "r1 x total ammonia x temperature factor",
        "ammonia a surface takes, in proportion to what stands in the water";
    "monod areal rate"("greatest rate" greatest: ArealRate, "half-saturation" half: Concentration, "total ammonia" tan: Concentration, "theta" theta: Share, "temperature" t: Temperature) -> ArealRate
        = nitrification::monod_rate(greatest, half, tan, theta, t);
        FROM_MEMORY, "Monod's law, constants from memory", "greatest x S / (half + S) x temperature factor",
        "ammonia a surface takes, above 0.5 mg/L";
    "half-order areal rate"("rate at 1 mg/L" k: ArealRate, "total ammonia" tan: Concentration, "theta" theta: Share, "temperature" t: Temperature) -> ArealRate
        = nitrification::half_order_rate(k, tan, theta, t);
        MEMORY, "Harremoes 1978", "k x sqrt(S) x temperature factor",
        "ammonia a thick film takes, above 0.5 mg/L";
    "film ceiling"("diffusivity" d: Diffusivity, "total ammonia" tan: Concentration, "stagnant layer" layer: Length) -> ArealRate
        = nitrification::film_ceiling(d, tan, layer);
        WORKED_OUT, "Fick's law", "D x S / layer",
        "the most ammonia that diffusion brings to a surface";
    "areal rate"("rate constant" r1: Speed, "total ammonia" tan: Concentration, "theta" theta: Share, "temperature" t: Temperature, "diffusivity" d: Diffusivity, "stagnant layer" layer: Length) -> ArealRate
        = nitrification::areal_rate(r1, tan, theta, t, d, layer);
        READ, MALONE, "min(r1 x S x temperature factor, D x S / layer)",
        "ammonia a surface takes at home: the straight line, capped by diffusion";
    "transfer units"("rate constant" r1: Speed, "media area" area: Area, "flow" flow: Flow) -> Share
        = nitrification::transfer_units(r1, area, flow);
        WORKED_OUT, PLUG_FLOW, "r1 x area / flow",
        "under 0.3 the media sets the result, over 3 the flow";
    "single pass share"("rate constant" r1: Speed, "media area" area: Area, "flow" flow: Flow) -> Share
        = nitrification::single_pass_share(r1, area, flow);
        WORKED_OUT, PLUG_FLOW, "1 - exp(-r1 x area / flow)",
        "share of the ammonia taken out in one pass";
    "standing ammonia"("ammonia made" made: MassRate, "flow" flow: Flow, "media area" area: Area, "rate constant" r1: Speed) -> Concentration
        = nitrification::standing_ammonia(made, flow, area, r1);
        WORKED_OUT, PLUG_FLOW, "made / (flow x single pass share)",
        "total ammonia as N at which a filter settles";
    "oxygen depth"("diffusivity" d: Diffusivity, "oxygen at the skin" skin: Concentration, "oxygen uptake" uptake: ConcentrationRate) -> Length
        = porous::oxygen_depth(d, skin, uptake);
        WORKED_OUT, ZERO_ORDER, "sqrt(2 D S / k)",
        "how deep oxygen goes into a porous wall";
    "oxygen flux"("diffusivity" d: Diffusivity, "oxygen at the skin" skin: Concentration, "oxygen uptake" uptake: ConcentrationRate) -> ArealRate
        = porous::oxygen_flux(d, skin, uptake);
        WORKED_OUT, ZERO_ORDER, "sqrt(2 D S k)",
        "oxygen that goes into a porous wall";
    "oxygen depth from flux"("diffusivity" d: Diffusivity, "oxygen at the skin" skin: Concentration, "oxygen flux" flux: ArealRate) -> Length
        = porous::oxygen_depth_from_flux(d, skin, flux);
        WORKED_OUT, ZERO_ORDER, "2 D S / flux",
        "how deep oxygen goes when the flux is known";
    "largest aerobic grain"("diffusivity" d: Diffusivity, "oxygen at the skin" skin: Concentration, "oxygen uptake" uptake: ConcentrationRate) -> Length
        = porous::aerobic_sphere(d, skin, uptake);
        WORKED_OUT, ZERO_ORDER, "2 sqrt(6 D S / k)",
        "diameter of the largest grain that oxygen reaches to the middle";
    "oxygen-free core"("grain size" grain: Length, "diffusivity" d: Diffusivity, "oxygen at the skin" skin: Concentration, "oxygen uptake" uptake: ConcentrationRate) -> Length
        = porous::oxygen_free_core(grain, d, skin, uptake).map(|core| core.diameter);
        WORKED_OUT, ZERO_ORDER, "r in S = k / 6D (R^2 - 3 r^2 + 2 r^3 / R)",
        "diameter of the middle of a grain without oxygen";
    "oxygen-free share"("grain size" grain: Length, "diffusivity" d: Diffusivity, "oxygen at the skin" skin: Concentration, "oxygen uptake" uptake: ConcentrationRate) -> Share
        = porous::oxygen_free_core(grain, d, skin, uptake).map(|core| core.share);
        WORKED_OUT, ZERO_ORDER, "(core / grain)^3",
        "share of a grain's volume without oxygen";
    "aerobic shell"("grain size" grain: Length, "diffusivity" d: Diffusivity, "oxygen at the skin" skin: Concentration, "oxygen uptake" uptake: ConcentrationRate) -> Length
        = porous::oxygen_free_core(grain, d, skin, uptake).map(|core| core.shell);
        WORKED_OUT, ZERO_ORDER, "(grain - core) / 2",
        "thickness of a grain's shell that oxygen reaches";
    "removal asked of porous media"("fish mass" fish: Mass, "feed share per day" fed: Rate, "protein" protein: Share, "made per protein" made: Share, "media mass" media: Mass, "bulk density" bulk: Concentration, "grain share" grains: Share) -> ConcentrationRate
        = porous::porous_rule(fish, fed, protein, made, media, bulk, grains).map(|rule| rule.asked);
        WORKED_OUT, "mass balance", "ammonia made x bulk density / media mass",
        "nitrogen each volume of porous media would have to remove, for all of it to go";
    "oxygen uptake of porous media"("fish mass" fish: Mass, "feed share per day" fed: Rate, "protein" protein: Share, "made per protein" made: Share, "media mass" media: Mass, "bulk density" bulk: Concentration, "grain share" grains: Share) -> ConcentrationRate
        = porous::porous_rule(fish, fed, protein, made, media, bulk, grains).map(|rule| rule.uptake);
        WORKED_OUT, "stoichiometry, 4.569 g O2 per g N", "4.569 x ammonia made / grain volume",
        "oxygen that nitrification alone takes from the grains";
    "largest aerobic grain at a load"("fish mass" fish: Mass, "feed share per day" fed: Rate, "protein" protein: Share, "made per protein" made: Share, "media mass" media: Mass, "bulk density" bulk: Concentration, "grain share" grains: Share) -> Length
        = porous::porous_rule(fish, fed, protein, made, media, bulk, grains).map(|rule| rule.aerobic);
        WORKED_OUT, ZERO_ORDER, "2 sqrt(6 x 1e-9 m2/s x 7 mg/L / uptake)",
        "largest grain with oxygen to its middle at that load, clean";
    "largest dirty aerobic grain at a load"("fish mass" fish: Mass, "feed share per day" fed: Rate, "protein" protein: Share, "made per protein" made: Share, "media mass" media: Mass, "bulk density" bulk: Concentration, "grain share" grains: Share) -> Length
        = porous::porous_rule(fish, fed, protein, made, media, bulk, grains).map(|rule| rule.aerobic_dirty);
        WORKED_OUT, ZERO_ORDER, "2 sqrt(6 x 0.5e-9 m2/s x 7 mg/L / 2 uptake)",
        "the same for a dirtier grain";
    "denitrification demand"("nitrogen removed" nitrogen: MassRate, "yield" growth: Share) -> MassRate
        = porous::denitrification_demand(nitrogen, growth);
        WORKED_OUT, "five electrons per nitrate", "2.8555 x nitrogen / (1 - yield)",
        "organic matter that denitrification takes, as oxygen demand";
}
