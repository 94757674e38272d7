//! Sets a page in lines: labels in a column, text beside it, hanging under its lead. In: rows, a width in columns. Out: lines.
//! At any width the same words. Knows no colour.

use super::amounts::TIED;
use super::page::{Page, Row, Tone};
use std::borrow::Cow;
use textwrap::{Options, WordSplitter};
use unicode_width::UnicodeWidthStr;

/// The column in which text begins beside a short label.
const COLUMN: usize = 11;
/// No narrower: labels alone take that.
pub const NARROWEST: usize = 30;

/// One line of the page: its label part, and the rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    pub tone: Tone,
    pub label: String,
    pub text: String,
}

/// Sets a page.
pub fn set(page: &Page, width: usize) -> Vec<Line> {
    page.rows.iter().flat_map(|row| set_row(row, width)).collect()
}

/// How many lines a row takes.
pub fn height(row: &Row, width: usize) -> usize {
    set_row(row, width).len()
}

fn set_row(row: &Row, width: usize) -> Vec<Line> {
    let width = width.max(NARROWEST);
    let column = match row.label.width() {
        0 => 0,
        label if label + 2 <= COLUMN => COLUMN,
        label => label + 2,
    };
    let mut out = Vec::new();
    for paragraph in &row.paragraphs {
        let first = out.is_empty();
        let label = if first { row.label.as_str() } else { "" };
        let mut lines = match paragraph.fixed {
            true => paragraph.text.lines().map(str::to_string).collect(),
            false => wrap(&paragraph.lead, &paragraph.text, width.saturating_sub(column)),
        };
        for (n, text) in lines.drain(..).enumerate() {
            let label = if n == 0 { label } else { "" };
            let pad = column.saturating_sub(label.width());
            let label = format!("{label}{}", " ".repeat(pad));
            out.push(Line { tone: row.tone, label, text });
        }
    }
    out
}

/// Wraps one paragraph; a tied blank never breaks.
fn wrap(lead: &str, text: &str, width: usize) -> Vec<String> {
    let hang = " ".repeat(lead.width());
    let options = Options::new(width.max(12))
        .initial_indent(lead)
        .subsequent_indent(&hang)
        .word_separator(textwrap::WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .break_words(true);
    // A tied run that no line can hold must break somewhere: better at its blanks than inside a number.
    let room = width.max(12).saturating_sub(lead.width());
    let too_wide = |word: &str| word.len() > room && word.width() > room;
    let text = match text.split(' ').any(too_wide) {
        true => {
            let loosened = |word: &str| if too_wide(word) { word.replace(TIED, " ") } else { word.to_string() };
            Cow::Owned(text.split(' ').map(loosened).collect::<Vec<_>>().join(" "))
        }
        false => Cow::Borrowed(text),
    };
    let lines = textwrap::wrap(&text, options);
    lines.into_iter().map(|l| l.trim_end().replace(TIED, " ")).collect()
}
