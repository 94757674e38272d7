//! The folder of saved calls: names, a list, search. In: a folder, words. Out: paths, what each call is about. Writes nothing.

use super::call::SavedCall;
use crate::knowledge::index::normal;
use std::path::{Path, PathBuf};

/// What the files of calls end with.
const ENDING: &str = "txt";
/// A longer name is no name.
const LONGEST: usize = 80;

/// The file name of a call's name: "Mrs Hall's koi" is `mrs-halls-koi.txt`. `None`: no letter or figure is in it.
pub fn file_name(name: &str) -> Option<String> {
    let mut out = String::new();
    for letter in name.trim().trim_end_matches(".txt").chars() {
        match letter {
            '\'' | '\u{2019}' => {}
            c if c.is_alphanumeric() => out.extend(c.to_lowercase()),
            _ if out.is_empty() || out.ends_with('-') => {}
            _ => out.push('-'),
        }
    }
    let out: String = out.trim_end_matches('-').chars().take(LONGEST).collect();
    (!out.is_empty()).then(|| format!("{out}.{ENDING}"))
}

/// Whether a name is meant as a path of its own.
pub fn is_path(name: &str) -> bool {
    name.contains(['/', '\\']) || name.ends_with(".txt")
}

/// Where a call of this name stands.
pub fn place(folder: &Path, name: &str) -> Option<PathBuf> {
    if is_path(name) { Some(PathBuf::from(name)) } else { file_name(name).map(|file| folder.join(file)) }
}

/// The call files of a path: itself, or the `.txt` files of a folder in order.
pub fn calls_in(path: &Path) -> std::io::Result<Vec<PathBuf>> {
    if !path.is_dir() {
        std::fs::metadata(path)?;
        return Ok(vec![path.to_path_buf()]);
    }
    let mut files: Vec<PathBuf> = std::fs::read_dir(path)?.flatten().map(|e| e.path()).collect();
    let hidden = |f: &Path| f.file_name().is_some_and(|n| n.to_string_lossy().starts_with('.'));
    files.retain(|f| f.extension().is_some_and(|e| e == ENDING) && !hidden(f));
    files.sort();
    Ok(files)
}

/// A call as a list shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    pub name: String,
    pub path: PathBuf,
    /// The call, or why it cannot be read.
    pub call: Result<SavedCall, String>,
}

impl Entry {
    /// "2026-11-25", if it was written down: the last day on which something was answered.
    pub fn date(&self) -> Option<&str> {
        let call = self.call.as_ref().ok()?;
        call.stamp_of(call.exchanges.len()).date.as_deref()
    }

    /// What was said first.
    pub fn first_words(&self) -> &str {
        self.call.as_ref().ok().and_then(|c| c.exchanges.first()).map_or("", |e| e.typed.as_str())
    }

    /// Every word stands in its name, or in what was typed or shown.
    fn holds(&self, words: &[String]) -> bool {
        let mut text = format!(" {} ", normal(&self.name.replace('-', " ")));
        for exchange in self.call.as_ref().map_or(&[][..], |c| &c.exchanges) {
            text.push_str(&format!("{} {} ", normal(&exchange.typed), normal(&exchange.shown)));
        }
        words.iter().all(|w| text.contains(w.as_str()))
    }
}

/// Reads one call.
pub fn read(path: &Path) -> Result<SavedCall, String> {
    let text = std::fs::read_to_string(path).map_err(|why| format!("cannot read {}: {why}", path.display()))?;
    SavedCall::read(&text).map_err(|why| format!("{}:{why}", path.display()))
}

/// The saved calls that hold all of the words (none: every call), in the order of their names.
pub fn list(folder: &Path, words: &str) -> std::io::Result<Vec<Entry>> {
    let words: Vec<String> = normal(words).split_whitespace().map(String::from).collect();
    let entries = calls_in(folder)?.into_iter().map(|path| {
        let name = path.file_stem().map_or(String::new(), |n| n.to_string_lossy().into_owned());
        Entry { name, call: read(&path), path }
    });
    Ok(entries.filter(|e| words.is_empty() || e.holds(&words)).collect())
}
