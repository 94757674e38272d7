//! Rules' names for the calculations of water changes, dripping, topping up and mixing.
//! In: levels, shares, counts. Out: levels, shares, counts. Knows no formula.

use crate::units::measure::{Concentration, Share, Temperature, Volume};
use crate::water::OutOfRange;
use crate::water::basis::grounds::WORKED_OUT;
use crate::water::dilution::{self, DailyChange};

const BALANCE: &str = "mass balance";

super::signatures! {
    "level after changes"("now" now: Concentration, "source" source: Concentration, "share changed" share: Share, "changes" changes: Share) -> Concentration
        = dilution::after_changes(now, source, share, changes);
        WORKED_OUT, BALANCE, "source + (now - source) (1 - share)^changes",
        "level after so many equal water changes";
    "share for target"("now" now: Concentration, "target" target: Concentration, "source" source: Concentration, "changes" changes: Share) -> Share
        = dilution::share_for_target(now, target, source, changes);
        WORKED_OUT, BALANCE, "1 - ((target - source) / (now - source))^(1 / changes)",
        "share to change each time to come to a target";
    "changes for target"("now" now: Concentration, "target" target: Concentration, "source" source: Concentration, "share changed" share: Share) -> Share
        = dilution::changes_for_target(now, target, source, share);
        WORKED_OUT, BALANCE, "ceil(ln((target - source) / (now - source)) / ln(1 - share))",
        "number of equal changes that reach a target";
    "settled level"("source" source: Concentration, "built up" built: Concentration, "share changed" share: Share) -> Concentration
        = dilution::settled_before(source, built, share);
        WORKED_OUT, BALANCE, "source + built up / share",
        "level that regular changes settle at, just before each";
    "settled level after a change"("source" source: Concentration, "built up" built: Concentration, "share changed" share: Share) -> Concentration
        = dilution::settled_after(source, built, share);
        WORKED_OUT, BALANCE, "source + built up x (1 - share) / share",
        "level that regular changes settle at, just after each";
    "share that holds"("ceiling" ceiling: Concentration, "source" source: Concentration, "built up" built: Concentration) -> Share
        = dilution::share_that_holds(ceiling, source, built);
        WORKED_OUT, BALANCE, "built up / (ceiling - source)",
        "share to change each time so that the peak stays at a ceiling; above 1 it cannot be done so";
    "level after dripping"("now" now: Concentration, "source" source: Concentration, "run through" run: Volume, "water" water: Volume) -> Concentration
        = dilution::after_dripping(now, source, run, water);
        WORKED_OUT, BALANCE, "source + (now - source) exp(-run / water)",
        "level while new water drips or runs through";
    "level after topping up"("now" now: Concentration, "source" source: Concentration, "evaporated share" evaporated: Share, "times" times: Share) -> Concentration
        = dilution::after_topping_up(now, source, evaporated, times);
        WORKED_OUT, BALANCE, "now + times x evaporated share x source",
        "level after topping up evaporated water";
    "level before topping up"("now" now: Concentration, "evaporated share" evaporated: Share) -> Concentration
        = dilution::concentrated(now, evaporated);
        WORKED_OUT, BALANCE, "now / (1 - evaporated share)",
        "level when a share of the water has evaporated";
    "mixed level"("first volume" v1: Volume, "first level" x1: Concentration, "second volume" v2: Volume, "second level" x2: Concentration) -> Concentration
        = dilution::mixed(v1, x1, v2, x2);
        WORKED_OUT, BALANCE, "(v1 x1 + v2 x2) / (v1 + v2)",
        "level of two waters mixed";
    "mixed temperature"("first volume" v1: Volume, "first temperature" x1: Temperature, "second volume" v2: Volume, "second temperature" x2: Temperature) -> Temperature
        = dilution::mixed(v1, x1, v2, x2);
        WORKED_OUT, "heat balance", "(v1 t1 + v2 t2) / (v1 + v2)",
        "temperature of two waters mixed";
    "share for temperature"("now" now: Temperature, "new water" new: Temperature, "target" target: Temperature) -> Share
        = dilution::share_for_temperature(now, new, target);
        WORKED_OUT, "heat balance", "(target - now) / (new water - now)",
        "share of new water that takes a temperature to a target";
    "safe daily change"("now" now: Concentration, "ceiling" ceiling: Concentration, "source" source: Concentration, "built up a day" built: Concentration) -> Share
        = dilution::safe_daily_change(now, ceiling, source, built).and_then(|change| match change {
            DailyChange::Share(share) => Ok(share),
            DailyChange::NotWithOne => Err(OutOfRange::between("ceiling", ceiling, source.in_base() + built.in_base(), f64::INFINITY)),
        });
        WORKED_OUT, BALANCE, "1 - (ceiling - built up - source) / (now - source)",
        "share to change today so that tomorrow's peak stays under a ceiling; refused where one change a day cannot do it";
}
