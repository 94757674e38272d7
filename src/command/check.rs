//! Checks a book, its examples run. In: a folder, or nothing for the one in use. Out: its faults on standard output, what
//! the examples cover, and on wish what nothing notices; status 1 if there is any fault.

use super::book::{Files, NoBook, drawn, files_of};
use super::outcome::{Outcome, show, tell};
use super::settings::Settings;
use super::strength;
use crate::archive::folder;
use crate::archive::trial::{self, Report, TURNS};
use crate::source::Fault;
use crate::source::draw::data;
use crate::source::words::counted;
use std::path::Path;

/// Most names of rules that are listed in one line.
const MOST_NAMED: usize = 12;

/// Checks and tells. `with_strength`: also tries every change of the rules, which takes longer, against the examples and
/// the saved calls.
pub fn check(folder: Option<&str>, with_strength: bool, settings: &Settings) -> Outcome {
    let folder = folder.or(settings.book.as_deref());
    let Files { texts, faults, shown } = match files_of(folder) {
        Ok(files) => files,
        Err(NoBook::Unreadable(what)) => {
            tell(&what);
            return Outcome::Wrong;
        }
        Err(NoBook::Faults(faults, files)) => Files { texts: files.clone(), faults, shown: files },
    };
    let saved = with_strength.then(|| saved(&settings.calls));
    let report = trial::check(texts, faults, folder.unwrap_or("built in"), saved.as_deref());
    let text = if settings.json { json(&report, &shown) } else { text(&report, &shown) };
    let _ = show(&text);
    if report.faults.is_empty() { Outcome::Fine } else { Outcome::Found }
}

/// What was typed in the saved calls of a folder: each call up to each of its turns. A folder that is not there, or a file
/// that is no call, gives none.
fn saved(calls: &str) -> Vec<String> {
    let entries = folder::list(Path::new(calls), "").unwrap_or_default();
    let typed = |entry: &folder::Entry| -> Vec<String> {
        entry.call.as_ref().map_or(vec![], |c| c.exchanges.iter().map(|e| e.typed.clone()).collect())
    };
    let up_to_each = |turns: Vec<String>| (1..=turns.len()).map(|n| turns[..n].join(TURNS)).collect::<Vec<_>>();
    entries.iter().map(typed).flat_map(up_to_each).collect()
}

fn text(report: &Report, files: &[(String, String)]) -> String {
    let mut text = drawn(&report.faults, files);
    if !text.is_empty() {
        text.push('\n');
    }
    if let Some(strength) = &report.strength {
        text.push_str(&strength::text(strength, files));
    }
    text.push_str(&summary(report));
    text
}

fn summary(report: &Report) -> String {
    let errors = report.faults.iter().filter(|f| f.is_error()).count();
    let warnings = report.faults.len() - errors;
    let held = [
        counted(report.rules, "rule", "rules"),
        counted(report.figures, "figure", "figures"),
        counted(report.examples, "example run", "examples run"),
    ]
    .join(", ");
    let counts: Vec<String> = [(errors, "error", "errors"), (warnings, "warning", "warnings")]
        .into_iter()
        .filter(|(n, ..)| *n > 0)
        .map(|(n, one, many)| counted(n, one, many))
        .collect();
    let found = match (counts.is_empty(), &report.book) {
        (true, _) => "no fault found".into(),
        (_, None) => format!("{}; this book is not used", counts.join(", ")),
        (_, Some(_)) if errors > 0 => {
            format!("{}; the book can be used, but its examples do not hold", counts.join(", "))
        }
        _ => format!("{}; the book can be used", counts.join(", ")),
    };
    let mut out = format!("{held}: {found}.\n");
    if let Some(coverage) = &report.coverage {
        out += &format!(
            "The examples{} make {} of {} speak, and try {} of {} on both sides.\n",
            match report.saved {
                0 => String::new(),
                n => format!(" and {} of saved calls", counted(n, "turn", "turns")),
            },
            coverage.speaking,
            counted(coverage.rules, "rule", "rules"),
            coverage.tried,
            counted(coverage.limits, "limit", "limits"),
        );
        if !coverage.never.is_empty() {
            let named: Vec<&str> = coverage.never.iter().take(MOST_NAMED).map(String::as_str).collect();
            let more = coverage.never.len() - named.len();
            let more = if more > 0 { format!(" and {more} more") } else { String::new() };
            out += &format!("Silent in every example: {}{more}.\n", named.join(", "));
        }
    }
    if !report.faults.is_empty() {
        out += "`weirline explain` and the name in brackets tells more of a fault.\n";
    }
    out
}

fn json(report: &Report, files: &[(String, String)]) -> String {
    let find = |file: &str| files.iter().find(|(path, _)| path == file).map(|(_, text)| text.clone());
    let faults: Vec<_> = report.faults.iter().map(|f: &Fault| data(f, &find)).collect();
    let (unnoticed, proposed) = report.strength.as_ref().map(|s| strength::data(s, files)).unzip();
    let object = serde_json::json!({
        "faults": faults, "rules": report.rules, "figures": report.figures, "examples": report.examples,
        "coverage": report.coverage, "unnoticed": unnoticed, "proposed": proposed,
    });
    format!("{object}\n")
}
