//! Compiled expressions: names have become numbers, units base units. In: nothing; `compile.rs` makes them. Out: code the
//! engine evaluates, and what it reads. Knows no words.

use super::expr::tree::{Arithmetic, Comparison, Fold};
use crate::knowledge::schema::{AttributeId, Symbol, ThingId};
use crate::units::Unit;
use crate::water::signatures::Signature;

#[derive(Clone, Debug)]
pub enum Code {
    /// A plain number.
    Number(f64),
    /// A number in base units that was written with a unit, kept so that a proof can show it as written.
    Quantity(f64, &'static Unit),
    /// A fact: of the bound thing of its kind.
    Fact(AttributeId),
    /// A figure, by its number; of the bound thing it belongs to.
    Figure(u16),
    /// A conclusion, by its number.
    Conclusion(u16),
    Call(&'static Signature, Vec<Code>),
    Not(Box<Code>),
    All(Vec<Code>),
    Any(Vec<Code>),
    Compare(Comparison, Box<Code>, Box<Code>),
    /// A kind equals a word; `false`: differs from it.
    IsKind(Box<Code>, Symbol, bool),
    /// Two kinds are the same; `false`: differ.
    SameKind(Box<Code>, Box<Code>, bool),
    Known(Box<Code>),
    Negate(Box<Code>),
    Arithmetic(Arithmetic, Box<Code>, Box<Code>),
    Exists {
        every: bool,
        thing: ThingId,
        with: Option<Box<Code>>,
    },
    Fold {
        how: Fold,
        of: Option<Box<Code>>,
        thing: ThingId,
        with: Option<Box<Code>>,
    },
    /// The first branch whose condition holds, or, without a condition, whose value is known.
    Choice(Vec<(Option<Code>, Code)>),
}

/// What a piece of code depends on.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub enum Read {
    Fact(AttributeId),
    /// How many there are of a thing.
    Things(ThingId),
    Figure(u16),
    Conclusion(u16),
}

impl Code {
    /// Everything it reads, each once, in order.
    pub fn reads(&self) -> Vec<Read> {
        let mut out = Vec::new();
        self.walk(&mut |code| match code {
            Code::Fact(id) => out.push(Read::Fact(*id)),
            Code::Figure(n) => out.push(Read::Figure(*n)),
            Code::Conclusion(n) => out.push(Read::Conclusion(*n)),
            Code::Exists { thing, .. } | Code::Fold { thing, .. } => out.push(Read::Things(*thing)),
            _ => {}
        });
        out.sort();
        out.dedup();
        out
    }

    /// Whether it comes to a truth rather than a value.
    pub fn is_condition(&self) -> bool {
        matches!(
            self,
            Code::Conclusion(_)
                | Code::Not(_)
                | Code::All(_)
                | Code::Any(_)
                | Code::Compare(..)
                | Code::IsKind(..)
                | Code::SameKind(..)
                | Code::Known(_)
                | Code::Exists { .. }
        )
    }

    /// Calls `see` for this node and every one below it.
    pub fn walk<'c>(&'c self, see: &mut impl FnMut(&'c Code)) {
        see(self);
        match self {
            Code::Number(_) | Code::Quantity(..) | Code::Fact(_) | Code::Figure(_) | Code::Conclusion(_) => {}
            Code::Call(_, parts) | Code::All(parts) | Code::Any(parts) => parts.iter().for_each(|p| p.walk(see)),
            Code::Not(a) | Code::IsKind(a, ..) | Code::Known(a) | Code::Negate(a) => a.walk(see),
            Code::Compare(_, a, b) | Code::SameKind(a, b, _) | Code::Arithmetic(_, a, b) => {
                a.walk(see);
                b.walk(see);
            }
            Code::Exists { with, .. } => with.iter().for_each(|w| w.walk(see)),
            Code::Fold { of, with, .. } => {
                of.iter().for_each(|o| o.walk(see));
                with.iter().for_each(|w| w.walk(see));
            }
            Code::Choice(branches) => branches.iter().for_each(|(condition, value)| {
                condition.iter().for_each(|c| c.walk(see));
                value.walk(see);
            }),
        }
    }
}
