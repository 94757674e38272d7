//! Evaluates code against a world and what was worked out so far. In: code, what is bound. Out: a value or a truth, three
//! valued. Knows no order and no text.

use super::state::State;
use super::value::{Truth, Value};
use super::world::{Bound, World};
use crate::knowledge::schema::{Schema, ThingId};
use crate::rulebook::Rulebook;
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::{Arithmetic, Fold};

/// What code is evaluated against.
#[derive(Clone, Copy)]
pub struct Evaluation<'e> {
    pub schema: &'e Schema,
    pub book: &'e Rulebook,
    pub world: &'e World,
    pub state: &'e State,
}

impl Evaluation<'_> {
    /// The value of a quantity or kind. A number that is not finite is unknown.
    pub fn value(&self, code: &Code, bound: &mut Bound) -> Value {
        match code {
            Code::Number(n) | Code::Quantity(n, _) => Value::Number(*n),
            Code::Fact(id) => self.world.value(*id, bound.instance(self.schema.of(*id).thing)),
            Code::Figure(n) => self.figure(*n, bound),
            Code::Call(signature, arguments) => {
                let mut given = [0.0; 12];
                if arguments.len() > given.len() {
                    return Value::Unknown;
                }
                for (slot, argument) in given.iter_mut().zip(arguments) {
                    match self.value(argument, bound) {
                        Value::Number(n) => *slot = n,
                        _ => return Value::Unknown,
                    }
                }
                match (signature.call)(&given[..arguments.len()]) {
                    Ok(n) if n.is_finite() => Value::Number(n),
                    _ => Value::Unknown,
                }
            }
            Code::Negate(a) => match self.value(a, bound) {
                Value::Number(n) => Value::Number(-n),
                _ => Value::Unknown,
            },
            Code::Arithmetic(how, a, b) => {
                let (Value::Number(a), Value::Number(b)) = (self.value(a, bound), self.value(b, bound)) else {
                    return Value::Unknown;
                };
                let result = match how {
                    Arithmetic::Add => a + b,
                    Arithmetic::Subtract => a - b,
                    Arithmetic::Multiply => a * b,
                    Arithmetic::Divide => a / b,
                    Arithmetic::Power => a.powf(b),
                };
                if result.is_finite() { Value::Number(result) } else { Value::Unknown }
            }
            Code::Choice(branches) => {
                for (condition, value) in branches {
                    match condition {
                        None => {
                            let value = self.value(value, bound);
                            if value.is_known() {
                                return value;
                            }
                        }
                        Some(condition) => match self.truth(condition, bound) {
                            Truth::True => return self.value(value, bound),
                            Truth::Unknown => return Value::Unknown,
                            Truth::False => {}
                        },
                    }
                }
                Value::Unknown
            }
            Code::Fold { how, of, thing, with } => self.fold(*how, of.as_deref(), *thing, with.as_deref(), bound),
            // A truth where a value is asked for never passes the checker.
            _ => Value::Unknown,
        }
    }

    fn figure(&self, n: u16, bound: &Bound) -> Value {
        let instance = self.book.figures[n as usize].for_thing.map_or(0, |t| bound.instance(t));
        self.state.figure(n, instance)
    }

    /// The truth of a condition.
    pub fn truth(&self, code: &Code, bound: &mut Bound) -> Truth {
        match code {
            Code::Conclusion(n) => {
                let instance = self.book.conclusions[*n as usize].for_thing.map_or(0, |t| bound.instance(t));
                self.state.conclusion(self.book, *n, instance)
            }
            Code::Not(a) => self.truth(a, bound).denied(),
            Code::All(parts) => {
                let mut unknown = false;
                for part in parts {
                    match self.truth(part, bound) {
                        Truth::False => return Truth::False,
                        Truth::Unknown => unknown = true,
                        Truth::True => {}
                    }
                }
                if unknown { Truth::Unknown } else { Truth::True }
            }
            Code::Any(parts) => {
                let mut unknown = false;
                for part in parts {
                    match self.truth(part, bound) {
                        Truth::True => return Truth::True,
                        Truth::Unknown => unknown = true,
                        Truth::False => {}
                    }
                }
                if unknown { Truth::Unknown } else { Truth::False }
            }
            Code::Compare(how, a, b) => match (self.value(a, bound), self.value(b, bound)) {
                (Value::Number(a), Value::Number(b)) => Truth::of(how.holds(a, b)),
                _ => Truth::Unknown,
            },
            Code::IsKind(a, symbol, equal) => match self.value(a, bound) {
                Value::Kind(kind) => Truth::of((kind == *symbol) == *equal),
                Value::Kinds(set) => Truth::of(self.world.set_of(set).contains(symbol) == *equal),
                _ => Truth::Unknown,
            },
            Code::SameKind(a, b, equal) => match (self.value(a, bound), self.value(b, bound)) {
                (Value::Kind(a), Value::Kind(b)) => Truth::of((a == b) == *equal),
                (Value::Kinds(set), Value::Kind(kind)) | (Value::Kind(kind), Value::Kinds(set)) => {
                    Truth::of(self.world.set_of(set).contains(&kind) == *equal)
                }
                _ => Truth::Unknown,
            },
            // A condition is known when it is true or false.
            Code::Known(a) if a.is_condition() => Truth::of(self.truth(a, bound) != Truth::Unknown),
            Code::Known(a) => Truth::of(self.value(a, bound).is_known()),
            Code::Exists { every, thing, with } => self.exists(*every, *thing, with.as_deref(), bound),
            _ => Truth::Unknown,
        }
    }

    fn exists(&self, every: bool, thing: ThingId, with: Option<&Code>, bound: &mut Bound) -> Truth {
        let count = self.world.count(thing);
        let before = bound.of(thing);
        let (mut met, mut unknown, mut found) = (false, false, None);
        for instance in 0..count {
            if !self.world.belongs(thing, instance, bound) {
                continue;
            }
            met = true;
            bound.set(thing, instance);
            let truth = with.map_or(Truth::True, |w| self.truth(w, bound));
            bound.free(thing, before);
            match (truth, every) {
                (Truth::True, false) | (Truth::False, true) => {
                    found = Some(truth);
                    break;
                }
                (Truth::Unknown, _) => unknown = true,
                _ => {}
            }
        }
        match found {
            Some(truth) => truth,
            None if unknown => Truth::Unknown,
            None if !met && !self.world.is_closed(thing) => Truth::Unknown,
            None => Truth::of(every),
        }
    }

    fn fold(&self, how: Fold, of: Option<&Code>, thing: ThingId, with: Option<&Code>, bound: &mut Bound) -> Value {
        let before = bound.of(thing);
        let (mut result, mut met, mut any) = (0.0f64, false, false);
        for instance in 0..self.world.count(thing) {
            if !self.world.belongs(thing, instance, bound) {
                continue;
            }
            any = true;
            bound.set(thing, instance);
            let truth = with.map_or(Truth::True, |w| self.truth(w, bound));
            let value = match (truth, of) {
                (Truth::True, Some(of)) => self.value(of, bound),
                (Truth::True, None) => Value::Number(1.0),
                _ => Value::Number(0.0),
            };
            bound.free(thing, before);
            let number = match (truth, value) {
                (Truth::False, _) => continue,
                (Truth::True, Value::Number(n)) => n,
                _ => return Value::Unknown,
            };
            result = match how {
                Fold::Count | Fold::Sum => result + number,
                Fold::Least if met => result.min(number),
                Fold::Greatest if met => result.max(number),
                Fold::Least | Fold::Greatest => number,
            };
            met = true;
        }
        if !any && !self.world.is_closed(thing) {
            return Value::Unknown;
        }
        match how {
            Fold::Count | Fold::Sum => Value::Number(result),
            Fold::Least | Fold::Greatest if met => Value::Number(result),
            _ => Value::Unknown,
        }
    }
}
