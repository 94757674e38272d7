//! Facts: the value of one attribute of one thing, with where it came from. Knows no rule and no text of an answer.

use crate::knowledge::schema::Symbol;
use crate::listen::reading::{Level, Mark, Subject};
use crate::source::Span;
use crate::units::{Amount, Spread};
use std::collections::BTreeMap;

use crate::knowledge::schema::AttributeId;

/// What a fact holds.
#[derive(Clone, Debug, PartialEq)]
pub enum FactValue {
    Amount(Amount),
    Kind(Symbol),
    /// Several kinds at once, from a table.
    Kinds(Vec<Symbol>),
    Text(String),
    /// Said in a word where a figure is needed: nothing computes with it.
    Level(Level),
}

/// Where a fact came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Origin {
    /// By the caller, in that turn (from 1).
    Said { turn: u16, span: Span },
    /// From a table, by the kind of the thing.
    LookedUp,
    /// From the vocabulary, because nothing was said.
    Assumed,
    /// Worked out of other facts.
    WorkedOut,
}

impl Origin {
    pub fn word(self) -> &'static str {
        match self {
            Self::Said { .. } => "said",
            Self::LookedUp => "looked up",
            Self::Assumed => "assumed",
            Self::WorkedOut => "worked out",
        }
    }
}

/// One fact.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    pub value: FactValue,
    /// Low, likely and high in base units; empty for kinds and texts.
    pub spread: Spread,
    pub origin: Origin,
    pub mark: Option<Mark>,
    /// Why it is assumed.
    pub because: Option<String>,
}

impl Fact {
    pub fn kind(symbol: Symbol, origin: Origin) -> Self {
        Self { value: FactValue::Kind(symbol), spread: Spread::default(), origin, mark: None, because: None }
    }

    pub fn kinds(symbols: Vec<Symbol>, origin: Origin) -> Self {
        Self { value: FactValue::Kinds(symbols), spread: Spread::default(), origin, mark: None, because: None }
    }

    pub fn amount(amount: Amount, origin: Origin) -> Self {
        Self { spread: amount.base(), value: FactValue::Amount(amount), origin, mark: None, because: None }
    }

    pub fn is_said(&self) -> bool {
        matches!(self.origin, Origin::Said { .. })
    }
}

/// One thing of a case, with its facts.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Instance {
    pub subject: Subject,
    pub facts: BTreeMap<AttributeId, Fact>,
    /// The turn that first spoke of it; 0 where none did.
    pub since: u16,
}

/// Two values for one attribute, neither marked as a correction.
#[derive(Clone, Debug, PartialEq)]
pub struct Contradiction {
    pub subject: Subject,
    pub attribute: AttributeId,
    pub former: Fact,
    pub latter: Fact,
}
