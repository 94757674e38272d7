//! Rules' names for the calculations of heat, energy, money, noise and parcels.
//! In: areas, temperatures, powers, prices. Out: powers, times, masses, money. Knows no formula.

use crate::units::measure::{
    Area, Energy, EnergyPrice, HeatTransfer, Length, Mass, MassRate, Money, MoneyRate, ParcelDivisor, Power, Pressure,
    Share, SoundLevel, Temperature, Time, Volume, Warming,
};
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, PRACTICE, WORKED_OUT};
use crate::water::{cost, heat};

super::signatures! {
    "vapour pressure"("temperature" t: Temperature) -> Pressure
        = heat::vapour_pressure(t);
        MEMORY, "Buck 1981, revised 1996", "0.61121 exp((18.678 - t / 234.5) t / (257.14 + t)) kPa",
        "saturation vapour pressure of water";
    "heat loss under lid"("wall area" wall: Area, "glass" glass: Length, "top area" top: Area, "water temperature" tw: Temperature, "room temperature" ta: Temperature) -> Power
        = heat::lidded_loss(wall, glass, top, tw, ta);
        MEMORY, "Rsi of EN ISO 6946, glass of EN 572-1", "walls dT / (0.135 + glass) + top dT / 0.20",
        "standing heat loss of a tank with a lid, +-30 %";
    "heat loss without lid"("wall area" wall: Area, "glass" glass: Length, "top area" top: Area, "water temperature" tw: Temperature, "room temperature" ta: Temperature, "humidity" rh: Share) -> Power
        = heat::open_loss(wall, glass, top, tw, ta, rh);
        MEMORY, "as with lid; evaporation of ASHRAE HVAC Applications", "walls dT / (0.135 + glass) + 8 top dT + top (e(water) - humidity e(room)) x 44.5",
        "standing heat loss of an open tank, +-30 %";
    "evaporation"("top area" top: Area, "water temperature" tw: Temperature, "room temperature" ta: Temperature, "humidity" rh: Share) -> MassRate
        = heat::evaporation(top, tw, ta, rh);
        MEMORY, "ASHRAE HVAC Applications, activity 0.5", "top (e(water) - humidity e(room)) x 44.5 / 2.44 MJ/kg",
        "water that an open tank evaporates, +-30 %";
    "cooling by evaporation"("evaporation" evaporation: MassRate) -> Power
        = heat::cooling_by_evaporation(evaporation);
        FROM_MEMORY, "heat of evaporation", "evaporation x 2.44 MJ/kg",
        "heat that evaporating water takes away";
    "heater"("heat loss" loss: Power, "margin" margin: Share) -> Power
        = heat::heater(loss, margin);
        PRACTICE, "common practice", "loss x (1 + margin)",
        "heater for a standing loss";
    "warming time"("water" water: Volume, "rise" rise: Warming, "heater" heater: Power, "mean loss" loss: Power) -> Time
        = heat::warming_time(water, rise, heater, loss);
        WORKED_OUT, "heat balance", "water x 0.9971 x 4181 x rise / (heater - loss)",
        "time to warm a tank; refused where it never gets there";
    "ice"("water" water: Volume, "start" start: Temperature, "end" end: Temperature) -> Mass
        = heat::ice(water, start, end);
        WORKED_OUT, "heat balance", "water x 4.169 (start - end) / (333.55 + 4.19 end)",
        "ice in a sealed bag that cools a tank";
    "pump warming"("power into the water" power: Power, "outer surface" surface: Area, "heat transfer" transfer: HeatTransfer) -> Warming
        = heat::pump_warming(power, surface, transfer);
        FROM_MEMORY, "heat transfer 6 / 8 / 10 W/m2K, an estimate", "power / (surface x heat transfer)",
        "how much warmer a pump makes a tank";
    "energy used"("power" power: Power, "time" time: Time) -> Energy
        = cost::energy(power, time);
        WORKED_OUT, "by definition", "power x time",
        "energy of something that runs all the time";
    "energy cost"("energy" energy: Energy, "price" price: EnergyPrice) -> Money
        = cost::energy_cost(energy, price);
        WORKED_OUT, "by definition", "energy x price",
        "what energy costs";
    "running cost"("price" price: Money, "number" number: Share, "interval" interval: Time) -> MoneyRate
        = cost::running_cost(price, number, interval);
        WORKED_OUT, "arithmetic", "price x number / interval",
        "cost of something bought again and again";
    "payback time"("price" price: Money, "saved" saved: MoneyRate) -> Time
        = cost::payback(price, saved);
        WORKED_OUT, "arithmetic", "price / running cost saved",
        "time until a purchase has paid for what it replaces";
    "two sounds together"("first" first: SoundLevel, "second" second: SoundLevel) -> SoundLevel
        = cost::noise(&[first, second]);
        WORKED_OUT, "addition of powers", "10 log10(10^(a / 10) + 10^(b / 10))",
        "level in decibels of two independent sounds";
    "volumetric weight"("length" length: Length, "width" width: Length, "height" height: Length, "divisor" divisor: ParcelDivisor) -> Mass
        = cost::volumetric_weight(length, width, height, divisor);
        PRACTICE, "divisor 5000 cm3/kg", "length x width x height / divisor",
        "weight that a carrier counts for a parcel's size";
    "charged weight"("gross" gross: Mass, "volumetric" volumetric: Mass) -> Mass
        = cost::charged_weight(gross, volumetric);
        PRACTICE, "common practice", "max(gross, volumetric)",
        "weight that a carrier charges";
}
