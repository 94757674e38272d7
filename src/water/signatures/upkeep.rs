//! Rules' names for the calculations of cleaning, starting a filter and plant uptake.
//! In: dirt, flows, losses, capacities. Out: times, rates, levels. Knows no formula.

use crate::units::measure::{
    Area, ArealRate, Concentration, ConcentrationRate, Flow, MassRate, Rate, Share, Temperature, Time, Volume,
};
use crate::water::basis::grounds::{FROM_MEMORY, SECOND_HAND, WORKED_OUT};
use crate::water::course::{self, Start};
use crate::water::{cleaning, nitrate};

const GROWTH: &str = "Ekama & Wentzel in Henze et al. 2008, Biological Wastewater Treatment";

/// A start with a new dose on each day that ends below 0.25 mg/L.
fn start(temperature: Temperature, dose: Concentration, capacity: ConcentrationRate) -> Start {
    Start { temperature, dose, capacity, redose_below: Some(Concentration::milligrams_per_litre(0.25)) }
}

super::signatures! {
    "dirt load"("feed" feed: MassRate, "solids per feed" solids: Share, "caught share" caught: Share) -> MassRate
        = cleaning::dirt_load(feed, solids, caught);
        FROM_MEMORY, "solids of Timmons & Ebeling; share caught an estimate", "feed x solids x caught",
        "dry dirt that reaches mechanical media";
    "cleaning interval"("dirt holding" holding: Concentration, "media" media: Volume, "share let fill" filled: Share, "dirt load" load: MassRate) -> Time
        = cleaning::cleaning_interval(holding, media, filled, load);
        FROM_MEMORY, "holding 10 / 20 / 40 g/L, an estimate", "holding x media x share / load",
        "time between washes of mechanical media";
    "flow decline"("clean flow" clean: Flow, "later flow" later: Flow, "time" time: Time) -> Rate
        = cleaning::flow_decline(clean, later, time);
        WORKED_OUT, "algebra", "ln(clean / later) / time",
        "how fast the flow falls";
    "time to flow share"("flow decline" fall: Rate, "share of the clean flow" limit: Share) -> Time
        = cleaning::time_to_flow(fall, limit);
        WORKED_OUT, "algebra", "ln(1 / share) / decline",
        "time from a wash until the flow is down to a share of clean";
    "capacity after wash"("share lost" lost: Share, "margin" margin: Share) -> Share
        = cleaning::capacity_after_wash(lost, margin);
        FROM_MEMORY, "losses are estimates", "(1 - lost) x margin",
        "what a wash leaves of the capacity needed; 1 or more is enough";
    "recovery time"("capacity over need" left: Share, "doubling time" doubling: Time) -> Time
        = cleaning::recovery_time(left, doubling);
        FROM_MEMORY, "doubling 1 / 2 / 4 days in a film", "doubling time x log2(1 / left)",
        "time until nitrifiers keep up again";
    "time to capacity"("capacity now" now: ConcentrationRate, "capacity wanted" wanted: ConcentrationRate, "temperature" t: Temperature, "mean saturation" saturation: Share) -> Time
        = course::time_to_capacity(now, wanted, t, saturation);
        SECOND_HAND, GROWTH, "ln(wanted / now) / (0.45 x 1.123^(t - 20) x saturation - 0.04 x 1.029^(t - 20))",
        "time for a new filter to grow to a capacity; weeks, as a range";
    "capacity needed"("ammonia made" made: MassRate, "water" water: Volume) -> ConcentrationRate
        = course::capacity_needed(made, water);
        WORKED_OUT, "by definition", "ammonia made / water",
        "capacity that a stock will need";
    "starting ammonia"("temperature" t: Temperature, "dose" dose: Concentration, "capacity at the start" capacity: ConcentrationRate, "day" day: Share) -> Concentration
        = course::levels_on(start(t, dose, capacity), day).map(|levels| levels.ammonia);
        SECOND_HAND, GROWTH, "Monod growth of two steps, dosed again below 0.25 mg/L",
        "ammonia as N at the end of a day of a start without fish: the shape, not a forecast";
    "starting nitrite"("temperature" t: Temperature, "dose" dose: Concentration, "capacity at the start" capacity: ConcentrationRate, "day" day: Share) -> Concentration
        = course::levels_on(start(t, dose, capacity), day).map(|levels| levels.nitrite);
        SECOND_HAND, GROWTH, "Monod growth of two steps, dosed again below 0.25 mg/L",
        "nitrite as N at the end of a day of a start without fish";
    "starting nitrate"("temperature" t: Temperature, "dose" dose: Concentration, "capacity at the start" capacity: ConcentrationRate, "day" day: Share) -> Concentration
        = course::levels_on(start(t, dose, capacity), day).map(|levels| levels.nitrate);
        SECOND_HAND, GROWTH, "Monod growth of two steps, dosed again below 0.25 mg/L",
        "nitrate as N at the end of a day of a start without fish";
    "floating plant uptake"("covered area" covered: Area, "uptake" rate: ArealRate) -> MassRate
        = nitrate::floating_uptake(covered, rate);
        FROM_MEMORY, "0.03 / 0.12 / 0.40 g N/m2 a day in room light", "covered area x uptake",
        "nitrogen that floating plants take up";
    "planted tank uptake"("water" water: Volume, "uptake" rate: ConcentrationRate) -> MassRate
        = nitrate::planted_uptake(water, rate);
        FROM_MEMORY, "from memory", "water x uptake",
        "nitrogen that a planted tank takes up";
}
