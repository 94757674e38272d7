//! Looks for a caller's line that would notice a change: the rule's own examples with one number moved or one clause more,
//! the other examples of the book. In: a change that nothing notices. Out: a line that was run in both books, or why none
//! was found.

use super::change::{Change, Turned};
use super::clauses::{Clauses, spoken};
use super::noticed::turns;
use super::numbers::{Movable, in_figures, numbers};
use crate::archive::trial::Trial;
use crate::archive::trial::run::{Call, TURNS};
use crate::knowledge::schema::{AttributeId, Symbol};
use crate::listen::reading::Says;
use crate::rulebook::code::{Code, Read};
use crate::rulebook::logic::formula::constant;
use crate::source::Span;
use crate::source::words::ticked;
use crate::units::parse::quantity;
use crate::units::{Unit, unit};
use std::collections::{HashMap, HashSet};
use std::rc::Rc;

/// A line that would notice a change, as an example of the rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    pub line: String,
    /// On which side: the rule speaks on it as the book is, or is silent.
    pub speaks: bool,
    /// The example of the rule that it is, but for one number.
    pub from: Option<usize>,
}

/// Most lines that are run for one change.
const MOST: usize = 400;
/// Lines of other rules, on which this one speaks too, whose numbers are moved.
const MOST_OTHERS: usize = 3;
/// Clauses for other kinds of the same fact that are tried.
const MOST_KINDS: usize = 16;

/// A search among lines for one rule; every line is run once.
pub struct Search<'s, 'b> {
    trial: &'s Trial<'b>,
    clauses: &'s Clauses,
    rule: u16,
    runs: HashMap<String, Rc<Call>>,
    /// Lines run for the change at hand.
    tried: usize,
    /// Some example of the rule has something asked back, so that others may too.
    asks_back: bool,
    /// The rule changed its mind on some line, but not because of the change at hand.
    turned: bool,
}

impl<'s, 'b> Search<'s, 'b> {
    pub fn new(trial: &'s Trial<'b>, clauses: &'s Clauses, rule: u16) -> Self {
        let asks_back = trial.examples.iter().filter(|e| e.rule == rule).any(|e| trial.calls[e.call].asked_back);
        Self { trial, clauses, rule, runs: HashMap::new(), tried: 0, asks_back, turned: false }
    }

    fn call(&mut self, line: &str) -> Rc<Call> {
        if let Some(call) = self.runs.get(line) {
            return call.clone();
        }
        self.tried += 1;
        let call = Rc::new(self.trial.runner.run(line));
        self.runs.insert(line.to_string(), call.clone());
        call
    }

    /// On which side a line would notice the change; nothing where it would not, or is not read whole.
    fn shows(&mut self, change: &Change, line: &str) -> Option<bool> {
        let call = self.call(line);
        let whole = call.unread.is_empty() && (self.asks_back || !call.asked_back);
        whole.then(|| turns(self.trial, &call, change, self.rule)).flatten()
    }

    /// Whether a line that was found for one change would notice another too.
    pub fn also(&mut self, change: &Change, proposal: &Proposal) -> bool {
        self.shows(change, &proposal.line) == Some(proposal.speaks)
    }

    /// A line that would notice the change, or why none was found.
    pub fn find(&mut self, change: &Change) -> Result<Proposal, String> {
        (self.tried, self.turned) = (0, false);
        let Some(Turned { compared, .. }) = &change.at else {
            return self.anywhere(change).ok_or_else(|| "no line on which it speaks was found".to_string());
        };
        let found = match compared {
            Code::IsKind(of, symbol, _) => match of.as_ref() {
                Code::Fact(id) => {
                    let kinds = self.kinds(*id, *symbol);
                    self.by_kind(change, *id, &kinds).or_else(|| self.anywhere(change))
                }
                _ => self.anywhere(change),
            },
            _ => self
                .by_number(change)
                .or_else(|| self.by_fact(change, compared))
                .or_else(|| self.by_table(change, compared))
                .or_else(|| self.anywhere(change))
                .or_else(|| self.elsewhere(change)),
        };
        found.ok_or_else(|| self.reason(compared))
    }

    fn own(&self) -> Vec<(usize, String)> {
        let own = self.trial.examples.iter().enumerate().filter(|(_, e)| e.rule == self.rule);
        own.map(|(n, e)| (n, e.line.clone())).collect()
    }

    /// One number of an own example moved; rather one that can take the place of that example.
    fn by_number(&mut self, change: &Change) -> Option<Proposal> {
        let mut besides = None;
        for (example, line) in self.own() {
            let figures = in_figures(&line);
            for movable in self.movables(&figures) {
                if let Some((line, speaks)) = self.along(change, &movable) {
                    let from = Some(example).filter(|e| self.trial.examples[*e].speaks == speaks);
                    let proposal = Proposal { line, speaks, from };
                    if from.is_some() {
                        return Some(proposal);
                    }
                    besides = besides.or(Some(proposal));
                }
            }
        }
        besides
    }

    fn movables(&self, line: &str) -> Vec<Movable> {
        let counts = self.counts(line);
        let is_count = |s: &Span| counts.iter().any(|c| c.start <= s.start && s.end <= c.end);
        numbers(line).into_iter().filter_map(|span| Movable::new(line, span, is_count(&span))).collect()
    }

    /// Where a line says how many there are of something.
    fn counts(&self, line: &str) -> Vec<Span> {
        let mut out = Vec::new();
        let mut start = 0;
        for (turn, reading) in line.split(TURNS).zip(self.trial.runner.readings(line)) {
            for statement in &reading.statements {
                let Says::Value { attribute, .. } = &statement.says else { continue };
                let vocabulary = &self.trial.book.knowledge.vocabulary;
                if vocabulary.attribute(&statement.subject.thing, attribute).is_some_and(|a| a.is == "count") {
                    out.push(Span::new(start + statement.span.start, start + statement.span.end));
                }
            }
            start += turn.len() + TURNS.len();
        }
        out
    }

    /// Moves a number up and down; a line on either side of a place where the rule changes its mind is tried.
    fn along(&mut self, change: &Change, movable: &Movable) -> Option<(String, bool)> {
        let mut before: Option<(f64, bool)> = None;
        for value in movable.ladder() {
            if self.tried > MOST {
                return None;
            }
            let line = movable.line(value);
            if let Some(speaks) = self.shows(change, &line) {
                return Some((line, speaks));
            }
            let speaks = self.call(&line).speaks(self.rule);
            if let Some((last, was)) = before
                && was != speaks
            {
                self.turned = true;
                let rule = self.rule;
                let (low, high) = movable.close_in(last, value, |line| self.call(line).speaks(rule));
                for (near, down) in [(low, true), (high, false)] {
                    if self.shows(change, &movable.line(near)).is_none() {
                        continue;
                    }
                    for rounder in movable.rounder(near, down).into_iter().chain([near]) {
                        let line = movable.line(rounder);
                        if let Some(speaks) = self.shows(change, &line) {
                            return Some((line, speaks));
                        }
                    }
                }
            }
            before = Some((value, speaks));
        }
        None
    }

    /// An own example with a fact more, of those that the comparison rests on.
    fn by_fact(&mut self, change: &Change, compared: &Code) -> Option<Proposal> {
        let facts = self.facts(compared);
        for (_, line) in self.own() {
            for (words, value, unit) in &facts {
                let unit = if unit.name.is_empty() { String::new() } else { format!(" {}", unit.name) };
                if let Some((line, speaks)) = self.along(change, &Movable::added(&line, words, *value, &unit)) {
                    return Some(Proposal { line, speaks, from: None });
                }
            }
        }
        None
    }

    /// Quantities that a caller may say and that code rests on, each with its word, a value to begin with and a unit.
    fn facts(&self, code: &Code) -> Vec<(String, f64, &'static Unit)> {
        let book = self.trial.book;
        let limit = match code {
            Code::Compare(_, value, limit) => match (value.as_ref(), limit.as_ref()) {
                (Code::Fact(id), Code::Quantity(q, unit)) => Some((*id, unit.from_base(*q), *unit)),
                _ => None,
            },
            _ => None,
        };
        let (mut open, mut seen, mut out) = (code.reads(), HashSet::new(), Vec::new());
        while let Some(read) = open.pop() {
            if !seen.insert(read) {
                continue;
            }
            match read {
                Read::Figure(n) => open.extend(book.rules.figures[n as usize].reads.iter().copied()),
                Read::Fact(id) => {
                    let attribute = book.schema.of(id);
                    let thing = &book.schema.thing_of(attribute.thing).name;
                    let declared = book.knowledge.vocabulary.attribute(thing, &attribute.name);
                    let Some(declared) = declared.filter(|a| !a.is_looked_up()) else { continue };
                    let Some(plausible) = declared.plausible.as_deref().and_then(|p| quantity(p).ok()) else {
                        continue;
                    };
                    let begin = limit.filter(|(of, ..)| *of == id).map(|(_, value, unit)| (value, unit));
                    let middle = || (plausible.high.unwrap_or(1.0) * plausible.low.unwrap_or(0.01).max(0.01)).sqrt();
                    let (value, unit) = begin.unwrap_or_else(|| (middle(), plausible.unit));
                    let unit = if unit.name == "pH" { unit::plain() } else { unit };
                    let words = declared.words.first().unwrap_or(&declared.called);
                    out.push((words.clone(), value, unit));
                }
                _ => {}
            }
        }
        out.sort_by(|a, b| a.0.cmp(&b.0));
        out
    }

    /// Any example of the book, the shortest first.
    fn anywhere(&mut self, change: &Change) -> Option<Proposal> {
        let mut calls: Vec<&Call> = self.trial.calls.iter().collect();
        calls.retain(|c| c.unread.is_empty() && !c.asked_back);
        calls.sort_by_key(|c| c.line.len());
        calls.into_iter().find_map(|call| {
            let speaks = turns(self.trial, call, change, self.rule)?;
            Some(Proposal { line: call.line.clone(), speaks, from: None })
        })
    }

    /// Numbers of other rules' examples on which this one speaks.
    fn elsewhere(&mut self, change: &Change) -> Option<Proposal> {
        let own: HashSet<String> = self.own().into_iter().map(|(_, line)| line).collect();
        let trial = self.trial;
        let mut lines: Vec<&str> =
            trial.calls.iter().filter(|c| c.speaks(self.rule)).map(|c| c.line.as_str()).collect();
        lines.retain(|l| !own.contains(*l));
        lines.sort_by_key(|l| l.len());
        for line in lines.into_iter().take(MOST_OTHERS) {
            for movable in self.movables(line) {
                if let Some((line, speaks)) = self.along(change, &movable) {
                    return Some(Proposal { line, speaks, from: None });
                }
            }
        }
        None
    }

    /// An own example that says another kind: in place of the one it says, or besides.
    fn by_kind(&mut self, change: &Change, id: AttributeId, kinds: &[Symbol]) -> Option<Proposal> {
        let own = self.own();
        for (_, line) in &own {
            let said: Vec<_> = spoken(self.trial, line).into_iter().filter(|s| s.id == id).collect();
            for kind in kinds {
                for place in said.iter().filter(|s| s.symbol != *kind) {
                    let clauses = self.clauses;
                    let words = clauses.words(id, *kind).iter().map(|w| (place.words, w));
                    for (span, text) in words.chain(clauses.of(id, *kind).iter().map(|c| (place.clause, c))) {
                        let line = format!("{}{text}{}", &line[..span.start], &line[span.end..]);
                        if let Some(proposal) = self.tried_line(change, line) {
                            return Some(proposal);
                        }
                    }
                }
            }
        }
        for kind in kinds {
            for clause in self.clauses.of(id, *kind).iter().take(2) {
                for (_, line) in &own {
                    if let Some(proposal) = self.tried_line(change, format!("{line}, {clause}")) {
                        return Some(proposal);
                    }
                }
            }
        }
        None
    }

    fn tried_line(&mut self, change: &Change, line: String) -> Option<Proposal> {
        let speaks = if self.tried > MOST { None } else { self.shows(change, &line) };
        speaks.map(|speaks| Proposal { line, speaks, from: None })
    }

    /// The kind itself, then others that are said of the same fact.
    fn kinds(&self, id: AttributeId, symbol: Symbol) -> Vec<Symbol> {
        let others = self.clauses.kinds(id).into_iter().filter(|k| *k != symbol).take(MOST_KINDS);
        std::iter::once(symbol).chain(others).collect()
    }

    /// An own example with another animal, medium or filter, of which the tables have a number close to the limit.
    fn by_table(&mut self, change: &Change, compared: &Code) -> Option<Proposal> {
        let Code::Compare(_, value, limit) = compared else { return None };
        let (Code::Fact(id), Some(limit)) = (value.as_ref(), constant(limit)) else { return None };
        let attribute = self.trial.book.schema.of(*id);
        let kind = self.trial.book.schema.attribute(attribute.thing, "kind")?;
        // Wide enough for every change; a line is only taken if it notices this one.
        let width = (limit.abs() * 0.5).max(2.0);
        let kinds = self.clauses.between(*id, limit - width, limit + width);
        self.by_kind(change, kind, &kinds)
    }

    fn reason(&self, compared: &Code) -> String {
        let schema = &self.trial.book.schema;
        if let Code::IsKind(of, symbol, _) = compared {
            return match of.as_ref() {
                Code::Fact(id) if self.clauses.of(*id, *symbol).is_empty() => {
                    format!("no example of the book says {} of {}", ticked(schema.word(*symbol)), schema.path_name(*id))
                }
                _ => "on every line that was tried another condition decides".into(),
            };
        }
        match self.turned {
            true => "the lines that were tried turn at other limits: another condition decides".into(),
            false => "no number of its examples, and no fact added to them, makes the rule turn".into(),
        }
    }
}
