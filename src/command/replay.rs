//! Answers saved calls again. In: files and folders. Out: what changed, as lines gone and new; status 1 if anything did.

use super::book::open;
use super::outcome::{Outcome, show, tell};
use super::settings::Settings;
use crate::archive::call::{SavedCall, write_whole};
use crate::archive::replay::{Difference, differences, replay};
use crate::archive::{Hear, listener};
use crate::rulebook::Book;
use crate::source::words::counted;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Lines shown around a change, so that one sees where it is.
const AROUND: usize = 1;

/// Replays all calls of `paths` with the book in use.
pub fn replay_all(paths: &[String], accept: bool, settings: &Settings) -> Outcome {
    let book = match open(settings.book.as_deref()) {
        Ok((book, _)) => Arc::new(book),
        Err(no_book) => {
            no_book.tell();
            return Outcome::Wrong;
        }
    };
    let hear = listener(&book.knowledge);
    let mut files = Vec::new();
    for path in paths {
        match calls_in(Path::new(path)) {
            Ok(found) => files.extend(found),
            Err(why) => {
                tell(&format!("cannot read {path}: {why}"));
                return Outcome::Wrong;
            }
        }
    }
    let (mut changed, mut wrong) = (0, false);
    for file in &files {
        match one(file, accept, &book, &hear) {
            Ok(None) => {}
            Ok(Some(text)) => {
                changed += 1;
                if show(&text).is_err() {
                    return Outcome::Found;
                }
            }
            Err(what) => {
                tell(&what);
                wrong = true;
            }
        }
    }
    let verb = if accept { "taken as right" } else { "would be answered differently" };
    let all = counted(files.len(), "call", "calls");
    let _ = show(&match changed {
        0 => format!("{all}: nothing changed.\n"),
        n => format!("{all}: {n} {verb}.\n"),
    });
    match (wrong, changed > 0 && !accept) {
        (true, _) => Outcome::Wrong,
        (false, true) => Outcome::Found,
        (false, false) => Outcome::Fine,
    }
}

/// The call files of a path: itself, or the .txt files of a folder in order.
fn calls_in(path: &Path) -> std::io::Result<Vec<PathBuf>> {
    if !path.is_dir() {
        std::fs::metadata(path)?;
        return Ok(vec![path.to_path_buf()]);
    }
    let mut files: Vec<PathBuf> = std::fs::read_dir(path)?.flatten().map(|e| e.path()).collect();
    files.retain(|f| f.extension().is_some_and(|e| e == "txt"));
    files.sort();
    Ok(files)
}

fn one(file: &Path, accept: bool, book: &Arc<Book>, hear: &Arc<dyn Hear>) -> Result<Option<String>, String> {
    let name = file.display();
    let text = std::fs::read_to_string(file).map_err(|why| format!("cannot read {name}: {why}"))?;
    let call = SavedCall::read(&text).map_err(|why| format!("{name}:{why}"))?;
    let after = replay(&call, book, hear).write();
    if after == text {
        return Ok(None);
    }
    if accept {
        write_whole(file, &after).map_err(|why| format!("cannot write {name}: {why}"))?;
    }
    Ok(Some(shown(&name.to_string(), &text, &after)))
}

/// The changed lines with what stands around them.
fn shown(name: &str, before: &str, after: &str) -> String {
    let lines = differences(before, after);
    let changed: Vec<bool> = lines.iter().map(|l| !matches!(l, Difference::Same(_))).collect();
    let mut out = format!("{name}\n");
    let mut number = 0;
    let mut gap = true;
    for (n, line) in lines.iter().enumerate() {
        if !matches!(line, Difference::New(_)) {
            number += 1;
        }
        let near = (n.saturating_sub(AROUND)..=(n + AROUND).min(lines.len() - 1)).any(|m| changed[m]);
        if !near {
            gap = true;
            continue;
        }
        if gap {
            out.push_str(&format!("  line {}\n", number.max(1)));
            gap = false;
        }
        out.push_str(&match line {
            Difference::Same(text) => format!("    {text}\n"),
            Difference::Gone(text) => format!("  - {text}\n"),
            Difference::New(text) => format!("  + {text}\n"),
        });
    }
    out
}
