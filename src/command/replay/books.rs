//! The books that calls were answered with: built in, kept beside the calls, or named. In: what a call says of its book. Out:
//! the edits since, or why they cannot be known.

use crate::archive::call::Stamp;
use crate::archive::cause::Causes;
use crate::archive::shelf;
use crate::command::book::files_of;
use crate::command::outcome::Outcome;
use crate::command::settings::Settings;
use crate::rulebook::Book;
use crate::rulebook::edition::Texts;
use crate::rulebook::library::built_in_texts;
use crate::rulebook::version::version;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

/// Which former book: its version, and the folder beside which it is kept.
type Which = (Option<String>, PathBuf);
type Known = Result<Arc<Causes>, String>;

/// The former books of a replay, each read once.
pub struct Books {
    /// The book in use, as calls name it.
    pub name: Option<String>,
    pub version: String,
    texts: Texts,
    is_built_in: bool,
    built_in_version: String,
    against: Option<Texts>,
    known: Mutex<HashMap<Which, Known>>,
}

impl Books {
    pub fn new(book: &Book, settings: &Settings, against: Option<&str>) -> Result<Self, Outcome> {
        let texts: Texts = book.texts().into_iter().collect();
        let built_in = built_in_texts();
        let against = match against.map(|folder| files_of(Some(folder))) {
            None => None,
            Some(Ok(files)) => Some(files.texts.into_iter().collect()),
            Some(Err(no_book)) => {
                no_book.tell();
                return Err(Outcome::Wrong);
            }
        };
        Ok(Self {
            name: settings.book.clone(),
            version: book.version(),
            texts,
            is_built_in: book.files.is_empty(),
            built_in_version: version(&built_in),
            against,
            known: Mutex::default(),
        })
    }

    /// The edits since the book that a stamp names.
    pub fn causes(&self, stamp: &Stamp, folder: &Path) -> Known {
        let which = match &self.against {
            Some(_) => (None, PathBuf::new()),
            None => (stamp.version.clone(), folder.to_path_buf()),
        };
        // One reads while others wait: all calls of a folder want the same book.
        let mut known = self.known.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
        known
            .entry(which)
            .or_insert_with(|| {
                let old = self.former(stamp, folder)?;
                let name = self.name.as_deref().unwrap_or("built in");
                let causes = Causes::between(old, self.texts.clone(), name);
                causes
                    .map(Arc::new)
                    .map_err(|_| "the book it was answered with cannot be read by this program".to_string())
            })
            .clone()
    }

    fn former(&self, stamp: &Stamp, folder: &Path) -> Result<Texts, String> {
        if let Some(texts) = &self.against {
            return Ok(texts.clone());
        }
        match &stamp.version {
            Some(version) if *version == self.version => Ok(self.texts.clone()),
            Some(version) if *version == self.built_in_version => Ok(built_in_texts().into_iter().collect()),
            Some(version) => match shelf::take(folder, version) {
                Ok(files) => Ok(files.into_iter().collect()),
                Err(_) => {
                    Err(format!("its book, version {version}, is not kept beside it; name it with --against DIR"))
                }
            },
            None if stamp.book.is_none() && !self.is_built_in => Ok(built_in_texts().into_iter().collect()),
            None => {
                Err("it does not say which version of the book answered it; name one with --against DIR".to_string())
            }
        }
    }
}
