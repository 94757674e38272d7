//! Amounts in words: a figure's range or a fact's value with its unit. In: base values, the caller's own units. Out: "about
//! 47 gal", "15 to 25 L". Knows no rule.

use super::digits::{self, at, carried};
use super::own_units::OwnUnits;
use crate::units::{Amount, Dimension, Spread, Unit};

/// A blank that no line breaks at: a number stays with its unit.
pub const TIED: char = '\u{a0}';

/// Whether a text is read aloud or read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Voice {
    Spoken,
    Written,
}

/// A quantity ready to be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Quantity {
    pub unit: &'static Unit,
    pub likely: String,
    pub ends: Option<(String, String)>,
    /// Low, likely and high in the unit shown.
    pub values: Spread,
}

/// A figure's value in the caller's units. `most` digits are what its inputs carry.
pub fn quantity(
    own: &OwnUnits,
    range: Spread,
    dimension: Dimension,
    shown_in: Option<&'static Unit>,
    most: i32,
) -> Quantity {
    let likely = range.likely.or(range.high).or(range.low).unwrap_or(0.0);
    let unit = own.unit(likely, dimension, shown_in);
    let value = |v: Option<f64>| unit.from_base(v.unwrap_or(likely));
    let (low, middle, high) = (value(range.low), value(Some(likely)), value(range.high));
    let shown = digits::range(low, middle, high, most);
    Quantity { unit, likely: shown.likely, ends: shown.ends, values: Spread::between(low, middle, high) }
}

impl Quantity {
    pub fn is_exact(&self) -> bool {
        self.ends.is_none()
    }

    /// Whether the ends are so far apart that the reader must see them.
    pub fn is_wide(&self) -> bool {
        match (self.values.low, self.values.high) {
            (Some(low), Some(high)) if self.ends.is_some() => low <= 0.0 || high / low > 1.6,
            _ => false,
        }
    }

    /// "about 47 gal" or "47 gal".
    pub fn about(&self, voice: Voice) -> String {
        let value = with_unit(&self.likely, self.unit, voice);
        match (self.is_exact(), value.strip_prefix(&format!("pH{TIED}"))) {
            (true, _) => value,
            (false, Some(number)) => format!("pH about {number}"),
            (false, None) => format!("about {value}"),
        }
    }

    /// "about 47 gal (41 to 52)": the whole.
    pub fn whole(&self) -> String {
        match &self.ends {
            None => with_unit(&self.likely, self.unit, Voice::Written),
            Some((low, high)) => {
                format!("{} ({low}{TIED}to{TIED}{high})", self.about(Voice::Written))
            }
        }
    }

    /// In a sentence: with its ends only where they are far apart, and never read aloud.
    pub fn in_sentence(&self, voice: Voice) -> String {
        match voice {
            Voice::Written if self.is_wide() => self.whole(),
            _ => self.about(voice),
        }
    }
}

/// An amount as it was said, in its own unit, or converted when the caller chose other units.
pub fn said(own: &OwnUnits, amount: &Amount, voice: Voice) -> String {
    let base = amount.base();
    let unit = match own.chosen {
        true => own.unit(base.likely.or(base.high).or(base.low).unwrap_or(0.0), amount.unit.dimension, None),
        false => amount.unit,
    };
    let same = unit == amount.unit;
    let number = |v: f64| match same {
        // Said numbers keep their digits, but never show more than six: halves of feet in metres and the like.
        true => at(v, digits::decimals(v, 6).min(i32::from(amount.decimals).max(2))),
        false => digits::significant(unit.from_base(amount.unit.to_base(v)), carried(v, amount.decimals).max(2)),
    };
    let value = |v: f64| with_unit(&number(v), unit, voice);
    match (amount.low, amount.likely, amount.high) {
        (Some(low), _, Some(high)) if low == high => value(low),
        (Some(_), Some(likely), Some(_)) => format!("about {}", value(likely)),
        (Some(low), None, Some(high)) => format!("{}{TIED}to{TIED}{}", number(low), value(high)),
        (None, _, Some(high)) if amount.strict => format!("under {}", value(high)),
        (None, _, Some(high)) => format!("at most {}", value(high)),
        (Some(low), _, None) if amount.strict => format!("over {}", value(low)),
        (Some(low), _, None) => format!("at least {}", value(low)),
        (None, Some(likely), None) => value(likely),
        (None, None, None) => "unknown".to_string(),
    }
}

/// A number with its unit. Read aloud, the unit is a word.
pub fn with_unit(number: &str, unit: &Unit, voice: Voice) -> String {
    let shown = match voice {
        Voice::Written => unit.shown,
        Voice::Spoken => spoken(unit, number == "1"),
    };
    match shown {
        "" if unit.name == "pH" => format!("pH{TIED}{number}"),
        "" => number.to_string(),
        "%" => format!("{number}{TIED}%"),
        "days" | "weeks" | "months" | "years" if number == "1" => {
            format!("{number}{TIED}{}", shown.trim_end_matches('s'))
        }
        shown => format!("{number}{TIED}{shown}"),
    }
}

/// A unit as it is said on the telephone.
fn spoken(unit: &'_ Unit, one: bool) -> &'_ str {
    let words = [
        ("L", "litre", "litres"),
        ("mL", "millilitre", "millilitres"),
        ("gal", "gallon", "gallons"),
        ("usgal", "gallon", "gallons"),
        ("impgal", "gallon", "gallons"),
        ("floz", "fluid ounce", "fluid ounces"),
        ("impfloz", "fluid ounce", "fluid ounces"),
        ("quart", "quart", "quarts"),
        ("pint", "pint", "pints"),
        ("m", "metre", "metres"),
        ("cm", "centimetre", "centimetres"),
        ("mm", "millimetre", "millimetres"),
        ("in", "inch", "inches"),
        ("ft", "foot", "feet"),
        ("cm2", "square centimetre", "square centimetres"),
        ("m2", "square metre", "square metres"),
        ("in2", "square inch", "square inches"),
        ("ft2", "square foot", "square feet"),
        ("kg", "kilogram", "kilograms"),
        ("g", "gram", "grams"),
        ("mg", "milligram", "milligrams"),
        ("lb", "pound", "pounds"),
        ("oz", "ounce", "ounces"),
        ("s", "second", "seconds"),
        ("min", "minute", "minutes"),
        ("h", "hour", "hours"),
        ("L/h", "litre an hour", "litres an hour"),
        ("L/min", "litre a minute", "litres a minute"),
        ("gal/h", "gallon an hour", "gallons an hour"),
        ("usgal/h", "gallon an hour", "gallons an hour"),
        ("impgal/h", "gallon an hour", "gallons an hour"),
        ("cm/s", "centimetre a second", "centimetres a second"),
        ("mm/s", "millimetre a second", "millimetres a second"),
        ("in/s", "inch a second", "inches a second"),
        ("mg/L", "milligram per litre", "milligrams per litre"),
        ("ppm", "ppm", "ppm"),
        ("mg/L per week", "milligram per litre a week", "milligrams per litre a week"),
        ("mg/L per day", "milligram per litre a day", "milligrams per litre a day"),
        ("g/day", "gram a day", "grams a day"),
        ("mg/day", "milligram a day", "milligrams a day"),
        ("per hour", "time an hour", "times an hour"),
        ("per day", "time a day", "times a day"),
        ("dKH", "degree KH", "degrees KH"),
        ("dGH", "degree GH", "degrees GH"),
        ("W", "watt", "watts"),
        ("kWh", "kilowatt-hour", "kilowatt-hours"),
        ("C", "degree C", "degrees C"),
        ("F", "degree F", "degrees F"),
        ("%", "percent", "percent"),
        ("ppi", "pore per inch", "pores per inch"),
        ("psf", "pound per square foot", "pounds per square foot"),
    ];
    match words.iter().find(|(name, ..)| *name == unit.name) {
        Some((_, singular, plural)) => match one {
            true => singular,
            false => plural,
        },
        None => unit.shown,
    }
}
