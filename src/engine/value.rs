//! Values of the engine: a number in base units, a kind, a truth, or unknown. Knows no words.

use crate::knowledge::schema::Symbol;

/// One value. `Unknown` is neither true nor false, neither zero nor empty.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub enum Value {
    #[default]
    Unknown,
    Number(f64),
    Kind(Symbol),
    /// Several kinds at once ("fresh, pond"): the number of a set in the world.
    Kinds(u16),
}

/// True, false, or not known.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Truth {
    False,
    #[default]
    Unknown,
    True,
}

impl Truth {
    pub fn of(truth: bool) -> Self {
        if truth { Self::True } else { Self::False }
    }

    pub fn denied(self) -> Self {
        match self {
            Self::True => Self::False,
            Self::False => Self::True,
            Self::Unknown => Self::Unknown,
        }
    }

    pub fn is_true(self) -> bool {
        self == Self::True
    }
}

impl Value {
    pub fn number(self) -> Option<f64> {
        match self {
            Self::Number(n) => Some(n),
            _ => None,
        }
    }

    pub fn is_known(self) -> bool {
        self != Self::Unknown
    }
}
