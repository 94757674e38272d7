//! Texts with figures in them: "draws at {approach velocity}". In: a text, the names that may stand in it. Out: pieces.
//! Knows no value; the reply fills them in.

use super::expr::token::ExprFault;
use super::names::{Meaning, Names};
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::source::Span;

/// One piece of a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    Text(String),
    Figure(u16),
    Fact(AttributeId),
}

/// A text, cut at its braces.
pub type Template = Vec<Piece>;

/// Cuts `text`; names are those of an expression. Spans of faults are offsets in `text`.
pub fn template(text: &str, schema: &Schema, names: &Names, for_thing: Option<ThingId>) -> (Template, Vec<ExprFault>) {
    let (mut pieces, mut faults) = (Vec::new(), Vec::new());
    let bound: Vec<ThingId> = for_thing.into_iter().collect();
    let mut rest = text;
    let mut at = 0;
    while let Some(open) = rest.find('{') {
        if open > 0 {
            pieces.push(Piece::Text(rest[..open].to_string()));
        }
        let Some(length) = rest[open..].find('}') else {
            let span = Span::new(at + open, at + rest.len());
            faults.push(ExprFault::new("brace-left-open", span, "this `{` is never closed").cure("close it with `}`"));
            return (pieces, faults);
        };
        let name = rest[open + 1..open + length].trim();
        let span = Span::new(at + open + 1, at + open + length);
        match names.find(schema, name, &bound) {
            Ok(Meaning::Figure(n, _)) => pieces.push(Piece::Figure(n)),
            Ok(Meaning::Fact(id)) => pieces.push(Piece::Fact(id)),
            Ok(Meaning::Conclusion(_)) => {
                let what = format!("`{name}` is a conclusion, which has no figure to show");
                faults.push(ExprFault::new("not-a-figure", span, what));
            }
            Err(mut fault) => {
                fault.span = span;
                faults.push(*fault);
            }
        }
        at += open + length + 1;
        rest = &rest[open + length + 1..];
    }
    if !rest.is_empty() {
        pieces.push(Piece::Text(rest.to_string()));
    }
    (pieces, faults)
}
