//! The comparisons of an expression, each with what is bound around it. In: a tree as written. Out: sides and spans.

use crate::knowledge::schema::{Schema, ThingId};
use crate::rulebook::expr::tree::{Comparison, Expr, Node};

/// One comparison of a condition.
pub struct Compared<'e> {
    pub how: Comparison,
    pub left: &'e Expr,
    pub right: &'e Expr,
    pub whole: &'e Expr,
    /// Things bound around it, the innermost last.
    pub bound: Vec<ThingId>,
}

/// All comparisons in `expr`, in the order written.
pub fn comparisons<'e>(expr: &'e Expr, schema: &Schema, bound: &[ThingId]) -> Vec<Compared<'e>> {
    let mut out = Vec::new();
    gather(expr, schema, &mut bound.to_vec(), &mut out);
    out
}

fn gather<'e>(expr: &'e Expr, schema: &Schema, bound: &mut Vec<ThingId>, out: &mut Vec<Compared<'e>>) {
    let mut within = |thing: &str, parts: &[&'e Option<Box<Expr>>], bound: &mut Vec<ThingId>| {
        let id = schema.thing(thing);
        bound.extend(id);
        parts.iter().filter_map(|p| p.as_ref()).for_each(|p| gather(p, schema, bound, out));
        bound.truncate(bound.len() - usize::from(id.is_some()));
    };
    match &expr.node {
        Node::Exists { thing, with, .. } => within(thing, &[with], bound),
        Node::Fold { of, thing, with, .. } => within(thing, &[of, with], bound),
        Node::Compare { how, left, right } => {
            gather(left, schema, bound, out);
            gather(right, schema, bound, out);
            out.push(Compared { how: *how, left, right, whole: expr, bound: bound.clone() });
        }
        Node::Number { .. } | Node::Name(_) => {}
        Node::Call { arguments, .. } => arguments.iter().for_each(|a| gather(a, schema, bound, out)),
        Node::Not(a) | Node::Known(a) | Node::Negate(a) => gather(a, schema, bound, out),
        Node::And(a, b) | Node::Or(a, b) | Node::Else(a, b) => {
            gather(a, schema, bound, out);
            gather(b, schema, bound, out);
        }
        Node::Arithmetic { left, right, .. } => {
            gather(left, schema, bound, out);
            gather(right, schema, bound, out);
        }
        Node::If { value, condition } => {
            gather(value, schema, bound, out);
            gather(condition, schema, bound, out);
        }
    }
}
