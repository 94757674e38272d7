//! What a clause was found to say, before it is known whether it is a fact, a wish or part of a question. In: nothing;
//! this is the shape. Knows no words.

use super::name::Name;
use super::reading::{AskBack, Doubtful, Mark, Says, Statement, Subject, Wanted};
use crate::knowledge::language::Role;

/// Something said of a thing, with the terms that say it.
#[derive(Clone, Debug)]
pub struct Found {
    pub subject: Subject,
    pub says: Says,
    pub mark: Option<Mark>,
    pub terms: Vec<usize>,
    /// "my", "our", "the" stands before the noun.
    pub definite: bool,
    /// The preposition before the figure.
    pub via: Option<Role>,
    /// Only a noun named, no figure and no state.
    pub bare: bool,
    /// "all embers": gives a name to the fish told before.
    pub renames: bool,
    /// Behind "instead of": what is there now.
    pub instead: bool,
    /// A second figure of a list: "9in & 10in".
    pub joins: bool,
    /// Marked as taking the place of what was held.
    pub replaces: bool,
    /// The figure is as vague as "some": a later figure of the same line takes its place.
    pub vague: bool,
}

impl Found {
    pub fn new(subject: Subject, says: Says, terms: Vec<usize>) -> Self {
        Self {
            subject,
            says,
            mark: None,
            terms,
            definite: false,
            via: None,
            bare: false,
            renames: false,
            instead: false,
            joins: false,
            replaces: false,
            vague: false,
        }
    }

    pub fn marked(mut self, mark: Option<Mark>) -> Self {
        self.mark = self.mark.or(mark);
        self
    }

    pub fn attribute(&self) -> Option<&str> {
        match &self.says {
            Says::Value { attribute, .. } | Says::DroppedValue { attribute } => Some(attribute),
            _ => None,
        }
    }
}

/// Something to ask back, with the terms in question.
#[derive(Clone, Debug)]
pub struct Doubt {
    pub why: Doubtful,
    pub ask: String,
    pub readings: Vec<(String, Vec<Statement>)>,
    pub terms: Vec<usize>,
    /// What a bare figure would be.
    pub wants: Option<Wanted>,
}

impl Doubt {
    pub fn new(why: Doubtful, ask: impl Into<String>, terms: Vec<usize>) -> Self {
        Self { why, ask: ask.into(), readings: Vec::new(), terms, wants: None }
    }

    pub fn wanting(mut self, wants: Option<Wanted>) -> Self {
        self.wants = wants;
        self
    }

    pub fn into_ask_back(self, span: crate::source::Span) -> AskBack {
        AskBack { span, ask: self.ask, why: self.why, readings: self.readings, wants: self.wants }
    }
}

/// The subject for a thing, without number of its own.
pub fn subject(thing: &str, kind: Option<&str>) -> Subject {
    Subject { thing: thing.to_string(), kind: kind.map(Into::into), stage: None, number: 1, tank: 1 }
}

/// A thing and an attribute of it, by name.
pub type Target = (Name, Name);
