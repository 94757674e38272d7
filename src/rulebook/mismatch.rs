//! Words for quantities that do not go together: their factors under each other, and what is missing between them.
//! In: dimensions and spans. Out: faults. Knows no name.

use super::expr::token::ExprFault;
use super::expr::tree::{Expr, Node};
use crate::source::Span;
use crate::units::{Dimension, unit};

/// A number without a unit, beside something that has one.
pub fn missing_unit(span: Span, value: f64, beside: Dimension) -> ExprFault {
    let what = format!("`{value}` has no unit, but it stands beside {}", beside.words());
    let fault = ExprFault::new("missing-unit", span, what);
    match unit::everyday(beside) {
        Some(unit) => fault.cure(format!("{value} {}", unit.name)),
        None => fault,
    }
}

/// What should stand in place of a number with a unit, beside something of another sort.
pub fn other_unit(side: &Expr, beside: Dimension) -> Option<String> {
    let Node::Number { value, unit: Some(_) } = side.node else { return None };
    unit::everyday(beside).map(|unit| format!("{} here, as in `{value} {}`", beside.words(), unit.name))
}

/// Two quantities that are not of one sort.
pub fn wrong_dimension(span: Span, what: String, left: Dimension, right: Dimension) -> ExprFault {
    let mut fault = ExprFault::new("wrong-dimension", span, what);
    let (upper, lower) = aligned(left, right);
    fault.notes.push(format!("left:   {upper}"));
    fault.notes.push(format!("right:  {lower}"));
    let named = |wanted: Dimension| {
        let found = Dimension::NAMED.iter().find(|(n, d)| *d == wanted && *n != "number" && *d != Dimension::NUMBER);
        found.map(
            |(name, _)| {
                if name.starts_with(['a', 'e', 'i', 'o', 'u']) { format!("an {name}") } else { format!("a {name}") }
            },
        )
    };
    if let Some(name) = named(left / right) {
        fault.cure = Some(format!("divide the left side by {name}, or multiply the right side by one"));
    } else if let Some(name) = named(right / left) {
        fault.cure = Some(format!("divide the right side by {name}, or multiply the left side by one"));
    }
    fault
}

/// The factors of both, each in a column of its own: "volume / time" over "1 / time".
fn aligned(left: Dimension, right: Dimension) -> (String, String) {
    let (a, b) = (factors(left), factors(right));
    let mut columns: Vec<&str> = Vec::new();
    for (factor, _) in a.iter().chain(&b) {
        if !columns.contains(factor) {
            columns.push(factor);
        }
    }
    let row = |own: &[(&'static str, bool)]| {
        let part = |above: bool| {
            columns
                .iter()
                .filter(|c| a.contains(&(**c, above)) || b.contains(&(**c, above)))
                .map(|c| match own.contains(&(*c, above)) {
                    true => (*c).to_string(),
                    false => " ".repeat(c.len()),
                })
                .collect::<Vec<_>>()
                .join("   ")
        };
        let (mut over, under) = (part(true), part(false));
        if !own.iter().any(|(_, above)| *above) {
            over = match over.len() {
                0 | 1 => "1".into(),
                n => format!("{:>n$}", "1"),
            };
        }
        match under.trim().is_empty() {
            true => over.trim_end().to_string(),
            false => format!("{over} / {}", under.trim_end()),
        }
    };
    (row(&a), row(&b))
}

/// Factors in words, each above or below the stroke: a flow is volume over time.
fn factors(dimension: Dimension) -> Vec<(&'static str, bool)> {
    let length = match dimension.length.abs() {
        0 => None,
        1 => Some("length"),
        2 => Some("area"),
        3 => Some("volume"),
        4 => Some("length^4"),
        _ => Some("length^5"),
    };
    let power = |n: i8, once: &'static str, twice: &'static str, more: &'static str| match n.abs() {
        0 => None,
        1 => Some(once),
        2 => Some(twice),
        _ => Some(more),
    };
    [
        (length, dimension.length),
        (power(dimension.mass, "mass", "mass^2", "mass^3"), dimension.mass),
        (power(dimension.temperature, "temperature", "temperature^2", "temperature^3"), dimension.temperature),
        (power(dimension.money, "money", "money^2", "money^3"), dimension.money),
        (power(dimension.acidity, "pH", "pH^2", "pH^3"), dimension.acidity),
        (power(dimension.time, "time", "time^2", "time^3"), dimension.time),
    ]
    .into_iter()
    .filter_map(|(name, n)| name.map(|name| (name, n > 0)))
    .collect()
}
