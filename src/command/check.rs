//! Checks a book. In: a folder, or nothing for the one in use. Out: its faults on standard output; status 1 if there are any.

use super::book::{NoBook, drawn, open};
use super::outcome::{Outcome, show, tell};
use super::settings::Settings;
use crate::source::Fault;
use crate::source::words::counted;

/// Checks and tells.
pub fn check(folder: Option<&str>, settings: &Settings) -> Outcome {
    let folder = folder.or(settings.book.as_deref());
    let (faults, files, size) = match open(folder) {
        Ok((book, warnings)) => {
            let size = (book.rules.rules.len(), book.rules.figures.len());
            (warnings, book.files, Some(size))
        }
        Err(NoBook::Faults(faults, files)) => (faults, files, None),
        Err(NoBook::Unreadable(what)) => {
            tell(&what);
            return Outcome::Wrong;
        }
    };
    if settings.json {
        let list: Vec<serde_json::Value> = faults.iter().map(|f| object(f, &files)).collect();
        let _ = show(&format!("{}\n", serde_json::json!({ "faults": list })));
    } else {
        let mut text = drawn(&faults, &files);
        if !text.is_empty() {
            text.push('\n');
        }
        text.push_str(&summary(&faults, size));
        let _ = show(&text);
    }
    if faults.is_empty() { Outcome::Fine } else { Outcome::Found }
}

fn summary(faults: &[Fault], size: Option<(usize, usize)>) -> String {
    let errors = faults.iter().filter(|f| f.is_error()).count();
    let warnings = faults.len() - errors;
    let held = size.map_or(String::new(), |(rules, figures)| {
        format!("{} and {}: ", counted(rules, "rule", "rules"), counted(figures, "figure", "figures"))
    });
    match (errors, warnings) {
        (0, 0) => format!("{held}no fault found.\n"),
        (0, n) => format!("{held}{}; the book can be used.\n", counted(n, "warning", "warnings")),
        (n, _) => format!("{held}{}; this book is not used.\n", counted(n, "error", "errors")),
    }
}

fn object(fault: &Fault, files: &[(String, String)]) -> serde_json::Value {
    let text = files.iter().find(|(path, _)| *path == fault.place.file).map(|(_, text)| text.as_str());
    let (line, column) = text.map_or((0, 0), |text| crate::source::span::line_and_column(text, fault.place.span.start));
    serde_json::json!({
        "name": fault.name, "severity": fault.severity, "file": fault.place.file, "line": line, "column": column,
        "what": fault.what, "notes": fault.notes, "try": fault.cure,
    })
}
