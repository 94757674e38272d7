//! What nothing in a book notices, as it is shown: each change, an example that would notice it, and for each rule its
//! examples as they would be, to be pasted. In: what `archive::trial::strength` found, the files. Out: text, or data.

use crate::archive::trial::strength::{Examples, Remedy, Strength};
use crate::source::Place;
use crate::source::span::line_and_column;
use crate::source::words::counted;
use serde_json::{Value, json};

/// Path and text of each file.
type Files<'f> = &'f [(String, String)];

/// The changes, then the examples that would notice them, then how many.
pub fn text(strength: &Strength, files: Files) -> String {
    let mut out = String::new();
    for survivor in &strength.survivors {
        let (line, column) = spot(&survivor.place, files);
        out += &format!("{}:{line}:{column}: {}: {}\n", survivor.place.file, survivor.rule, survivor.change);
        out += &match &survivor.remedy {
            Remedy::Line { line, speaks } => format!("   try:  under {}: {}\n", list(*speaks), quoted(line)),
            Remedy::None(why) => format!("   note: no line was found: {why}\n"),
        };
    }
    if !strength.examples.is_empty() {
        out += "\nWith these examples they are noticed. Each line was tried, in the book as it is and in the changed one;\n\
                read it before it takes the place of the examples that stand there.\n\n";
        for examples in &strength.examples {
            let (line, _) = spot(&examples.place, files);
            out += &format!("# {}, {}:{line}\n{}", examples.rule, examples.place.file, yaml(examples));
        }
    }
    if !out.is_empty() {
        out.push('\n');
    }
    out + &summary(strength)
}

fn summary(strength: &Strength) -> String {
    let tried = counted(strength.tried, "change", "changes");
    let alike = match strength.alike {
        0 => String::new(),
        n => format!(", {n} of which no caller could notice"),
    };
    let left = strength.survivors.len();
    let found = strength.survivors.iter().filter(|s| matches!(s.remedy, Remedy::Line { .. })).count();
    match left {
        0 => format!("{tried} tried{alike}; each of the others was noticed.\n\n"),
        _ => format!(
            "{tried} tried{alike}; {left} that nothing notices {} listed above, {found} of them with an example that would.\n\n",
            if left == 1 { "is" } else { "are" }
        ),
    }
}

fn list(speaks: bool) -> &'static str {
    if speaks { "`speaks`" } else { "`silent`" }
}

/// The examples of a rule as they stand in its file.
fn yaml(examples: &Examples) -> String {
    let mut out = "  examples:\n".to_string();
    for (key, lines) in [("speaks", &examples.speaks), ("silent", &examples.silent)] {
        if !lines.is_empty() {
            let lines: Vec<String> = lines.iter().map(|l| quoted(l)).collect();
            out += &format!("    {key}: [{}]\n", lines.join(", "));
        }
    }
    out
}

/// A text between quotes, as YAML reads it.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}

fn spot(place: &Place, files: Files) -> (usize, usize) {
    let text = files.iter().find(|(path, _)| *path == place.file).map(|(_, text)| text.as_str());
    text.map_or((0, 0), |t| line_and_column(t, place.span.start))
}

/// The same as data: the changes, and the examples.
pub fn data(strength: &Strength, files: Files) -> (Value, Value) {
    let survivors = strength.survivors.iter().map(|s| {
        let (line, column) = spot(&s.place, files);
        let (speaks, silent, why) = match &s.remedy {
            Remedy::Line { line, speaks: true } => (Some(line), None, None),
            Remedy::Line { line, speaks: false } => (None, Some(line), None),
            Remedy::None(why) => (None, None, Some(why)),
        };
        json!({
            "rule": s.rule, "file": s.place.file, "line": line, "column": column, "change": s.change,
            "speaks": speaks, "silent": silent, "why": why,
        })
    });
    let examples = strength.examples.iter().map(|e| {
        let (line, _) = spot(&e.place, files);
        json!({"rule": e.rule, "file": e.place.file, "line": line, "speaks": e.speaks, "silent": e.silent})
    });
    (survivors.collect(), examples.collect())
}
