//! An edition: a book with the pieces it was put together from, so that another which differs in a file or two is made
//! quickly. In: texts by path. Out: a book. Checks only what compiling needs.

use super::entries::RuleSource;
use super::library::Book;
use super::raw::RuleFile;
use crate::knowledge::Knowledge;
use crate::source::{Fault, yaml};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The texts of a book by path, as "rules/intake.yaml".
pub type Texts = BTreeMap<String, String>;

/// What one file was read to.
#[derive(Clone)]
enum Piece {
    Tables(Arc<Knowledge>),
    Rules(Arc<RuleSource>),
}

/// A book with its pieces.
pub struct Edition {
    pub texts: Texts,
    pub book: Arc<Book>,
    pieces: BTreeMap<String, Piece>,
}

impl Edition {
    /// Reads every file.
    pub fn new(texts: Texts, name: &str) -> Result<Self, Vec<Fault>> {
        Self::make(texts, name, None)
    }

    /// The same book with other texts: only the files that differ are read.
    pub fn with(&self, texts: Texts) -> Result<Self, Vec<Fault>> {
        Self::make(texts, &self.book.name, Some(self))
    }

    fn make(texts: Texts, name: &str, like: Option<&Self>) -> Result<Self, Vec<Fault>> {
        let mut pieces = BTreeMap::new();
        let mut same_tables = like.is_some();
        for (path, text) in &texts {
            let known = like.filter(|l| l.texts.get(path) == Some(text)).and_then(|l| l.pieces.get(path));
            let piece = match known {
                Some(piece) => piece.clone(),
                None => {
                    same_tables &= !path.starts_with(TABLES);
                    read(path, text)?
                }
            };
            pieces.insert(path.clone(), piece);
        }
        let tables = || {
            pieces.values().filter_map(|p| match p {
                Piece::Tables(tables) => Some(tables.as_ref()),
                Piece::Rules(_) => None,
            })
        };
        let former = like.map_or(0, |l| l.texts.keys().filter(|p| p.starts_with(TABLES)).count());
        let knowledge = match like {
            Some(like) if same_tables && former == tables().count() => like.book.knowledge.clone(),
            _ => Knowledge::joined(tables()),
        };
        let sources = pieces.values().filter_map(|p| match p {
            Piece::Rules(rules) => Some(rules.as_ref()),
            Piece::Tables(_) => None,
        });
        let files = texts.iter().map(|(path, text)| (path.clone(), text.clone())).collect();
        let book = Arc::new(Book::of_sources(knowledge, sources, files, name)?);
        Ok(Self { texts, book, pieces })
    }
}

/// Where the tables stand.
pub const TABLES: &str = "knowledge/";

fn read(path: &str, text: &str) -> Result<Piece, Vec<Fault>> {
    if path.starts_with(TABLES) {
        return Knowledge::piece(path, text).map(|k| Piece::Tables(Arc::new(k)));
    }
    let document = yaml::read::<RuleFile>(path, text)?;
    Ok(Piece::Rules(Arc::new(RuleSource {
        file: document.file,
        text: document.text,
        tree: Some(document.tree),
        starts: vec![],
        value: document.value,
    })))
}
