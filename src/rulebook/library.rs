//! A whole book: knowledge and rules together, built in or from a folder. In: texts by path. Out: a `Book`, or every fault.
//! Knows no case.

use super::book::{Rule, Rulebook};
use super::build::{build, compile};
use super::check::Checking;
use super::entries::{Entries, RuleSource};
use super::raw::{RawExamples, RuleFile};
use super::read::{Gaps, read};
use super::version::version;
use crate::case::LookUps;
use crate::knowledge::Knowledge;
use crate::knowledge::schema::Schema;
use crate::knowledge::table::Table;
use crate::source::{Fault, Place, Span, fault};
use serde::{Deserialize, Serialize};
use std::collections::HashMap;
use std::sync::LazyLock;

/// A book ready for use.
pub struct Book {
    pub knowledge: Knowledge,
    pub schema: Schema,
    pub rules: Rulebook,
    /// What was looked up in the tables so far.
    pub look_ups: LookUps,
    /// Every file's path and text; read only when a fault is drawn or the book is unpacked.
    pub files: Vec<(String, String)>,
    /// Where it came from, as the answer's head shows it.
    pub name: String,
}

/// A book that was checked without running it.
pub struct Checked {
    /// There when no fault is an error.
    pub book: Option<Book>,
    /// The rule files that could be read, at least in part.
    pub sources: Vec<RuleSource>,
    pub faults: Vec<Fault>,
}

/// What the build script makes of a rule file: it, with the spans of its entries: figures, then rules.
#[derive(Serialize, Deserialize)]
pub struct BuiltInRules {
    pub file: String,
    pub value: RuleFile,
    pub starts: Vec<Span>,
}

static KNOWLEDGE: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/knowledge.postcard"));
static RULES: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/rules.postcard"));
static EXAMPLES: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/examples.postcard"));
static BUILT_IN_VERSION: &str = include_str!(concat!(env!("OUT_DIR"), "/version.txt"));
static TEXTS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/texts.postcard"));

/// The texts of the built-in book, as (path, text).
pub fn built_in_texts() -> Vec<(String, String)> {
    postcard::from_bytes(TEXTS).unwrap_or_default()
}

impl Book {
    /// The book built into the program. It was checked when it was built in; faults can only come of a broken build.
    pub fn built_in() -> Result<Self, Vec<Fault>> {
        Self::built_in_beside(|_| ()).map(|(book, ())| book)
    }

    /// The same; `beside` makes something of the knowledge while the rules are still being compiled, so that a program
    /// that needs both is ready sooner.
    pub fn built_in_beside<T: Send>(beside: impl FnOnce(&Knowledge) -> T + Send) -> Result<(Self, T), Vec<Fault>> {
        let knowledge: Knowledge = decoded(KNOWLEDGE)?;
        let (made, rules) = std::thread::scope(|scope| {
            let made = scope.spawn(|| beside(&knowledge));
            let rules = built_in_rules(&knowledge);
            (made.join(), rules)
        });
        let (schema, rules) = rules?;
        let made = made.unwrap_or_else(|panic| std::panic::resume_unwind(panic));
        Ok((
            Self {
                knowledge,
                schema,
                rules,
                look_ups: LookUps::default(),
                files: vec![],
                name: "built in".to_string(),
            },
            made,
        ))
    }

    /// A book from the texts of its files, paths relative to the book ("rules/intake.yaml"). Gives warnings beside it.
    ///
    /// Errors: every fault of every file that shows without running the rules; a book with an error is never used in part.
    pub fn from_texts(files: Vec<(String, String)>, name: &str) -> Result<(Self, Vec<Fault>), Vec<Fault>> {
        let Checked { book, faults, .. } = Self::check(files, name, false);
        match book {
            Some(book) => Ok((book, faults)),
            None => Err(faults),
        }
    }

    /// The same, with the rule files as they were read; the book is there when no fault is an error. `unread`: other files
    /// of the book could not be read at all, so that names may be missing.
    pub fn check(files: Vec<(String, String)>, name: &str, unread: bool) -> Checked {
        let under = |folder: &str| -> Vec<(&str, &str)> {
            let inside = files.iter().filter(|(path, _)| path.starts_with(folder));
            inside.map(|(path, text)| (path.as_str(), text.as_str())).collect()
        };
        let mut gaps = Gaps { broken_off: unread, ..Gaps::default() };
        let (knowledge, mut faults) = Knowledge::read(&under("knowledge/"));
        gaps.tables = unread || faults.iter().any(Fault::is_error);
        if knowledge.vocabulary.things.is_empty() && !gaps.tables {
            let fault = Fault::error("no-vocabulary", Place::default(), "this book has no vocabulary");
            faults.push(fault.cure("copy knowledge/vocabulary.yaml from an unpacked book"));
        }
        let sources = read(&under("rules/"), &mut faults, &mut gaps);
        let schema = schema_of(&knowledge);
        let entries = Entries::of(&sources);
        let mut rules = Rulebook::default();
        // Without things and attributes every name would be blamed.
        if !knowledge.vocabulary.things.is_empty() {
            let (book, names, found) = compile(&entries, &schema, synonyms(&knowledge));
            let checking = Checking::new(&entries, &knowledge, &schema, &book, &names, &files, gaps, found);
            faults.extend(checking.faults());
            rules = book;
        }
        fault::sort(&mut faults);
        let clean = !faults.iter().any(Fault::is_error);
        let book = clean.then(|| Self {
            knowledge,
            schema,
            rules,
            look_ups: LookUps::default(),
            files,
            name: name.to_string(),
        });
        Checked { book, sources, faults }
    }

    /// A book from what was read of its files. Checks nothing but what compiling needs.
    pub fn of_sources<'s>(
        knowledge: Knowledge,
        sources: impl IntoIterator<Item = &'s RuleSource>,
        files: Vec<(String, String)>,
        name: &str,
    ) -> Result<Self, Vec<Fault>> {
        let schema = schema_of(&knowledge);
        let (rules, faults) = build(sources, &schema, vec![]);
        match faults.iter().any(Fault::is_error) {
            true => Err(faults),
            false => Ok(Self { knowledge, schema, rules, look_ups: LookUps::default(), files, name: name.to_string() }),
        }
    }

    /// The examples of one of its rules. Those of the built-in book are read when they are first asked for.
    pub fn examples<'b>(&'b self, rule: &'b Rule) -> &'b RawExamples {
        static BUILT_IN: LazyLock<HashMap<String, RawExamples>> = LazyLock::new(|| {
            let list: Vec<(String, RawExamples)> = postcard::from_bytes(EXAMPLES).unwrap_or_default();
            list.into_iter().collect()
        });
        match self.files.is_empty() {
            true => BUILT_IN.get(&rule.name).unwrap_or(&rule.examples),
            false => &rule.examples,
        }
    }

    /// The texts of its files.
    pub fn texts(&self) -> Vec<(String, String)> {
        if self.files.is_empty() { built_in_texts() } else { self.files.clone() }
    }

    /// Which content it has: see `version`.
    pub fn version(&self) -> String {
        if self.files.is_empty() { BUILT_IN_VERSION.to_string() } else { version(&self.files) }
    }

    /// The text of one of its files, for drawing a fault or citing a line.
    pub fn text_of(&self, file: &str) -> Option<String> {
        if let Some((_, text)) = self.files.iter().find(|(path, _)| path == file) {
            return Some(text.clone());
        }
        if !self.files.is_empty() {
            return None;
        }
        built_in_texts().into_iter().find(|(path, _)| path == file).map(|(_, text)| text)
    }
}

fn decoded<T: serde::de::DeserializeOwned>(bytes: &[u8]) -> Result<T, Vec<Fault>> {
    let broken = |e| format!("the built-in book cannot be read: {e}");
    postcard::from_bytes(bytes).map_err(|e| vec![Fault::error("wrong-form", Place::default(), broken(e))])
}

fn built_in_rules(knowledge: &Knowledge) -> Result<(Schema, Rulebook), Vec<Fault>> {
    let built: Vec<BuiltInRules> = decoded(RULES)?;
    let source = |r: BuiltInRules| RuleSource {
        file: r.file,
        text: String::new(),
        tree: None,
        starts: r.starts,
        value: r.value,
    };
    let sources: Vec<RuleSource> = built.into_iter().map(source).collect();
    let schema = schema_of(knowledge);
    // Synonyms only help to word a fault.
    let (rules, faults) = build(&sources, &schema, vec![]);
    match faults.iter().any(Fault::is_error) {
        true => Err(faults),
        false => Ok((schema, rules)),
    }
}

/// Numbers everything the vocabulary and the tables name.
pub fn schema_of(knowledge: &Knowledge) -> Schema {
    let tables = [Table::Stock, Table::Plant, Table::Medium, Table::Filter, Table::Treatment];
    let mut entries: Vec<(&str, &str)> = Vec::new();
    for table in tables {
        entries.extend(knowledge.names(table).into_iter().map(|name| (table.key(), name)));
    }
    // What is dosed counts as a medium too ("salt in the filter"), and words that must be asked about stand for kinds.
    entries.extend(knowledge.names(Table::Treatment).into_iter().map(|name| ("medium", name)));
    let mut words: Vec<&str> = Vec::new();
    for table in tables.into_iter().chain([Table::Class, Table::Group]) {
        for n in 0..knowledge.count(table) {
            let Some(facts) = knowledge.entry(table, n).and_then(|e| e.facts()) else { continue };
            for (_, text) in facts.iter() {
                words.extend(crate::knowledge::facts::kinds(text));
            }
        }
    }
    words.extend(knowledge.names(Table::Group));
    words.extend(knowledge.names(Table::Ambiguous));
    words.sort_unstable();
    words.dedup();
    Schema::new(&knowledge.vocabulary, entries, words)
}

/// Callers' words for attributes and their kinds, so that a rule that uses one is told the name.
fn synonyms(knowledge: &Knowledge) -> Vec<(String, String)> {
    let mut out = Vec::new();
    for thing in &knowledge.vocabulary.things {
        for attribute in &thing.attributes {
            let path = format!("{}.{}", thing.thing, attribute.attribute);
            out.extend(attribute.words.iter().chain([&attribute.called]).map(|w| (w.clone(), path.clone())));
            for kind in &attribute.kinds {
                out.extend(kind.words.iter().map(|w| (w.clone(), format!("{path} = {}", kind.kind))));
            }
            let Some(table) = attribute.kinds_from.as_deref().and_then(Table::by_key) else { continue };
            for entry in (0..knowledge.count(table)).filter_map(|n| knowledge.entry(table, n)) {
                out.extend(entry.also().iter().map(|w| (w.clone(), format!("{path} = {}", entry.name()))));
            }
        }
    }
    out
}
