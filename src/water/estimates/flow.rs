//! Estimates of flow, head loss and pumps.
//! In: nothing. Out: a table. Knows no filter by name.

use crate::units::measure::{Flow, Length, Rate, Share, Speed};
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, PRACTICE, SECOND_HAND};

const NONE: &str = "from memory";
const TRADE: &str = "common practice";
const OURS: &str = "an estimate of our own";

super::estimates! {
    "turnover, planted and calm" = Rate::per_hour(2.0, 4.0, 6.0), PRACTICE, TRADE, "real flow; turnover is about dirt and oxygen, not about ammonia";
    "turnover, community" = Rate::per_hour(3.0, 5.0, 7.0), PRACTICE, TRADE, "";
    "turnover, fry, shrimp, long fins" = Rate::per_hour(1.0, 2.0, 4.0), PRACTICE, TRADE, "small surface-dwellers too";
    "turnover, axolotl" = Rate::per_hour(1.0, 1.5, 2.0), PRACTICE, TRADE, "";
    "turnover, discus" = Rate::per_hour(3.0, 3.5, 4.0), PRACTICE, TRADE, "";
    "turnover, goldfish, large cichlids, turtles" = Rate::per_hour(5.0, 7.0, 10.0), PRACTICE, TRADE, "";
    "turnover, rivers' fish" = Rate::per_hour(6.0, 10.0, 15.0), PRACTICE, TRADE, "";
    "turnover, marine, fish only" = Rate::per_hour(5.0, 10.0, 15.0), PRACTICE, TRADE, "";
    "turnover, reef" = Rate::per_hour(10.0, 25.0, 40.0), PRACTICE, TRADE, "circulation pumps counted";
    "turnover, garden pond" = Rate::per_hour(0.3, 0.4, 0.5), PRACTICE, TRADE, "";
    "turnover, koi pond" = Rate::per_hour(0.5, 0.7, 1.0), PRACTICE, TRADE, "";
    "superficial speed through media" = Speed::millimetres_per_second(2.0, 5.0, 10.0), FROM_MEMORY, OURS, "usual; the middle is ours";

    "real share of rated flow, canister" = Share::ratio(0.4, 0.6, 0.75), FROM_MEMORY, NONE, "with media, clean";
    "real share of rated flow, hang-on-back" = Share::ratio(0.6, 0.75, 0.9), FROM_MEMORY, NONE, "clean";
    "real share of rated flow, internal" = Share::ratio(0.5, 0.7, 0.9), FROM_MEMORY, NONE, "clean";
    "real share of rated flow, sump return" = Share::ratio(0.4, 0.55, 0.7), FROM_MEMORY, NONE, "";
    "flow of an air-driven sponge" = Flow::litres_per_hour(50.0, 120.0, 300.0), FROM_MEMORY, NONE, "depends on the depth of lift; the middle is the geometric mean";
    "pump curve over the truth" = Share::ratio(0.05, 0.10, 0.20), PRACTICE, TRADE, "printed head and free flow are too good; the middle is ours";

    "loss of an entry" = Share::ratio(0.5, 0.5, 0.5), FROM_MEMORY, NONE, "in velocity heads";
    "loss of an exit" = Share::ratio(1.0, 1.0, 1.0), FROM_MEMORY, NONE, "";
    "loss of an elbow" = Share::ratio(0.9, 0.9, 0.9), FROM_MEMORY, NONE, "";
    "loss of a tap" = Share::ratio(0.2, 1.0, 5.0), FROM_MEMORY, NONE, "open to half shut; the middle is ours";
    "loss of a strainer" = Share::ratio(1.0, 2.0, 3.0), FROM_MEMORY, NONE, "the middle is ours";
    "loss of a spray bar" = Share::ratio(2.0, 5.0, 10.0), FROM_MEMORY, NONE, "the middle is ours";
    "roughness of corrugated hose" = Share::ratio(3.0, 4.0, 5.0), FROM_MEMORY, NONE, "times the friction of a smooth one; the middle is ours";
    "permeability factor of foam" = Share::ratio(0.008, 0.02, 0.05), FROM_MEMORY, "bounded by one orifice for each cell (Sampson)", "c in K = c x cell^2";
    "inertia factor of foam" = Share::ratio(0.09, 0.09, 0.09), FROM_MEMORY, NONE, "F";
    "lip height of a hang-on filter" = Length::millimetres(5.0, 15.0, 30.0), FROM_MEMORY, OURS, "head over the media at which water goes past; the middle is ours";
    "lip and standpipe error" = Share::ratio(0.3, 0.3, 0.3), FROM_MEMORY, OURS, "either way, at the small heads of a filter";
    "overflow margin" = Share::ratio(2.0, 2.0, 2.0), PRACTICE, TRADE, "rated overflow over flow, and a second, dry pipe";

    "window share of the cell" = Share::ratio(0.4, 0.5, 0.6), FROM_MEMORY, NONE, "openings between foam cells";
    "blocked share of a guard" = Share::ratio(0.5, 0.5, 0.5), FROM_MEMORY, OURS, "in the week before cleaning";
    "screen opening for salmon fry, woven" = Length::inches(0.09375, 0.09375, 0.09375), SECOND_HAND, "NMFS 1997", "woven or perforated; passes every tropical larva";
    "screen opening for salmon fry, profile wire" = Length::inches(0.0689, 0.0689, 0.0689), SECOND_HAND, "NMFS 1997", "";
    "screen opening, end of pipe" = Length::millimetres(2.54, 2.54, 2.54), MEMORY, "DFO Canada 1995, end-of-pipe guideline", "fish of 25 mm and longer";
}
