//! The compiled rulebook: figures, conclusions and rules by number, in the order the engine works them out.
//! In: nothing; `build.rs` makes it. Out: the parts. Knows no case.

use super::code::{Code, Read};
use super::raw::{BasisWord, RawExamples, Urgency};
use super::template::Template;
use crate::knowledge::index::normal;
use crate::knowledge::schema::{AttributeId, ThingId};
use crate::source::Place;
use crate::units::{Dimension, Spread, Unit};
use std::sync::OnceLock;

/// A named figure.
#[derive(Clone, Debug)]
pub struct Figure {
    pub name: String,
    pub called: String,
    /// The thing it belongs to when there may be several of that thing.
    pub for_thing: Option<ThingId>,
    pub code: Code,
    pub dimension: Dimension,
    /// A number with how widely it may be wrong, in base units; then `code` is that number.
    pub given: Option<Spread>,
    pub shown_in: Option<&'static Unit>,
    /// The formula as it is shown.
    pub formula: String,
    /// The fact that shows it; while others are supposed it stays as it is.
    pub read_off: Option<AttributeId>,
    /// What callers say when they ask for it.
    pub words: Vec<String>,
    pub(super) spoken: OnceLock<Vec<String>>,
    pub means: Option<String>,
    pub basis: Vec<BasisWord>,
    pub source: Vec<String>,
    pub place: Place,
    pub reads: Vec<Read>,
}

impl Figure {
    /// Its words, its name if that has several, and what it is called, in the form in which words are compared, with a
    /// blank before and behind.
    pub fn spoken(&self) -> &[String] {
        self.spoken.get_or_init(|| {
            // A name of one word ("water") stands in many a question that asks for something else.
            let name = Some(&self.name).filter(|name| name.contains(' '));
            let words = self.words.iter().chain(name).chain([&self.called]);
            words.map(|w| format!(" {} ", normal(w))).collect()
        })
    }
}

/// Something rules conclude and other rules read.
#[derive(Clone, Debug)]
pub struct Conclusion {
    pub name: String,
    pub for_thing: Option<ThingId>,
    /// The rules that conclude it.
    pub by: Vec<u16>,
}

/// One condition of a rule, with its text for `why`.
#[derive(Clone, Debug)]
pub struct Condition {
    pub text: String,
    pub code: Code,
    pub place: Place,
    pub reads: Vec<Read>,
}

#[derive(Clone, Debug)]
pub struct Advice {
    pub urgency: Urgency,
    pub act: Option<String>,
    pub say: Template,
    pub steps: Vec<Template>,
    pub because: Template,
    pub figures: Vec<u16>,
}

#[derive(Clone, Debug)]
pub struct Rule {
    pub name: String,
    pub topic: String,
    pub for_thing: Option<ThingId>,
    pub conditions: Vec<Condition>,
    pub concludes: Vec<u16>,
    pub advice: Option<Advice>,
    pub basis: Vec<BasisWord>,
    pub source: Vec<String>,
    pub cautions: Vec<String>,
    /// Rules it outranks, each with the reason.
    pub outranks: Vec<(u16, String)>,
    /// Rules that outrank it.
    pub outranked_by: Vec<u16>,
    /// Of the built-in book none: see `Book::examples`.
    pub examples: RawExamples,
    pub place: Place,
    pub reads: Vec<Read>,
}

/// A curve over time.
#[derive(Clone, Debug)]
pub struct Picture {
    pub name: String,
    pub topic: String,
    /// In seconds.
    pub over: f64,
    pub shown_in: &'static Unit,
    /// What each line is called, and its formula.
    pub lines: Vec<(String, Code)>,
    pub place: Place,
}

/// The name under which a picture's formulae read the time; a figure of that name must stand in the book.
pub const TIME: &str = "time";

/// The conclusion under which something is likely to be wrong with the water: bad readings are likelier answers then.
pub const TROUBLE: &str = "trouble likely";

/// One step of the engine's pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Step {
    Figure(u16),
    Rule(u16),
}

/// Steps, by rank in the order of the pass, that read something.
#[derive(Clone, Debug, Default)]
pub struct Readers {
    facts: Vec<Vec<u16>>,
    things: Vec<Vec<u16>>,
    figures: Vec<Vec<u16>>,
    conclusions: Vec<Vec<u16>>,
}

impl Readers {
    pub fn add(&mut self, read: Read, rank: u16) {
        let (list, n) = match read {
            Read::Fact(id) => (&mut self.facts, id.0 as usize),
            Read::Things(thing) => (&mut self.things, thing.0 as usize),
            Read::Figure(n) => (&mut self.figures, n as usize),
            Read::Conclusion(n) => (&mut self.conclusions, n as usize),
        };
        if list.len() <= n {
            list.resize(n + 1, vec![]);
        }
        list[n].push(rank);
    }

    pub fn of(&self, read: &Read) -> &[u16] {
        let (list, n) = match *read {
            Read::Fact(id) => (&self.facts, id.0 as usize),
            Read::Things(thing) => (&self.things, thing.0 as usize),
            Read::Figure(n) => (&self.figures, n as usize),
            Read::Conclusion(n) => (&self.conclusions, n as usize),
        };
        list.get(n).map_or(&[], Vec::as_slice)
    }
}

/// Everything compiled.
#[derive(Clone, Debug, Default)]
pub struct Rulebook {
    pub figures: Vec<Figure>,
    pub conclusions: Vec<Conclusion>,
    pub rules: Vec<Rule>,
    pub pictures: Vec<Picture>,
    /// Figures and rules, each after everything it reads.
    pub order: Vec<Step>,
    /// Steps (by rank in `order`) that read something.
    pub readers: Readers,
    /// Rules by rank of `outranks`: one that outranks stands before those it outranks.
    pub ranked: Vec<u16>,
}

impl Rulebook {
    pub fn rule(&self, name: &str) -> Option<(u16, &Rule)> {
        self.rules.iter().enumerate().find(|(_, r)| r.name == name).map(|(n, r)| (n as u16, r))
    }

    pub fn figure(&self, name: &str) -> Option<(u16, &Figure)> {
        self.figures.iter().enumerate().find(|(_, f)| f.name == name).map(|(n, f)| (n as u16, f))
    }
}
