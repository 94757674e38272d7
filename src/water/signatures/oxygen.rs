//! Rules' names for the calculations of oxygen and of a power cut.
//! In: temperatures, masses, volumes. Out: concentrations, masses per time, times. Knows no formula.

use crate::units::measure::{
    Area, Concentration, ConcentrationRate, Flow, Length, Mass, MassRate, Pressure, Salinity, Share, Speed,
    Temperature, Time, Volume,
};
use crate::water::OutOfRange;
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, READ, WORKED_OUT};
use crate::water::oxygen;
use crate::water::power_cut::{self, StillTank, Until};

super::signatures! {
    "oxygen saturation"("temperature" t: Temperature, "salinity" salinity: Salinity, "air pressure" p: Pressure) -> Concentration
        = oxygen::saturation(t, salinity, p);
        READ, "Benson & Krause 1980, 1984, in the form of Standard Methods 4500-O", "exp(polynomial in 1/T and salinity) x pressure term",
        "oxygen of water in touch with moist air";
    "air pressure at altitude"("altitude" altitude: Length) -> Pressure
        = oxygen::pressure_at(altitude);
        MEMORY, "US Standard Atmosphere 1976", "(1 - 2.25577e-5 z)^5.25588 atm",
        "standard air pressure at an altitude";
    "fish oxygen"("fish mass" mass: Mass, "temperature" t: Temperature) -> MassRate
        = oxygen::fish_use(mass, t);
        READ, "Clarke & Johnston 1999, J. Anim. Ecol. 68:893-905", "exp(15.7 - 5020 / T) (m / 50)^0.80 mmol/h",
        "oxygen that one resting fish uses; sum over fish";
    "nitrification oxygen"("nitrogen" nitrogen: MassRate, "oxygen per nitrogen" factor: Share) -> MassRate
        = oxygen::nitrification_use(nitrogen, factor);
        WORKED_OUT, "stoichiometry; US EPA 1975", "nitrogen x 4.57",
        "oxygen that nitrification uses";
    "nitrified at most"("oxygen at the inlet" inlet: Concentration, "oxygen at the outlet" outlet: Concentration, "flow" flow: Flow, "oxygen per nitrogen" factor: Share) -> MassRate
        = oxygen::nitrified_at_most(inlet, outlet, flow, factor);
        WORKED_OUT, "mass balance", "(in - out) x flow / 4.57",
        "most nitrogen that a flow can nitrify with the oxygen it brings";
    "saturated share"("oxygen" measured: Concentration, "saturation" saturated: Concentration) -> Share
        = oxygen::saturated_share(measured, saturated);
        WORKED_OUT, "by definition", "oxygen / saturation",
        "how saturated the water is with oxygen";
    "settled oxygen"("water" water: Volume, "surface" surface: Area, "oxygen transfer" transfer: Speed, "oxygen used" used: MassRate, "saturation" saturation: Concentration) -> Concentration
        = power_cut::settled_oxygen(StillTank { water, surface, transfer, used, saturation });
        WORKED_OUT, "mass balance", "saturation - used / (transfer x surface)",
        "oxygen that a still tank settles at; below nothing: all will be used up";
    "time to oxygen"("water" water: Volume, "surface" surface: Area, "oxygen transfer" transfer: Speed, "oxygen used" used: MassRate, "saturation" saturation: Concentration, "start" start: Concentration, "limit" limit: Concentration) -> Time
        = power_cut::time_to_oxygen(StillTank { water, surface, transfer, used, saturation }, start, limit).and_then(|until| match until {
            Until::After(time) => Ok(time),
            Until::Never => Err(OutOfRange::between("oxygen limit", limit, saturation.in_base(), f64::INFINITY)),
        });
        WORKED_OUT, "mass balance", "-ln((limit - settled) / (start - settled)) x water / (transfer x surface)",
        "time until a still tank's oxygen is down to a limit; refused where it never is";
    "time to oxygen without surface"("water" water: Volume, "start" start: Concentration, "limit" limit: Concentration, "oxygen used" used: MassRate) -> Time
        = power_cut::time_without_surface(water, start, limit, used);
        WORKED_OUT, "mass balance", "water x (start - limit) / used",
        "the same with nothing coming in through the surface";
    "canister time"("water in the canister" water: Volume, "oxygen" level: Concentration, "media" media: Volume, "oxygen uptake" uptake: ConcentrationRate) -> Time
        = power_cut::canister_time(water, level, media, uptake);
        FROM_MEMORY, "uptake 1 / 5 / 20 mg per litre of media and hour, an estimate", "water x oxygen / (media x uptake)",
        "time until a stopped closed canister has used up its oxygen";
}
