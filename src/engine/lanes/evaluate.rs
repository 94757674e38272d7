//! Evaluates code in every lane at once; says the same as `engine/evaluate.rs` says of each lane alone. In: code, what is
//! bound. Out: values or truths, lane by lane. Knows no order and no text.

use super::pass::LanePass;
use super::value::{LANES, Lanes, Truths, all_or_none, finite, mask};
use crate::engine::value::Value;
use crate::engine::world::Bound;
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::Arithmetic;
use crate::water::signatures::Signature;
use std::sync::Arc;

/// What code is evaluated against.
pub struct LaneEvaluation<'e> {
    pub pass: LanePass<'e>,
}

impl LaneEvaluation<'_> {
    /// The values of a quantity or kind. A number that is not finite is unknown.
    pub fn value(&self, code: &Code, bound: &mut Bound) -> Lanes {
        match code {
            Code::Number(n) | Code::Quantity(n, _) => Lanes::One(Value::Number(*n)),
            Code::Fact(id) => self.pass.fact(*id, bound.instance(self.pass.engine.schema.of(*id).thing)),
            Code::Figure(n) => {
                let of = self.pass.engine.book.figures[*n as usize].for_thing;
                self.pass.figure(*n, of.map_or(0, |t| bound.instance(t)))
            }
            Code::Call(signature, arguments) => {
                let given: Vec<Lanes> = arguments.iter().map(|a| self.value(a, bound)).collect();
                call(signature, &given)
            }
            Code::Negate(a) => self.value(a, bound).map(|n| -n),
            Code::Arithmetic(how, a, b) => {
                let (a, b) = (self.value(a, bound), self.value(b, bound));
                match how {
                    Arithmetic::Add => a.zip(&b, |a, b| a + b),
                    Arithmetic::Subtract => a.zip(&b, |a, b| a - b),
                    Arithmetic::Multiply => a.zip(&b, |a, b| a * b),
                    Arithmetic::Divide => a.zip(&b, |a, b| a / b),
                    Arithmetic::Power => a.zip(&b, f64::powf),
                }
            }
            Code::Choice(branches) => {
                let mut picked = Picked::default();
                for (condition, value) in branches {
                    match condition {
                        None => {
                            let value = self.value(value, bound);
                            picked.take(value.known(), value);
                        }
                        Some(condition) => {
                            let truths = self.truth(condition, bound);
                            if truths.yes & picked.open() != 0 {
                                picked.take(truths.yes, self.value(value, bound));
                            }
                            picked.take(!truths.yes & !truths.no, Lanes::One(Value::Unknown));
                        }
                    }
                    if picked.open() == 0 {
                        break;
                    }
                }
                picked.lanes()
            }
            Code::Fold { how, of, thing, with } => self.fold(*how, of.as_deref(), *thing, with.as_deref(), bound),
            // A truth where a value is asked for never passes the checker.
            _ => Lanes::One(Value::Unknown),
        }
    }

    /// The truths of a condition.
    pub fn truth(&self, code: &Code, bound: &mut Bound) -> Truths {
        match code {
            Code::Conclusion(n) => {
                let of = self.pass.engine.book.conclusions[*n as usize].for_thing;
                self.pass.conclusion(*n, of.map_or(0, |t| bound.instance(t)))
            }
            Code::Not(a) => self.truth(a, bound).denied(),
            Code::All(parts) => self.all(parts.iter(), bound),
            Code::Any(parts) => {
                let mut truths = Truths::NO;
                for part in parts {
                    truths = truths.or(self.truth(part, bound));
                    if truths.yes == u128::MAX {
                        break;
                    }
                }
                truths
            }
            Code::Compare(how, a, b) => {
                let (a, b) = (self.value(a, bound), self.value(b, bound));
                let (yes, known) = match (a.as_numbers(), b.as_numbers()) {
                    (Err(Value::Number(a)), Err(Value::Number(b))) => (all_or_none(how.holds(a, b)), u128::MAX),
                    (Err(Value::Number(a)), Ok(b)) => (mask(|n| how.holds(a, b[n])), mask(|n| !b[n].is_nan())),
                    (Ok(a), Err(Value::Number(b))) => (mask(|n| how.holds(a[n], b)), mask(|n| !a[n].is_nan())),
                    (Ok(a), Ok(b)) => (mask(|n| how.holds(a[n], b[n])), mask(|n| !a[n].is_nan() && !b[n].is_nan())),
                    _ => (0, 0),
                };
                Truths { yes: yes & known, no: !yes & known }
            }
            Code::IsKind(a, symbol, equal) => {
                self.pairs(&self.value(a, bound), &Lanes::One(Value::Kind(*symbol)), *equal)
            }
            Code::SameKind(a, b, equal) => self.pairs(&self.value(a, bound), &self.value(b, bound), *equal),
            // A condition is known when it is true or false.
            Code::Known(a) if a.is_condition() => {
                let truths = self.truth(a, bound);
                Truths::of(truths.yes | truths.no)
            }
            Code::Known(a) => Truths::of(self.value(a, bound).known()),
            Code::Exists { every, thing, with } => self.exists(*every, *thing, with.as_deref(), bound),
            _ => Truths::default(),
        }
    }

    /// Whether all of several conditions hold.
    pub fn all<'c>(&self, parts: impl Iterator<Item = &'c Code>, bound: &mut Bound) -> Truths {
        let mut truths = Truths::YES;
        for part in parts {
            truths = truths.and(self.truth(part, bound));
            if truths.no == u128::MAX {
                break;
            }
        }
        truths
    }

    /// Whether two kinds are the same (or, not `equal`, differ), lane by lane.
    fn pairs(&self, a: &Lanes, b: &Lanes, equal: bool) -> Truths {
        let same = |a: Value, b: Value| match (a, b) {
            (Value::Kind(a), Value::Kind(b)) => Some(a == b),
            (Value::Kinds(set), Value::Kind(kind)) | (Value::Kind(kind), Value::Kinds(set)) => {
                Some(self.pass.world.set_of(set).contains(&kind))
            }
            _ => None,
        };
        if let (Lanes::One(a), Lanes::One(b)) = (a, b) {
            return same(*a, *b).map_or(Truths::default(), |s| Truths::of(all_or_none(s == equal)));
        }
        let is = |wanted: bool| mask(|n| same(a.at(n), b.at(n)).is_some_and(|s| (s == equal) == wanted));
        Truths { yes: is(true), no: is(false) }
    }
}

/// A calculation in every lane; one whose arguments are the same in all is done once.
fn call(signature: &Signature, given: &[Lanes]) -> Lanes {
    const MOST: usize = 12;
    if given.len() > MOST || given.iter().any(|g| matches!(g, Lanes::One(v) if v.number().is_none())) {
        return Lanes::One(Value::Unknown);
    }
    let mut numbers = [0.0; MOST];
    let mut varied: Vec<(usize, Arc<[f64; LANES]>)> = Vec::new();
    for (slot, lanes) in given.iter().enumerate() {
        match lanes.as_numbers() {
            Err(one) => numbers[slot] = one.number().unwrap_or(f64::NAN),
            Ok(lanes) => varied.push((slot, lanes)),
        }
    }
    let mut result = |lane: usize| {
        varied.iter().for_each(|(slot, lanes)| numbers[*slot] = lanes[lane]);
        let given = &numbers[..given.len()];
        match given.iter().any(|n| n.is_nan()) {
            true => Value::Unknown,
            false => (signature.call)(given).map_or(Value::Unknown, finite),
        }
    };
    match varied.is_empty() {
        true => Lanes::One(result(0)),
        false => Lanes::numbers(std::array::from_fn(|lane| result(lane).number().unwrap_or(f64::NAN))),
    }
}

/// Values taken from several sources, each for some lanes; the first that takes a lane has it.
#[derive(Default)]
pub struct Picked {
    taken: u128,
    parts: Vec<(u128, Lanes)>,
}

impl Picked {
    /// The lanes that nothing was taken for yet.
    pub fn open(&self) -> u128 {
        !self.taken
    }

    /// Takes those lanes that are still open.
    pub fn take(&mut self, lanes: u128, from: Lanes) {
        let lanes = lanes & self.open();
        if lanes != 0 {
            self.taken |= lanes;
            self.parts.push((lanes, from));
        }
    }

    /// What was taken; unknown where nothing was.
    pub fn lanes(self) -> Lanes {
        match self.parts.as_slice() {
            [] => return Lanes::One(Value::Unknown),
            [(u128::MAX, whole)] => return whole.clone(),
            _ => {}
        }
        let mut values = [Value::Unknown; LANES];
        for (lanes, from) in &self.parts {
            (0..LANES).filter(|n| lanes >> n & 1 == 1).for_each(|n| values[n] = from.at(n));
        }
        Lanes::of(&values)
    }
}
