//! Estimates of water chemistry: limits, factors, errors of tests.
//! In: nothing. Out: a table. Knows no formula.

use crate::units::measure::{Acidity, Concentration, Pressure, Share, Time};
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, PRACTICE, READ, SECOND_HAND, WORKED_OUT};

const NONE: &str = "from memory";
const TRADE: &str = "common practice";
const FLORIDA: &str = "University of Florida IFAS Extension FA16, read as reproduced";
const WHO: &str = "WHO Guidelines for drinking-water quality (2017, 2022)";
const EUROPE: &str = "EU Directive 2020/2184";

super::estimates! {
    "limit of un-ionised ammonia" = Concentration::milligrams_per_litre(0.01, 0.02, 0.02), MEMORY, "EIFAC Technical Paper 11 (1970): 0.025 as NH3", "as N; half for fry and soft-skinned fish (from memory)";
    "harmful un-ionised ammonia" = Concentration::milligrams_per_litre(0.05, 0.05, 0.05), SECOND_HAND, FLORIDA, "as N";
    "lethal un-ionised ammonia" = Concentration::milligrams_per_litre(2.0, 2.0, 2.0), SECOND_HAND, FLORIDA, "as N; near it deaths begin";
    "ceiling of nitrite" = Concentration::milligrams_per_litre(0.08, 0.3, 0.3), PRACTICE, TRADE, "as N, soft water poor in chloride; better the low one";
    "nitrate ceiling, hardy fish" = Concentration::milligrams_per_litre(50.0, 50.0, 50.0), PRACTICE, TRADE, "as NO3";
    "nitrate ceiling, fry, discus, shrimp" = Concentration::milligrams_per_litre(20.0, 20.0, 20.0), PRACTICE, TRADE, "as NO3";
    "nitrate ceiling, reef" = Concentration::milligrams_per_litre(10.0, 10.0, 10.0), PRACTICE, TRADE, "as NO3";
    "chloride to nitrite ratio" = Share::ratio(10.0, 33.0, 40.5), READ, "SRAC 462; Tomasso, Simco & Davis 1979 (abstract)", "by mass to N; not every fish is protected (Tomasso 1986)";
    "four-day over chronic criterion" = Share::ratio(2.5, 2.5, 2.5), SECOND_HAND, "US EPA 2013, EPA-822-R-13-001", "highest four-day mean within the thirty days";

    "tap limit of nitrate" = Concentration::milligrams_per_litre(50.0, 50.0, 50.0), MEMORY, "WHO Guidelines; EU Directive 2020/2184", "as NO3";
    "tap limit of nitrate, US" = Concentration::milligrams_per_litre(10.0, 10.0, 10.0), MEMORY, "40 CFR 141.62", "as N, 44.3 as NO3";
    "tap limit of nitrite" = Concentration::milligrams_per_litre(3.0, 3.0, 3.0), MEMORY, WHO, "as NO2";
    "tap limit of nitrite, European" = Concentration::milligrams_per_litre(0.50, 0.50, 0.50), MEMORY, EUROPE, "as NO2";
    "tap limit of nitrite, US" = Concentration::milligrams_per_litre(1.0, 1.0, 1.0), MEMORY, "40 CFR 141.62", "as N";
    "tap limit of chlorine or chloramine, US" = Concentration::milligrams_per_litre(4.0, 4.0, 4.0), SECOND_HAND, "40 CFR 141.65, value read at a state health authority", "as Cl2, running annual mean";

    "oxygen per nitrogen nitrified" = Share::ratio(4.18, 4.57, 4.57), WORKED_OUT, "stoichiometry; with growth Ebeling, Timmons & Bisogni 2006 (from memory)", "";
    "alkalinity per nitrogen nitrified" = Share::ratio(6.3, 7.1455, 7.4), WORKED_OUT, "stoichiometry; range measured in attached growth, US EPA 1975 as quoted in a thesis", "as CaCO3";
    "alkalinity per nitrogen nitrified, with growth" = Share::ratio(7.05, 7.05, 7.05), MEMORY, "Ebeling, Timmons & Bisogni 2006, Aquaculture 257:346-358", "as CaCO3";
    "alkalinity per nitrogen denitrified" = Share::ratio(-3.57, -3.57, -3.57), MEMORY, "stoichiometry", "as CaCO3; given back";
    "alkalinity nitrifiers need" = Concentration::milligrams_per_litre(40.0, 40.0, 40.0), SECOND_HAND, "Sandy 1987 as quoted in a thesis", "as CaCO3: 2.2 dKH";
    "most KH rise in a day" = Concentration::german_degrees(1.0, 1.0, 1.0), PRACTICE, TRADE, "";
    "carbon dioxide outdoors" = Pressure::microatmospheres(420.0, 420.0, 420.0), FROM_MEMORY, NONE, "";
    "carbon dioxide in lived-in rooms" = Pressure::microatmospheres(600.0, 900.0, 1200.0), FROM_MEMORY, NONE, "the middle is ours";
    "pH rise on airing that tells of surplus" = Acidity::ph(0.3, 0.3, 0.3), PRACTICE, TRADE, "a glass of tank water stirred for a day";
    "thiosulfate per chlorine" = Share::ratio(2.0, 2.0, 2.0), WORKED_OUT, "to tetrathionate, which covers every path", "mol per mol; 1 to sulfur, 1/4 to sulfate";
    "free chlorine gone from standing water" = Time::days(1.0, 1.0, 1.0), PRACTICE, TRADE, "aerated; chloramine stays";
    "air pressure by weather" = Share::ratio(0.03, 0.03, 0.03), FROM_MEMORY, NONE, "either way";

    "error of a drop test" = Share::ratio(0.25, 0.25, 0.25), FROM_MEMORY, NONE, "either way";
    "error of a colour strip" = Share::ratio(0.5, 0.5, 0.5), FROM_MEMORY, NONE, "either way";
    "error of a liquid pH kit" = Acidity::ph(0.2, 0.2, 0.2), FROM_MEMORY, NONE, "either way: a factor 1.6 in un-ionised ammonia";
    "error of a pH strip" = Acidity::ph(0.4, 0.4, 0.4), FROM_MEMORY, NONE, "either way";
    "error of a nitrate reading" = Concentration::milligrams_per_litre(5.0, 5.0, 5.0), FROM_MEMORY, NONE, "as NO3, of one reading in a missing-nitrogen test";
    "dose over by nominal volume" = Share::ratio(0.1, 0.2, 0.3), FROM_MEMORY, NONE, "too much when dosed by the printed size; the middle is ours";
    "copper in copper sulfate" = Share::ratio(0.2545, 0.2545, 0.2545), WORKED_OUT, "CuSO4.5H2O", "active share";
    "chloride in salt" = Share::ratio(0.6066, 0.6066, 0.6066), WORKED_OUT, "NaCl", "active share";
}
