//! Reads the tables: every file of `knowledge/` to entries, then checks and the word index. In: paths and texts.
//! Out: `Knowledge`, or every fault with its place. Knows no file system.

use super::Knowledge;
use super::check;
use super::index::WordIndex;
use super::language::Language;
use super::places::Places;
use super::table::Table;
use super::vocabulary::Vocabulary;
use crate::source::yaml::{self, Document};
use crate::source::{Fault, Place, Span, fault, suggest};
use schemars::JsonSchema;
use serde::de::DeserializeOwned;

/// The names of the files that hold the vocabulary and the words of speech; every other file holds entries of one table.
const VOCABULARY: &str = "vocabulary.yaml";
const LANGUAGE: &str = "language.yaml";

impl Knowledge {
    /// Reads the files of a `knowledge/` folder, each given as its path and its text; the order does not matter.
    ///
    /// Errors: all faults in file and line order. References are only checked when every file could be read, so that
    /// one slip does not report everything that leans on it.
    pub fn from_texts(texts: &[(&str, &str)]) -> Result<Knowledge, Vec<Fault>> {
        let (knowledge, faults) = Self::read(texts);
        if faults.iter().any(Fault::is_error) { Err(faults) } else { Ok(knowledge) }
    }

    /// The same, with whatever could be read beside the faults; the word index is made only when there is no error.
    pub fn read(texts: &[(&str, &str)]) -> (Knowledge, Vec<Fault>) {
        let mut texts = texts.to_vec();
        texts.sort_unstable();
        let mut knowledge = Knowledge::default();
        let mut places = Places::default();
        let mut vocabulary = None;
        let mut faults = Vec::new();
        for (file, text) in &texts {
            let read = if file.rsplit('/').next() == Some(VOCABULARY) {
                yaml::read::<Vocabulary>(file, text).map(|document| {
                    faults.extend(document.warnings.iter().cloned());
                    faults.extend(Vocabulary::faults(&document));
                    vocabulary = Some(document);
                })
            } else if file.rsplit('/').next() == Some(LANGUAGE) {
                yaml::read::<Language>(file, text).map(|document| {
                    faults.extend(document.warnings.iter().cloned());
                    faults.extend(Language::faults(&document));
                    knowledge.language = document.value;
                })
            } else {
                knowledge.read_table(file, text, &mut places).map(|warnings| faults.extend(warnings))
            };
            if let Err(found) = read {
                faults.extend(found);
            }
        }
        let clean = !faults.iter().any(Fault::is_error);
        if let Some(document) = vocabulary {
            faults.extend(unknown_tables(&document));
            knowledge.vocabulary = document.value;
        }
        if clean {
            faults.extend(check::faults(&knowledge, &places));
        }
        if !faults.iter().any(Fault::is_error) {
            knowledge.words = WordIndex::new(&knowledge);
        }
        fault::sort(&mut faults);
        (knowledge, faults)
    }

    /// What one file holds, by itself and unchecked.
    pub fn piece(file: &str, text: &str) -> Result<Knowledge, Vec<Fault>> {
        let mut piece = Knowledge::default();
        match file.rsplit('/').next() {
            Some(VOCABULARY) => piece.vocabulary = yaml::read::<Vocabulary>(file, text)?.value,
            Some(LANGUAGE) => piece.language = yaml::read::<Language>(file, text)?.value,
            _ => drop(piece.read_table(file, text, &mut Places::default())?),
        }
        Ok(piece)
    }

    /// Pieces put together, in the order of their files, with the index of words.
    pub fn joined<'k>(pieces: impl Iterator<Item = &'k Knowledge>) -> Knowledge {
        let mut out = Knowledge::default();
        for piece in pieces {
            macro_rules! extend {
                ($($list:ident),*) => { $(out.$list.extend(piece.$list.iter().cloned());)* };
            }
            extend!(
                ambiguous, stock, plants, media, filters, treatments, stages, groups, symptoms, cautions, jobs, terms
            );
            extend!(classes, questions, sources, workings, plurals);
            if !piece.vocabulary.things.is_empty() {
                out.vocabulary = piece.vocabulary.clone();
            }
            if !piece.language.numbers.is_empty() {
                out.language = piece.language.clone();
            }
        }
        out.words = WordIndex::new(&out);
        out
    }

    fn read_table(&mut self, file: &str, text: &str, places: &mut Places) -> Result<Vec<Fault>, Vec<Fault>> {
        let Some((key, span)) = first_key(text) else {
            let (_, mut faults) = yaml::tree(file, text);
            if faults.is_empty() {
                let place = Place::new(file, Span::default());
                faults.push(Fault::error("no-entry", place, "no entry begins in this file").cure("- stock: name"));
            }
            return Err(faults);
        };
        let Some(table) = Table::by_key(key) else {
            let keys: Vec<&str> = Table::ALL.iter().map(|t| t.key()).collect();
            let fault = Fault::error("unknown-table", Place::new(file, span), format!("no table has entries `{key}`"))
                .note(format!("an entry begins with one of: {}", keys.join(", ")));
            return Err(vec![match suggest::nearest(key, keys) {
                Some(near) => fault.cure(near),
                None => fault,
            }]);
        };
        match table {
            Table::Ambiguous => read_entries(file, text, table, &mut self.ambiguous, places),
            Table::Stock => read_entries(file, text, table, &mut self.stock, places),
            Table::Plant => read_entries(file, text, table, &mut self.plants, places),
            Table::Medium => read_entries(file, text, table, &mut self.media, places),
            Table::Filter => read_entries(file, text, table, &mut self.filters, places),
            Table::Treatment => read_entries(file, text, table, &mut self.treatments, places),
            Table::Stage => read_entries(file, text, table, &mut self.stages, places),
            Table::Group => read_entries(file, text, table, &mut self.groups, places),
            Table::Symptom => read_entries(file, text, table, &mut self.symptoms, places),
            Table::Caution => read_entries(file, text, table, &mut self.cautions, places),
            Table::Job => read_entries(file, text, table, &mut self.jobs, places),
            Table::Term => read_entries(file, text, table, &mut self.terms, places),
            Table::Class => read_entries(file, text, table, &mut self.classes, places),
            Table::Question => read_entries(file, text, table, &mut self.questions, places),
            Table::Source => read_entries(file, text, table, &mut self.sources, places),
            Table::Working => read_entries(file, text, table, &mut self.workings, places),
            Table::Plural => read_entries(file, text, table, &mut self.plurals, places),
        }
    }
}

fn read_entries<T: DeserializeOwned + JsonSchema>(
    file: &str,
    text: &str,
    table: Table,
    entries: &mut Vec<T>,
    places: &mut Places,
) -> Result<Vec<Fault>, Vec<Fault>> {
    let Document { tree, value, warnings, .. } = yaml::read::<Vec<T>>(file, text)?;
    places.add(file, tree, table, entries.len(), value.len());
    entries.extend(value);
    Ok(warnings)
}

/// The key that begins the first entry of a file; all entries of a file begin with it.
fn first_key(text: &str) -> Option<(&str, Span)> {
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        if let Some(rest) = line.strip_prefix("- ") {
            let key = rest.split(':').next().unwrap_or("").trim_end();
            return Some((key, Span::new(start + 2, start + 2 + key.len().max(1))));
        }
        start += line.len();
    }
    None
}

/// Attributes whose list of kinds is to come from a table that does not exist.
fn unknown_tables(document: &Document<Vocabulary>) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (n, thing) in document.value.things.iter().enumerate() {
        for (m, attribute) in thing.attributes.iter().enumerate() {
            let Some(table) = attribute.kinds_from.as_deref().filter(|t| Table::by_key(t).is_none()) else { continue };
            let node = document.tree.get("things").and_then(|t| t.item(n));
            let node = node.and_then(|t| t.get("attributes")).and_then(|a| a.item(m));
            let span = node.and_then(|a| a.get("kinds from")).map_or(Span::default(), |v| v.span);
            faults.push(Fault::error(
                "unknown-table",
                document.place(span),
                format!("no table has entries `{table}`, so `{}` has no kinds", attribute.attribute),
            ));
        }
    }
    faults
}
