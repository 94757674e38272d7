//! The report of a replay: which calls would be answered differently, how, and because of which edit. In: compared calls, or
//! reports of shares. Out: one report, in a fixed order, as an object for machines and grouped for people. Reads no file.

use super::compare::{Change, What};
use crate::rulebook::edits::{Edit, How};
use crate::rulebook::raw::Urgency;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The form of the object.
pub const FORM: u32 = 1;

/// An edit as it is named.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct NamedEdit {
    pub file: String,
    pub line: usize,
    /// `rule`, `figure`, `stock`.
    pub sort: String,
    pub name: String,
    /// `changed`, `added`, `removed`.
    pub how: String,
    pub from: String,
    pub to: String,
}

impl NamedEdit {
    pub fn of(edit: &Edit) -> Self {
        let how = match edit.how {
            How::Changed => "changed",
            How::Added => "added",
            How::Removed => "removed",
        };
        let Edit { file, line, sort, name, from, to, .. } = edit.clone();
        Self { file, line, sort, name, how: how.to_string(), from, to }
    }

    /// "rules/intake.yaml:131".
    pub fn place(&self) -> String {
        format!("{}:{}", self.file, self.line)
    }
}

/// Why something differs.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Why {
    /// These edits, none of which may be missing.
    Edits(Vec<NamedEdit>),
    /// The program or the transcript changed, not the book.
    NotTheBook,
    /// The book it was answered with is not at hand.
    NoBook(String),
}

/// One difference with its cause.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Found {
    #[serde(flatten)]
    pub change: Change,
    pub why: Why,
}

/// A call that would be answered differently.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ChangedCall {
    pub call: String,
    #[serde(rename = "call back")]
    pub call_back: bool,
    /// It was written anew with these answers.
    pub accepted: bool,
    pub found: Vec<Found>,
}

/// What a replay found.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Report {
    /// The form of this object.
    #[serde(rename = "replay report")]
    pub form: u32,
    pub calls: usize,
    pub same: usize,
    pub changed: Vec<ChangedCall>,
    /// Files that could not be read as calls, and why.
    pub unreadable: Vec<(String, String)>,
}

/// What one cause did, over all calls.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group<'r> {
    pub why: &'r Why,
    /// Calls, and those of them that need a call back.
    pub calls: usize,
    pub call_backs: usize,
    /// How often each thing happened: "gone, today".
    pub counts: Vec<(String, usize)>,
    /// The gravest difference, with its call.
    pub example: (&'r str, &'r Change),
}

impl Report {
    /// The reports of shares as one; the same as if all calls had been replayed at once.
    pub fn merged(parts: Vec<Report>) -> Self {
        let mut out = Report { form: FORM, ..Report::default() };
        for part in parts {
            out.calls += part.calls;
            out.same += part.same;
            out.changed.extend(part.changed);
            out.unreadable.extend(part.unreadable);
        }
        out.sort();
        out
    }

    /// Calls that need a call back first; otherwise by name, whatever order they were replayed in.
    pub fn sort(&mut self) {
        self.changed.sort_by(|a, b| (!a.call_back, &a.call).cmp(&(!b.call_back, &b.call)));
        self.unreadable.sort();
    }

    pub fn call_backs(&self) -> impl Iterator<Item = &ChangedCall> {
        self.changed.iter().filter(|c| c.call_back)
    }

    /// By cause, the most dangerous first.
    pub fn groups(&self) -> Vec<Group<'_>> {
        let mut by_why: BTreeMap<&Why, Vec<(&ChangedCall, Vec<&Change>)>> = BTreeMap::new();
        for call in &self.changed {
            let mut here: BTreeMap<&Why, Vec<&Change>> = BTreeMap::new();
            for found in &call.found {
                here.entry(&found.why).or_default().push(&found.change);
            }
            here.into_iter().for_each(|(why, changes)| by_why.entry(why).or_default().push((call, changes)));
        }
        let mut groups: Vec<Group> = by_why.into_iter().filter_map(|(why, calls)| group(why, &calls)).collect();
        groups.sort_by(|a, b| {
            let rank = |g: &Group| (std::cmp::Reverse(g.call_backs > 0), std::cmp::Reverse(g.calls));
            (a.example.1.gravity(), rank(a), a.why).cmp(&(b.example.1.gravity(), rank(b), b.why))
        });
        groups
    }
}

fn group<'r>(why: &'r Why, calls: &[(&'r ChangedCall, Vec<&'r Change>)]) -> Option<Group<'r>> {
    let mut counts: BTreeMap<(bool, Option<Urgency>, usize, String), usize> = BTreeMap::new();
    let mut example: Option<(&str, &Change)> = None;
    for (call, changes) in calls {
        for change in changes {
            let (rank, word) = label(change);
            *counts.entry((rank > 2, change.urgency.filter(|_| rank < 3), rank, word)).or_default() += 1;
            if example.is_none_or(|(_, gravest)| change.gravity() < gravest.gravity()) {
                example = Some((&call.call, change));
            }
        }
    }
    let back = |(_, changes): &&(&ChangedCall, Vec<&Change>)| changes.iter().any(|c| c.needs_call_back());
    Some(Group {
        why,
        calls: calls.len(),
        call_backs: calls.iter().filter(back).count(),
        counts: counts.into_iter().map(|((.., word), count)| (word, count)).collect(),
        example: example?,
    })
}

/// What happened in two or three words, and how grave that sort of thing is.
pub fn label(change: &Change) -> (usize, String) {
    let urgency = change.urgency.map_or(String::new(), |u| format!(", {}", u.word()));
    match &change.what {
        What::Gone => (0, format!("gone{urgency}")),
        What::New => (1, format!("new{urgency}")),
        What::Moved { from, to } => (2, format!("moved from {} to {}", from.word(), to.word())),
        What::Figure { .. } => (3, "other figure".to_string()),
        What::Words { .. } => (4, "other words".to_string()),
    }
}
