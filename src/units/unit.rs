//! Units: exact definitions, and which system of units each belongs to. In: a name. Out: factor, offset, dimension.
//! Definitions: NIST SP 811 (2008) appendix B; hardness degrees from 10 mg/L CaO (atomic weights).

use super::dimension::Dimension;
use std::sync::LazyLock;

/// Which callers count in a unit.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum System {
    Any,
    Metric,
    UsCustomary,
    Imperial,
    /// US and imperial alike: inch, pound.
    Customary,
}

/// A unit: `value in base units = value x factor + offset`.
#[derive(PartialEq, Debug)]
pub struct Unit {
    /// The short name that rules, tables and answers use ("gal", "L/h").
    pub name: &'static str,
    /// How it is shown in an answer ("US gal").
    pub shown: &'static str,
    pub dimension: Dimension,
    pub factor: f64,
    pub offset: f64,
    pub system: System,
}

impl Unit {
    pub fn to_base(&self, value: f64) -> f64 {
        value * self.factor + self.offset
    }

    pub fn from_base(&self, value: f64) -> f64 {
        (value - self.offset) / self.factor
    }
}

const fn unit(name: &'static str, shown: &'static str, dimension: Dimension, factor: f64, system: System) -> Unit {
    Unit { name, shown, dimension, factor, offset: 0.0, system }
}

use System::{Any, Customary, Imperial, Metric, UsCustomary};

const HOUR: f64 = 3600.0;
const DAY: f64 = 86400.0;
const US_GALLON: f64 = 3.785411784e-3;
const IMPERIAL_GALLON: f64 = 4.54609e-3;
const INCH: f64 = 0.0254;
const POUND: f64 = 0.45359237;
/// One German degree: 10 mg/L CaO, counted as CaCO3 (100.086 / 56.077).
const HARDNESS_DEGREE: f64 = 17.848e-3;

/// Every unit. `gal` and `gal/h` stand for a gallon whose kind was not said: the case decides and says so;
/// until then they count as US gallons.
pub static UNITS: &[Unit] = &[
    unit("L", "L", Dimension::VOLUME, 1e-3, Metric),
    unit("mL", "mL", Dimension::VOLUME, 1e-6, Metric),
    unit("m3", "m3", Dimension::VOLUME, 1.0, Metric),
    unit("gal", "gal", Dimension::VOLUME, US_GALLON, UsCustomary),
    unit("usgal", "US gal", Dimension::VOLUME, US_GALLON, UsCustomary),
    unit("impgal", "imp gal", Dimension::VOLUME, IMPERIAL_GALLON, Imperial),
    unit("cuft", "cu ft", Dimension::VOLUME, 28.316846592e-3, Customary),
    unit("floz", "fl oz", Dimension::VOLUME, 29.5735295625e-6, UsCustomary),
    unit("impfloz", "imp fl oz", Dimension::VOLUME, 28.4130625e-6, Imperial),
    unit("quart", "US qt", Dimension::VOLUME, 0.946352946e-3, UsCustomary),
    unit("pint", "imp pt", Dimension::VOLUME, 0.56826125e-3, Imperial),
    unit("m", "m", Dimension::LENGTH, 1.0, Metric),
    unit("cm", "cm", Dimension::LENGTH, 0.01, Metric),
    unit("mm", "mm", Dimension::LENGTH, 0.001, Metric),
    unit("in", "in", Dimension::LENGTH, INCH, Customary),
    unit("ft", "ft", Dimension::LENGTH, 12.0 * INCH, Customary),
    unit("m2", "m2", Dimension::AREA, 1.0, Metric),
    unit("cm2", "cm2", Dimension::AREA, 1e-4, Metric),
    unit("in2", "sq in", Dimension::AREA, INCH * INCH, Customary),
    unit("ft2", "sq ft", Dimension::AREA, 144.0 * INCH * INCH, Customary),
    unit("kg", "kg", Dimension::MASS, 1.0, Metric),
    unit("g", "g", Dimension::MASS, 1e-3, Metric),
    unit("mg", "mg", Dimension::MASS, 1e-6, Metric),
    unit("lb", "lb", Dimension::MASS, POUND, Customary),
    unit("oz", "oz", Dimension::MASS, POUND / 16.0, Customary),
    unit("s", "s", Dimension::TIME, 1.0, Any),
    unit("min", "min", Dimension::TIME, 60.0, Any),
    unit("h", "h", Dimension::TIME, HOUR, Any),
    unit("d", "days", Dimension::TIME, DAY, Any),
    unit("wk", "weeks", Dimension::TIME, 7.0 * DAY, Any),
    unit("mo", "months", Dimension::TIME, 30.4375 * DAY, Any),
    unit("yr", "years", Dimension::TIME, 365.25 * DAY, Any),
    unit("L/h", "L/h", Dimension::FLOW, 1e-3 / HOUR, Metric),
    unit("L/min", "L/min", Dimension::FLOW, 1e-3 / 60.0, Metric),
    unit("L/s", "L/s", Dimension::FLOW, 1e-3, Metric),
    unit("m3/day", "m3/day", Dimension::FLOW, 1.0 / DAY, Metric),
    unit("gal/h", "gal/h", Dimension::FLOW, US_GALLON / HOUR, UsCustomary),
    unit("usgal/h", "US gal/h", Dimension::FLOW, US_GALLON / HOUR, UsCustomary),
    unit("impgal/h", "imp gal/h", Dimension::FLOW, IMPERIAL_GALLON / HOUR, Imperial),
    unit("m/s", "m/s", Dimension::SPEED, 1.0, Metric),
    unit("cm/s", "cm/s", Dimension::SPEED, 0.01, Metric),
    unit("mm/s", "mm/s", Dimension::SPEED, 0.001, Metric),
    unit("cm/min", "cm/min", Dimension::SPEED, 0.01 / 60.0, Metric),
    unit("m/h", "m/h", Dimension::SPEED, 1.0 / HOUR, Metric),
    unit("m/day", "m/day", Dimension::SPEED, 1.0 / DAY, Metric),
    unit("in/s", "in/s", Dimension::SPEED, INCH, Customary),
    unit("ft/s", "ft/s", Dimension::SPEED, 12.0 * INCH, Customary),
    unit("per second", "per second", Dimension::PER_TIME, 1.0, Any),
    unit("per hour", "per hour", Dimension::PER_TIME, 1.0 / HOUR, Any),
    unit("per day", "per day", Dimension::PER_TIME, 1.0 / DAY, Any),
    unit("per week", "per week", Dimension::PER_TIME, 1.0 / (7.0 * DAY), Any),
    unit("mg/L", "mg/L", Dimension::CONCENTRATION, 1e-3, Any),
    unit("ppm", "ppm", Dimension::CONCENTRATION, 1e-3, Any),
    unit("g/L", "g/L", Dimension::CONCENTRATION, 1.0, Any),
    unit("kg/L", "kg/L", Dimension::CONCENTRATION, 1e3, Metric),
    unit("kg/m3", "kg/m3", Dimension::CONCENTRATION, 1.0, Metric),
    unit("lb/gal", "lb/gal", Dimension::CONCENTRATION, POUND / US_GALLON, UsCustomary),
    unit("dKH", "dKH", Dimension::CONCENTRATION, HARDNESS_DEGREE, Any),
    unit("dGH", "dGH", Dimension::CONCENTRATION, HARDNESS_DEGREE, Any),
    unit("dH", "dH", Dimension::CONCENTRATION, HARDNESS_DEGREE, Any),
    unit("fH", "fH", Dimension::CONCENTRATION, 10e-3, Any),
    unit("mg/L per day", "mg/L per day", Dimension::CONCENTRATION_PER_TIME, 1e-3 / DAY, Any),
    unit("mg/L per week", "mg/L per week", Dimension::CONCENTRATION_PER_TIME, 1e-3 / (7.0 * DAY), Any),
    unit("mg/L per hour", "mg/L per hour", Dimension::CONCENTRATION_PER_TIME, 1e-3 / HOUR, Any),
    unit("g/day", "g/day", Dimension::MASS_PER_TIME, 1e-3 / DAY, Any),
    unit("mg/day", "mg/day", Dimension::MASS_PER_TIME, 1e-6 / DAY, Any),
    unit("mg/h", "mg/h", Dimension::MASS_PER_TIME, 1e-6 / HOUR, Any),
    unit("kg/day", "kg/day", Dimension::MASS_PER_TIME, 1.0 / DAY, Metric),
    unit("g/m2/day", "g/m2 per day", Dimension::AREAL_RATE, 1e-3 / DAY, Metric),
    unit("m2/m3", "m2/m3", Dimension::PER_LENGTH, 1.0, Metric),
    unit("m2/L", "m2/L", Dimension::PER_LENGTH, 1e3, Metric),
    unit("ft2/ft3", "sq ft/cu ft", Dimension::PER_LENGTH, 1.0 / (12.0 * INCH), Customary),
    unit("ppi", "ppi", Dimension::PER_LENGTH, 1.0 / INCH, Any),
    unit("W", "W", Dimension::POWER, 1.0, Any),
    unit("kWh", "kWh", Dimension::ENERGY, 3.6e6, Any),
    unit("Pa", "Pa", Dimension::PRESSURE, 1.0, Metric),
    unit("kPa", "kPa", Dimension::PRESSURE, 1e3, Metric),
    // Power for a flow: 1 W per 1000 L/h is 1 Wh per cubic metre pumped, and a pressure by its dimension.
    unit("W per 1000 L/h", "W per 1000 L/h", Dimension::PRESSURE, 3.6e3, Any),
    unit("kN/m2", "kN/m2", Dimension::PRESSURE, 1e3, Metric),
    unit("psf", "lb/sq ft", Dimension::PRESSURE, 47.88025898, Customary),
    unit("psi", "psi", Dimension::PRESSURE, 6894.757293168, Customary),
    unit("C", "C", Dimension::TEMPERATURE, 1.0, Metric),
    Unit {
        name: "F",
        shown: "F",
        dimension: Dimension::TEMPERATURE,
        factor: 5.0 / 9.0,
        offset: -160.0 / 9.0,
        system: UsCustomary,
    },
    unit("pH", "", Dimension::ACIDITY, 1.0, Any),
    unit("GBP", "GBP", Dimension::MONEY, 1.0, Any),
    unit("USD", "USD", Dimension::MONEY, 1.0, Any),
    unit("EUR", "EUR", Dimension::MONEY, 1.0, Any),
    unit("%", "%", Dimension::NUMBER, 0.01, Any),
    unit("ppt", "g/kg", Dimension::NUMBER, 1e-3, Any),
    unit("SG", "SG", Dimension::NUMBER, 1.0, Any),
    unit("", "", Dimension::NUMBER, 1.0, Any),
];

/// The units by the first byte of their names, longest names first: every number of a book asks for one.
static BY_FIRST: LazyLock<Vec<Vec<&'static Unit>>> = LazyLock::new(|| {
    let mut by_first = vec![Vec::new(); 256];
    for unit in UNITS {
        if let Some(first) = unit.name.bytes().next() {
            by_first[first as usize].push(unit);
        }
    }
    by_first.iter_mut().for_each(|units: &mut Vec<&Unit>| units.sort_by_key(|u| std::cmp::Reverse(u.name.len())));
    by_first
});

fn like(text: &str) -> &'static [&'static Unit] {
    text.bytes().next().map_or(&[], |first| &BY_FIRST[first as usize])
}

/// The unit of that exact short name.
pub fn by_name(name: &str) -> Option<&'static Unit> {
    if name.is_empty() {
        return UNITS.iter().find(|u| u.name.is_empty());
    }
    like(name).iter().copied().find(|u| u.name == name)
}

/// The unit with the longest name that `text` begins with, the name ending where a word does.
pub fn at_front(text: &str) -> Option<&'static Unit> {
    let ends = |name: &str| !text[name.len()..].starts_with(|c: char| c.is_alphanumeric() || c == '/');
    like(text).iter().copied().find(|u| text.starts_with(u.name) && ends(u.name))
}

/// The unit without a name: a plain number.
pub fn plain() -> &'static Unit {
    by_name("").unwrap_or(&UNITS[0])
}

/// The unit in which base values of a dimension are shown when nothing better is known.
pub fn usual(dimension: Dimension) -> Option<&'static Unit> {
    UNITS.iter().find(|u| u.dimension == dimension)
}

/// The unit in which people in the trade mostly write such a quantity.
pub fn everyday(dimension: Dimension) -> Option<&'static Unit> {
    let name = match dimension {
        Dimension::NUMBER => return None,
        Dimension::LENGTH => "cm",
        Dimension::AREA => "cm2",
        Dimension::MASS => "g",
        Dimension::TIME => "d",
        Dimension::SPEED => "cm/s",
        Dimension::PER_TIME => "per hour",
        Dimension::CONCENTRATION_PER_TIME => "mg/L per day",
        _ => return usual(dimension),
    };
    by_name(name)
}
