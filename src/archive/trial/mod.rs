//! Trial: a book with all its examples run, through the listener, the ledger and one plain pass of the engine.
//! In: the files of a book. Out: every fault, those found without running first among them; what the examples cover.

mod coverage;
mod example_fails;
mod example_unread;
mod hole;
mod limits;
mod opposite_advice;
mod run;
pub mod strength;
mod witness;

pub use coverage::Coverage;
pub use limits::{Limit, limits};
pub use run::{Call, Runner, TURNS};
use strength::Strength;

use crate::rulebook::Book;
use crate::rulebook::entries::{Entries, RuleSource};
use crate::rulebook::names::Names;
use crate::source::{Fault, Place, fault};

/// What came of checking a book.
pub struct Report {
    /// In file and line order.
    pub faults: Vec<Fault>,
    pub rules: usize,
    pub figures: usize,
    /// Callers' lines that were run.
    pub examples: usize,
    /// Saved calls that were run besides.
    pub saved: usize,
    /// What they try; nothing when the book could not be run.
    pub coverage: Option<Coverage>,
    /// What changes of the rules no example notices, if that was wished.
    pub strength: Option<Strength>,
    /// The book, if it can be used.
    pub book: Option<Book>,
}

/// Checks a book and runs its examples; these only when no fault keeps it from being used.
///
/// `files`: paths relative to the book ("rules/intake.yaml") with their texts. `unread`: faults of files that are no texts.
/// `strength`: also tries every change of the rules, which takes longer, against the examples and these saved calls (typed
/// lines, those of a call parted by ` | `).
pub fn check(files: Vec<(String, String)>, unread: Vec<Fault>, name: &str, strength: Option<&[String]>) -> Report {
    let checked = Book::check(files, name, !unread.is_empty());
    let count = |of: fn(&RuleSource) -> usize| checked.sources.iter().map(of).sum();
    let mut report = Report {
        rules: count(|s| s.value.rules.len()),
        figures: count(|s| s.value.figures.len()),
        examples: 0,
        saved: 0,
        coverage: None,
        strength: None,
        faults: checked.faults,
        book: checked.book.filter(|_| unread.is_empty()),
    };
    report.faults.extend(unread);
    if let Some(book) = &report.book {
        let trial = Trial::new(book, Entries::of(&checked.sources));
        report.examples = trial.calls.len();
        let saved: Vec<&str> = strength.unwrap_or_default().iter().map(String::as_str).collect();
        let saved = trial.runner.all(&saved);
        report.saved = saved.len();
        report.coverage = Some(trial.coverage(&saved));
        report.strength = strength.map(|_| strength::strength(&trial, &saved));
        report.faults.extend(trial.faults());
    }
    fault::sort(&mut report.faults);
    report
}

/// An example of a rule: its line, where it stands, and what must come of it.
#[derive(Clone, Debug)]
pub struct Example {
    pub rule: u16,
    pub speaks: bool,
    pub line: String,
    pub place: Place,
    /// Which of the calls it is: the same line is run once.
    pub call: usize,
}

/// A book with its examples run.
pub struct Trial<'b> {
    pub book: &'b Book,
    pub entries: Entries<'b>,
    pub runner: Runner<'b>,
    pub examples: Vec<Example>,
    pub calls: Vec<Call>,
    /// The examples whose line each call is.
    of_call: Vec<Vec<usize>>,
    /// Names of attributes that hold a word of the conditions.
    phrases: Vec<String>,
}

impl<'b> Trial<'b> {
    pub fn new(book: &'b Book, entries: Entries<'b>) -> Self {
        let runner = Runner::new(book);
        let mut lines: Vec<&str> = Vec::new();
        let mut seen: std::collections::HashMap<&str, usize> = std::collections::HashMap::new();
        let mut examples = Vec::new();
        for (n, (rule, spot)) in entries.rules.iter().enumerate() {
            let spot = spot.get("examples");
            for (key, list, speaks) in
                [("speaks", &rule.examples.speaks, true), ("silent", &rule.examples.silent, false)]
            {
                for (m, line) in list.iter().enumerate() {
                    let call = *seen.entry(line).or_insert_with(|| {
                        lines.push(line);
                        lines.len() - 1
                    });
                    let place = spot.get(key).item(m).place();
                    examples.push(Example { rule: n as u16, speaks, line: line.clone(), place, call });
                }
            }
        }
        let calls = runner.all(&lines);
        let mut of_call = vec![vec![]; calls.len()];
        for (e, example) in examples.iter().enumerate() {
            of_call[example.call].push(e);
        }
        let phrases = Names::new(&book.schema, vec![]).phrases;
        Self { book, entries, runner, examples, calls, of_call, phrases }
    }

    /// Faults that show in the examples, in no order.
    pub fn faults(&self) -> Vec<Fault> {
        let mut out = Vec::new();
        example_fails::faults(self, &mut out);
        example_unread::faults(self, &mut out);
        hole::faults(self, &mut out);
        limits::faults(self, &mut out);
        opposite_advice::faults(self, &mut out);
        out
    }
}
