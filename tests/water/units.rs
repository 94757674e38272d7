//! Check tables of unit conversions: constructors and readers of the measures.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::units::unit::{self, Unit};

pub const CHECKS: &[Check] =
    &[("water_units", units), ("filtration_units", filter_units), ("water_hardness", hardness)];

/// A value of a unit in base units of its dimension, and a value in base units in the unit.
type Conversion = (fn(f64) -> f64, fn(f64) -> f64);

macro_rules! through {
    ($measure:ident, $into:ident, $out:ident) => {
        (|x| $measure::$into(x).in_base(), |x| $measure::base(x).$out())
    };
}

fn conversion(unit: &str) -> Conversion {
    match unit {
        "gal_us" | "gallon" => through!(Volume, us_gallons, in_us_gallons),
        "gal_imp" | "imperial_gallon" => through!(Volume, imperial_gallons, in_imperial_gallons),
        "L" | "liter" => through!(Volume, litres, in_litres),
        "mL" => through!(Volume, millilitres, in_millilitres),
        "m3" => through!(Volume, cubic_metres, in_cubic_metres),
        "ft3" | "foot^3" => through!(Volume, cubic_feet, in_cubic_feet),
        "in3" => through!(Volume, cubic_inches, in_cubic_inches),
        "floz_us" => through!(Volume, us_fluid_ounces, in_us_fluid_ounces),
        "floz_imp" => through!(Volume, imperial_fluid_ounces, in_imperial_fluid_ounces),
        "qt_us" => through!(Volume, us_quarts, in_us_quarts),
        "pt_imp" => through!(Volume, imperial_pints, in_imperial_pints),
        "lb" | "pound" => through!(Mass, pounds, in_pounds),
        "oz" | "ounce" => through!(Mass, ounces, in_ounces),
        "kg" | "kilogram" => through!(Mass, kilograms, in_kilograms),
        "g" | "gram" => through!(Mass, grams, in_grams),
        "in" | "inch" => through!(Length, inches, in_inches),
        "ft" => through!(Length, feet, in_feet),
        "cm" => through!(Length, centimetres, in_centimetres),
        "millimeter" => through!(Length, millimetres, in_millimetres),
        "foot^2" => through!(Area, square_feet, in_square_feet),
        "meter^2" => through!(Area, square_metres, in_square_metres),
        "gph_us" | "gallon/hour" => through!(Flow, us_gallons_per_hour, in_us_gallons_per_hour),
        "gph_imp" => through!(Flow, imperial_gallons_per_hour, in_imperial_gallons_per_hour),
        "gpm_us" => through!(Flow, us_gallons_per_minute, in_us_gallons_per_minute),
        "L/h" | "liter/hour" => through!(Flow, litres_per_hour, in_litres_per_hour),
        "L/min" => through!(Flow, litres_per_minute, in_litres_per_minute),
        "foot/second" => through!(Speed, feet_per_second, in_feet_per_second),
        "millimeter/second" => through!(Speed, millimetres_per_second, in_millimetres_per_second),
        "atm" => through!(Pressure, atmospheres, in_atmospheres),
        "mmHg" => through!(Pressure, millimetres_of_mercury, in_millimetres_of_mercury),
        "inHg" => through!(Pressure, inches_of_mercury, in_inches_of_mercury),
        "hPa" => through!(Pressure, hectopascals, in_hectopascals),
        "kN/m2" => through!(Pressure, kilopascals, in_kilopascals),
        "psf" => through!(Pressure, pounds_per_square_foot, in_pounds_per_square_foot),
        "psi" => through!(Pressure, pounds_per_square_inch, in_pounds_per_square_inch),
        "pascal" => through!(Pressure, pascals, in_pascals),
        "W" => through!(Power, watts, in_watts),
        "Btu/h" => through!(Power, btu_per_hour, in_btu_per_hour),
        "foot^2/foot^3" => through!(SpecificSurface, square_feet_per_cubic_foot, in_square_feet_per_cubic_foot),
        "meter^2/meter^3" => through!(SpecificSurface, square_metres_per_cubic_metre, in_square_metres_per_cubic_metre),
        "F" => through!(Temperature, fahrenheit, in_fahrenheit),
        "C" => through!(Temperature, celsius, in_celsius),
        "K" => through!(Temperature, kelvin, in_kelvin),
        "dH" => through!(Concentration, german_degrees, in_german_degrees),
        "fH" => through!(Concentration, french_degrees, in_french_degrees),
        "clark" => through!(Concentration, clark_degrees, in_clark_degrees),
        "gpg_us" => through!(Concentration, grains_per_us_gallon, in_grains_per_us_gallon),
        "meq/L" => through!(Concentration, milliequivalents_per_litre, in_milliequivalents_per_litre),
        "mmol/L_CaCO3" => through!(Concentration, millimoles_caco3_per_litre, in_millimoles_caco3_per_litre),
        "mg/L_CaCO3" => through!(Concentration, milligrams_per_litre, in_milligrams_per_litre),
        other => panic!("unknown unit {other}"),
    }
}

/// The same unit in the table of units that callers and rules use, where it stands there.
fn listed(name: &str) -> Option<&'static Unit> {
    let name = match name {
        "gal_us" | "gallon" => "usgal",
        "gal_imp" | "imperial_gallon" => "impgal",
        "liter" => "L",
        "ft3" | "foot^3" => "cuft",
        "floz_us" => "floz",
        "floz_imp" => "impfloz",
        "qt_us" => "quart",
        "pt_imp" => "pint",
        "pound" => "lb",
        "ounce" => "oz",
        "kilogram" => "kg",
        "gram" => "g",
        "inch" => "in",
        "millimeter" => "mm",
        "foot^2" => "ft2",
        "meter^2" => "m2",
        "gph_us" | "gallon/hour" => "usgal/h",
        "gph_imp" => "impgal/h",
        "liter/hour" => "L/h",
        "foot/second" => "ft/s",
        "millimeter/second" => "mm/s",
        "pascal" => "Pa",
        "foot^2/foot^3" => "ft2/ft3",
        "meter^2/meter^3" => "m2/m3",
        "mg/L_CaCO3" => "mg/L",
        other => other,
    };
    unit::by_name(name)
}

fn convert(row: &Row) -> f64 {
    let (from, to, value) = (row.text("from"), row.text("to"), row.number("value"));
    let got = (conversion(to).1)((conversion(from).0)(value));
    if let (Some(from), Some(to)) = (listed(from), listed(to)) {
        let again = to.from_base(from.to_base(value));
        assert!((again - got).abs() <= 1e-9 * got.abs().max(1.0), "{}: {again} {got}", row.place());
    }
    got
}

fn units(row: &Row) {
    if row.text("dimension") != "temperature_difference" {
        return row.expect(convert(row));
    }
    let value = row.number("value");
    row.expect(match (row.text("from"), row.text("to")) {
        ("F", "C") => Warming::fahrenheit(value).in_celsius(),
        ("C", "F") => Warming::celsius(value).in_fahrenheit(),
        other => panic!("unknown units {other:?}"),
    });
}

fn filter_units(row: &Row) {
    row.check("result", convert(row));
}

fn hardness(row: &Row) {
    row.expect(convert(row));
}
