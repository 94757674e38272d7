//! Knowledge: what a fish, a medium or a filter is, and the vocabulary that callers and rules share.
//! In: the YAML under `knowledge/`. Out: typed tables and look-ups. Knows no rule.

pub mod advice;
pub mod basis;
mod check;
mod check_facts;
pub mod facts;
pub mod index;
pub mod language;
pub mod load;
pub mod lookup;
pub mod media;
mod places;
pub mod plural;
pub mod role;
pub mod schema;
pub mod size;
pub mod stock;
pub mod table;
pub mod topic;
pub mod vocabulary;

use advice::{Caution, Job, Question, Symptom, Term};
use basis::{Source, Working};
use index::WordIndex;
use language::Language;
use media::{Filter, Medium, Treatment};
use serde::{Deserialize, Serialize};
use stock::{Ambiguous, Class, Group, Plant, Plural, Stage, Stock};
use table::{Entry, Table};
use vocabulary::Vocabulary;

/// All tables of a book, its vocabulary, and the index of the words that callers use.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub struct Knowledge {
    pub ambiguous: Vec<Ambiguous>,
    pub stock: Vec<Stock>,
    pub plants: Vec<Plant>,
    pub media: Vec<Medium>,
    pub filters: Vec<Filter>,
    pub treatments: Vec<Treatment>,
    pub stages: Vec<Stage>,
    pub groups: Vec<Group>,
    pub symptoms: Vec<Symptom>,
    pub cautions: Vec<Caution>,
    pub jobs: Vec<Job>,
    pub terms: Vec<Term>,
    pub classes: Vec<Class>,
    pub questions: Vec<Question>,
    pub sources: Vec<Source>,
    pub workings: Vec<Working>,
    pub plurals: Vec<Plural>,
    pub vocabulary: Vocabulary,
    pub language: Language,
    pub words: WordIndex,
}

/// Runs `$body` with `$entries` bound to the list that holds the entries of `$table`.
macro_rules! with_table {
    ($self:ident, $table:expr, $entries:ident => $body:expr) => {
        match $table {
            Table::Ambiguous => {
                let $entries = &$self.ambiguous;
                $body
            }
            Table::Stock => {
                let $entries = &$self.stock;
                $body
            }
            Table::Plant => {
                let $entries = &$self.plants;
                $body
            }
            Table::Medium => {
                let $entries = &$self.media;
                $body
            }
            Table::Filter => {
                let $entries = &$self.filters;
                $body
            }
            Table::Treatment => {
                let $entries = &$self.treatments;
                $body
            }
            Table::Stage => {
                let $entries = &$self.stages;
                $body
            }
            Table::Group => {
                let $entries = &$self.groups;
                $body
            }
            Table::Symptom => {
                let $entries = &$self.symptoms;
                $body
            }
            Table::Caution => {
                let $entries = &$self.cautions;
                $body
            }
            Table::Job => {
                let $entries = &$self.jobs;
                $body
            }
            Table::Term => {
                let $entries = &$self.terms;
                $body
            }
            Table::Class => {
                let $entries = &$self.classes;
                $body
            }
            Table::Question => {
                let $entries = &$self.questions;
                $body
            }
            Table::Source => {
                let $entries = &$self.sources;
                $body
            }
            Table::Working => {
                let $entries = &$self.workings;
                $body
            }
            Table::Plural => {
                let $entries = &$self.plurals;
                $body
            }
        }
    };
}

impl Knowledge {
    /// How many entries a table has.
    pub fn count(&self, table: Table) -> usize {
        with_table!(self, table, entries => entries.len())
    }

    /// The n-th entry of a table.
    pub fn entry(&self, table: Table, n: usize) -> Option<&dyn Entry> {
        with_table!(self, table, entries => entries.get(n).map(|e| e as &dyn Entry))
    }

    /// The entry of that exact name.
    pub fn find(&self, table: Table, name: &str) -> Option<&dyn Entry> {
        with_table!(self, table, entries => entries.iter().find(|e| e.name() == name).map(|e| e as &dyn Entry))
    }

    /// The names of a table's entries, in the order of the book.
    pub fn names(&self, table: Table) -> Vec<&str> {
        with_table!(self, table, entries => entries.iter().map(|e| e.name()).collect())
    }
}
