//! Rules' names for the calculations of head loss, hoses, pumps, lips and clogging; water of 25 degC.
//! In: flows, sizes, heads. Out: heads, flows, shares. Knows no formula.

use crate::units::measure::{
    Area, Flow, Length, LinearLoss, PoreCount, Power, Pressure, Share, Speed, SquareLoss, Volume,
};
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, WORKED_OUT};
use crate::water::head_loss::{self, Fluid};
use crate::water::hose::{self, Hose};
use crate::water::pump::{self, System};
use crate::water::{clogging, weir};

const ERGUN: &str = "Ergun 1952";
const FRICTION: &str = "Darcy & Weisbach, Blasius (textbook)";

super::signatures! {
    "head of pressure"("pressure" pressure: Pressure) -> Length
        = head_loss::head(pressure, Fluid::WARM);
        WORKED_OUT, "by definition", "pressure / (997.05 x 9.80665)",
        "height of water that a pressure holds up";
    "grain bed loss"("grain size" grain: Length, "void" void: Share, "speed" speed: Speed, "depth" depth: Length) -> Pressure
        = head_loss::grain_loss(grain, void, speed, depth, Fluid::WARM);
        MEMORY, ERGUN, "(150 u (1 - e)^2 v / (e^3 d^2) + 1.75 r (1 - e) v^2 / (e^3 d)) x depth",
        "pressure lost over loose grains, +-50 %";
    "viscous grain bed loss"("grain size" grain: Length, "void" void: Share, "speed" speed: Speed, "depth" depth: Length) -> Pressure
        = head_loss::viscous_grain_loss(grain, void, speed, depth, Fluid::WARM);
        MEMORY, "Kozeny & Carman (textbook)", "180 u (1 - e)^2 v / (e^3 d^2) x depth",
        "the same by viscosity alone";
    "viscous share"("grain size" grain: Length, "void" void: Share, "speed" speed: Speed) -> Share
        = head_loss::viscous_share(grain, void, speed, Fluid::WARM);
        MEMORY, ERGUN, "viscous part / whole",
        "share of a bed's loss that comes from viscosity";
    "bed reynolds number"("grain size" grain: Length, "void" void: Share, "speed" speed: Speed) -> Share
        = head_loss::bed_reynolds(grain, void, speed, Fluid::WARM);
        WORKED_OUT, "by definition", "r v d / (u (1 - e))",
        "how turbulent the water is between grains";
    "effective grain"("sieve size" sieve: Length, "sphericity" sphericity: Share) -> Length
        = head_loss::effective_grain(sieve, sphericity);
        FROM_MEMORY, "sphericity 0.6 to 0.8 from memory", "sphericity x sieve size",
        "size to count with for broken grain";
    "foam permeability"("pores" ppi: PoreCount, "permeability factor" c: Share) -> Area
        = head_loss::foam_permeability(ppi, c);
        FROM_MEMORY, "factor 0.008 / 0.02 / 0.05, an estimate", "c x cell^2",
        "permeability of clean foam, a factor 2.5 either way";
    "foam loss"("permeability" k: Area, "inertia factor" f: Share, "speed" speed: Speed, "thickness" thickness: Length) -> Pressure
        = head_loss::foam_loss(k, f, speed, thickness, Fluid::WARM);
        crate::water::basis::grounds::READ, "form of Mills 2005, J. Mater. Sci. 40:5845-5851", "(u v / K + r F v^2 / sqrt(K)) x thickness",
        "pressure lost in clean foam";
    "hose speed"("flow" flow: Flow, "bore" bore: Length) -> Speed
        = hose::hose_speed(flow, Hose::smooth(bore, Length::metres(0.0), Share::ratio(0.0)));
        WORKED_OUT, "continuity", "flow / (pi / 4 bore^2)",
        "speed of the water in a hose";
    "hose reynolds number"("flow" flow: Flow, "bore" bore: Length) -> Share
        = hose::hose_reynolds(flow, Hose::smooth(bore, Length::metres(0.0), Share::ratio(0.0)), Fluid::WARM);
        WORKED_OUT, "by definition", "r v D / u",
        "above 2300 the flow in a hose is turbulent";
    "friction factor"("reynolds number" re: Share) -> Share
        = hose::friction_factor(re);
        MEMORY, "Poiseuille, Blasius (textbook)", "64 / Re below 2300, else 0.3164 / Re^0.25",
        "friction factor of a smooth hose";
    "hose head"("flow" flow: Flow, "bore" bore: Length, "length" length: Length, "fittings" fittings: Share, "roughness" roughness: Share) -> Length
        = hose::hose_head(flow, Hose { bore, length, fittings, roughness }, Fluid::WARM);
        MEMORY, FRICTION, "(f x roughness x length / bore + fittings) v^2 / 2g",
        "head lost in a hose with its fittings";
    "siphon speed"("level difference" difference: Length, "bore" bore: Length, "length" length: Length, "fittings" fittings: Share, "roughness" roughness: Share) -> Speed
        = hose::siphon_speed(difference, Hose { bore, length, fittings, roughness }, Fluid::WARM);
        MEMORY, FRICTION, "sqrt(2 g dh / (f length / bore + fittings))",
        "speed in a full siphon";
    "siphon flow"("level difference" difference: Length, "bore" bore: Length, "length" length: Length, "fittings" fittings: Share, "roughness" roughness: Share) -> Flow
        = hose::siphon_flow(difference, Hose { bore, length, fittings, roughness }, Fluid::WARM);
        MEMORY, FRICTION, "siphon speed x pi / 4 bore^2",
        "flow of a full siphon";
    "operating flow"("shut-off head" shutoff: Length, "free flow" free_flow: Flow, "lift" lift: Length, "linear loss" linear: LinearLoss, "square loss" square: SquareLoss) -> Flow
        = pump::operating_flow(System { shutoff, free_flow, lift, linear, square });
        WORKED_OUT, "algebra", "where H0 (1 - (Q / Qmax)^2) meets lift + a Q + b Q^2",
        "flow where pump and filter agree";
    "pump head"("shut-off head" shutoff: Length, "free flow" free_flow: Flow, "flow" flow: Flow) -> Length
        = pump::pump_head(shutoff, free_flow, flow);
        crate::water::basis::grounds::PRACTICE, "a parabola through both ends", "H0 (1 - (Q / Qmax)^2)",
        "head of a pump at a flow";
    "water power"("flow" flow: Flow, "head" head: Length) -> Power
        = pump::water_power(flow, head);
        WORKED_OUT, "by definition", "997.05 x 9.80665 x flow x head",
        "power that a lifted flow carries";
    "pump efficiency"("flow" flow: Flow, "head" head: Length, "mains power" mains: Power) -> Share
        = pump::efficiency(flow, head, mains);
        WORKED_OUT, "by definition", "water power / mains power",
        "share of the mains power that reaches the water as flow";
    "flow at speed"("flow" flow: Flow, "speed ratio" speed: Share) -> Flow
        = pump::at_speed(flow, Length::base(0.0), Power::base(0.0), speed).map(|(flow, _, _)| flow);
        WORKED_OUT, "affinity laws", "flow x ratio", "flow of a pump at another speed";
    "head at speed"("head" head: Length, "speed ratio" speed: Share) -> Length
        = pump::at_speed(Flow::base(0.0), head, Power::base(0.0), speed).map(|(_, head, _)| head);
        WORKED_OUT, "affinity laws", "head x ratio^2", "head of a pump at another speed";
    "power at speed"("power" power: Power, "speed ratio" speed: Share) -> Power
        = pump::at_speed(Flow::base(0.0), Length::base(0.0), power, speed).map(|(_, _, power)| power);
        WORKED_OUT, "affinity laws", "power x ratio^3", "power of a pump at another speed";
    "lip flow"("width" width: Length, "head" head: Length) -> Flow
        = weir::lip_flow(width, head);
        MEMORY, "sharp crest (textbook)", "2/3 x 0.62 sqrt(2 g) x width x head^1.5",
        "flow over a level lip, +-30 % at small heads";
    "notch flow"("width" width: Length, "head" head: Length) -> Flow
        = weir::notch_flow(width, head);
        MEMORY, "Francis", "1.84 (width - 0.2 head) head^1.5",
        "flow through a notch with two ends";
    "lip head"("flow" flow: Flow, "width" width: Length) -> Length
        = weir::lip_head(flow, width);
        MEMORY, "sharp crest (textbook)", "(flow / (1.83 width))^(2/3)",
        "head at which a level lip passes a flow";
    "standpipe flow"("bore" bore: Length, "head" head: Length) -> Flow
        = weir::standpipe(bore, head).map(|pipe| pipe.flow);
        FROM_MEMORY, "coefficients from memory", "min(1.62 pi bore head^1.5, 0.60 pi / 4 bore^2 sqrt(2 g head))",
        "flow down an open standpipe, +-30 %";
    "drain back"("tank surface" surface: Area, "depth" depth: Length, "pipes" pipes: Volume) -> Volume
        = weir::drain_back(surface, depth, pipes);
        WORKED_OUT, "geometry", "surface x depth + pipes",
        "water that falls into a sump when the pump stops";
    "room left in the sump"("free room" free: Volume, "drained back" back: Volume) -> Volume
        = weir::room_left(free, back);
        WORKED_OUT, "geometry", "free room - drained back",
        "below nothing the sump runs over";
    "grain permeability left"("void" void: Share, "share filled" filled: Share) -> Share
        = clogging::grain_permeability_left(void, filled);
        MEMORY, "Kozeny & Carman (textbook)", "(1 - s)^3 ((1 - e0) / (1 - e0 (1 - s)))^2",
        "permeability left in a bed of grains";
    "foam permeability left"("share filled" filled: Share) -> Share
        = clogging::foam_permeability_left(filled);
        FROM_MEMORY, "an estimate", "(1 - s)^3",
        "permeability left in foam";
    "dirty foam loss"("clean loss" clean: Length, "share filled" filled: Share) -> Length
        = clogging::dirty_foam_loss(clean, filled);
        FROM_MEMORY, "an estimate", "clean loss / (1 - s)^3",
        "head lost over dirty foam at the same flow";
    "share filled at bypass"("clean loss" clean: Length, "lip height" lip: Length) -> Share
        = clogging::share_at_bypass(clean, lip);
        FROM_MEMORY, "an estimate", "1 - (clean loss / lip)^(1/3)",
        "share of the foam's void that may fill before water goes past it";
}
