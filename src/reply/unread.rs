//! What was not used: words that nothing read, values that must be asked about, values that contradict. In: a reading, a
//! case. Out: short phrases, control characters made harmless. Computes nothing.

use super::amounts::Voice;
use super::wording::Wording;
use crate::knowledge::table::Table;
use crate::listen::reading::{Doubtful, Reading};
use crate::rulebook::Book;
use crate::source::Span;
use crate::source::words::harmless;
use std::collections::BTreeSet;

/// How much of a long run of unread words is shown.
const LONGEST: usize = 48;
const MOST: usize = 8;

/// The words that were not understood, neighbours together.
pub fn unread(reading: &Reading) -> Vec<String> {
    let mut runs: Vec<Span> = Vec::new();
    // A question that was not understood is shown whole, besides.
    let within_lost = |s: &Span| reading.lost.iter().any(|l| l.start <= s.start && s.end <= l.end);
    let mut spans: Vec<Span> = reading.unread.iter().copied().filter(|s| !within_lost(s)).collect();
    spans.sort();
    for span in spans {
        match runs.last_mut() {
            Some(last) if blank(reading.text.get(last.end..span.start).unwrap_or("x")) => *last = last.to(span),
            _ => runs.push(span),
        }
    }
    let more = runs.len().saturating_sub(MOST);
    let mut out: Vec<String> = runs.iter().take(MOST).map(|run| cut(&harmless(run.of(&reading.text)))).collect();
    if more > 0 {
        out.push(format!("and {more} more"));
    }
    out
}

/// What was understood and is no fact, each with the reason.
pub fn aside(reading: &Reading) -> Vec<String> {
    let said = |span: &Span| cut(&harmless(span.of(&reading.text)));
    reading.aside.iter().map(|(span, why)| format!("\u{201c}{}\u{201d} ({})", said(span), why.called())).collect()
}

/// The questions that were not understood, in one plain line.
pub fn lost(reading: &Reading) -> Option<String> {
    let quoted: Vec<String> =
        reading.lost.iter().map(|l| format!("\"{}\"", cut(&harmless(l.of(&reading.text))))).collect();
    match quoted.as_slice() {
        [] => None,
        [one] => Some(format!("The question was not understood: {one}.")),
        several => Some(format!("These questions were not understood: {}.", several.join(", "))),
    }
}

/// Whether any word that was not understood is one of the trade's, so that the line was meant for this book all the same.
pub fn is_ours(book: &Book, reading: &Reading) -> bool {
    let (vocabulary, knowledge) = (&book.knowledge.vocabulary, &book.knowledge);
    let attributes = || vocabulary.things.iter().flat_map(|t| &t.attributes);
    let kinds = || attributes().flat_map(|a| &a.kinds).flat_map(|k| &k.words);
    let ours: BTreeSet<&str> = vocabulary
        .things
        .iter()
        .flat_map(|t| &t.words)
        .chain(attributes().flat_map(|a| &a.words))
        .chain(kinds())
        .map(String::as_str)
        .filter(|word| word.len() >= LEAST && !word.contains(' '))
        .collect();
    // Names of the tables, in whole and in part: "UV", "balls" of "plastic balls".
    let names = [Table::Medium, Table::Filter, Table::Treatment].into_iter().flat_map(|t| knowledge.names(t));
    let named: BTreeSet<String> = names.flat_map(|n| n.split([' ', '-'])).map(str::to_lowercase).collect();
    let unread = reading.unread.iter().flat_map(|span| span.of(&reading.text).split_whitespace());
    unread.map(str::to_lowercase).any(|word| ours.contains(word.as_str()) || named.contains(&word))
}

/// Letters of a word that is worth a look: shorter ones stand in any sentence.
const LEAST: usize = 4;

fn blank(between: &str) -> bool {
    between.chars().all(char::is_whitespace)
}

/// A long text, cut at a letter.
pub fn cut(text: &str) -> String {
    let text = text.trim();
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}...", &text[..end]),
        None => text.to_string(),
    }
}

/// What has to be asked back, each with the words it is about.
pub fn asked_back(reading: &Reading) -> Vec<String> {
    let said = |span: Span| cut(&harmless(span.of(&reading.text)));
    let unused = reading.back.iter().filter(|back| back.why != Doubtful::Taken);
    let each = unused.map(|back| match said(back.span) {
        words if words.is_empty() => back.ask.clone(),
        words => format!("\"{words}\": {}", back.ask),
    });
    each.collect()
}

/// What was taken meanwhile, as the question that would settle it.
pub fn taken(reading: &Reading) -> Option<String> {
    reading.back.iter().find(|back| back.why == Doubtful::Taken).map(|back| back.ask.clone())
}

impl Wording<'_> {
    /// Values that contradict each other: both, and which one is used until it is settled.
    pub fn contradictions(&self) -> Vec<String> {
        let schema = &self.book.schema;
        let each = self.view.case.facts.contradictions.iter().map(|c| {
            let called = &schema.of(c.attribute).called;
            let value = |fact| self.value(c.attribute, fact, Voice::Written);
            let (former, latter) = (value(&c.former), value(&c.latter));
            format!("{called}: first {former}, then {latter}. Which is right? Until you say, {latter} is used.")
        });
        each.collect()
    }
}
