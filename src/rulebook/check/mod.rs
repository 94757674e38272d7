//! Faults of a book that show without running it: one file a fault. In: entries with their places, the compiled book,
//! the knowledge. Out: faults. Faults that show only when examples are run are found in `archive/trial`.

mod act_said_two_ways;
mod adds_nothing;
mod always_outranked;
mod always_true;
mod comparison;
mod hard_to_read_out;
mod implausible_number;
mod may_be_unknown;
mod never_speaks;
mod never_true;
mod no_basis;
mod no_examples;
mod no_question;
mod no_reason;
mod no_source;
mod page;
mod pages;
mod rivals;
mod unknown_caution;
mod unknown_source;
mod unknown_topic;
mod unread_conclusion;
mod unsayable_name;

pub use comparison::{Compared, comparisons};
pub use page::Page;
pub use pages::{page, pages};
pub use rivals::rivals;

use super::Rulebook;
use super::book::{Figure, Rule};
use super::code::Read;
use super::entries::Entries;
use super::logic::formula::Formulas;
use super::logic::solve::{RuleFormulas, Solver};
use super::logic::{Formula, Ground};
use super::names::Names;
use super::read::Gaps;
use super::template::Piece;
use crate::knowledge::Knowledge;
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::source::yaml::{self, Node};
use crate::source::{Fault, Place};
use std::cell::OnceCell;
use std::collections::HashSet;
use std::rc::Rc;

/// A book while it is checked.
pub struct Checking<'c> {
    pub entries: &'c Entries<'c>,
    pub knowledge: &'c Knowledge,
    pub schema: &'c Schema,
    pub book: &'c Rulebook,
    pub names: &'c Names,
    files: &'c [(String, String)],
    gaps: Gaps,
    /// Faults found while compiling.
    found: Vec<Fault>,
    broken_rules: Vec<bool>,
    vocabulary: OnceCell<Option<Node>>,
}

impl<'c> Checking<'c> {
    #[allow(clippy::too_many_arguments)]
    pub fn new(
        entries: &'c Entries<'c>,
        knowledge: &'c Knowledge,
        schema: &'c Schema,
        book: &'c Rulebook,
        names: &'c Names,
        files: &'c [(String, String)],
        gaps: Gaps,
        found: Vec<Fault>,
    ) -> Self {
        let broken_rules = book.rules.iter().map(|r| found.iter().any(|f| f.is_error() && inside(&f.place, &r.place)));
        let broken_rules = broken_rules.collect();
        Self { entries, knowledge, schema, book, names, files, gaps, broken_rules, found, vocabulary: OnceCell::new() }
    }

    /// All faults, those of compiling among them, in no order.
    pub fn faults(mut self) -> Vec<Fault> {
        let mut out: Vec<Fault> = std::mem::take(&mut self.found);
        // A figure without a dimension leans on one that is at fault.
        let is_broken = |f: &Figure| {
            self.names.dimension(&f.name).is_none() || out.iter().any(|x| x.is_error() && inside(&x.place, &f.place))
        };
        let broken: Vec<bool> = self.book.figures.iter().map(is_broken).collect();
        for check in [
            unsayable_name::faults,
            no_basis::faults,
            no_source::faults,
            no_reason::faults,
            unknown_source::faults,
            unknown_caution::faults,
            unknown_topic::faults,
            hard_to_read_out::faults,
            act_said_two_ways::faults,
            unread_conclusion::faults,
            no_question::faults,
            no_examples::faults,
        ] {
            check(&self, &mut out);
        }
        self.lean_on(&broken);
        let ground = Ground::new(self.knowledge, self.schema, self.book, broken);
        let mut formulas = Formulas::new(&ground);
        let rules = (0..self.book.rules.len()).map(|n| RuleFormulas::of(&mut formulas, n as u16)).collect();
        let mut reason = Reason {
            checking: &self,
            ground: &ground,
            formulas,
            rules,
            blamed: HashSet::new(),
            silent: HashSet::new(),
        };
        for check in [
            implausible_number::faults,
            never_true::faults,
            always_true::faults,
            adds_nothing::faults,
            never_speaks::faults,
            always_outranked::faults,
            may_be_unknown::faults,
        ] {
            check(&mut reason, &mut out);
        }
        out.retain(|fault| !self.is_held_back(fault));
        out.iter_mut().for_each(|fault| self.point(fault));
        out
    }

    /// Rules that read a figure at fault, in a condition or a text, or what a rule at fault concludes, are not reasoned about.
    fn lean_on(&mut self, broken: &[bool]) {
        let figure = |n: u16| broken[n as usize];
        let named = |piece: &Piece| matches!(piece, Piece::Figure(n) if figure(*n));
        loop {
            let concluded =
                |n: u16| self.book.conclusions[n as usize].by.iter().any(|r| self.broken_rules[*r as usize]);
            let reads = |read: &Read| match read {
                Read::Figure(n) => figure(*n),
                Read::Conclusion(n) => concluded(*n),
                _ => false,
            };
            let leans = |rule: &Rule| {
                let texts = rule.advice.iter().flat_map(|a| a.steps.iter().chain([&a.say, &a.because])).flatten();
                rule.reads.iter().any(reads) || texts.into_iter().any(named)
            };
            let next: Vec<bool> = self.book.rules.iter().zip(&self.broken_rules).map(|(r, b)| *b || leans(r)).collect();
            if next == self.broken_rules {
                return;
            }
            self.broken_rules = next;
        }
    }

    /// Rules without a fault of their own so far, by number.
    pub fn sound_rules(&self) -> impl Iterator<Item = (u16, &'c Rule)> + '_ {
        let all = self.book.rules.iter().enumerate().map(|(n, r)| (n as u16, r));
        all.filter(|(n, _)| !self.broken_rules[*n as usize])
    }

    /// A fault that only leans on what could not be read.
    fn is_held_back(&self, fault: &Fault) -> bool {
        let name = self.text_of(&fault.place.file).map_or("", |t| fault.place.span.of(t));
        let leans_on_names =
            matches!(fault.name, "unknown-name" | "outranks-nothing" | "which-one" | "unread-conclusion");
        let leans_on_tables = matches!(fault.name, "unknown-kind" | "unknown-caution" | "unknown-source");
        (leans_on_tables && self.gaps.tables && fault.cure.is_none())
            || (leans_on_names && self.gaps.names.iter().any(|n| n == name))
            || (leans_on_names && self.gaps.broken_off && fault.cure.is_none())
    }

    fn text_of(&self, file: &str) -> Option<&'c str> {
        self.files.iter().find(|(path, _)| path == file).map(|(_, text)| text.as_str())
    }

    /// Adds where the thing stands that the cure names.
    fn point(&self, fault: &mut Fault) {
        if fault.name == "unknown-unit" && fault.cure.is_none() {
            let word = self.text_of(&fault.place.file).map_or("", |t| fault.place.span.of(t)).trim_matches('"');
            let word = word.to_lowercase();
            let plural = word.strip_suffix('s').unwrap_or(&word);
            let meant =
                self.knowledge.language.units.iter().find(|u| u.words.iter().any(|w| *w == word || w == plural));
            fault.cure = meant.map(|u| u.unit.clone());
        }
        if fault.cure_place.is_some() || !matches!(fault.name, "unknown-name" | "outranks-nothing") {
            return;
        }
        let Some(cure) = &fault.cure else { return };
        fault.cure_place = match cure.split_once('.') {
            Some((thing, attribute)) => self.attribute_place(thing, attribute),
            None => {
                let figure = self.entries.figures.iter().find(|(f, _)| f.figure == *cure).map(|(_, s)| s.get("figure"));
                let rule = || self.entries.rules.iter().find(|(r, _)| r.rule == *cure).map(|(_, s)| s.get("rule"));
                figure.or_else(rule).map(|s| s.place())
            }
        };
    }

    /// Where the vocabulary declares an attribute.
    pub fn attribute_place(&self, thing: &str, attribute: &str) -> Option<Place> {
        const FILE: &str = "knowledge/vocabulary.yaml";
        let text = self.text_of(FILE)?;
        let tree = self.vocabulary.get_or_init(|| Some(yaml::tree(FILE, text).0));
        let named = |node: &&Node, key: &str, name: &str| node.get(key).is_some_and(|n| n.text() == name);
        let thing = tree.as_ref()?.get("things")?.items().iter().find(|n| named(n, "thing", thing))?;
        let found = thing.get("attributes")?.items().iter().find(|n| named(n, "attribute", attribute))?;
        Some(Place::new(FILE, found.get("attribute")?.span))
    }

    /// The same, of a numbered attribute.
    pub fn place_of(&self, id: AttributeId) -> Option<Place> {
        let attribute = self.schema.of(id);
        self.attribute_place(&self.schema.thing_of(attribute.thing).name, &attribute.name)
    }

    /// Where a condition of a rule stands.
    pub fn condition(&self, rule: u16, condition: usize) -> Place {
        self.entries.rules[rule as usize].1.get("when").item(condition).place()
    }

    /// The thing that a rule is tried for, when there may be several.
    pub fn bound(&self, rule: u16) -> Vec<ThingId> {
        self.book.rules[rule as usize].for_thing.into_iter().collect()
    }
}

/// Checks that reason about what can hold.
pub struct Reason<'r, 'c> {
    pub checking: &'r Checking<'c>,
    pub ground: &'r Ground<'r>,
    pub formulas: Formulas<'r>,
    pub rules: Vec<RuleFormulas>,
    /// Conditions that a fault was found in: nothing more is said of them.
    pub blamed: HashSet<(u16, usize)>,
    /// Rules that can never speak for a reason that was given.
    pub silent: HashSet<u16>,
}

impl Reason<'_, '_> {
    /// Whether formulae may be true at once.
    pub fn possible(&mut self, formulas: &[Rc<Formula>]) -> bool {
        Solver::new(&mut self.formulas, false).possible(formulas)
    }

    /// The same, following conclusions to the rules that conclude them.
    pub fn possible_through_conclusions(&mut self, formulas: &[Rc<Formula>]) -> bool {
        Solver::new(&mut self.formulas, true).possible(formulas)
    }

    /// Sound rules that may still speak.
    pub fn speaking(&self) -> Vec<u16> {
        self.checking.sound_rules().map(|(n, _)| n).filter(|n| !self.silent.contains(n)).collect()
    }
}

fn inside(place: &Place, entry: &Place) -> bool {
    place.file == entry.file
        && entry.span.start <= place.span.start
        && place.span.start < entry.span.end.max(entry.span.start + 1)
}
