//! Completion and hints at the prompt: words of the book by what fits, and how the words so far are read. In: the line
//! being typed. Out: candidates, a grey hint. Knows no answer.

use crate::knowledge::table::Table;
use crate::listen::Listener;
use crate::listen::reading::Context;
use crate::reply::assumed::meant;
use crate::reply::paint;
use crate::rulebook::Book;
use crate::units::unit::UNITS;
use rustyline::completion::Completer;
use rustyline::highlight::Highlighter;
use rustyline::hint::Hinter;
use rustyline::validate::Validator;
use rustyline::{Context as LineContext, Helper};
use std::borrow::Cow;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Candidates shown at once.
const MOST: usize = 24;
/// Statements shown in a hint.
const HINTED: usize = 4;
/// Longer lines are not read while they are typed.
const LONGEST: usize = 400;
const REQUESTS: [&str; 21] = [
    "help",
    "more",
    "why",
    "why not",
    "how sure",
    "listen",
    "says who",
    "what if",
    "why do you ask",
    "known",
    "undo",
    "start again",
    "new call",
    "calls",
    "units litres",
    "units us",
    "units imperial",
    "lead me",
    "walk me through",
    "full",
    "bye",
];

pub struct Keys {
    book: Arc<Book>,
    listener: Listener,
    context: Context,
    words: Vec<String>,
    colour: bool,
}

impl Keys {
    pub fn new(book: Arc<Book>, colour: bool) -> Self {
        Self {
            listener: Listener::new(&book.knowledge),
            words: words(&book),
            context: Context::default(),
            book,
            colour,
        }
    }

    /// What the call holds by now, and the book it goes by.
    pub fn held(&mut self, book: Arc<Book>, context: Context) {
        if !Arc::ptr_eq(&book, &self.book) {
            *self = Self::new(book, self.colour);
        }
        self.context = context;
    }

    /// Words that fit at the end of `line`, and where they begin: units behind a number, requests at the front, else the
    /// names of the book.
    pub fn candidates(&self, line: &str) -> (usize, Vec<String>) {
        let start = line.rfind([' ', ',', ';']).map_or(0, |n| n + 1);
        let typed = line[start..].to_lowercase();
        let before = line[..start].trim_end();
        let after_number = before.ends_with(|c: char| c.is_ascii_digit());
        let mut out: Vec<String> = Vec::new();
        if before.is_empty() {
            let front = line.to_lowercase();
            out.extend(REQUESTS.iter().filter(|r| r.starts_with(&front)).map(|r| r.to_string()));
        }
        if after_number {
            let units = UNITS.iter().map(|u| u.name).filter(|n| !n.is_empty() && n.to_lowercase().starts_with(&typed));
            out.extend(units.map(String::from));
        }
        if !typed.is_empty() {
            out.extend(self.words.iter().filter(|w| w.starts_with(&typed)).take(MOST).cloned());
        }
        out.truncate(MOST);
        (start, out)
    }

    /// How the words so far are read, in a few words.
    pub fn hint_for(&self, line: &str) -> Option<String> {
        if line.trim().is_empty() || line.len() > LONGEST {
            return None;
        }
        let reading = self.listener.read(line, &self.context);
        if reading.statements.is_empty() {
            return None;
        }
        let mut parts: Vec<String> = reading.statements.iter().take(HINTED).map(|s| meant(&self.book, s)).collect();
        parts.dedup();
        let more = reading.statements.len().saturating_sub(HINTED);
        let more = if more > 0 { format!(", {more} more") } else { String::new() };
        Some(format!("   [{}{more}]", parts.join(", ").replace(crate::reply::amounts::TIED, " ")))
    }
}

/// Every name and word of the book that callers use.
fn words(book: &Book) -> Vec<String> {
    let mut out: BTreeSet<String> = BTreeSet::new();
    for table in Table::ALL.into_iter().filter(|t| t.is_spoken() && *t != Table::Ambiguous) {
        out.extend(book.knowledge.names(table).into_iter().filter(|n| !n.contains('-')).map(str::to_lowercase));
    }
    for thing in &book.knowledge.vocabulary.things {
        out.extend(thing.words.iter().cloned());
        for attribute in &thing.attributes {
            out.extend(attribute.words.iter().cloned());
            out.extend(attribute.kinds.iter().flat_map(|k| k.words.iter().cloned()));
        }
    }
    out.into_iter().filter(|w| w.len() > 1).collect()
}

impl Completer for Keys {
    type Candidate = String;

    fn complete(&self, line: &str, pos: usize, _: &LineContext<'_>) -> rustyline::Result<(usize, Vec<String>)> {
        Ok(self.candidates(line.get(..pos).unwrap_or(line)))
    }
}

impl Hinter for Keys {
    type Hint = String;

    fn hint(&self, line: &str, pos: usize, _: &LineContext<'_>) -> Option<String> {
        if pos < line.len() { None } else { self.hint_for(line) }
    }
}

impl Highlighter for Keys {
    fn highlight_hint<'h>(&self, hint: &'h str) -> Cow<'h, str> {
        match self.colour {
            true => Cow::Owned(paint::hint(hint)),
            false => Cow::Borrowed(hint),
        }
    }
}

impl Validator for Keys {}
impl Helper for Keys {}
