//! A figure's formula with the numbers put in: "260 gal/h / 47 gal". In: the proof of a figure. Out: text, or nothing where
//! there is nothing to put in. Computes nothing: every number was worked out before.

use super::amounts::{TIED, Voice, quantity, said, with_unit};
use super::digits::significant;
use super::wording::Wording;
use crate::case::fact::FactValue;
use crate::engine::why::Proof;
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::{Arithmetic, Comparison, Fold};
use crate::units::{Dimension, Spread};

/// How tightly the outermost sign of a text binds.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Binding {
    Sum,
    Product,
    Power,
    Single,
}

/// More addends than this are not listed one by one.
const MOST_PARTS: usize = 5;

impl Wording<'_> {
    /// The numbers of a figure's formula put in, in the caller's units.
    pub fn numbers(&self, proof: &Proof) -> Option<String> {
        match proof.code {
            Code::Number(_) | Code::Quantity(..) => None,
            Code::Choice(_) => self.numbers(proof.parts.first()?),
            Code::Call(..) => {
                let inputs: Option<Vec<String>> =
                    proof.parts.iter().map(|p| self.written(p).map(|(text, _)| text)).collect();
                Some(format!("from {}", inputs?.join(", ")))
            }
            _ => self.written(proof).map(|(text, _)| text),
        }
    }

    fn written(&self, proof: &Proof) -> Option<(String, Binding)> {
        let single = |text: String| Some((text, Binding::Single));
        match proof.code {
            Code::Number(n) => single(significant(*n, 4)),
            Code::Quantity(n, unit) => single(with_unit(&significant(unit.from_base(*n), 4), unit, Voice::Written)),
            Code::Fact(id) => {
                let fact = self.fact(*id, proof.instance)?;
                match &fact.value {
                    FactValue::Amount(amount) if fact.is_said() && fact.spread.is_exact() => {
                        single(said(&self.own, amount, Voice::Written))
                    }
                    FactValue::Amount(amount) => {
                        let dimension = self.book.schema.dimension(*id)?;
                        let shown = quantity(&self.own, fact.spread, dimension, Some(amount.unit), 3);
                        single(with_unit(&shown.likely, shown.unit, Voice::Written))
                    }
                    _ => single(self.value(*id, fact, Voice::Written)),
                }
            }
            Code::Figure(n) => {
                let quantity = self.quantity(*n, proof.instance)?;
                single(with_unit(&quantity.likely, quantity.unit, Voice::Written))
            }
            Code::Call(signature, _) => {
                let value = Spread::exact(proof.number()?);
                let figure = quantity(&self.own, value, signature.output, None, 3);
                // A number without a unit that the reader knows would be no help.
                (figure.unit.dimension == signature.output).then(|| (figure.about(Voice::Written), Binding::Single))
            }
            Code::Negate(_) => {
                let (text, _) = self.written(proof.parts.first()?)?;
                single(format!("-{text}"))
            }
            Code::Choice(_) => self.written(proof.parts.first()?),
            Code::Arithmetic(how, ..) => self.arithmetic(*how, proof),
            Code::Fold { how, .. } => self.fold(*how, proof),
            _ => None,
        }
    }

    fn arithmetic(&self, how: Arithmetic, proof: &Proof) -> Option<(String, Binding)> {
        let [left, right] = &proof.parts[..] else { return None };
        // "x 100 %", "x 1" and "+ 0" tell the reader nothing.
        match how {
            Arithmetic::Multiply if is_one(right) => return self.written(left),
            Arithmetic::Multiply if is_one(left) => return self.written(right),
            Arithmetic::Add | Arithmetic::Subtract if right.number() == Some(0.0) => return self.written(left),
            Arithmetic::Add if left.number() == Some(0.0) => return self.written(right),
            _ => {}
        }
        let (sign, binding) = match how {
            Arithmetic::Add => ("+", Binding::Sum),
            Arithmetic::Subtract => ("-", Binding::Sum),
            Arithmetic::Multiply => ("x", Binding::Product),
            Arithmetic::Divide => ("/", Binding::Product),
            Arithmetic::Power => ("^", Binding::Power),
        };
        let (left, left_binds) = self.written(left)?;
        let (right, right_binds) = self.written(right)?;
        let left = if left_binds < binding { format!("({left})") } else { left };
        // "a / (b x c)" and "a - (b + c)" keep their brackets.
        let tight = matches!(how, Arithmetic::Divide | Arithmetic::Subtract | Arithmetic::Power);
        let right =
            if right_binds < binding || (tight && right_binds == binding) { format!("({right})") } else { right };
        Some((format!("{left} {sign}{TIED}{right}"), binding))
    }

    fn fold(&self, how: Fold, proof: &Proof) -> Option<(String, Binding)> {
        if how == Fold::Count {
            return Some((proof.parts.len().to_string(), Binding::Single));
        }
        let parts: Vec<&Proof> = proof.parts.iter().filter(|p| how != Fold::Sum || p.number() != Some(0.0)).collect();
        if parts.is_empty() || parts.len() > MOST_PARTS {
            return None;
        }
        let texts: Option<Vec<(String, Binding)>> = parts.iter().map(|p| self.written(p)).collect();
        let texts = texts?;
        if let [one] = &texts[..] {
            return Some(one.clone());
        }
        let list: Vec<String> = texts.into_iter().map(|(text, _)| text).collect();
        Some(match how {
            Fold::Sum | Fold::Count => (list.join(" + "), Binding::Sum),
            Fold::Least => (format!("least of {}", list.join(", ")), Binding::Single),
            Fold::Greatest => (format!("greatest of {}", list.join(", ")), Binding::Single),
        })
    }

    /// A condition with its numbers: "260 gal/h > 15 gal/h"; `None` where words must do.
    pub fn comparison(&self, proof: &Proof) -> Option<String> {
        let Code::Compare(how, ..) = proof.code else {
            return match (&proof.code, &proof.parts[..]) {
                (Code::All(_) | Code::Any(_) | Code::Exists { .. }, [one]) => self.comparison(one),
                _ => None,
            };
        };
        let [left, right] = &proof.parts[..] else { return None };
        // A sum is compared by what it came to.
        let side = |proof: &Proof| self.came_to(proof).or_else(|| self.written(proof).map(|(text, _)| text));
        Some(format!("{} {} {}", side(left)?, how.sign(), side(right)?))
    }

    /// What a quantity came to, where its dimension is known without working it out.
    fn came_to(&self, proof: &Proof) -> Option<String> {
        let [a, b] = (match proof.code {
            Code::Arithmetic(..) => &proof.parts[..],
            _ => return None,
        }) else {
            return None;
        };
        let dimension = match proof.code {
            Code::Arithmetic(Arithmetic::Multiply, ..) => self.dimension(a)? * self.dimension(b)?,
            Code::Arithmetic(Arithmetic::Divide, ..) => self.dimension(a)? / self.dimension(b)?,
            Code::Arithmetic(Arithmetic::Add | Arithmetic::Subtract, ..) => self.dimension(a)?,
            _ => return None,
        };
        let shown = quantity(&self.own, Spread::exact(proof.number()?), dimension, None, 3);
        (shown.unit.dimension == dimension).then(|| shown.about(Voice::Written))
    }

    /// The dimension of what a proof came to.
    pub fn dimension(&self, proof: &Proof) -> Option<Dimension> {
        Some(match proof.code {
            Code::Number(_) => Dimension::NUMBER,
            Code::Quantity(_, unit) => unit.dimension,
            Code::Fact(id) => self.book.schema.dimension(*id)?,
            Code::Figure(n) => self.book.rules.figures[*n as usize].dimension,
            Code::Call(signature, _) => signature.output,
            Code::Fold { how: Fold::Count, .. } => Dimension::NUMBER,
            Code::Fold { .. } | Code::Negate(_) | Code::Choice(_) => self.dimension(proof.parts.first()?)?,
            Code::Arithmetic(how, ..) => match (how, &proof.parts[..]) {
                (Arithmetic::Multiply, [a, b]) => self.dimension(a)? * self.dimension(b)?,
                (Arithmetic::Divide, [a, b]) => self.dimension(a)? / self.dimension(b)?,
                (Arithmetic::Add | Arithmetic::Subtract, [a, _]) => self.dimension(a)?,
                _ => return None,
            },
            _ => return None,
        })
    }
}

fn is_one(proof: &Proof) -> bool {
    match proof.code {
        Code::Number(n) | Code::Quantity(n, _) => *n == 1.0,
        Code::Choice(_) => proof.parts.first().is_some_and(is_one),
        _ => false,
    }
}

/// A comparison in words.
pub fn comparison_words(how: Comparison) -> &'static str {
    match how {
        Comparison::Less => "below",
        Comparison::LessOrEqual => "at or below",
        Comparison::Greater => "above",
        Comparison::GreaterOrEqual => "at or above",
        Comparison::Equal => "at",
        Comparison::NotEqual => "away from",
    }
}
