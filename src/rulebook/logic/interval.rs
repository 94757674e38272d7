//! Intervals: every value that a quantity may have. In: ends, open or closed. Out: the smallest interval that holds every
//! result of a sum, a product, a quotient. Knows no quantity.

/// From `low` to `high`; an open end is not part of it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Interval {
    pub low: f64,
    pub high: f64,
    pub low_open: bool,
    pub high_open: bool,
}

impl Interval {
    pub const ALL: Self = Self::closed(f64::NEG_INFINITY, f64::INFINITY);

    pub const fn closed(low: f64, high: f64) -> Self {
        Self { low, high, low_open: false, high_open: false }
    }

    pub const fn exactly(value: f64) -> Self {
        Self::closed(value, value)
    }

    pub const fn below(value: f64, open: bool) -> Self {
        Self { low: f64::NEG_INFINITY, high: value, low_open: false, high_open: open }
    }

    pub const fn above(value: f64, open: bool) -> Self {
        Self { low: value, high: f64::INFINITY, low_open: open, high_open: false }
    }

    pub fn is_empty(&self) -> bool {
        self.low > self.high || (self.low == self.high && (self.low_open || self.high_open))
    }

    pub fn is_point(&self) -> bool {
        self.low == self.high && !self.is_empty()
    }

    pub fn contains(&self, value: f64) -> bool {
        (self.low < value || (self.low == value && !self.low_open))
            && (value < self.high || (value == self.high && !self.high_open))
    }

    /// Every value of the one is a value of the other.
    pub fn is_within(&self, other: &Self) -> bool {
        let low = self.low > other.low || (self.low == other.low && (self.low_open || !other.low_open));
        let high = self.high < other.high || (self.high == other.high && (self.high_open || !other.high_open));
        self.is_empty() || (low && high)
    }

    /// What it does not hold, below and above.
    pub fn outside(self) -> Vec<Self> {
        let below = Self { low: f64::NEG_INFINITY, high: self.low, low_open: false, high_open: !self.low_open };
        let above = Self { low: self.high, high: f64::INFINITY, low_open: !self.high_open, high_open: false };
        let is_there = |i: &Self| !i.is_empty() && i.low < f64::INFINITY && i.high > f64::NEG_INFINITY;
        [below, above].into_iter().filter(is_there).collect()
    }

    /// What both hold.
    pub fn meet(self, other: Self) -> Self {
        let (low, low_open) = match self.low.total_cmp(&other.low) {
            std::cmp::Ordering::Greater => (self.low, self.low_open),
            std::cmp::Ordering::Less => (other.low, other.low_open),
            std::cmp::Ordering::Equal => (self.low, self.low_open || other.low_open),
        };
        let (high, high_open) = match self.high.total_cmp(&other.high) {
            std::cmp::Ordering::Less => (self.high, self.high_open),
            std::cmp::Ordering::Greater => (other.high, other.high_open),
            std::cmp::Ordering::Equal => (self.high, self.high_open || other.high_open),
        };
        Self { low, high, low_open, high_open }
    }

    /// The smallest interval that holds both.
    pub fn hull(self, other: Self) -> Self {
        if self.is_empty() {
            return other;
        }
        if other.is_empty() {
            return self;
        }
        Self::closed(self.low.min(other.low), self.high.max(other.high))
    }

    pub fn negated(self) -> Self {
        Self { low: -self.high, high: -self.low, low_open: self.high_open, high_open: self.low_open }
    }

    pub fn plus(self, other: Self) -> Self {
        // An end that is open on one side only is not reached by the sum.
        Self {
            low: number(self.low + other.low, f64::NEG_INFINITY),
            high: number(self.high + other.high, f64::INFINITY),
            low_open: self.low_open || other.low_open,
            high_open: self.high_open || other.high_open,
        }
    }

    pub fn minus(self, other: Self) -> Self {
        self.plus(other.negated())
    }

    pub fn times(self, other: Self) -> Self {
        let corners = [self.low * other.low, self.low * other.high, self.high * other.low, self.high * other.high];
        // Nothing times anything is nothing, however large.
        let corners = corners.map(|c| if c.is_nan() { 0.0 } else { c });
        Self::closed(
            corners.iter().copied().fold(f64::INFINITY, f64::min),
            corners.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        )
    }

    pub fn over(self, other: Self) -> Self {
        if other.low < 0.0 && other.high > 0.0 || other.low == 0.0 && other.high == 0.0 {
            return Self::ALL;
        }
        // What comes of a division by nothing is unknown, so that an end at zero only makes the result large.
        let reciprocal = if other.low == 0.0 {
            Self::closed(1.0 / other.high, f64::INFINITY)
        } else if other.high == 0.0 {
            Self::closed(f64::NEG_INFINITY, 1.0 / other.low)
        } else {
            Self::closed(1.0 / other.high, 1.0 / other.low)
        };
        self.times(reciprocal)
    }

    /// Raised to a power that is one number; any other power may give anything that is no contradiction.
    pub fn power(self, power: Self) -> Self {
        if !power.is_point() {
            return if self.low >= 0.0 { Self::closed(0.0, f64::INFINITY) } else { Self::ALL };
        }
        let n = power.low;
        if self.low >= 0.0 {
            let (a, b) = (self.low.powf(n), self.high.powf(n));
            return if a.is_nan() || b.is_nan() {
                Self::closed(0.0, f64::INFINITY)
            } else {
                Self::closed(a.min(b), a.max(b))
            };
        }
        if n.fract() == 0.0 && n > 0.0 && n as i64 % 2 == 1 {
            return Self::closed(self.low.powf(n), self.high.powf(n));
        }
        Self::ALL
    }
}

fn number(value: f64, otherwise: f64) -> f64 {
    if value.is_nan() { otherwise } else { value }
}
