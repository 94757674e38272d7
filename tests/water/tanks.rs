//! Check tables of tanks: volume, weight, floor, density, salinity.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::{density, tank, weight};

pub const CHECKS: &[Check] = &[
    ("water_tank_volume", tank_volume),
    ("water_tank_displacement", tank_displacement),
    ("water_tank_mass", tank_mass),
    ("water_floor_load", floor_load),
    ("water_density", water_density),
    ("water_specific_gravity", specific_gravity),
    ("filtration_water", fresh_water),
];

fn tank_volume(row: &Row) {
    let of = |column: &str| Length::centimetres(row.number(column));
    let (a, b, c, glass, gap) = (of("a_cm"), of("b_cm"), of("c_cm"), of("glass_cm"), of("gap_cm"));
    let got = match row.text("shape") {
        "box" => both!(row, "box volume", tank::box_volume(a, b, c, glass, gap)),
        "cylinder" => both!(row, "cylinder volume", tank::cylinder_volume(a, c, glass, gap)),
        "hexagon" => both!(row, "hexagon volume", tank::hexagon_volume(a, c, glass, gap)),
        "quarter" => both!(row, "quarter-round volume", tank::quarter_round_volume(a, c, glass, gap)),
        "semicircle" => both!(row, "half-round volume", tank::half_round_volume(a, c, glass, gap)),
        "ellipse" => both!(row, "oval pond volume", tank::oval_pond_volume(a, b, c)),
        bow => {
            let bulge = bow.strip_prefix("bow").unwrap_or_else(|| panic!("unknown shape {bow}"));
            let bulge = Length::centimetres(bulge.parse().unwrap());
            both!(row, "bow-front volume", tank::bow_front_volume(a, b, c, bulge, glass, gap))
        }
    };
    row.expect(got.in_litres());
}

fn tank_displacement(row: &Row) {
    let base = Volume::litres(row.number("base_l"));
    let bed = Area::square_centimetres(row.number("bed_area_cm2"));
    let depth = Length::centimetres(row.number("bed_depth_cm"));
    let porosity = Share::ratio(row.number("porosity"));
    let stones = Mass::kilograms(row.number("solid_kg"));
    let stone = Concentration::kilograms_per_cubic_metre(row.number("solid_density"));
    let got = both!(row, "water left", weight::water_left(base, bed, depth, porosity, stones, stone));
    row.expect(got.in_litres());
}

fn tank_mass(row: &Row) {
    let of = |column: &str| Length::centimetres(row.number(column));
    let (length, width, height, glass) = (of("len_cm"), of("wid_cm"), of("hgt_cm"), of("glass_cm"));
    let water = Volume::litres(row.number("water_l"));
    let (fresh, t) = (Salinity::base(0.0), Temperature::celsius(row.number("t_c")));
    let bed = Volume::litres(row.number("bed_l"));
    let porosity = Share::ratio(row.number("porosity"));
    let rest = Mass::kilograms(row.number("extra_kg"));
    let pane = Concentration::kilograms_per_cubic_metre(2500.0);
    let panes = both!(row, "pane mass", weight::pane_mass(length, width, height, glass, pane));
    let dense = both!(row, "water density", density::density(fresh, t));
    let mass = both!(row, "tank mass", weight::filled_mass(panes, water, dense, bed, porosity, rest));
    row.expect(mass.in_kilograms());
}

fn floor_load(row: &Row) {
    let mass = Mass::kilograms(row.number("mass_kg"));
    let length = Length::centimetres(row.number("len_cm"));
    let width = Length::centimetres(row.number("wid_cm"));
    let got = both!(row, "footprint pressure", weight::footprint_pressure(mass, length, width));
    row.expect(got.in_kilopascals());
}

fn water_density(row: &Row) {
    let salinity = Salinity::grams_per_kilogram(row.number("salinity"));
    let t = Temperature::celsius(row.number("t_c"));
    let got = both!(row, "water density", density::density(salinity, t));
    row.expect(got.in_kilograms_per_cubic_metre());
}

fn specific_gravity(row: &Row) {
    let salinity = Salinity::grams_per_kilogram(row.number("salinity"));
    let t = Temperature::celsius(row.number("t_c"));
    let reference = Temperature::celsius(row.number("t_ref_c"));
    let gravity = both!(row, "specific gravity", density::specific_gravity(salinity, t, reference));
    row.expect(gravity.in_ratio());
    let back = both!(row, "salinity", density::salinity_from_gravity(gravity, t, reference));
    let off = back.in_grams_per_kilogram() - salinity.in_grams_per_kilogram();
    assert!(off.abs() < 1e-6, "{}: {off}", row.place());
}

/// The formula's own columns at the table's tolerance, the library's at theirs.
fn fresh_water(row: &Row) {
    let t = Temperature::celsius(row.number("t_c"));
    let dense = both!(row, "water density", density::density(Salinity::base(0.0), t));
    row.check("rho", dense.in_kilograms_per_cubic_metre());
    row.check_within("rho_iapws", dense.in_kilograms_per_cubic_metre(), 2e-5);
    let thick = both!(row, "water viscosity", density::viscosity(t));
    row.check("mu_short_Pa_s", thick.in_pascal_seconds());
    row.check_within("mu_iapws_Pa_s", thick.in_pascal_seconds(), 0.025);
}
