//! Estimates of cleaning, washing losses, starting, power cuts, money.
//! In: nothing. Out: a table. Knows no formula.

use crate::units::measure::{
    Concentration, ConcentrationRate, HeatTransfer, Mass, ParcelDivisor, Rate, Share, Speed, Time,
};
use crate::water::basis::grounds::{FROM_MEMORY, PRACTICE, SECOND_HAND};

const NONE: &str = "from memory";
const TRADE: &str = "common practice";
const OURS: &str = "an estimate of our own";
const EKAMA: &str = "Ekama & Wentzel in Henze et al. 2008, Biological Wastewater Treatment";

super::estimates! {
    "dirt holding" = Concentration::grams_per_litre(10.0, 20.0, 40.0), FROM_MEMORY, OURS, "dry dirt per litre of mechanical foam";
    "share let fill" = Share::ratio(0.5, 0.5, 0.5), FROM_MEMORY, OURS, "before a wash";
    "caught share" = Share::ratio(0.4, 0.6, 0.7), FROM_MEMORY, OURS, "of the solids made";
    "flow share to clean at" = Share::ratio(0.7, 0.7, 0.7), PRACTICE, TRADE, "of clean flow, whichever is first";
    "time between washes, intake guard" = Time::days(2.0, 7.0, 7.0), PRACTICE, TRADE, "weekly; every few days with fry";
    "time between washes, floss" = Time::days(3.0, 7.0, 14.0), PRACTICE, TRADE, "the middle is ours";
    "time between washes, fine foam" = Time::days(7.0, 10.0, 14.0), PRACTICE, TRADE, "the middle is ours";
    "time between washes, coarse foam" = Time::days(21.0, 30.0, 42.0), PRACTICE, TRADE, "the middle is ours";
    "time between washes, canister" = Time::days(28.0, 56.0, 84.0), PRACTICE, TRADE, "the middle is ours";
    "time between washes, biological media" = Time::days(180.0, 180.0, 180.0), PRACTICE, TRADE, "when silted, about twice a year";
    "most bacterial media washed at once" = Share::ratio(0.333, 0.5, 0.5), PRACTICE, TRADE, "a third where heavily stocked; two weeks between";

    "lost by swishing in tank water" = Share::ratio(0.05, 0.1, 0.3), FROM_MEMORY, OURS, "of the nitrifying film; no refereed figure for home media was found";
    "lost by squeezing hard in tank water" = Share::ratio(0.2, 0.4, 0.6), FROM_MEMORY, OURS, "";
    "lost under the cold tap, brief" = Share::ratio(0.2, 0.5, 0.9), FROM_MEMORY, OURS, "0.2 to 1 mg/L of chlorine; running water takes film off too";
    "lost by soaking in tap water" = Share::ratio(0.4, 0.7, 0.95), FROM_MEMORY, OURS, "ten minutes and more, or chloramine";
    "lost by hot water, soap, bleach, drying" = Share::ratio(0.9, 1.0, 1.0), FROM_MEMORY, OURS, "";
    "doubling time of nitrifiers" = Time::days(1.0, 2.0, 4.0), FROM_MEMORY, NONE, "in a film at 25 degC";
    "growth rate of nitrifiers" = Rate::per_day(0.3, 0.45, 1.1), SECOND_HAND, EKAMA, "20 to 25 degC; the range is that of laboratories, from memory";
    "decay rate of nitrifiers" = Rate::per_day(0.04, 0.04, 0.04), SECOND_HAND, EKAMA, "20 degC";
    "half-saturation of growth" = Concentration::milligrams_per_litre(1.0, 1.0, 1.0), SECOND_HAND, EKAMA, "20 degC, N";
    "starting capacity, bare" = ConcentrationRate::milligrams_per_litre_day(1e-4, 1e-3, 1e-2), FROM_MEMORY, "a guess", "N; print weeks, as a range";
    "starting capacity, running media added" = ConcentrationRate::milligrams_per_litre_day(0.1, 0.1, 1.0), FROM_MEMORY, "a guess", "N; a handful gives 0.1 or more";
    "ammonia dose of a start" = Concentration::milligrams_per_litre(1.0, 2.0, 4.0), PRACTICE, TRADE, "as N; never above 4";

    "oxygen transfer of a still surface" = Speed::metres_per_hour(0.005, 0.01, 0.02), FROM_MEMORY, OURS, "";
    "oxygen uptake in a canister" = ConcentrationRate::milligrams_per_litre_hour(1.0, 5.0, 20.0), FROM_MEMORY, OURS, "per litre of media";
    "canister stopped, starts safely" = Time::hours(1.0, 1.0, 1.0), FROM_MEMORY, OURS, "under this: start";
    "canister stopped, must be opened" = Time::hours(2.0, 2.0, 2.0), FROM_MEMORY, OURS, "over this in warm water: open and rinse first";
    "oxygen that calls for action today" = Concentration::milligrams_per_litre(5.0, 5.0, 5.0), PRACTICE, TRADE, "";
    "oxygen that calls for action now" = Concentration::milligrams_per_litre(3.0, 3.0, 3.0), PRACTICE, TRADE, "";
    "oxygen lethal for many" = Concentration::milligrams_per_litre(2.0, 2.0, 2.0), PRACTICE, TRADE, "";
    "oxygen left for nitrifiers" = Concentration::milligrams_per_litre(4.0, 4.0, 4.0), FROM_MEMORY, NONE, "at a filter's outlet; below it they slow";

    "heat transfer of an open glass tank" = HeatTransfer::watts_per_square_metre_kelvin(6.0, 8.0, 10.0), FROM_MEMORY, OURS, "";
    "box and padding" = Mass::kilograms(0.2, 0.4, 0.6), FROM_MEMORY, OURS, "of a parcel; the middle is ours";
    "parcel divisor" = ParcelDivisor::cubic_centimetres_per_kilogram(4000.0, 5000.0, 6000.0), PRACTICE, TRADE, "";
    "foam life" = Time::years(2.0, 3.5, 5.0), PRACTICE, TRADE, "the middle is ours";
}
