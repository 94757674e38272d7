//! Check tables of cleaning and of starting a filter.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::cleaning;
use weirline::water::course::{self, Start};

pub const CHECKS: &[Check] = &[
    ("filtration_cleaning_interval", cleaning_interval),
    ("filtration_flow_decline", flow_decline),
    ("filtration_nitrifier_recovery", recovery),
    ("water_cycling_course", cycling_course),
    ("water_days_to_capacity", days_to_capacity),
];

fn cleaning_interval(row: &Row) {
    let feed = MassRate::grams_per_day(row.number("feed_g_per_day"));
    let solids = Share::ratio(row.number("solids_per_feed"));
    let caught = Share::ratio(row.number("share_caught"));
    let holding = Concentration::grams_per_litre(row.number("holding_g_per_L"));
    let media = Volume::litres(row.number("media_L"));
    let filled = Share::ratio(row.number("share_let_fill"));
    let load = both!(row, "dirt load", cleaning::dirt_load(feed, solids, caught));
    row.check("load_g_per_day", load.in_grams_per_day());
    let time = both!(row, "cleaning interval", cleaning::cleaning_interval(holding, media, filled, load));
    row.check("days", time.in_days());
}

fn flow_decline(row: &Row) {
    // The unit of the flows does not matter: their ratio does.
    let clean = Flow::litres_per_hour(row.number("flow_clean"));
    let later = Flow::litres_per_hour(row.number("flow_later"));
    let (time, limit) = (Time::days(row.number("days")), Share::ratio(row.number("limit")));
    let fall = both!(row, "flow decline", cleaning::flow_decline(clean, later, time));
    row.check("k_per_day", fall.in_per_day());
    let until = both!(row, "time to flow share", cleaning::time_to_flow(fall, limit));
    row.check("days_to_limit", until.in_days());
}

fn recovery(row: &Row) {
    let (lost, margin) = (Share::ratio(row.number("share_lost")), Share::ratio(row.number("margin")));
    let doubling = Time::days(row.number("doubling_days"));
    let left = both!(row, "capacity after wash", cleaning::capacity_after_wash(lost, margin));
    row.check("capacity_over_need", left.in_ratio());
    let time = both!(row, "recovery time", cleaning::recovery_time(left, doubling));
    row.check("days_short", time.in_days());
}

fn cycling_course(row: &Row) {
    let temperature = Temperature::celsius(row.number("t_c"));
    let dose = Concentration::milligrams_per_litre(row.number("dose"));
    let capacity = ConcentrationRate::milligrams_per_litre_day(row.number("q0"));
    let redose_below = match row.text("redose") {
        "1" => Some(Concentration::milligrams_per_litre(0.25)),
        "0" => None,
        other => panic!("unknown {other}"),
    };
    let day = Share::ratio(row.number("day"));
    let start = Start { temperature, dose, capacity, redose_below };
    let levels = had!(row, course::levels_on(start, day));
    let (signature, got) = match row.text("what") {
        "tan" => ("starting ammonia", levels.ammonia),
        "no2" => ("starting nitrite", levels.nitrite),
        "no3" => ("starting nitrate", levels.nitrate),
        other => panic!("unknown {other}"),
    };
    if redose_below.is_some() {
        let inputs = [temperature.in_base(), dose.in_base(), capacity.in_base(), day.in_base()];
        row.signature(signature, &inputs, got.in_base());
    }
    row.expect(got.in_milligrams_per_litre());
}

fn days_to_capacity(row: &Row) {
    let now = ConcentrationRate::milligrams_per_litre_day(row.number("q0"));
    let wanted = ConcentrationRate::milligrams_per_litre_day(row.number("q1"));
    let t = Temperature::celsius(row.number("t_c"));
    let saturation = Share::ratio(row.number("saturation"));
    row.expect(both!(row, "time to capacity", course::time_to_capacity(now, wanted, t, saturation)).in_days());
}
