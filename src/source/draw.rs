//! Draws a fault: place, headline, the line with a row of carets, notes, one cure. In: faults and the texts of the
//! files. Out: plain text in the form `file:line:column: error[name]: ...`, which editors jump to; or the same as data
//! for machines. Words no fault itself.

use super::fault::{Fault, Place, Severity};
use super::span::line_and_column;
use serde::Serialize;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// A line is shown up to this width; of a longer one, the part round the carets.
const WIDEST: usize = 110;

/// The whole message of one fault. `text_of` gives a file's text by its name, if there is one.
pub fn draw(fault: &Fault, text_of: &dyn Fn(&str) -> Option<String>) -> String {
    let severity = match fault.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
    };
    let mut out = format!("{}{severity}[{}]: {}\n", head(&fault.place, text_of), fault.name, fault.what);
    out.push_str(&snippet(&fault.place, text_of));
    for (place, word) in &fault.others {
        let head = head(place, text_of);
        out.push_str(&format!("   note: {}  {word}\n", head.trim_end().trim_end_matches(':')));
        out.push_str(&snippet(place, text_of));
    }
    for note in &fault.notes {
        out.push_str(&format!("   note: {note}\n"));
    }
    if let Some(line) = &fault.line {
        out.push_str(&format!("   case: {line}          (paste it at the prompt to see it)\n"));
    }
    if let Some(cure) = &fault.cure {
        let place = fault.cure_place.as_ref().map(|p| head(p, text_of)).filter(|h| !h.is_empty());
        let pointer = place.map_or(String::new(), |h| {
            let line = h.trim_end_matches(": ").rsplit_once(':').map_or(h.as_str(), |(line, _)| line);
            format!("             ({line})")
        });
        out.push_str(&format!("   try:  {cure}{pointer}\n"));
    }
    out
}

fn head(place: &Place, text_of: &dyn Fn(&str) -> Option<String>) -> String {
    if place.file.is_empty() {
        return String::new();
    }
    match text_of(&place.file) {
        Some(text) => {
            let (line, column) = line_and_column(&text, place.span.start);
            format!("{}:{line}:{column}: ", place.file)
        }
        None => format!("{}: ", place.file),
    }
}

/// The first line that the place covers, and carets under it.
fn snippet(place: &Place, text_of: &dyn Fn(&str) -> Option<String>) -> String {
    let Some(text) = text_of(&place.file).filter(|t| !t.is_empty()) else {
        return String::new();
    };
    let (number, _) = line_and_column(&text, place.span.start);
    let start = text[..place.span.start.min(text.len())].rfind('\n').map_or(0, |n| n + 1);
    let line = text[start..].split('\n').next().unwrap_or("").trim_end_matches('\r');
    let before = line.get(..place.span.start.saturating_sub(start)).unwrap_or(line);
    let covered = line.get(before.len()..place.span.end.saturating_sub(start).min(line.len())).unwrap_or("");
    let (from, to) = (before.width(), before.width() + covered.trim_end().width().max(1));
    let (line, from, to) = window(line, from, to);
    format!("{number:>5} | {line}\n        {}{}\n", " ".repeat(from), "^".repeat(to - from))
}

/// The part of a long line round the columns `from..to`, and where these stand in it.
fn window(line: &str, from: usize, to: usize) -> (String, usize, usize) {
    if line.width() <= WIDEST {
        return (line.to_string(), from, to);
    }
    let first = if to <= WIDEST - 4 { 0 } else { from.saturating_sub(WIDEST / 2) };
    let (mut out, mut column) = (String::new(), 0);
    for c in line.chars() {
        if column >= first && column < first + WIDEST - 8 {
            out.push(c);
        }
        column += c.width().unwrap_or(0);
    }
    let lead = if first > 0 { "... " } else { "" };
    let tail = if first + WIDEST - 8 < column { " ..." } else { "" };
    let from = from - first + lead.len();
    let to = (to - first + lead.len()).min(lead.len() + WIDEST - 8).max(from + 1);
    (format!("{lead}{out}{tail}"), from, to)
}

/// A fault as machines get it: places as lines and columns from 1, columns in characters.
#[derive(Clone, Debug, Serialize)]
pub struct FaultData<'f> {
    pub name: &'static str,
    pub severity: Severity,
    #[serde(flatten)]
    pub place: PlaceData<'f>,
    pub what: &'f str,
    pub others: Vec<OtherData<'f>>,
    pub notes: &'f [String],
    pub cure: Option<&'f str>,
    /// A caller's line that shows it.
    pub case: Option<&'f str>,
}

#[derive(Clone, Debug, Serialize)]
pub struct PlaceData<'f> {
    pub file: &'f str,
    pub line: usize,
    pub column: usize,
    pub end_line: usize,
    pub end_column: usize,
}

#[derive(Clone, Debug, Serialize)]
pub struct OtherData<'f> {
    #[serde(flatten)]
    pub place: PlaceData<'f>,
    pub what: &'f str,
}

/// A fault with its places as lines and columns.
pub fn data<'f>(fault: &'f Fault, text_of: &dyn Fn(&str) -> Option<String>) -> FaultData<'f> {
    let others = fault.others.iter().map(|(p, what)| OtherData { place: place_data(p, text_of), what }).collect();
    FaultData {
        name: fault.name,
        severity: fault.severity,
        place: place_data(&fault.place, text_of),
        what: &fault.what,
        others,
        notes: &fault.notes,
        cure: fault.cure.as_deref(),
        case: fault.line.as_deref(),
    }
}

fn place_data<'f>(place: &'f Place, text_of: &dyn Fn(&str) -> Option<String>) -> PlaceData<'f> {
    let text = text_of(&place.file).unwrap_or_default();
    let (line, column) = line_and_column(&text, place.span.start);
    let (end_line, end_column) = line_and_column(&text, place.span.end.max(place.span.start));
    PlaceData { file: &place.file, line, column, end_line, end_column }
}
