//! Conditions and formulae in plain sentences: "tank size is below 40 L". In: an expression as written, the names of the
//! book. Out: words. Computes nothing.

use super::Rulebook;
use super::expr::parse::parse_with;
use super::expr::tree::{Arithmetic, Comparison, Expr, Fold, Node};
use super::names::Names;
use crate::knowledge::schema::{Schema, ThingId};
use crate::source::words::and_list;

/// Puts expressions of one book into words.
pub struct Plain<'b> {
    schema: &'b Schema,
    book: &'b Rulebook,
    phrases: Vec<String>,
}

/// Things bound around an expression, the innermost last.
type Bound = Vec<ThingId>;

impl<'b> Plain<'b> {
    pub fn new(schema: &'b Schema, book: &'b Rulebook) -> Self {
        Self { schema, book, phrases: Names::new(schema, vec![]).phrases }
    }

    /// A condition or formula of something that is worked out for `thing`; as it is written where it cannot be read.
    pub fn words(&self, text: &str, thing: Option<ThingId>) -> String {
        match parse_with(text, &self.phrases) {
            Ok(tree) => self.expr(&tree, &mut thing.into_iter().collect()),
            Err(_) => text.to_string(),
        }
    }

    fn expr(&self, expr: &Expr, bound: &mut Bound) -> String {
        match &expr.node {
            Node::Number { value, unit } => match unit {
                Some(unit) if !unit.shown.is_empty() => format!("{value} {}", unit.shown),
                _ => value.to_string(),
            },
            Node::Name(name) => self.name(name, bound),
            Node::Call { name, arguments, .. } => {
                let of: Vec<String> = arguments.iter().map(|a| self.expr(a, bound)).collect();
                format!("the {name} of {}", and_list(&of))
            }
            Node::Not(inner) => match &inner.node {
                Node::Known(value) => format!("{} is not known", self.expr(value, bound)),
                Node::Exists { every: false, thing, with, .. } => {
                    format!("there is no {}", self.several(thing, with.as_deref(), bound))
                }
                Node::Compare { how, left, right } => self.compare(how.denied(), left, right, bound),
                _ => format!("not: {}", self.expr(inner, bound)),
            },
            Node::And(a, b) if ends(a, b).is_some() => match ends(a, b) {
                Some((value, low, high)) => {
                    let [value, low, high] = [value, low, high].map(|e| self.expr(e, bound));
                    format!("{value} is between {low} and {high}")
                }
                None => String::new(),
            },
            Node::And(a, b) => format!("{} and {}", self.part(a, true, bound), self.part(b, true, bound)),
            Node::Or(a, b) => format!("{} or {}", self.part(a, false, bound), self.part(b, false, bound)),
            Node::Compare { how, left, right } => self.compare(*how, left, right, bound),
            Node::Known(value) => format!("{} is known", self.expr(value, bound)),
            Node::Negate(value) => format!("minus {}", self.expr(value, bound)),
            Node::Arithmetic { how, left, right } => {
                let sign = match how {
                    Arithmetic::Add => "plus",
                    Arithmetic::Subtract => "minus",
                    Arithmetic::Multiply => "times",
                    Arithmetic::Divide => "over",
                    Arithmetic::Power => "to the power",
                };
                format!("{} {sign} {}", self.factor(left, *how, bound), self.factor(right, *how, bound))
            }
            Node::Exists { every, thing, with, .. } => {
                let each = self.several(thing, with.as_deref(), bound);
                if *every { format!("every {each}") } else { format!("there is any {each}") }
            }
            Node::Fold { how, of, thing, with, .. } => {
                let each = self.several(thing, with.as_deref(), bound);
                let value = |bound: &mut Bound| {
                    let id = self.schema.thing(thing);
                    bound.extend(id);
                    let words = of.as_ref().map_or(String::new(), |of| self.expr(of, bound));
                    bound.truncate(bound.len() - usize::from(id.is_some()));
                    words
                };
                match how {
                    Fold::Count => format!("the number of {each}"),
                    Fold::Sum => format!("the sum of {} over every {each}", value(bound)),
                    Fold::Least => format!("the least {} of any {each}", value(bound)),
                    Fold::Greatest => format!("the greatest {} of any {each}", value(bound)),
                }
            }
            Node::If { value, condition } => {
                format!("{} where {}", self.expr(value, bound), self.expr(condition, bound))
            }
            Node::Else(first, last) => format!("{}, else {}", self.expr(first, bound), self.expr(last, bound)),
        }
    }

    fn name(&self, name: &str, bound: &Bound) -> String {
        if let Some((thing, attribute)) = name.split_once('.')
            && let Some(id) = self.schema.path(thing, attribute)
        {
            return self.schema.of(id).called.clone();
        }
        if let Some((_, figure)) = self.book.figure(name) {
            return figure.called.clone();
        }
        if self.book.conclusions.iter().any(|c| c.name == name) {
            return format!("\"{name}\" holds");
        }
        let own = bound.iter().rev().find_map(|t| self.schema.attribute(*t, name));
        own.map_or_else(|| name.to_string(), |id| self.schema.of(id).called.clone())
    }

    fn compare(&self, how: Comparison, left: &Expr, right: &Expr, bound: &mut Bound) -> String {
        let (a, b) = (self.expr(left, bound), self.expr(right, bound));
        let words = match how {
            Comparison::Less => "is below",
            Comparison::LessOrEqual => "is at most",
            Comparison::Greater => "is above",
            Comparison::GreaterOrEqual => "is at least",
            Comparison::Equal => "is",
            Comparison::NotEqual => "is not",
        };
        match (how, b.as_str()) {
            (Comparison::Equal, "yes") | (Comparison::NotEqual, "no") => format!("{a}: yes"),
            (Comparison::Equal, "no") | (Comparison::NotEqual, "yes") => format!("{a}: no"),
            _ => format!("{a} {words} {b}"),
        }
    }

    /// "fish whose length is below 4 cm".
    fn several(&self, thing: &str, with: Option<&Expr>, bound: &mut Bound) -> String {
        let id = self.schema.thing(thing);
        let called = id.map_or(thing, |t| self.schema.thing_of(t).called.as_str());
        let Some(with) = with else { return called.to_string() };
        bound.extend(id);
        let words = self.expr(with, bound);
        bound.truncate(bound.len() - usize::from(id.is_some()));
        format!("{called} whose {words}")
    }

    /// A part of "and" or "or", in brackets where the two are mixed.
    fn part(&self, expr: &Expr, of_and: bool, bound: &mut Bound) -> String {
        let words = self.expr(expr, bound);
        let mixed = match &expr.node {
            Node::Or(..) => of_and,
            Node::Exists { with: Some(_), .. } => true,
            _ => false,
        };
        if mixed { format!("({words})") } else { words }
    }

    fn factor(&self, expr: &Expr, how: Arithmetic, bound: &mut Bound) -> String {
        let words = self.expr(expr, bound);
        let loose = |h: Arithmetic| matches!(h, Arithmetic::Add | Arithmetic::Subtract);
        match &expr.node {
            Node::Arithmetic { how: inner, .. } if loose(*inner) && !loose(how) => format!("({words})"),
            Node::Arithmetic { how: Arithmetic::Divide, .. } if how == Arithmetic::Divide => format!("({words})"),
            Node::If { .. } | Node::Else(..) => format!("({words})"),
            _ => words,
        }
    }
}

/// The value and the two ends of "x between low and high", which is two comparisons.
fn ends<'e>(a: &'e Expr, b: &'e Expr) -> Option<(&'e Expr, &'e Expr, &'e Expr)> {
    match (&a.node, &b.node) {
        (
            Node::Compare { how: Comparison::GreaterOrEqual, left, right: low },
            Node::Compare { how: Comparison::LessOrEqual, left: again, right: high },
        ) if left.node == again.node => Some((left, low, high)),
        _ => None,
    }
}
