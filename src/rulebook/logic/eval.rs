//! Evaluates code over intervals instead of numbers: every value it could have. In: code, what is said of facts and
//! figures. Out: an interval that holds every possible result; which truths are possible.

use super::known::{self, Leaf};
use super::{Bindings, Ground, Interval};
use crate::knowledge::schema::Symbol;
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::{Arithmetic, Comparison, Fold};
use std::cell::RefCell;
use std::collections::HashMap;

/// What is said of leaves while a formula is tried.
pub trait Said {
    fn interval(&self, leaf: Leaf) -> Option<Interval>;
    /// Whether a kind may be `symbol`, and may be another.
    fn kind(&self, leaf: Leaf, symbol: Symbol) -> (bool, bool);
    /// Whether a conclusion may hold, and may not.
    fn conclusion(&self, n: u16, binding: super::Binding) -> (bool, bool);
}

/// One evaluation; figures are worked out once.
pub struct Evaluation<'e, 'b> {
    ground: &'e Ground<'b>,
    said: &'e dyn Said,
    figures: RefCell<HashMap<Leaf, Interval>>,
}

/// It may be true, and it may be false.
const EITHER: (bool, bool) = (true, true);

impl<'e, 'b> Evaluation<'e, 'b> {
    pub fn new(ground: &'e Ground<'b>, said: &'e dyn Said) -> Self {
        Self { ground, said, figures: RefCell::default() }
    }

    /// Every value that `code` may have.
    pub fn value(&self, code: &Code, bindings: &Bindings) -> Interval {
        match code {
            Code::Number(n) if n.is_nan() => Interval::ALL,
            Code::Number(n) | Code::Quantity(n, _) => Interval::exactly(*n),
            Code::Fact(id) => {
                let said = known::leaf(self.ground, code, bindings).and_then(|l| self.said.interval(l));
                let plausible = self.ground.plausible[id.0 as usize];
                said.map_or(plausible, |s| s.meet(plausible))
            }
            Code::Figure(n) => self.figure(*n, code, bindings),
            Code::Negate(a) => self.value(a, bindings).negated(),
            Code::Arithmetic(how, a, b) => {
                let (left, right) = (self.value(a, bindings), self.value(b, bindings));
                match how {
                    Arithmetic::Add => left.plus(right),
                    Arithmetic::Subtract => left.minus(right),
                    Arithmetic::Multiply => left.times(right),
                    Arithmetic::Divide => left.over(right),
                    Arithmetic::Power => left.power(right),
                }
            }
            Code::Choice(branches) => {
                let mut all = Interval::closed(f64::INFINITY, f64::NEG_INFINITY);
                for (condition, value) in branches {
                    let (can, cannot) = condition.as_ref().map_or(EITHER, |c| self.truth(c, bindings));
                    if can {
                        all = all.hull(self.value(value, bindings));
                    }
                    if !cannot {
                        break;
                    }
                }
                if all.is_empty() { Interval::ALL } else { all }
            }
            Code::Fold { how, of, thing, .. } => {
                let inner = bindings.with(*thing, super::Binding::MAX);
                let of = of.as_ref().map_or(Interval::exactly(1.0), |of| self.value(of, &inner));
                match how {
                    Fold::Count => Interval::closed(0.0, f64::INFINITY),
                    Fold::Sum if of.low >= 0.0 => Interval::closed(0.0, f64::INFINITY),
                    Fold::Sum => Interval::ALL,
                    Fold::Least | Fold::Greatest => of,
                }
            }
            _ => Interval::ALL,
        }
    }

    fn figure(&self, n: u16, code: &Code, bindings: &Bindings) -> Interval {
        let Some(leaf @ Leaf::Figure(_, binding)) = known::leaf(self.ground, code, bindings) else {
            return Interval::ALL;
        };
        if let Some(done) = self.figures.borrow().get(&leaf) {
            return *done;
        }
        let figure = &self.ground.book.figures[n as usize];
        let worked_out = match figure.given {
            _ if self.ground.broken[n as usize] => Interval::ALL,
            Some(spread) => {
                Interval::closed(spread.low.unwrap_or(f64::NEG_INFINITY), spread.high.unwrap_or(f64::INFINITY))
            }
            None => self.value(&figure.code, &self.ground.inner(figure.for_thing, binding)),
        };
        let interval = self.said.interval(leaf).map_or(worked_out, |s| s.meet(worked_out));
        self.figures.borrow_mut().insert(leaf, interval);
        interval
    }

    /// Whether a condition may be true, and may be false.
    pub fn truth(&self, code: &Code, bindings: &Bindings) -> (bool, bool) {
        match code {
            Code::Not(a) => {
                let (can, cannot) = self.truth(a, bindings);
                (cannot, can)
            }
            Code::All(parts) => {
                let each: Vec<_> = parts.iter().map(|p| self.truth(p, bindings)).collect();
                (each.iter().all(|t| t.0), each.iter().any(|t| t.1))
            }
            Code::Any(parts) => {
                let each: Vec<_> = parts.iter().map(|p| self.truth(p, bindings)).collect();
                (each.iter().any(|t| t.0), each.iter().all(|t| t.1))
            }
            Code::Compare(how, a, b) => {
                let (left, right) = (self.value(a, bindings), self.value(b, bindings));
                (possible(*how, left, right), possible(how.denied(), left, right))
            }
            Code::IsKind(fact, symbol, equal) => match known::leaf(self.ground, fact, bindings) {
                Some(leaf) => {
                    let (same, other) = self.said.kind(leaf, *symbol);
                    if *equal { (same, other) } else { (other, same) }
                }
                None => EITHER,
            },
            Code::Conclusion(n) => {
                let thing = self.ground.book.conclusions[*n as usize].for_thing;
                self.said.conclusion(*n, self.ground.binding_of(thing, bindings))
            }
            _ => EITHER,
        }
    }
}

/// Whether a comparison can be true of two intervals.
pub fn possible(how: Comparison, left: Interval, right: Interval) -> bool {
    match how {
        Comparison::Less => left.low < right.high,
        Comparison::LessOrEqual => left.low <= right.high,
        Comparison::Greater => left.high > right.low,
        Comparison::GreaterOrEqual => left.high >= right.low,
        Comparison::Equal => !left.meet(right).is_empty(),
        Comparison::NotEqual => !(left.is_point() && left == right),
    }
}
