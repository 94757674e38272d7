//! The book in use: the built-in one or a folder, watched for changes; unpacking a copy. In: a folder. Out: a `Book`, or its
//! faults drawn. Checks nothing itself.

use super::outcome::{Outcome, show, tell, tell_text};
use crate::rulebook::Book;
use crate::rulebook::library::built_in_texts;
use crate::source::draw::draw;
use crate::source::{Fault, yaml};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Why a folder gives no book.
#[derive(Debug)]
pub enum NoBook {
    /// A file or folder that cannot be read, and why.
    Unreadable(String),
    /// Faults, with the files they are in.
    Faults(Vec<Fault>, Vec<(String, String)>),
}

/// Deeper folders than this are a slip.
const DEEPEST: usize = 6;
const FOLDERS: [&str; 2] = ["knowledge", "rules"];

/// The files of a book by path, and everything wrong with their bytes.
pub fn read_folder(folder: &Path) -> Result<Vec<(String, String)>, NoBook> {
    if let Err(why) = std::fs::read_dir(folder) {
        return Err(NoBook::Unreadable(format!("cannot read {}: {why}", folder.display())));
    }
    let mut files: Vec<(String, String)> = Vec::new();
    let mut faults = Vec::new();
    let present: Vec<&str> = FOLDERS.into_iter().filter(|f| folder.join(f).is_dir()).collect();
    if present.is_empty() {
        let what = format!("{} holds no book: there is neither rules/ nor knowledge/ in it", folder.display());
        return Err(NoBook::Unreadable(what));
    }
    for part in &present {
        for path in gather(&folder.join(part), 0)? {
            let name = path.strip_prefix(folder).unwrap_or(&path).to_string_lossy().replace('\\', "/");
            let bytes = std::fs::read(&path)
                .map_err(|why| NoBook::Unreadable(format!("cannot read {}: {why}", path.display())))?;
            match yaml::text_of(&name, &bytes) {
                Ok(text) => files.push((name, text)),
                Err(fault) => faults.push(*fault),
            }
        }
    }
    if !faults.is_empty() {
        return Err(NoBook::Faults(faults, files));
    }
    // A part that the folder lacks is taken from the built-in book: who edits rules need not copy the tables.
    let lacking: Vec<&str> = FOLDERS.into_iter().filter(|f| !present.contains(f)).collect();
    if !lacking.is_empty() {
        files.extend(
            built_in_texts().into_iter().filter(|(path, _)| lacking.iter().any(|l| path.starts_with(&format!("{l}/")))),
        );
    }
    files.sort();
    Ok(files)
}

/// The YAML files below a folder, in order.
fn gather(folder: &Path, depth: usize) -> Result<Vec<PathBuf>, NoBook> {
    let entries = std::fs::read_dir(folder)
        .map_err(|why| NoBook::Unreadable(format!("cannot read {}: {why}", folder.display())))?;
    let mut paths: Vec<PathBuf> = entries.flatten().map(|e| e.path()).collect();
    paths.sort();
    let mut out = Vec::new();
    for path in paths {
        let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
        // Editors leave hidden files and copies behind.
        if name.starts_with('.') || name.ends_with('~') {
            continue;
        }
        if path.is_dir() {
            if depth < DEEPEST {
                out.extend(gather(&path, depth + 1)?);
            }
        } else if path.extension().is_some_and(|e| e == "yaml" || e == "yml") {
            out.push(path);
        }
    }
    Ok(out)
}

/// The book of a folder, or the built-in one; warnings beside it.
pub fn open(folder: Option<&str>) -> Result<(Book, Vec<Fault>), NoBook> {
    match folder {
        None => Book::built_in().map(|book| (book, vec![])).map_err(|faults| NoBook::Faults(faults, built_in_texts())),
        Some(folder) => {
            let files = read_folder(Path::new(folder))?;
            Book::from_texts(files.clone(), folder).map_err(|faults| NoBook::Faults(faults, files))
        }
    }
}

/// The faults drawn, one after the other.
pub fn drawn(faults: &[Fault], files: &[(String, String)]) -> String {
    let find = |file: &str| files.iter().find(|(path, _)| path == file).map(|(_, text)| text.clone());
    faults.iter().map(|fault| draw(fault, &find)).collect::<Vec<_>>().join("\n")
}

impl NoBook {
    /// What is shown on standard error.
    pub fn tell(&self) {
        match self {
            Self::Unreadable(what) => tell(what),
            Self::Faults(faults, files) => tell_text(&drawn(faults, files)),
        }
    }
}

/// A folder's files by time and size: a cheap look that sees every edit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Look(Vec<(PathBuf, Option<SystemTime>, u64)>);

impl Look {
    pub fn at(folder: &str) -> Self {
        let mut files: Vec<PathBuf> = Vec::new();
        for part in FOLDERS {
            files.extend(gather(&Path::new(folder).join(part), 0).unwrap_or_default());
        }
        let look = files.into_iter().map(|path| {
            let about = std::fs::metadata(&path).ok();
            let time = about.as_ref().and_then(|a| a.modified().ok());
            let size = about.map_or(0, |a| a.len());
            (path, time, size)
        });
        Self(look.collect())
    }
}

/// Writes the built-in book into a folder that holds none yet.
pub fn unpack(folder: &str) -> Outcome {
    let folder = Path::new(folder);
    if let Some(there) = FOLDERS.into_iter().map(|f| folder.join(f)).find(|f| f.exists()) {
        tell(&format!("{} is there already; nothing was written. Name another folder", there.display()));
        return Outcome::Wrong;
    }
    let texts = built_in_texts();
    for (path, text) in &texts {
        let path = folder.join(path);
        let made = path.parent().map_or(Ok(()), std::fs::create_dir_all);
        if let Err(why) = made.and_then(|()| crate::archive::call::write_whole(&path, text)) {
            tell(&format!("cannot write {}: {why}", path.display()));
            return Outcome::Wrong;
        }
    }
    let folder = folder.display();
    let text = format!(
        "{} files written to {folder}. Edit them, then:\n  weirline check {folder}\n  weirline --book {folder}\n",
        texts.len()
    );
    let _ = show(&text);
    Outcome::Fine
}
