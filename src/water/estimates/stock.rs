//! Estimates of fish, feed, waste and swimming.
//! In: nothing. Out: a table. Knows no formula.

use crate::units::measure::{ArealRate, Mass, Rate, Share, Speed};
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, PRACTICE, READ, SECOND_HAND};

const FROESE: &str = "Froese 2006, J. Appl. Ichthyol. 22:241-253";
const SHAPES: &str = "Froese, Thorson & Reyes 2014";
const FARM: &str = "Timmons & Ebeling, Recirculating Aquaculture";
const NONE: &str = "from memory";
const TRADE: &str = "common practice";
const OURS: &str = "an estimate of our own";

super::estimates! {
    "shape exponent b" = Share::ratio(2.5, 3.03, 3.5), READ, FROESE, "median over 3929 relationships; with a from shape alone take 3.0";
    "shape factor a, unknown" = Share::ratio(0.0049, 0.0100, 0.0206), READ, SHAPES, "g per cm^b; a factor 2 either way";
    "shape factor a, eel-like" = Share::ratio(0.00102, 0.00102, 0.00102), READ, SHAPES, "loaches of eel shape, eels";
    "shape factor a, elongated" = Share::ratio(0.00389, 0.00389, 0.00389), READ, SHAPES, "slender fish";
    "shape factor a, fusiform" = Share::ratio(0.0112, 0.0112, 0.0112), READ, SHAPES, "tetras, barbs";
    "shape factor a, short and deep" = Share::ratio(0.0200, 0.0200, 0.0200), READ, SHAPES, "disc-shaped fish";
    "shape factor a, goldfish" = Share::ratio(0.030, 0.030, 0.030), FROM_MEMORY, NONE, "fancy goldfish";
    "tail factor" = Share::ratio(1.1, 1.2, 1.3), FROM_MEMORY, NONE, "total length over length without the tail";

    "feed share, adult of unknown kind" = Rate::per_day(0.005, 0.010, 0.030), PRACTICE, TRADE, "dry feed per body mass, for maintenance";
    "feed share, generous keeper" = Rate::per_day(0.015, 0.025, 0.05), PRACTICE, TRADE, "partly our own estimate";
    "feed share, young growing" = Rate::per_day(0.02, 0.03, 0.05), PRACTICE, TRADE, "";
    "feed share, fry" = Rate::per_day(0.05, 0.10, 0.20), PRACTICE, TRADE, "first weeks, as dry feed";
    "feed share, pond of 20 to 25 degC" = Rate::per_day(0.005, 0.01, 0.02), PRACTICE, TRADE, "goldfish and koi";
    "feed share, pond of 10 to 15 degC" = Rate::per_day(0.001, 0.004, 0.008), PRACTICE, TRADE, "goldfish and koi; below 8 degC none";
    "feed share, farm fish warm" = Rate::per_day(0.03, 0.035, 0.04), READ, "Wheaton, Recirculating Aquaculture Systems: An Overview of Waste Management", "for comparison";
    "feed share, farm fish cool" = Rate::per_day(0.01, 0.015, 0.02), READ, "Wheaton, Recirculating Aquaculture Systems: An Overview of Waste Management", "for comparison";
    "pinch of feed" = Mass::grams(0.1, 0.2, 0.3), FROM_MEMORY, OURS, "the middle is ours";
    "teaspoon of flake" = Mass::grams(0.8, 1.0, 1.2), FROM_MEMORY, OURS, "level, 5 mL";
    "teaspoon of small pellet" = Mass::grams(2.0, 2.25, 2.5), FROM_MEMORY, OURS, "level, 5 mL";
    "dry share of frozen food" = Share::ratio(0.08, 0.12, 0.25), FROM_MEMORY, NONE, "of its wet mass; live food too";
    "appetite for ten degrees" = Share::ratio(2.0, 2.0, 2.0), FROM_MEMORY, NONE, "times more, within the comfortable range";

    "protein of feed" = Share::ratio(0.32, 0.40, 0.50), FROM_MEMORY, "FAO Technical Paper 589 assumes 0.32 for farm feed (read in a web reproduction)", "of dry feed";
    "ammonia made per protein" = Share::ratio(0.060, 0.092, 0.128), MEMORY, FARM, "as N; the range is our own: low much taken away before it decays, high all of it decaying";
    "nitrogen in protein" = Share::ratio(0.16, 0.16, 0.16), FROM_MEMORY, NONE, "uneaten feed counts whole, and slower";
    "ammonia that becomes nitrate" = Share::ratio(0.98, 0.98, 0.98), FROM_MEMORY, NONE, "";
    "solids per feed" = Share::ratio(0.20, 0.25, 0.35), MEMORY, FARM, "dry; the range is common practice";
    "wet dirt per dry solids" = Share::ratio(10.0, 15.0, 20.0), FROM_MEMORY, NONE, "the middle is ours";
    "oxygen per feed, fish" = Share::ratio(0.2, 0.25, 0.5), MEMORY, FARM, "over days";
    "oxygen per feed, with bacteria" = Share::ratio(0.3, 0.4, 1.0), MEMORY, FARM, "over days";
    "activity over rest" = Share::ratio(1.0, 2.0, 3.0), FROM_MEMORY, NONE, "times the resting oxygen use: rest, awake, fed and swimming";

    "swimming, yolk-sac larva" = Rate::per_second(0.5, 0.5, 0.5), FROM_MEMORY, OURS, "body lengths a second; cannot swim off: air-driven sponge or no intake";
    "swimming, free larva" = Rate::per_second(1.0, 1.5, 2.0), FROM_MEMORY, OURS, "2.5 to 6 mm; published sustained speeds are 2 to 3 times higher";
    "swimming, newborn livebearer" = Rate::per_second(1.5, 2.0, 3.0), FROM_MEMORY, OURS, "6 to 10 mm; young cichlids of 8 mm and more too";
    "swimming, 10 to 25 mm" = Rate::per_second(2.0, 3.0, 5.0), FROM_MEMORY, OURS, "";
    "swimming, juveniles in a flume" = Rate::per_second(5.0, 8.5, 12.0), READ, "Swimming Speeds of Juvenile Estuarine Fish in a Circular Flume, SEAFWA 1977", "3 to 7 cm, for comparison; the middle is ours";
    "swimming, zebrafish larva" = Rate::per_second(8.0, 8.0, 8.0), READ, "Mueller & van Leeuwen 2004, J. Exp. Biol. 207:853", "three days old, for a bout only";
    "body width of young" = Share::ratio(0.12, 0.16, 0.22), FROM_MEMORY, NONE, "of the total length";
    "intake criterion, self-cleaning screen" = Speed::feet_per_second(0.40, 0.40, 0.40), READ, "NMFS, Juvenile fish screen criteria, addendum for pump intakes", "approach, salmon fry under 60 mm; never for tropical fry";
    "intake criterion, passive screen" = Speed::feet_per_second(0.20, 0.20, 0.20), READ, "NMFS, Juvenile fish screen criteria, addendum for pump intakes", "approach, salmon fry under 60 mm";
    "intake criterion, state" = Speed::feet_per_second(0.2, 0.33, 0.33), READ, "California DFG 2000, Exhibit D", "low is for delta smelt";
    "intake criterion, through the screen" = Speed::feet_per_second(0.5, 0.5, 0.5), READ, "40 CFR 125.84(b)(2)", "power stations";
    "intake criterion, body and tail swimmers" = Speed::metres_per_second(0.11, 0.11, 0.11), MEMORY, "DFO Canada 1995, end-of-pipe guideline", "25 mm and longer";
    "intake criterion, eel-like swimmers" = Speed::metres_per_second(0.038, 0.038, 0.038), MEMORY, "DFO Canada 1995, end-of-pipe guideline", "25 mm and longer";
    "screen open share" = Share::ratio(0.27, 0.38, 0.50), SECOND_HAND, "NRCS note on small-diversion screens", "the middle is ours";

    "floating plant uptake" = ArealRate::grams_per_square_metre_day(0.03, 0.12, 0.40), FROM_MEMORY, NONE, "N per covered area in room light";
    "floating plant uptake, summer pond" = ArealRate::grams_per_square_metre_day(0.5, 1.0, 1.5), FROM_MEMORY, NONE, "in full sun up to about 1.5; the lower figures are ours";
}
