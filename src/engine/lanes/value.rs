//! Values and truths of many lanes. In: values. Out: values and truths, lane by lane. Knows no code.

use crate::engine::value::{Truth, Value};
use std::sync::Arc;

/// How many versions are worked out at once: as many as a mask has bits.
pub const LANES: usize = 128;

/// One value a lane.
#[derive(Clone, Debug)]
pub enum Lanes {
    /// The same in every lane.
    One(Value),
    /// A number a lane; not a number where it is unknown.
    Numbers(Arc<[f64; LANES]>),
    /// Whatever it is.
    Any(Arc<[Value; LANES]>),
}

impl Lanes {
    /// One value a lane; what is wanting is unknown.
    pub fn of(values: &[Value]) -> Self {
        let at = |lane: usize| values.get(lane).copied().unwrap_or_default();
        match values.iter().all(|v| matches!(v, Value::Number(_) | Value::Unknown)) {
            true => Self::Numbers(Arc::new(std::array::from_fn(|lane| at(lane).number().unwrap_or(f64::NAN)))),
            false => Self::Any(Arc::new(std::array::from_fn(at))),
        }
    }

    /// Numbers; what is not finite is unknown.
    pub fn numbers(mut numbers: [f64; LANES]) -> Self {
        numbers.iter_mut().filter(|n| !n.is_finite()).for_each(|n| *n = f64::NAN);
        Self::Numbers(Arc::new(numbers))
    }

    pub fn at(&self, lane: usize) -> Value {
        match self {
            Self::One(value) => *value,
            Self::Numbers(numbers) => number(numbers[lane]),
            Self::Any(values) => values[lane],
        }
    }

    /// The lanes as numbers, unless all of them are one.
    pub fn as_numbers(&self) -> Result<Arc<[f64; LANES]>, Value> {
        match self {
            Self::One(value) => Err(*value),
            Self::Numbers(numbers) => Ok(numbers.clone()),
            Self::Any(values) => Ok(Arc::new(std::array::from_fn(|n| values[n].number().unwrap_or(f64::NAN)))),
        }
    }

    /// The lanes in which it is known.
    pub fn known(&self) -> u128 {
        match self {
            Self::One(value) => all_or_none(value.is_known()),
            Self::Numbers(numbers) => mask(|n| !numbers[n].is_nan()),
            Self::Any(values) => mask(|n| values[n].is_known()),
        }
    }

    /// The numbers of the lanes in which it is one.
    pub fn known_numbers(&self) -> Vec<f64> {
        match self {
            Self::Numbers(numbers) => numbers.iter().copied().filter(|n| !n.is_nan()).collect(),
            _ => (0..LANES).filter_map(|n| self.at(n).number()).collect(),
        }
    }

    /// The same operation on each lane; a lane that is no number is unknown.
    pub fn map(&self, operation: impl Fn(f64) -> f64) -> Self {
        match self.as_numbers() {
            Err(Value::Number(n)) => Self::One(finite(operation(n))),
            Err(_) => Self::One(Value::Unknown),
            Ok(numbers) => Self::numbers(std::array::from_fn(|n| operation(numbers[n]))),
        }
    }

    /// The same operation on each pair of lanes; a lane of which either is no number is unknown.
    pub fn zip(&self, other: &Self, operation: impl Fn(f64, f64) -> f64) -> Self {
        match (self.as_numbers(), other.as_numbers()) {
            (Err(Value::Number(a)), Err(Value::Number(b))) => Self::One(finite(operation(a, b))),
            (Err(Value::Number(a)), Ok(b)) => Self::numbers(std::array::from_fn(|n| operation(a, b[n]))),
            (Ok(a), Err(Value::Number(b))) => Self::numbers(std::array::from_fn(|n| operation(a[n], b))),
            (Ok(a), Ok(b)) => Self::numbers(std::array::from_fn(|n| operation(a[n], b[n]))),
            _ => Self::One(Value::Unknown),
        }
    }
}

fn number(n: f64) -> Value {
    if n.is_nan() { Value::Unknown } else { Value::Number(n) }
}

/// A number that is not finite is unknown.
pub fn finite(n: f64) -> Value {
    if n.is_finite() { Value::Number(n) } else { Value::Unknown }
}

/// The mask of the lanes for which something holds.
pub fn mask(holds: impl Fn(usize) -> bool) -> u128 {
    // By halves: the machine shifts words, not pairs of them.
    let half = |from: usize| (0..64).fold(0u64, |mask, n| mask | u64::from(holds(from + n)) << n);
    u128::from(half(0)) | u128::from(half(64)) << 64
}

pub fn all_or_none(all: bool) -> u128 {
    if all { u128::MAX } else { 0 }
}

/// One truth a lane, as masks; a lane of neither is not known.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Truths {
    pub yes: u128,
    pub no: u128,
}

impl Truths {
    pub const YES: Self = Self { yes: u128::MAX, no: 0 };
    pub const NO: Self = Self { yes: 0, no: u128::MAX };

    pub fn all(truth: Truth) -> Self {
        match truth {
            Truth::True => Self::YES,
            Truth::False => Self::NO,
            Truth::Unknown => Self::default(),
        }
    }

    /// True where the mask says so, false elsewhere.
    pub fn of(yes: u128) -> Self {
        Self { yes, no: !yes }
    }

    pub fn at(self, lane: usize) -> Truth {
        match (self.yes >> lane & 1, self.no >> lane & 1) {
            (1, _) => Truth::True,
            (_, 1) => Truth::False,
            _ => Truth::Unknown,
        }
    }

    pub fn denied(self) -> Self {
        Self { yes: self.no, no: self.yes }
    }

    pub fn and(self, other: Self) -> Self {
        Self { yes: self.yes & other.yes, no: self.no | other.no }
    }

    pub fn or(self, other: Self) -> Self {
        Self { yes: self.yes | other.yes, no: self.no & other.no }
    }
}
