//! The answer as data: what the text and the JSON writers show. In: nothing; `compose.rs` makes it. Knows no page.

use crate::doubt::course::Course;
use crate::knowledge::advice::Danger;
use crate::listen::reading::Subject;
use crate::rulebook::raw::Urgency;
use crate::units::{Spread, Unit};

/// Everything an answer holds, in the order it is shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// The sentence that can be read out first.
    pub say: Option<String>,
    /// Which tank is which, where there are several.
    pub tanks: Vec<String>,
    /// One plain line that is no advice: a greeting, "nothing was said yet", "no rule of this book answers that".
    pub remarks: Vec<String>,
    pub advice: Vec<Advice>,
    pub figures: Vec<FigureLine>,
    /// What was assumed and the shown advice depends on, merged.
    pub assumed: Vec<String>,
    /// How words were read that were not plain: spelling, units carried on.
    pub read_as: Vec<String>,
    pub unread: Vec<String>,
    /// What was understood and is no fact, with the reason.
    pub aside: Vec<String>,
    /// What was said and cannot be used as it stands.
    pub asked_back: Vec<String>,
    pub contradictions: Vec<String>,
    /// The question about what was taken of two readings, when no other is put.
    pub taken: Option<String>,
    pub next: Option<Next>,
    pub pictures: Vec<Picture>,
    /// A question waits for the fact that is asked back.
    pub is_open: bool,
    /// The last turn only asked; what it asked about stands first and the rest can wait.
    pub asked_only: bool,
}

/// One piece of advice.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    pub rule: String,
    /// Which of several things it is for ("filter 2 (canister)").
    pub about: Option<String>,
    pub tank: u16,
    pub urgency: Urgency,
    pub say: String,
    pub steps: Vec<String>,
    pub because: String,
    pub cautions: Vec<Caution>,
    pub basis: Vec<String>,
    /// Citations of documents that were read.
    pub sources: Vec<String>,
    /// The share of plausible tanks in which it holds, 0 to 1.
    pub sure: f64,
    pub hangs_on: Option<HangsOn>,
    /// It belongs to what the caller asked.
    pub asked: bool,
    /// It speaks to something that the caller told as a worry.
    pub worry: bool,
    /// It stands on something said of this tank, not only on what is so of any.
    pub of_call: bool,
    /// It stands on something said in the last of several turns.
    pub fresh: bool,
    pub act: Option<String>,
    /// What was assumed on the way to it.
    pub assumed: Vec<String>,
    /// Figures that belong to it, by name.
    pub figures: Vec<String>,
    /// The finding it words: the rule's number and the instance.
    pub finding: (u16, u16),
}

/// A danger that goes with advice.
#[derive(Clone, Debug, PartialEq)]
pub struct Caution {
    pub caution: String,
    pub danger: Danger,
    pub says: String,
}

/// The fact that decides advice that is not sure.
#[derive(Clone, Debug, PartialEq)]
pub struct HangsOn {
    /// Its path ("filter.rated flow").
    pub fact: String,
    pub called: String,
    pub measure: Option<String>,
}

/// A figure with its formula and the numbers put in.
#[derive(Clone, Debug, PartialEq)]
pub struct FigureLine {
    pub figure: String,
    pub called: String,
    pub tank: u16,
    pub formula: Option<String>,
    pub numbers: Option<String>,
    /// The result as text with its unit and range.
    pub result: String,
    /// The values in `unit`.
    pub values: Spread,
    pub unit: String,
    pub inputs: Vec<Input>,
    pub origin: &'static str,
    pub basis: Vec<String>,
    /// What was assumed on the way to it.
    pub assumed: Vec<String>,
    /// The caller asked for it.
    pub asked: bool,
}

/// A curve over time, worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    pub title: String,
    pub course: Course,
    pub unit: &'static Unit,
    pub time: &'static Unit,
}

/// One value that went into a figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    pub name: String,
    pub value: String,
    pub origin: &'static str,
}

/// The question put to the caller.
#[derive(Clone, Debug, PartialEq)]
pub struct Next {
    pub subject: Subject,
    pub attribute: String,
    pub ask: String,
    /// What the answer would change.
    pub why: Vec<String>,
    pub measure: Option<String>,
}

impl Answer {
    /// An answer that is one plain line.
    pub fn remark(line: impl Into<String>) -> Self {
        Self { remarks: vec![line.into()], ..Self::default() }
    }

    /// The most urgent urgency in it.
    pub fn urgency(&self) -> Option<Urgency> {
        self.advice.iter().map(|a| a.urgency).min()
    }

    /// Something must be done at once, so that everything else waits.
    pub fn is_emergency(&self) -> bool {
        self.urgency().is_some_and(|u| u <= Urgency::Now)
    }
}
