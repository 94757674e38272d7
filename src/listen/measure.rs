//! A measure: a number as said, with the units it may be in. In: nothing; this is the shape. Out: an `Amount` once its
//! dimension is known. Knows no words.

use crate::units::{Amount, Dimension, Unit, unit};

/// A figure, a range or a bound, with every unit that the words allow.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Measure {
    pub low: Option<f64>,
    pub likely: Option<f64>,
    pub high: Option<f64>,
    /// The bound itself is not meant.
    pub strict: bool,
    pub decimals: u8,
    /// Units that the words allow; none: no unit was said.
    pub units: Vec<&'static Unit>,
    /// The second reading of the number: "2.000".
    pub other: Option<f64>,
    /// A hedge, a range or a bound was said.
    pub hedged: bool,
    /// Said as "3 x 2 kg", "two lots of 6".
    pub times: Option<f64>,
    /// No figure: negative, infinite, a telephone number.
    pub refused: bool,
    /// Said as a word or an article: "a betta", "one".
    pub article: bool,
    /// Digits alone, no unit, no hedge: may be anything.
    pub bare: bool,
    /// "an hour" stands behind a number without a unit of volume.
    pub per_hour: bool,
    /// "each", "apiece".
    pub each: bool,
    /// A hedge that stood between number and unit, by its place in the list.
    pub hedge: Option<usize>,
    /// A number left vague: "some", "a few".
    pub vague: bool,
    /// "in all", "altogether".
    pub in_all: bool,
    /// The unit was taken from the words beside it.
    pub leaned: bool,
}

impl Measure {
    pub fn exact(value: f64, decimals: u8) -> Self {
        Self { low: Some(value), likely: Some(value), high: Some(value), decimals, ..Self::default() }
    }

    /// The number itself when there is but one.
    pub fn value(&self) -> Option<f64> {
        self.likely.or(self.low).or(self.high)
    }

    pub fn is_plain(&self) -> bool {
        self.units.is_empty()
    }

    /// The unit of that dimension, if the words allow one.
    pub fn unit_of(&self, dimension: Dimension) -> Option<&'static Unit> {
        self.units.iter().find(|u| u.dimension == dimension).copied()
    }

    pub fn has_unit(&self, name: &str) -> bool {
        self.units.iter().any(|u| u.name == name)
    }

    pub fn amount(&self, unit: &'static Unit) -> Amount {
        Amount {
            low: self.low,
            likely: self.likely,
            high: self.high,
            unit,
            strict: self.strict,
            decimals: self.decimals,
        }
    }

    pub fn count(&self) -> Amount {
        let whole = |v: f64| v.round();
        let (low, high) = if self.hedged && self.likely.is_some() {
            (self.low.map(f64::floor), self.high.map(f64::ceil))
        } else {
            (self.low, self.high)
        };
        let likely = if self.hedged { self.likely.map(whole) } else { self.likely };
        Amount { low, likely, high, unit: unit::plain(), strict: self.strict, decimals: self.decimals }
    }

    /// Each number through `change`.
    pub fn map(mut self, change: impl Fn(f64) -> f64) -> Self {
        self.low = self.low.map(&change);
        self.likely = self.likely.map(&change);
        self.high = self.high.map(&change);
        self
    }

    /// Widened by factors.
    pub fn widened(mut self, low: f64, likely: f64, high: f64) -> Self {
        if let (Some(a), Some(m), Some(b)) = (self.low, self.likely, self.high) {
            let clean = |v: f64| (v * 1e9).round() / 1e9;
            self.low = Some(clean(a * low));
            self.likely = Some(clean(m * likely));
            self.high = Some(clean(b * high));
        }
        self.hedged = true;
        self
    }
}
