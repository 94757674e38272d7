//! Faults: what is wrong with a book, as data. In: a name, a place, facts. Out: nothing yet; `draw.rs` shows them.

use super::span::Span;
use serde::Serialize;

/// An error keeps a book from being used; a warning only asks for a look.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    Error,
    Warning,
}

/// A place in one file of a book. An empty file name means the whole book.
#[derive(Clone, PartialEq, Eq, Debug, Default, PartialOrd, Ord, Serialize)]
pub struct Place {
    /// Path as shown, with `/`, relative to the book ("rules/intake.yaml").
    pub file: String,
    pub span: Span,
}

impl Place {
    pub fn new(file: impl Into<String>, span: Span) -> Self {
        Self { file: file.into(), span }
    }
}

/// One thing wrong with a book. `what` says the trouble; only `cure` says what to do.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Fault {
    /// The fault's own name ("unknown-name"): what `explain` takes.
    pub name: &'static str,
    pub severity: Severity,
    pub place: Place,
    pub what: String,
    /// Other places that belong to it, each with a word.
    pub others: Vec<(Place, String)>,
    /// Facts, one a line.
    pub notes: Vec<String>,
    /// One change that would really pass; never a guess shown as certain.
    pub cure: Option<String>,
    /// Where what the cure names stands.
    pub cure_place: Option<Place>,
    /// A caller's line that shows the trouble.
    pub line: Option<String>,
}

impl Fault {
    pub fn error(name: &'static str, place: Place, what: impl Into<String>) -> Self {
        Self::new(name, Severity::Error, place, what)
    }

    pub fn warning(name: &'static str, place: Place, what: impl Into<String>) -> Self {
        Self::new(name, Severity::Warning, place, what)
    }

    fn new(name: &'static str, severity: Severity, place: Place, what: impl Into<String>) -> Self {
        let what = what.into();
        Self { name, severity, place, what, others: vec![], notes: vec![], cure: None, cure_place: None, line: None }
    }

    pub fn other(mut self, place: Place, word: impl Into<String>) -> Self {
        self.others.push((place, word.into()));
        self
    }

    pub fn note(mut self, note: impl Into<String>) -> Self {
        self.notes.push(note.into());
        self
    }

    pub fn cure(mut self, cure: impl Into<String>) -> Self {
        self.cure = Some(cure.into());
        self
    }

    /// The cure, where it is certain enough to be given.
    pub fn cure_if(mut self, cure: Option<impl Into<String>>) -> Self {
        self.cure = cure.map(Into::into);
        self
    }

    pub fn shown_by(mut self, line: impl Into<String>) -> Self {
        self.line = Some(line.into());
        self
    }

    pub fn is_error(&self) -> bool {
        self.severity == Severity::Error
    }
}

/// In file and line order, errors and warnings together, each once.
pub fn sort(faults: &mut Vec<Fault>) {
    faults.sort_by(|a, b| (&a.place, a.name, &a.what).cmp(&(&b.place, b.name, &b.what)));
    faults.dedup();
}
