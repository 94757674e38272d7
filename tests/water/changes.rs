//! Check tables of water changes, mixing and nitrate.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::dilution::{self, DailyChange};
use weirline::water::nitrate;

pub const CHECKS: &[Check] = &[
    ("water_repeated_change", repeated_change),
    ("water_fraction_for_target", fraction_for_target),
    ("water_changes_for_target", changes_for_target),
    ("water_steady_state", steady_state),
    ("water_fraction_hold", fraction_hold),
    ("water_continuous_change", continuous_change),
    ("water_topup", topup),
    ("water_mixing", mixing),
    ("water_safe_daily_change", safe_daily_change),
    ("filtration_nitrate", nitrate_balance),
    ("filtration_observed_denitrification", observed_denitrification),
    ("water_nitrate_from_feed", nitrate_from_feed),
];

fn level(row: &Row, column: &str) -> Concentration {
    Concentration::milligrams_per_litre(row.number(column))
}

fn ratio(row: &Row, column: &str) -> Share {
    Share::ratio(row.number(column))
}

fn repeated_change(row: &Row) {
    let (now, source) = (level(row, "c0"), level(row, "c_source"));
    let (share, n) = (ratio(row, "fraction"), ratio(row, "n"));
    let got = both!(row, "level after changes", dilution::after_changes(now, source, share, n));
    row.expect(got.in_milligrams_per_litre());
}

fn fraction_for_target(row: &Row) {
    let (now, target, source) = (level(row, "c0"), level(row, "c_target"), level(row, "c_source"));
    let n = ratio(row, "n");
    row.expect(both!(row, "share for target", dilution::share_for_target(now, target, source, n)).in_ratio());
}

fn changes_for_target(row: &Row) {
    let (now, target, source) = (level(row, "c0"), level(row, "c_target"), level(row, "c_source"));
    let share = ratio(row, "fraction");
    row.expect(both!(row, "changes for target", dilution::changes_for_target(now, target, source, share)).in_ratio());
}

fn steady_state(row: &Row) {
    let (source, built) = (level(row, "c_source"), level(row, "p_per_interval"));
    let share = ratio(row, "fraction");
    let got = match row.text("when") {
        "before" => both!(row, "settled level", dilution::settled_before(source, built, share)),
        "after" => both!(row, "settled level after a change", dilution::settled_after(source, built, share)),
        other => panic!("unknown moment {other}"),
    };
    row.expect(got.in_milligrams_per_litre());
    // The same law in terms of a rise and an interval.
    let (rise, interval) =
        (ConcentrationRate::milligrams_per_litre_day(built.in_milligrams_per_litre()), Time::days(1.0));
    row.expect(
        match row.text("when") {
            "before" => both!(row, "settled nitrate", nitrate::settled_peak(source, rise, interval, share)),
            _ => both!(row, "settled nitrate after a change", nitrate::settled_trough(source, rise, interval, share)),
        }
        .in_milligrams_per_litre(),
    );
}

fn fraction_hold(row: &Row) {
    let (ceiling, source, built) = (level(row, "c_max"), level(row, "c_source"), level(row, "p_per_interval"));
    row.expect(both!(row, "share that holds", dilution::share_that_holds(ceiling, source, built)).in_ratio());
}

fn continuous_change(row: &Row) {
    let (now, source) = (level(row, "c0"), level(row, "c_source"));
    let (run, water) = (Volume::litres(100.0 * row.number("turns")), Volume::litres(100.0));
    let got = both!(row, "level after dripping", dilution::after_dripping(now, source, run, water));
    row.expect(got.in_milligrams_per_litre());
}

fn topup(row: &Row) {
    let (now, source) = (level(row, "c0"), level(row, "c_source"));
    let (evaporated, n) = (ratio(row, "evap_fraction"), ratio(row, "n"));
    let got = both!(row, "level after topping up", dilution::after_topping_up(now, source, evaporated, n));
    row.expect(got.in_milligrams_per_litre());
}

fn mixing(row: &Row) {
    let (v1, v2) = (Volume::litres(row.number("v1")), Volume::litres(row.number("v2")));
    let (x1, x2) = (level(row, "x1"), level(row, "x2"));
    let got = both!(row, "mixed level", dilution::mixed(v1, x1, v2, x2));
    row.expect(got.in_milligrams_per_litre());
    let (x1, x2) = (Temperature::celsius(row.number("x1")), Temperature::celsius(row.number("x2")));
    let mixed = both!(row, "mixed temperature", dilution::mixed(v1, x1, v2, x2));
    row.expect(mixed.in_celsius());
    // Turned round, it gives back the share of the second water.
    let share = both!(row, "share for temperature", dilution::share_for_temperature(x1, x2, mixed));
    let again = share.in_ratio() * (v1.in_litres() + v2.in_litres());
    assert!((again - v2.in_litres()).abs() < 1e-9, "{}", row.place());
}

fn safe_daily_change(row: &Row) {
    let (now, ceiling) = (level(row, "c_now"), level(row, "c_max"));
    let (source, built) = (level(row, "c_source"), level(row, "p_per_day"));
    match had!(row, dilution::safe_daily_change(now, ceiling, source, built)) {
        DailyChange::Share(share) => {
            let inputs = [now.in_base(), ceiling.in_base(), source.in_base(), built.in_base()];
            row.signature("safe daily change", &inputs, share.in_base());
            row.expect(share.in_ratio());
        }
        // The table writes 9 for "cannot be done with one change a day".
        DailyChange::NotWithOne => row.expect(9.0),
    }
}

fn nitrate_balance(row: &Row) {
    let made = MassRate::milligrams_per_day(row.number("production_mgN_per_day"));
    let taken = MassRate::milligrams_per_day(row.number("uptake_mgN_per_day"));
    let water = Volume::litres(row.number("water_L"));
    let share = ratio(row, "change_fraction");
    let interval = Time::days(row.number("every_days"));
    let tap = level(row, "tap_mgNO3_per_L");
    let forty = Concentration::milligrams_per_litre(40.0);

    let rise = both!(row, "nitrate rise", nitrate::nitrate_rise(made, taken, water));
    row.check("rise_mgNO3_per_L_per_day", rise.in_milligrams_per_litre_day());
    let peak = both!(row, "settled nitrate", nitrate::settled_peak(tap, rise, interval, share));
    row.check("peak_mgNO3_per_L", peak.in_milligrams_per_litre());
    let trough = both!(row, "settled nitrate after a change", nitrate::settled_trough(tap, rise, interval, share));
    row.check("trough_mgNO3_per_L", trough.in_milligrams_per_litre());
    let time = both!(row, "time to nitrate", nitrate::time_to_level(tap, forty, rise));
    row.check("days_to_40", time.in_days());
    let holds = both!(row, "share that holds nitrate", nitrate::share_that_holds(rise, interval, tap, forty));
    row.check("f_for_40", holds.in_ratio());
}

fn observed_denitrification(row: &Row) {
    let made = MassRate::milligrams_per_day(row.number("production_mgN_per_day"));
    let taken = MassRate::milligrams_per_day(row.number("uptake_mgN_per_day"));
    let water = Volume::litres(row.number("water_L"));
    let (earlier, later) = (level(row, "first_mgNO3_per_L"), level(row, "later_mgNO3_per_L"));
    let time = Time::days(row.number("days"));
    let error = level(row, "reading_error_mgNO3_per_L");
    let found = had!(row, nitrate::missing_nitrogen(made, taken, water, earlier, later, time, error));
    let inputs = [
        made.in_base(),
        taken.in_base(),
        water.in_base(),
        earlier.in_base(),
        later.in_base(),
        time.in_base(),
        error.in_base(),
    ];
    row.signature("nitrogen missing", &inputs, found.missing.in_base());
    row.signature("nitrogen seen", &inputs, found.seen.in_base());
    row.signature("error of nitrogen missing", &inputs, found.error.in_base());
    row.check("seen_mgN_per_day", found.seen.in_milligrams_per_day());
    row.check("missing_mgN_per_day", found.missing.in_milligrams_per_day());
    row.check("error_mgN_per_day", found.error.in_milligrams_per_day());
}

fn nitrate_from_feed(row: &Row) {
    let feed = MassRate::grams_per_day(row.number("feed_g_day"));
    let (protein, made) = (ratio(row, "protein"), ratio(row, "coeff"));
    let time = Time::days(row.number("days"));
    let water = Volume::litres(row.number("volume_l"));
    let got = both!(row, "nitrate from feed", nitrate::nitrate_from_feed(feed, protein, made, time, water));
    row.expect(got.in_milligrams_per_litre());
}
