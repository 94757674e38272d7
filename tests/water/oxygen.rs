//! Check tables of oxygen and of power cuts.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::oxygen;
use weirline::water::power_cut::{self, StillTank, Until};

pub const CHECKS: &[Check] = &[
    ("water_oxygen_saturation", saturation),
    ("filtration_oxygen_saturation", fresh_saturation),
    ("water_pressure_altitude", pressure_altitude),
    ("water_fish_oxygen", fish_oxygen),
    ("filtration_fish_oxygen", filter_fish_oxygen),
    ("water_nitrification_oxygen", nitrification_oxygen),
    ("filtration_tank_power_cut", tank_power_cut),
    ("filtration_canister_power_cut", canister_power_cut),
];

fn celsius(row: &Row) -> Temperature {
    Temperature::celsius(row.number("t_c"))
}

fn saturation(row: &Row) {
    let salinity = Salinity::grams_per_kilogram(row.number("salinity"));
    let pressure = Pressure::atmospheres(row.number("p_atm"));
    let t = celsius(row);
    let got = both!(row, "oxygen saturation", oxygen::saturation(t, salinity, pressure));
    row.expect(got.in_milligrams_per_litre());
}

fn fresh_saturation(row: &Row) {
    let (fresh, sea_level, t) = (Salinity::base(0.0), Pressure::atmospheres(1.0), celsius(row));
    let got = both!(row, "oxygen saturation", oxygen::saturation(t, fresh, sea_level));
    row.check("do_mg_per_L", got.in_milligrams_per_litre());
}

fn pressure_altitude(row: &Row) {
    let altitude = Length::metres(row.number("altitude_m"));
    row.expect(both!(row, "air pressure at altitude", oxygen::pressure_at(altitude)).in_atmospheres());
}

fn fish_oxygen(row: &Row) {
    let (mass, t) = (Mass::grams(row.number("mass_g")), celsius(row));
    row.expect(both!(row, "fish oxygen", oxygen::fish_use(mass, t)).in_milligrams_per_hour());
}

fn filter_fish_oxygen(row: &Row) {
    let (mass, t) = (Mass::grams(row.number("fish_g")), celsius(row));
    let used = both!(row, "fish oxygen", oxygen::fish_use(mass, t));
    row.check("mg_per_h", used.in_milligrams_per_hour());
    row.check("mg_per_kg_per_h", used.in_milligrams_per_hour() / mass.in_kilograms());
}

fn nitrification_oxygen(row: &Row) {
    // As a rate, g a day for g: only the factor counts. The stoichiometric rows are made with whole atomic weights.
    let nitrogen = MassRate::grams_per_day(row.number("g_n"));
    let factor = Share::ratio(match row.text("mode") {
        "full" => 64.0 / 14.0,
        "growth" => 4.18,
        "to_nitrite" => 48.0 / 14.0,
        "nitrite_only" => 16.0 / 14.0,
        other => panic!("unknown mode {other}"),
    });
    row.expect(both!(row, "nitrification oxygen", oxygen::nitrification_use(nitrogen, factor)).in_grams_per_day());
}

fn tank_power_cut(row: &Row) {
    let level = |column: &str| Concentration::milligrams_per_litre(row.number(column));
    let water = Volume::litres(row.number("water_L"));
    let surface = Area::square_metres(row.number("surface_m2"));
    let transfer = Speed::metres_per_hour(row.number("kl_m_per_h"));
    let used = MassRate::milligrams_per_hour(row.number("use_mg_per_h"));
    let saturation = level("saturation_mg_per_L");
    let (start, limit) = (level("start_mg_per_L"), level("limit_mg_per_L"));
    let tank = StillTank { water, surface, transfer, used, saturation };
    let of_tank = [water.in_base(), surface.in_base(), transfer.in_base(), used.in_base(), saturation.in_base()];

    let settled = had!(row, power_cut::settled_oxygen(tank));
    row.signature("settled oxygen", &of_tank, settled.in_base());
    row.check("settles_at_mg_per_L", settled.in_milligrams_per_litre());
    let pessimist =
        both!(row, "time to oxygen without surface", power_cut::time_without_surface(water, start, limit, used));
    row.check("no_surface_h", pessimist.in_hours());
    match had!(row, power_cut::time_to_oxygen(tank, start, limit)) {
        Until::After(time) => {
            let inputs = [&of_tank[..], &[start.in_base(), limit.in_base()]].concat();
            row.signature("time to oxygen", &inputs, time.in_base());
            row.check("hours", time.in_hours());
        }
        // The table writes -1 for never.
        Until::Never => row.check("hours", -1.0),
    }
}

fn canister_power_cut(row: &Row) {
    let water = Volume::litres(row.number("water_L"));
    let level = Concentration::milligrams_per_litre(row.number("do_mg_per_L"));
    let media = Volume::litres(row.number("media_L"));
    let uptake = ConcentrationRate::milligrams_per_litre_hour(row.number("uptake_mg_per_L_per_h"));
    let time = both!(row, "canister time", power_cut::canister_time(water, level, media, uptake));
    row.check("hours", time.in_hours());
}
