//! Amounts: a quantity as it was said, with how widely it may be meant. In: numbers and a unit. Out: low, likely and
//! high in base units. Knows no words; `parse.rs` reads them, `show.rs` prints them.

use super::unit::{self, Unit};

/// Low, likely and high in base units of one dimension. `None` is an open end.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Spread {
    pub low: Option<f64>,
    pub likely: Option<f64>,
    pub high: Option<f64>,
}

impl Spread {
    pub fn exact(value: f64) -> Self {
        Self { low: Some(value), likely: Some(value), high: Some(value) }
    }

    pub fn between(low: f64, likely: f64, high: f64) -> Self {
        Self { low: Some(low), likely: Some(likely), high: Some(high) }
    }

    pub fn is_exact(&self) -> bool {
        self.low == self.high && self.low.is_some()
    }
}

/// A quantity in the unit it was said in. "about 55 gal" is 49.5, 55, 60.5; "under 20" has no low and no likely value.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Amount {
    pub low: Option<f64>,
    pub likely: Option<f64>,
    pub high: Option<f64>,
    pub unit: &'static Unit,
    /// The ends themselves are not meant: "under 20", "over 5".
    pub strict: bool,
    /// Digits after the point as said, so that an answer shows no more.
    pub decimals: u8,
}

impl Amount {
    pub fn exact(value: f64, unit: &'static Unit) -> Self {
        Self { low: Some(value), likely: Some(value), high: Some(value), unit, strict: false, decimals: 0 }
    }

    pub fn range(low: f64, high: f64, unit: &'static Unit) -> Self {
        Self { low: Some(low), likely: None, high: Some(high), unit, strict: false, decimals: 0 }
    }

    pub fn spread(low: f64, likely: f64, high: f64, unit: &'static Unit) -> Self {
        Self { low: Some(low), likely: Some(likely), high: Some(high), unit, strict: false, decimals: 0 }
    }

    pub fn at_least(value: f64, unit: &'static Unit, strict: bool) -> Self {
        Self { low: Some(value), likely: None, high: None, unit, strict, decimals: 0 }
    }

    pub fn at_most(value: f64, unit: &'static Unit, strict: bool) -> Self {
        Self { low: None, likely: None, high: Some(value), unit, strict, decimals: 0 }
    }

    pub fn in_unit(self, unit: &'static Unit) -> Self {
        Self { unit, ..self }
    }

    /// In base units. A range without a likely value gets its middle; an open end stays open.
    pub fn base(&self) -> Spread {
        let base = |v: Option<f64>| v.map(|v| self.unit.to_base(v));
        let middle = match (self.low, self.high) {
            (Some(l), Some(h)) => Some((l + h) / 2.0),
            _ => None,
        };
        Spread { low: base(self.low), likely: base(self.likely.or(middle)), high: base(self.high) }
    }

    /// Each number multiplied: "3 trays of 1.2 l" is 3.6 l together.
    pub fn times(self, by: f64) -> Self {
        Self {
            low: self.low.map(|v| v * by),
            likely: self.likely.map(|v| v * by),
            high: self.high.map(|v| v * by),
            ..self
        }
    }

    /// The likely number, or what end of it is known.
    pub fn middle(&self) -> Option<f64> {
        self.likely.or(self.high).or(self.low)
    }

    /// A count without a unit.
    pub fn count(value: f64) -> Self {
        Self::exact(value, unit::plain())
    }

    /// One value, no spread.
    pub fn is_exact(&self) -> bool {
        self.low == self.high && self.low.is_some()
    }
}
