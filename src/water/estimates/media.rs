//! Estimates of biofilters, foam and porous grains.
//! In: nothing. Out: a table. Knows no kind of medium: their figures stand in the book.

use crate::units::measure::{
    ArealRate, Concentration, ConcentrationRate, Diffusivity, Length, PoreCount, Pressure, Share, SpecificSurface,
    Speed, Time,
};
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, PRACTICE, READ, SECOND_HAND, WORKED_OUT};

const NONE: &str = "from memory";
const TRADE: &str = "common practice";
const OURS: &str = "an estimate of our own";
const ZHU: &str = "Zhu & Chen 2002, Aquacult. Eng. 26:221-237";
const SALVETTI: &str = "Salvetti et al. 2006, Water Res. 40:2981-2993";

super::estimates! {
    "rate constant r1" = Speed::metres_per_day(0.3, 0.8, 1.5), FROM_MEMORY, OURS, "ammonia removed per area and concentration at 20 degC, below 0.5 to 1 mg N/L";
    "diffusivity of ammonium" = Diffusivity::square_metres_per_second(1.96e-9, 1.96e-9, 1.96e-9), FROM_MEMORY, NONE, "25 degC";
    "stagnant layer" = Length::micrometres(50.0, 100.0, 200.0), FROM_MEMORY, NONE, "on a surface in a filter; the thinner the higher the ceiling";
    "greatest areal rate" = ArealRate::grams_per_square_metre_day(0.5, 0.9, 1.5), FROM_MEMORY, NONE, "Monod, above 0.5 mg N/L";
    "half-saturation" = Concentration::milligrams_per_litre(0.3, 0.5, 1.5), FROM_MEMORY, NONE, "Monod, N";
    "half-order areal rate" = ArealRate::grams_per_square_metre_day(0.5, 0.5, 0.5), FROM_MEMORY, NONE, "at 1 mg N/L; not below 0.5";
    "areal rate at 0.1 mg/L, 25 degC" = ArealRate::grams_per_square_metre_day(0.04, 0.11, 0.17), FROM_MEMORY, OURS, "what a surface takes at home, N";
    "areal rate at 0.25 mg/L, 25 degC" = ArealRate::grams_per_square_metre_day(0.10, 0.27, 0.42), FROM_MEMORY, OURS, "at an alarm, N";
    "areal rate of a design manual" = ArealRate::grams_per_square_metre_day(0.47, 0.47, 0.47), MEMORY, "Somerville et al. 2014, FAO Technical Paper 589", "N (0.57 g NH3); farm figures hold at 1 to 3 mg/L only";
    "areal rate of a school system" = ArealRate::grams_per_square_metre_day(0.58, 0.58, 0.58), SECOND_HAND, "Cline 2005, SRAC 4501", "N, at 1 to 3 mg/L; conversion ours";
    "areal rate, warm farms" = ArealRate::grams_per_square_metre_day(0.2, 0.3, 1.0), MEMORY, "Timmons & Ebeling, Recirculating Aquaculture", "N, at 1 to 2 mg/L; 0.3 is usual for moving beds";

    "theta of a grown filter" = Share::ratio(1.02, 1.06, 1.09), FROM_MEMORY, "fitted between published films, read", "everywhere for the capacity of a grown filter; reference 20 degC";
    "theta, suspended growth" = Share::ratio(1.103, 1.103, 1.103), MEMORY, "US EPA 1993, EPA/625/R-93/010", "reference 15 degC; for comparison";
    "theta, oxygen limits the film" = Share::ratio(1.011, 1.011, 1.011), READ, ZHU, "at 20 degC; for comparison";
    "theta, ammonia limits the film" = Share::ratio(1.043, 1.043, 1.043), READ, ZHU, "at 20 degC; for comparison";
    "theta, intrinsic, ammonia-limited" = Share::ratio(1.086, 1.098, 1.109), READ, SALVETTI, "for comparison";
    "theta, intrinsic, oxygen-limited" = Share::ratio(1.023, 1.058, 1.081), READ, SALVETTI, "for comparison";
    "activation energy of nitrifying cells" = Share::ratio(68.0, 68.0, 68.0), READ, "Vannecke & Volcke, supplement on nitrifying biofilm models", "kJ/mol; an upper bound for films";
    "factor of pH 6.5" = Share::ratio(0.5, 0.6, 0.7), FROM_MEMORY, NONE, "on the capacity; 1 from pH 7 to 8.5; the middle is ours";
    "factor of pH 6.0" = Share::ratio(0.1, 0.25, 0.4), FROM_MEMORY, NONE, "slows, does not stop; the middle is ours";
    "factor of little oxygen" = Share::ratio(0.5, 0.5, 0.5), FROM_MEMORY, NONE, "below 2 mg/L in the water leaving the media";
    "factor of sudden salt" = Share::ratio(0.5, 0.5, 0.5), FROM_MEMORY, NONE, "5 g/L at once";
    "factor of dirt in the water" = Share::ratio(0.5, 0.7, 0.7), READ, "Michaud et al. 2006, Aquacult. Eng. 34:224-233", "-30 % at C/N 0.5, -50 % above, at 2 mg/L: mechanical before biological";
    "time to a grown filter" = Time::days(21.0, 31.0, 42.0), PRACTICE, TRADE, "untouched at 25 degC; twice that at 15; the middle is ours";
    "time to a grown filter, seeded" = Time::days(7.0, 10.0, 14.0), PRACTICE, TRADE, "with a good share of running media; days when all of it is moved; the middle is ours";

    "used share of the surface" = Share::ratio(0.2, 0.5, 0.8), FROM_MEMORY, OURS, "dirty; shared with dirt; behind a good pre-filter";
    "surface outside the filter" = SpecificSurface::square_metres_per_cubic_metre(5.0, 15.0, 30.0), FROM_MEMORY, OURS, "per volume of water: glass, floor, stones, plants; the middle is ours";
    "ammonia made per water" = ConcentrationRate::milligrams_per_litre_day(0.037, 0.18, 1.1), FROM_MEMORY, OURS, "N; 20, 50, 150 g of fish per 100 L at 0.5, 1, 2 % and 40 % protein";
    "honest share of the tank printed on a filter" = Share::ratio(0.25, 0.5, 0.7), PRACTICE, TRADE, "";
    "foam surface per pore count" = Share::ratio(25.0 * 0.0254, 40.0 * 0.0254, 50.0 * 0.0254), WORKED_OUT, "geometry of struts; Calmidi 1998 for metal foam, from memory", "25, 40, 50 m2/m3 for each pore per inch; 21 to 50 between models";
    "foam grade error" = PoreCount::per_inch(5.0, 5.0, 5.0), READ, "a design report of 1964", "either way in most grades";

    "diffusivity of oxygen in water" = Diffusivity::square_metres_per_second(2.1e-9, 2.1e-9, 2.1e-9), FROM_MEMORY, NONE, "25 degC; in a film 0.6 to 0.8 of it";
    "diffusivity of oxygen in grains" = Diffusivity::square_metres_per_second(0.5e-9, 1.0e-9, 1.7e-9), FROM_MEMORY, NONE, "sintered, by void and windings";
    "oxygen uptake of grains" = ConcentrationRate::grams_per_cubic_metre_hour(0.5, 3.0, 20.0), FROM_MEMORY, OURS, "per volume of grain; dirty 50 and more";
    "oxygen at the skin of grains" = Concentration::milligrams_per_litre(7.0, 7.0, 7.0), FROM_MEMORY, OURS, "well aired water";
    "denitrification yield" = Share::ratio(0.45, 0.45, 0.45), FROM_MEMORY, NONE, "g COD of cells per g COD eaten";
    "nitrate removed at 1 kg per 100 L" = Share::ratio(0.0, 0.1, 0.4), FROM_MEMORY, OURS, "share of what is made, likely load; no measurement in home tanks was found";
    "nitrate removed at 1 kg per 100 L, heavy load" = Share::ratio(0.0, 0.05, 0.15), FROM_MEMORY, OURS, "share of what is made";
    "porous media per 100 L for nitrate" = Concentration::kilograms_per_cubic_metre(10.0, 10.0, 10.0), PRACTICE, TRADE, "about 1 kg of porous sintered media per 100 L; plausible in a narrow band only";
    "removal of a fed reactor" = ConcentrationRate::milligrams_per_litre_day(18.5, 18.5, 36.0), READ, "Grommen, Verhaege & Verstraete 2005", "N per volume of reactor, hydrogen-fed, on aquaria; for comparison";

    "packing loose" = Share::ratio(1.0, 1.0, 1.0), PRACTICE, TRADE, "tapped and levelled";
    "packing in net bags" = Share::ratio(0.85, 0.87, 0.90), PRACTICE, TRADE, "bags lose 10 to 15 %";
    "space lost to ribs" = Share::ratio(0.05, 0.075, 0.10), FROM_MEMORY, OURS, "of a basket; measure with a jug of water";
    "sphericity of broken grain" = Share::ratio(0.6, 0.7, 0.8), FROM_MEMORY, NONE, "times the sieve size";
    "foam oversize for a seal" = Length::millimetres(3.0, 4.0, 5.0), FROM_MEMORY, OURS, "each way, no more";
    "coarse foam thickness" = Length::millimetres(20.0, 30.0, 50.0), FROM_MEMORY, OURS, "8 to 15 ppi, first in the path; 0.2 to 0.35 of the space";
    "medium foam thickness" = Length::millimetres(20.0, 30.0, 50.0), FROM_MEMORY, OURS, "18 to 25 ppi; 0.15 to 0.3 of the space";
    "fine pad thickness" = Length::millimetres(0.0, 10.0, 20.0), FROM_MEMORY, OURS, "0 to 0.08 of the space";
    "biological share of the space" = Share::ratio(0.4, 0.5, 0.6), FROM_MEMORY, OURS, "the rest of a basket; the middle is ours";
    "chemical share of the space" = Share::ratio(0.0, 0.0, 0.15), FROM_MEMORY, OURS, "for a purpose only, dated";
    "floss yields at" = Pressure::pascals(200.0, 300.0, 500.0), FROM_MEMORY, NONE, "a few hundred Pa";
    "firm foam yields at" = Pressure::kilopascals(2.0, 3.0, 4.0), FROM_MEMORY, NONE, "squeezed by a quarter; the middle is ours";
    "water kept by drained foam" = Concentration::kilograms_per_litre(0.2, 0.35, 0.5), FROM_MEMORY, OURS, "per litre of foam; the middle is ours";
    "order on top" = Share::ratio(0.10, 0.10, 0.10), PRACTICE, TRADE, "for settling and loss";
}
