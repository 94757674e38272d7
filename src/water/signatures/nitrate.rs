//! Rules' names for the calculations of nitrate.
//! In: nitrogen made and taken up, changes. Out: concentrations, times, shares. Knows no formula.

use crate::units::measure::{Concentration, ConcentrationRate, MassRate, Share, Time, Volume};
use crate::water::basis::grounds::{MEMORY, WORKED_OUT};
use crate::water::nitrate;

const BALANCE: &str = "mass balance";

super::signatures! {
    "nitrate rise"("nitrogen made" made: MassRate, "nitrogen taken up" taken: MassRate, "water" water: Volume) -> ConcentrationRate
        = nitrate::nitrate_rise(made, taken, water);
        WORKED_OUT, BALANCE, "(made - taken up) / water x 4.4266",
        "how fast nitrate (as NO3) rises";
    "measured nitrate rise"("earlier" earlier: Concentration, "later" later: Concentration, "time" time: Time) -> ConcentrationRate
        = nitrate::measured_rise(earlier, later, time);
        WORKED_OUT, BALANCE, "(later - earlier) / time",
        "how fast nitrate rises, from two readings without a change between";
    "nitrate from feed"("feed" feed: MassRate, "protein" protein: Share, "made per protein" made: Share, "time" time: Time, "water" water: Volume) -> Concentration
        = nitrate::nitrate_from_feed(feed, protein, made, time, water);
        MEMORY, "Timmons & Ebeling, Recirculating Aquaculture", "feed x protein x 0.092 x time / water x 4.4266",
        "nitrate (as NO3) that builds up in a time, nothing taken up";
    "settled nitrate"("tap" tap: Concentration, "rise" rise: ConcentrationRate, "interval" interval: Time, "share changed" share: Share) -> Concentration
        = nitrate::settled_peak(tap, rise, interval, share);
        WORKED_OUT, BALANCE, "tap + rise x interval / share",
        "where nitrate settles just before each change";
    "settled nitrate after a change"("tap" tap: Concentration, "rise" rise: ConcentrationRate, "interval" interval: Time, "share changed" share: Share) -> Concentration
        = nitrate::settled_trough(tap, rise, interval, share);
        WORKED_OUT, BALANCE, "tap + rise x interval x (1 - share) / share",
        "where nitrate settles just after each change";
    "stepped nitrate"("now" now: Concentration, "tap" tap: Concentration, "rise" rise: ConcentrationRate, "interval" interval: Time, "share changed" share: Share, "time" time: Time) -> Concentration
        = nitrate::stepped_nitrate(now, tap, rise, interval, share, time);
        WORKED_OUT, BALANCE, "after each interval tap + (level - tap) (1 - share); between, level + rise x time",
        "nitrate at a moment: the saw-tooth of regular changes";
    "time to nitrate"("from" from: Concentration, "level" level: Concentration, "rise" rise: ConcentrationRate) -> Time
        = nitrate::time_to_level(from, level, rise);
        WORKED_OUT, BALANCE, "(level - from) / rise",
        "time until nitrate reaches a level without a change";
    "share that holds nitrate"("rise" rise: ConcentrationRate, "interval" interval: Time, "tap" tap: Concentration, "ceiling" ceiling: Concentration) -> Share
        = nitrate::share_that_holds(rise, interval, tap, ceiling);
        WORKED_OUT, BALANCE, "rise x interval / (ceiling - tap)",
        "share to change each time; above 1 it cannot be done so";
    "nitrogen missing"("nitrogen made" made: MassRate, "nitrogen taken up" taken: MassRate, "water" water: Volume, "earlier" earlier: Concentration, "later" later: Concentration, "time" time: Time, "reading error" error: Concentration) -> MassRate
        = nitrate::missing_nitrogen(made, taken, water, earlier, later, time, error).map(|found| found.missing);
        WORKED_OUT, BALANCE, "made - taken up - water x (later - earlier) / time / 4.4266",
        "nitrogen that went away unseen between two nitrate readings";
    "nitrogen seen"("nitrogen made" made: MassRate, "nitrogen taken up" taken: MassRate, "water" water: Volume, "earlier" earlier: Concentration, "later" later: Concentration, "time" time: Time, "reading error" error: Concentration) -> MassRate
        = nitrate::missing_nitrogen(made, taken, water, earlier, later, time, error).map(|found| found.seen);
        WORKED_OUT, BALANCE, "water x (later - earlier) / time / 4.4266",
        "nitrogen that the rise of nitrate shows";
    "error of nitrogen missing"("nitrogen made" made: MassRate, "nitrogen taken up" taken: MassRate, "water" water: Volume, "earlier" earlier: Concentration, "later" later: Concentration, "time" time: Time, "reading error" error: Concentration) -> MassRate
        = nitrate::missing_nitrogen(made, taken, water, earlier, later, time, error).map(|found| found.error);
        WORKED_OUT, BALANCE, "water x error x 1.414 / time / 4.4266",
        "how wrong the readings alone can make the nitrogen missing";
}
