//! Estimates of tanks, beds, stones, floors and heating.
//! In: nothing. Out: a table. Knows no formula.

use crate::units::measure::{Concentration, Length, Mass, Pressure, Share, Warming};
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, PRACTICE, SECOND_HAND};

const NONE: &str = "from memory";
const TRADE: &str = "common practice";

super::estimates! {
    "share of the nominal volume" = Share::ratio(0.75, 0.85, 0.95), PRACTICE, TRADE, "water really in a tank sold by its outer size";
    "gap under the rim" = Length::centimetres(2.0, 3.0, 4.0), PRACTICE, TRADE, "when unsaid; the middle is ours";
    "glass below 30 cm of water" = Length::millimetres(4.0, 5.0, 5.0), PRACTICE, TRADE, "acrylic a little thicker";
    "glass below 40 cm of water" = Length::millimetres(6.0, 6.0, 6.0), PRACTICE, TRADE, "";
    "glass below 50 cm of water" = Length::millimetres(8.0, 8.0, 8.0), PRACTICE, TRADE, "";
    "glass below 60 cm of water" = Length::millimetres(10.0, 11.0, 12.0), PRACTICE, TRADE, "the middle is ours";
    "glass above 60 cm of water" = Length::millimetres(12.0, 15.0, 19.0), PRACTICE, TRADE, "the middle is ours";
    "mean depth of a bowl-shaped pond" = Share::ratio(0.6, 0.7, 0.8), FROM_MEMORY, NONE, "of its greatest depth; ask; the middle is ours";
    "porosity of gravel" = Share::ratio(0.35, 0.40, 0.45), PRACTICE, TRADE, "";
    "porosity of sand" = Share::ratio(0.40, 0.40, 0.40), PRACTICE, TRADE, "";
    "porosity of lava or baked clay" = Share::ratio(0.5, 0.55, 0.6), FROM_MEMORY, NONE, "holds water inside the grain too; the middle is ours";
    "density of quartz or granite" = Concentration::kilograms_per_cubic_metre(2650.0, 2650.0, 2650.0), FROM_MEMORY, "handbook value", "";
    "density of slate" = Concentration::kilograms_per_cubic_metre(2700.0, 2700.0, 2700.0), FROM_MEMORY, NONE, "";
    "density of lava" = Concentration::kilograms_per_cubic_metre(900.0, 1500.0, 2000.0), FROM_MEMORY, NONE, "";
    "density of waterlogged wood" = Concentration::kilograms_per_cubic_metre(1100.0, 1100.0, 1100.0), FROM_MEMORY, NONE, "";
    "density of glass" = Concentration::kilograms_per_cubic_metre(2500.0, 2500.0, 2500.0), MEMORY, "EN 572-1", "";
    "density of acrylic" = Concentration::kilograms_per_cubic_metre(1190.0, 1190.0, 1190.0), FROM_MEMORY, NONE, "";
    "floor load of a home, European" = Pressure::kilopascals(1.5, 2.0, 2.0), MEMORY, "EN 1991-1-1 table 6.2, category A", "mean of a room, not a limit for one footprint; national annexes differ";
    "floor load of a home, US" = Pressure::pounds_per_square_foot(40.0, 40.0, 40.0), SECOND_HAND, "IRC table R301.5, reprinted in a local ordinance", "mean of a room";
    "floor load of a sleeping room, US" = Pressure::pounds_per_square_foot(30.0, 30.0, 30.0), SECOND_HAND, "IRC table R301.5, reprinted in a local ordinance", "mean of a room";
    "mass that wants a look at a timber floor" = Mass::kilograms(200.0, 200.0, 200.0), FROM_MEMORY, NONE, "or an unknown one: by someone qualified";
    "mass that wants a look at any suspended floor" = Mass::kilograms(400.0, 400.0, 400.0), FROM_MEMORY, NONE, "by someone qualified";
    "heater margin" = Share::ratio(0.333, 0.333, 0.333), PRACTICE, TRADE, "over the loss in the coldest room";
    "heat loss error" = Share::ratio(0.3, 0.3, 0.3), FROM_MEMORY, NONE, "either way";
    "most cooling in an hour" = Warming::celsius(1.0, 1.5, 2.0), PRACTICE, TRADE, "the middle is ours";
    "most cooling in a day" = Warming::celsius(3.0, 3.0, 3.0), PRACTICE, TRADE, "";
    "most step of temperature at a change" = Warming::celsius(2.0, 2.0, 2.0), PRACTICE, TRADE, "sensitive stock";
    "open tank below the room" = Warming::celsius(1.0, 1.5, 2.0), FROM_MEMORY, NONE, "where evaporation lets it settle; the middle is ours";
}
