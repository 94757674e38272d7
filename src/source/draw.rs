//! Draws a fault: place, headline, the line with a row of carets, notes, one cure. In: faults and the texts of the
//! files. Out: plain text in the form `file:line:column: error[name]: ...`, which editors jump to. Words no fault itself.

use super::fault::{Fault, Place, Severity};
use super::span::line_and_column;
use unicode_width::UnicodeWidthStr;

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
        if place.file == fault.place.file || !head.is_empty() {
            out.push_str(&snippet(place, text_of));
        }
    }
    for note in &fault.notes {
        out.push_str(&format!("   note: {note}\n"));
    }
    if let Some(line) = &fault.line {
        out.push_str(&format!("   case: {line}          (paste at the prompt to see it)\n"));
    }
    if let Some(cure) = &fault.cure {
        out.push_str(&format!("   try:  {cure}\n"));
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
    let Some(text) = text_of(&place.file) else {
        return String::new();
    };
    if text.is_empty() {
        return String::new();
    }
    let (number, _) = line_and_column(&text, place.span.start);
    let start = text[..place.span.start.min(text.len())].rfind('\n').map_or(0, |n| n + 1);
    let line = text[start..].split('\n').next().unwrap_or("").trim_end_matches('\r');
    let before = line.get(..place.span.start.saturating_sub(start)).unwrap_or(line);
    let covered = line.get(before.len()..place.span.end.saturating_sub(start).min(line.len())).unwrap_or("");
    let carets = covered.trim_end().width().max(1);
    let number = number.to_string();
    format!("{number:>5} | {line}\n      | {}{}\n", " ".repeat(before.width()), "^".repeat(carets))
}
