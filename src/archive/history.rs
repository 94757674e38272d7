//! The lines typed at the prompt, kept in a file. In: a path, lines. Out: the last of them. Written whole or not at all.

use super::disk::{NotSaved, Rights, folder_of, hold, write_whole};
use std::path::{Path, PathBuf};

/// Lines kept.
const KEPT: usize = 1000;

/// The history in one file.
#[derive(Clone, Debug)]
pub struct History {
    path: PathBuf,
}

impl History {
    pub fn at(path: &str) -> Self {
        Self { path: Path::new(path).to_path_buf() }
    }

    /// What was typed before, the oldest first. A history that is not there yet is empty.
    pub fn lines(&self) -> Vec<String> {
        let text = std::fs::read(&self.path).map(|b| String::from_utf8_lossy(&b).into_owned()).unwrap_or_default();
        // Other programs' histories may begin with a mark.
        text.lines().filter(|l| !l.is_empty() && *l != "#V2").map(unfolded).collect()
    }

    /// Adds a line. Another prompt may have added some meanwhile: they stay.
    pub fn add(&self, line: &str) -> Result<(), NotSaved> {
        let line = line.trim();
        if line.is_empty() {
            return Ok(());
        }
        let _held = hold(folder_of(&self.path))?;
        let mut lines = self.lines();
        if lines.last().is_some_and(|last| last == line) {
            return Ok(());
        }
        lines.push(line.to_string());
        let first = lines.len().saturating_sub(KEPT);
        let text: String = lines[first..].iter().map(|l| format!("{}\n", folded(l))).collect();
        write_whole(&self.path, &text, Rights::Private).map_err(|why| NotSaved::Failed(self.path.clone(), why))
    }
}

/// A turn of several lines is one line of the file.
fn folded(line: &str) -> String {
    line.replace('\\', "\\\\").replace('\n', "\\n")
}

fn unfolded(line: &str) -> String {
    let mut out = String::new();
    let mut letters = line.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '\\' => match letters.next() {
                Some('n') => out.push('\n'),
                other => out.extend(other),
            },
            other => out.push(other),
        }
    }
    out
}
