//! The page of rules, by topic. In: a book. Out: Markdown.

use super::cell;
use crate::rulebook::Book;
use crate::rulebook::contents::{by_topic, named, readers};
use crate::rulebook::plain::Plain;
use crate::source::words::{and_list, capital, ticked};
use std::fmt::Write;

pub fn page(book: &Book) -> String {
    let mut out = String::from(
        "# Rules\n\nBy the question they answer. What stands in brackets is a figure, filled in from the call.\n",
    );
    let plain = Plain::new(&book.schema, &book.rules);
    for (topic, asks, rules) in by_topic(&book.rules) {
        let _ = write!(out, "\n## {topic}\n\n{}.\n", capital(&cell(asks)));
        for n in rules {
            rule(book, &plain, n, &mut out);
        }
    }
    out
}

/// One rule in plain sentences.
fn rule(book: &Book, plain: &Plain, n: u16, out: &mut String) {
    let rule = &book.rules.rules[n as usize];
    let _ = write!(out, "\n### {}\n\n", rule.name);
    if let Some(thing) = rule.for_thing {
        let _ = writeln!(out, "Once for each {}.\n", book.schema.thing_of(thing).called);
    }
    for condition in &rule.conditions {
        let _ = writeln!(out, "- when {}", cell(&plain.words(&condition.text, rule.for_thing)));
    }
    for conclusion in &rule.concludes {
        let _ = writeln!(out, "- then \"{}\" holds", book.rules.conclusions[*conclusion as usize].name);
    }
    let (rules, figures) = readers(&book.rules, n);
    let readers: Vec<String> = rules
        .iter()
        .map(|r| ticked(&book.rules.rules[*r as usize].name))
        .chain(figures.iter().map(|f| ticked(&book.rules.figures[*f as usize].name)))
        .collect();
    if !readers.is_empty() {
        let _ = writeln!(out, "- read by {}", and_list(&readers));
    }
    if let Some(advice) = &rule.advice {
        let _ = writeln!(out, "- says, {}: {}", advice.urgency.word(), cell(&named(book, &advice.say)));
        for step in &advice.steps {
            let _ = writeln!(out, "  1. {}", cell(&named(book, step)));
        }
        let _ = writeln!(out, "- because: {}", cell(&named(book, &advice.because)));
    }
    for (below, because) in &rule.outranks {
        let _ = writeln!(out, "- outranks `{}`: {}", book.rules.rules[*below as usize].name, cell(because));
    }
    if !rule.cautions.is_empty() {
        let _ = writeln!(out, "- cautions: {}", rule.cautions.join(", "));
    }
    let basis: Vec<String> = rule.basis.iter().map(|b| b.to_string()).collect();
    let sources = if rule.source.is_empty() { String::new() } else { format!(" ({})", rule.source.join(", ")) };
    let _ = writeln!(out, "- rests on: {}{sources}", and_list(&basis));
    let _ = writeln!(out, "- stands in: {}", rule.place.file);
}
