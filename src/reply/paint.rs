//! Colour: the only file that knows it. In: set lines, whether to colour. Out: text. With every escape removed nothing is
//! lost: colour only repeats what the words say.

use super::lines::Line;
use super::page::Tone;
use colored::Colorize;

/// The lines as one text, each ended.
pub fn paint(lines: &[Line], colour: bool) -> String {
    let mut out = String::new();
    for line in lines {
        let (label, text) = match colour {
            true => painted(line),
            false => (line.label.clone(), line.text.clone()),
        };
        let whole = format!("{label}{text}");
        out.push_str(whole.trim_end());
        out.push('\n');
    }
    out
}

fn painted(line: &Line) -> (String, String) {
    let (label, text) = (line.label.as_str(), line.text.as_str());
    let empty = label.trim().is_empty();
    let bold = |s: &str| if empty { s.to_string() } else { s.bold().to_string() };
    match line.tone {
        Tone::Plain => (bold(label), text.to_string()),
        Tone::Say => (bold(label), text.bold().to_string()),
        Tone::Danger => (if empty { label.into() } else { label.red().bold().to_string() }, text.bold().to_string()),
        Tone::Soon => (if empty { label.into() } else { label.yellow().bold().to_string() }, text.to_string()),
        Tone::Quiet => (if empty { label.into() } else { label.dimmed().to_string() }, text.dimmed().to_string()),
        Tone::Ask => (if empty { label.into() } else { label.cyan().bold().to_string() }, text.to_string()),
    }
}

/// The prompt, plain and coloured, equally wide.
pub fn prompt(text: &str) -> (String, String) {
    (text.to_string(), text.cyan().bold().to_string())
}

/// The grey words behind what is being typed.
pub fn hint(text: &str) -> String {
    text.dimmed().to_string()
}

/// Decides once for the whole program whether colour is written at all: the library's own rules are not asked.
pub fn decide(colour: bool) {
    colored::control::set_override(colour);
}
