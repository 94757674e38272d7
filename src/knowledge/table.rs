//! Tables: their names, and what every entry has in common. In: entries. Out: name, words, facts, basis of any of
//! them. Knows no file and no caller.

use super::advice::{Caution, Job, Question, Symptom, Term};
use super::basis::{Basis, Source, Working};
use super::facts::Facts;
use super::media::{Filter, Medium, Treatment};
use super::stock::{Ambiguous, Class, Group, Plant, Plural, Stage, Stock};
use serde::{Deserialize, Serialize};

/// A table of the book. In the order in which a word's meanings are listed.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
pub enum Table {
    Ambiguous,
    Stock,
    Plant,
    Medium,
    Filter,
    Treatment,
    Stage,
    Group,
    Symptom,
    Caution,
    Job,
    Term,
    Class,
    Question,
    Source,
    Working,
    Plural,
}

impl Table {
    pub const ALL: [Table; 17] = [
        Table::Ambiguous,
        Table::Stock,
        Table::Plant,
        Table::Medium,
        Table::Filter,
        Table::Treatment,
        Table::Stage,
        Table::Group,
        Table::Symptom,
        Table::Caution,
        Table::Job,
        Table::Term,
        Table::Class,
        Table::Question,
        Table::Source,
        Table::Working,
        Table::Plural,
    ];

    /// The key that begins an entry of the table, and names it.
    pub fn key(self) -> &'static str {
        match self {
            Table::Ambiguous => "ambiguous",
            Table::Stock => "stock",
            Table::Plant => "plant",
            Table::Medium => "medium",
            Table::Filter => "filter",
            Table::Treatment => "treatment",
            Table::Stage => "stage",
            Table::Group => "group",
            Table::Symptom => "symptom",
            Table::Caution => "caution",
            Table::Job => "job",
            Table::Term => "term",
            Table::Class => "class",
            Table::Question => "question",
            Table::Source => "source",
            Table::Working => "working",
            Table::Plural => "word",
        }
    }

    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|t| t.key() == key)
    }

    /// Its words name a thing of the case: a word may belong to one such entry only, unless it is listed as ambiguous.
    pub fn names_things(self) -> bool {
        matches!(self, Table::Stock | Table::Plant | Table::Medium | Table::Filter | Table::Treatment)
    }

    /// Callers use its words, so that they are in the word index.
    pub fn is_spoken(self) -> bool {
        !matches!(self, Table::Stage | Table::Class | Table::Question | Table::Source | Table::Working | Table::Plural)
    }

    /// Its names are nouns that callers put in the plural.
    pub fn has_plurals(self) -> bool {
        matches!(
            self,
            Table::Ambiguous | Table::Stock | Table::Plant | Table::Medium | Table::Filter | Table::Group | Table::Term
        )
    }
}

/// What every entry of every table has.
pub trait Entry {
    fn table(&self) -> Table;
    fn name(&self) -> &str;
    /// Other words that callers use for it.
    fn also(&self) -> &[String] {
        &[]
    }
    /// Classes whose facts it inherits.
    fn like(&self) -> &[String] {
        &[]
    }
    fn facts(&self) -> Option<&Facts> {
        None
    }
    /// One line that can be read out; empty where there is none.
    fn says(&self) -> &str {
        ""
    }
    fn basis(&self) -> Option<&Basis> {
        None
    }
}

/// Writes `Entry` for a type: its table, the field of its name, and which of the common fields it has.
macro_rules! entry {
    ($type:ident, $table:ident, $name:ident $(, $field:ident)*) => {
        impl Entry for $type {
            fn table(&self) -> Table {
                Table::$table
            }
            fn name(&self) -> &str {
                &self.$name
            }
            $(entry!(@ $field);)*
        }
    };
    (@ also) => { fn also(&self) -> &[String] { &self.also } };
    (@ like) => { fn like(&self) -> &[String] { &self.like } };
    (@ facts) => { fn facts(&self) -> Option<&Facts> { Some(&self.facts) } };
    (@ says) => { fn says(&self) -> &str { &self.says } };
    (@ first) => { fn says(&self) -> &str { &self.first } };
    (@ asks) => { fn says(&self) -> &str { &self.asks } };
    (@ ask) => { fn says(&self) -> &str { &self.ask } };
    (@ cite) => { fn says(&self) -> &str { &self.cite } };
    (@ basis) => { fn basis(&self) -> Option<&Basis> { Some(&self.basis) } };
}

entry!(Stock, Stock, stock, also, like, facts, says, basis);
entry!(Plant, Plant, plant, also, like, facts, says, basis);
entry!(Class, Class, class, like, facts, says, basis);
entry!(Group, Group, group, also, like, facts, basis);
entry!(Stage, Stage, stage, also, like, facts, basis);
entry!(Ambiguous, Ambiguous, ambiguous, ask, basis);
entry!(Medium, Medium, medium, also, like, facts, says, basis);
entry!(Filter, Filter, filter, also, like, facts, says, basis);
entry!(Treatment, Treatment, treatment, also, like, facts, says, basis);
entry!(Symptom, Symptom, symptom, also, first, basis);
entry!(Question, Question, question, asks, basis);
entry!(Caution, Caution, caution, also, says, basis);
entry!(Term, Term, term, also, says, basis);
entry!(Job, Job, job, also, says, basis);
entry!(Source, Source, source, cite);
entry!(Working, Working, working, says);
entry!(Plural, Plural, word);
