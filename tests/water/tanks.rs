//! Check tables of tanks: volume, weight, floor.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::tank;

pub const CHECKS: &[Check] = &[("water_tank_volume", tank_volume)];

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
