//! The one refusal of all calculations, and the guards that give it.
//! In: an input and the range it must be in. Out: its number in base units, or `OutOfRange`. Knows no formula.

use crate::units::dimension::Dimension;
use crate::units::measure::Measure;
use std::fmt;

/// An input, or a result, that lies where a formula does not hold. All values are in the base unit of `dimension`
/// (SI; degrees Celsius). `low` or `high` is infinite where only the other end binds; `open` tells that the ends
/// themselves are out ("more than 0").
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct OutOfRange {
    pub input: &'static str,
    pub value: f64,
    pub low: f64,
    pub high: f64,
    pub open: bool,
    pub dimension: Dimension,
}

impl OutOfRange {
    /// A refusal of a measure outside `low..=high` (base units).
    pub fn of<M: Measure>(input: &'static str, value: M, low: f64, high: f64) -> Self {
        Self { input, value: value.to_base(), low, high, open: false, dimension: M::DIMENSION }
    }

    /// A refusal of a measure that is not strictly between `low` and `high` (base units).
    pub fn between<M: Measure>(input: &'static str, value: M, low: f64, high: f64) -> Self {
        Self { open: true, ..Self::of(input, value, low, high) }
    }

    /// A call with the wrong number of inputs.
    pub fn inputs(given: usize, wanted: usize) -> Self {
        Self {
            input: "number of inputs",
            value: given as f64,
            low: wanted as f64,
            high: wanted as f64,
            open: false,
            dimension: Dimension::NUMBER,
        }
    }
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = base_unit(self.dimension);
        let (value, low, high) = (figure(self.value), figure(self.low), figure(self.high));
        if !self.value.is_finite() {
            return write!(f, "{} is no number that can be worked with", self.input);
        }
        write!(f, "{} is {value}{unit}, but must be ", self.input)?;
        match (self.low.is_finite(), self.high.is_finite(), self.open) {
            (true, true, _) if self.low == self.high => write!(f, "{low}{unit}"),
            (true, true, true) => write!(f, "more than {low} and less than {high}{unit}"),
            (true, true, false) => write!(f, "from {low} to {high}{unit}"),
            (true, false, true) => write!(f, "more than {low}{unit}"),
            (true, false, false) => write!(f, "{low}{unit} or more"),
            (false, true, true) => write!(f, "less than {high}{unit}"),
            (false, true, false) => write!(f, "{high}{unit} or less"),
            (false, false, _) => write!(f, "a number that can be worked with"),
        }
    }
}

impl std::error::Error for OutOfRange {}

/// Six digits, so that floating-point dust is not shown.
fn figure(value: f64) -> String {
    let size = value.abs();
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    if !(1e-4..1e7).contains(&size) {
        return format!("{value:.3e}");
    }
    let places = (5 - size.log10().floor() as i32).max(0) as usize;
    let text = format!("{value:.places$}");
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_string(),
        false => text,
    }
}

/// The base unit as written behind a figure, with its leading space; empty where there is none to name.
fn base_unit(dimension: Dimension) -> &'static str {
    const UNITS: &[(Dimension, &str)] = &[
        (Dimension::LENGTH, " m"),
        (Dimension::AREA, " m2"),
        (Dimension::VOLUME, " m3"),
        (Dimension::MASS, " kg"),
        (Dimension::TIME, " s"),
        (Dimension::FLOW, " m3/s"),
        (Dimension::SPEED, " m/s"),
        (Dimension::PER_TIME, " per second"),
        (Dimension::CONCENTRATION, " g/L"),
        (Dimension::CONCENTRATION_PER_TIME, " g/L/s"),
        (Dimension::MASS_PER_TIME, " kg/s"),
        (Dimension::AREAL_RATE, " kg/m2/s"),
        (Dimension::PER_LENGTH, " per metre"),
        (Dimension::POWER, " W"),
        (Dimension::ENERGY, " J"),
        (Dimension::PRESSURE, " Pa"),
        (Dimension::TEMPERATURE, " degC"),
        (Dimension::ACIDITY, " pH"),
    ];
    UNITS.iter().find(|(d, _)| *d == dimension).map_or("", |(_, unit)| unit)
}

/// The value in base units if it is finite and more than nothing.
pub(super) fn positive<M: Measure>(input: &'static str, value: M) -> Result<f64, OutOfRange> {
    let base = value.to_base();
    if base > 0.0 && base.is_finite() {
        return Ok(base);
    }
    Err(OutOfRange::between(input, value, 0.0, f64::INFINITY))
}

/// The value in base units if it is finite and nothing or more.
pub(super) fn not_negative<M: Measure>(input: &'static str, value: M) -> Result<f64, OutOfRange> {
    let base = value.to_base();
    if base >= 0.0 && base.is_finite() {
        return Ok(base);
    }
    Err(OutOfRange::of(input, value, 0.0, f64::INFINITY))
}

/// The value in base units if it is a number at all.
pub(super) fn known<M: Measure>(input: &'static str, value: M) -> Result<f64, OutOfRange> {
    let base = value.to_base();
    if base.is_finite() {
        return Ok(base);
    }
    Err(OutOfRange::of(input, value, f64::NEG_INFINITY, f64::INFINITY))
}

/// The value in base units if it is in `low..=high`.
pub(super) fn within<M: Measure>(input: &'static str, value: M, low: M, high: M) -> Result<f64, OutOfRange> {
    let (base, low, high) = (value.to_base(), low.to_base(), high.to_base());
    if base >= low && base <= high {
        return Ok(base);
    }
    Err(OutOfRange::of(input, value, low, high))
}

/// The value in base units, taken to the nearer border when it lies outside `low..=high`; only a non-number is refused.
pub(super) fn held<M: Measure>(input: &'static str, value: M, low: M, high: M) -> Result<f64, OutOfRange> {
    let base = value.to_base();
    if base.is_nan() {
        return Err(OutOfRange::of(input, value, low.to_base(), high.to_base()));
    }
    Ok(base.clamp(low.to_base(), high.to_base()))
}

/// A share of a whole: 0 to 1.
pub(super) fn share(input: &'static str, value: crate::units::measure::Share) -> Result<f64, OutOfRange> {
    use crate::units::measure::Share;
    within(input, value, Share::ratio(0.0), Share::ratio(1.0))
}

/// A share that cannot be nothing: more than 0, up to 1.
pub(super) fn some_share(input: &'static str, value: crate::units::measure::Share) -> Result<f64, OutOfRange> {
    if value.in_base() > 0.0 && value.in_base() <= 1.0 {
        return Ok(value.in_base());
    }
    Err(OutOfRange::of(input, value, 0.0, 1.0))
}

/// A result, refused when the inputs were so large or so small that it is no number.
pub(super) fn result<M: Measure>(name: &'static str, base: f64) -> Result<M, OutOfRange> {
    known(name, M::from_base(base)).map(M::from_base)
}
