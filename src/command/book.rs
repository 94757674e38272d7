//! The book in use: the built-in one or a folder, watched for changes; unpacking a copy. In: a folder. Out: a `Book`, or its
//! faults drawn. Checks nothing itself.

use super::outcome::{Outcome, show, tell, tell_text};
use super::settings::Settings;
use crate::archive::disk::{Rights, write_whole};
use crate::archive::{Hear, listener};
use crate::rulebook::Book;
use crate::rulebook::library::built_in_texts;
use crate::rulebook::{editor_schema, reference};
use crate::source::draw::draw;
use crate::source::{Fault, Place, Span, yaml};
use std::path::{Path, PathBuf};
use std::sync::Arc;
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

/// The files of a book.
#[derive(Debug, Default)]
pub struct Files {
    /// Path and text of each that can be used.
    pub texts: Vec<(String, String)>,
    /// What is wrong with the bytes of the others.
    pub faults: Vec<Fault>,
    /// All of them as they can be shown: of a file that is no text, what is one.
    pub shown: Vec<(String, String)>,
}

/// The files of a book by path, and everything wrong with their bytes.
pub fn read_folder(folder: &Path) -> Result<Files, NoBook> {
    if let Err(why) = std::fs::read_dir(folder) {
        return Err(NoBook::Unreadable(format!("cannot read {}: {why}", folder.display())));
    }
    let present: Vec<&str> = FOLDERS.into_iter().filter(|f| folder.join(f).is_dir()).collect();
    if present.is_empty() {
        let what = format!("{} holds no book: there is neither rules/ nor knowledge/ in it", folder.display());
        return Err(NoBook::Unreadable(what));
    }
    let mut files = Files::default();
    for part in &present {
        let mut found = Vec::new();
        gather(&folder.join(part), 0, &mut |path, why| found.push((path, why)))?;
        for (path, why) in found {
            let name = path.strip_prefix(folder).unwrap_or(&path).to_string_lossy().replace('\\', "/");
            let place = Place::new(name.clone(), Span::default());
            let bytes = match why {
                Found::File => std::fs::read(&path),
                Found::FolderLikeFile => {
                    let fault =
                        Fault::error("folder-like-file", place, "this is a folder, named like a file of the book");
                    files.faults.push(fault.cure("give the folder a name without `.yaml`"));
                    continue;
                }
            };
            match bytes.map(|bytes| (yaml::text_of(&name, &bytes), bytes)) {
                Ok((Ok(text), _)) => files.texts.push((name, text)),
                Ok((Err(fault), bytes)) => {
                    files.faults.push(*fault);
                    files.shown.push((name, String::from_utf8_lossy(&bytes).into_owned()));
                }
                Err(why) => {
                    let what = format!("this file cannot be read: {why}");
                    files
                        .faults
                        .push(Fault::error("unreadable-file", place, what).cure("ask who owns it, or take it out"));
                }
            }
        }
    }
    // A part that the folder lacks is taken from the built-in book: who edits rules need not copy the tables.
    let lacking: Vec<&str> = FOLDERS.into_iter().filter(|f| !present.contains(f)).collect();
    if !lacking.is_empty() {
        files.texts.extend(
            built_in_texts().into_iter().filter(|(path, _)| lacking.iter().any(|l| path.starts_with(&format!("{l}/")))),
        );
    }
    files.texts.sort();
    files.shown.extend(files.texts.iter().cloned());
    Ok(files)
}

/// The files of a folder, or of the built-in book.
pub fn files_of(folder: Option<&str>) -> Result<Files, NoBook> {
    match folder {
        Some(folder) => read_folder(Path::new(folder)),
        None => {
            let texts = built_in_texts();
            Ok(Files { shown: texts.clone(), texts, faults: vec![] })
        }
    }
}

/// What stands below a folder.
enum Found {
    File,
    FolderLikeFile,
}

/// The YAML files below a folder, in order, and folders that are named like one.
fn gather(folder: &Path, depth: usize, see: &mut impl FnMut(PathBuf, Found)) -> Result<(), NoBook> {
    let entries = std::fs::read_dir(folder)
        .map_err(|why| NoBook::Unreadable(format!("cannot read {}: {why}", folder.display())))?;
    let mut paths: Vec<PathBuf> = entries.flatten().map(|e| e.path()).collect();
    paths.sort();
    for path in paths {
        let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
        // Editors leave hidden files and copies behind.
        if name.starts_with('.') || name.ends_with('~') {
            continue;
        }
        let like_file = path.extension().is_some_and(|e| e == "yaml" || e == "yml");
        match (path.is_dir(), like_file) {
            (true, true) => see(path, Found::FolderLikeFile),
            (true, false) if depth < DEEPEST => gather(&path, depth + 1, see)?,
            (false, true) => see(path, Found::File),
            _ => {}
        }
    }
    Ok(())
}

/// The book of a folder, or the built-in one; warnings beside it.
pub fn open(folder: Option<&str>) -> Result<(Book, Vec<Fault>), NoBook> {
    match folder {
        None => Book::built_in().map(|book| (book, vec![])).map_err(|faults| NoBook::Faults(faults, built_in_texts())),
        Some(folder) => {
            let files = read_folder(Path::new(folder))?;
            if !files.faults.is_empty() {
                return Err(NoBook::Faults(files.faults, files.shown));
            }
            Book::from_texts(files.texts, folder).map_err(|faults| NoBook::Faults(faults, files.shown))
        }
    }
}

/// The book that the settings choose, for a command that only looks something up; what is wrong with it is told.
pub fn open_or_tell(settings: &Settings) -> Result<Book, Outcome> {
    open(settings.book.as_deref()).map(|(book, _)| book).map_err(|no_book| {
        no_book.tell();
        Outcome::Wrong
    })
}

/// A book with the listener for its words, and warnings.
pub struct Opened {
    pub book: Book,
    pub hear: Arc<dyn Hear>,
    pub warnings: Vec<Fault>,
}

/// The book of a folder, or the built-in one, with the listener for it.
pub fn open_to_hear(folder: Option<&str>) -> Result<Opened, NoBook> {
    match folder {
        None => match Book::built_in_beside(listener) {
            Ok((book, hear)) => Ok(Opened { book, hear, warnings: vec![] }),
            Err(faults) => Err(NoBook::Faults(faults, built_in_texts())),
        },
        Some(_) => {
            let (book, warnings) = open(folder)?;
            let hear = listener(&book.knowledge);
            Ok(Opened { book, hear, warnings })
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
            let _ = gather(&Path::new(folder).join(part), 0, &mut |path, _| files.push(path));
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

/// What helps to edit a book: the form of its files for editors, and the reference.
fn beside(book: &Book) -> Vec<(String, String)> {
    let mut out = vec![
        ("rules/schema.json".to_string(), editor_schema::of_rules(book)),
        ("knowledge/schema.json".to_string(), editor_schema::of_knowledge(book)),
    ];
    out.extend(reference::pages(book).into_iter().map(|page| (format!("reference/{}", page.file), page.text)));
    out
}

/// Writes the built-in book into a folder that holds none yet.
pub fn unpack(folder: &str) -> Outcome {
    let folder = Path::new(folder);
    if let Some(there) = FOLDERS.into_iter().map(|f| folder.join(f)).find(|f| f.exists()) {
        tell(&format!("{} is there already; nothing was written. Name another folder", there.display()));
        return Outcome::Wrong;
    }
    let texts = built_in_texts();
    let beside = match Book::built_in() {
        Ok(book) => beside(&book),
        Err(faults) => {
            tell_text(&drawn(&faults, &texts));
            return Outcome::Wrong;
        }
    };
    for (path, text) in texts.iter().chain(&beside) {
        let path = folder.join(path);
        let made = path.parent().map_or(Ok(()), std::fs::create_dir_all);
        if let Err(why) = made.and_then(|()| write_whole(&path, text, Rights::Usual)) {
            tell(&format!("cannot write {}: {why}", path.display()));
            return Outcome::Wrong;
        }
    }
    let folder = folder.display();
    let text = format!(
        "{} files written to {folder}, and a reference. Edit them, then:\n  weirline check {folder}\n  weirline --book {folder}\n",
        texts.len()
    );
    let _ = show(&text);
    Outcome::Fine
}
