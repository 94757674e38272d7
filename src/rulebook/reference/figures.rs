//! The page of figures. In: a book. Out: Markdown.

use super::cell;
use crate::rulebook::Book;
use crate::rulebook::plain::Plain;
use crate::source::words::and_list;
use crate::units::unit;
use std::fmt::Write;

pub fn page(book: &Book) -> String {
    let mut out =
        String::from("# Figures\n\nNamed formulae and numbers of the book; a rule, a formula or a text names them.\n");
    let plain = Plain::new(&book.schema, &book.rules);
    for figure in &book.rules.figures {
        let _ = write!(out, "\n## {}\n\n", figure.name);
        if let Some(means) = &figure.means {
            let _ = writeln!(out, "{}\n", cell(means));
        }
        if figure.called != figure.name {
            let _ = writeln!(out, "- called: {}", cell(&figure.called));
        }
        if let Some(thing) = figure.for_thing {
            let _ = writeln!(out, "- once for each {}", book.schema.thing_of(thing).called);
        }
        let shown_in = figure.shown_in.or(unit::usual(figure.dimension));
        match (figure.given, shown_in) {
            (Some(given), Some(unit)) => {
                let value = |v: Option<f64>| v.map_or("?".into(), |v| short(unit.from_base(v)));
                let (low, likely, high) = (value(given.low), value(given.likely), value(given.high));
                let _ = writeln!(out, "- is: about {likely} {}, between {low} and {high}", unit.name);
            }
            _ => {
                let _ = writeln!(out, "- is: {}", cell(&plain.words(&figure.formula, figure.for_thing)));
            }
        }
        if let Some(unit) = figure.shown_in {
            let _ = writeln!(out, "- shown in: {}", unit.shown);
        }
        let basis: Vec<String> = figure.basis.iter().map(|b| b.to_string()).collect();
        let _ = writeln!(out, "- rests on: {}", and_list(&basis));
        if !figure.source.is_empty() {
            let _ = writeln!(out, "- sources: {}", figure.source.join(", "));
        }
        let _ = writeln!(out, "- stands in: {}", figure.place.file);
    }
    out
}

/// A number without digits that say nothing.
fn short(value: f64) -> String {
    let rounded = (value * 1e6).round() / 1e6;
    rounded.to_string()
}
