//! What a pass worked out: each figure's value and each rule's truth, for every instance. In: the book and how many there
//! are of each thing. Out: values by number and instance. Knows no facts.

use super::value::{Truth, Value};
use super::world::World;
use crate::rulebook::Rulebook;

/// Results of one pass.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    figure_starts: Vec<u32>,
    figures: Vec<Value>,
    rule_starts: Vec<u32>,
    rules: Vec<Truth>,
}

impl State {
    pub fn new(book: &Rulebook, world: &World) -> Self {
        let mut state = Self::default();
        let instances = |thing| -> u32 { Option::map_or(thing, 1, |t| u32::from(world.count(t))) };
        let mut next = 0;
        for figure in &book.figures {
            state.figure_starts.push(next);
            next += instances(figure.for_thing);
        }
        state.figure_starts.push(next);
        state.figures = vec![Value::Unknown; next as usize];
        next = 0;
        for rule in &book.rules {
            state.rule_starts.push(next);
            next += instances(rule.for_thing);
        }
        state.rule_starts.push(next);
        state.rules = vec![Truth::Unknown; next as usize];
        state
    }

    /// Takes over the results of a pass over the same counts of things.
    pub fn copy_from(&mut self, other: &State) {
        self.figures.copy_from_slice(&other.figures);
        self.rules.copy_from_slice(&other.rules);
    }

    /// Where a figure's value stands among all of them; `None` of an instance that is not there.
    pub fn figure_place(&self, n: u16, instance: u16) -> Option<usize> {
        place(&self.figure_starts, n, instance)
    }

    /// How many values of figures there are.
    pub fn figure_places(&self) -> usize {
        self.figures.len()
    }

    /// Where a rule's truth stands among all of them; `None` of an instance that is not there.
    pub fn rule_place(&self, n: u16, instance: u16) -> Option<usize> {
        place(&self.rule_starts, n, instance)
    }

    /// How many truths of rules there are.
    pub fn rule_places(&self) -> usize {
        self.rules.len()
    }

    pub fn figure(&self, n: u16, instance: u16) -> Value {
        self.figure_place(n, instance).map_or(Value::Unknown, |place| self.figures[place])
    }

    /// Sets a figure; gives whether that changed it.
    pub fn set_figure(&mut self, n: u16, instance: u16, value: Value) -> bool {
        let Some(at) = self.figure_place(n, instance) else { return false };
        let changed = self.figures[at] != value;
        self.figures[at] = value;
        changed
    }

    /// Whether any rule's truth is another.
    pub fn differs_in_rules(&self, other: &State) -> bool {
        self.rules != other.rules
    }

    pub fn rule(&self, n: u16, instance: u16) -> Truth {
        self.rule_place(n, instance).map_or(Truth::Unknown, |place| self.rules[place])
    }

    /// A rule's truths, instance by instance.
    pub fn truths(&self, n: u16) -> &[Truth] {
        &self.rules[self.rule_starts[n as usize] as usize..self.rule_starts[n as usize + 1] as usize]
    }

    pub fn set_rule(&mut self, n: u16, instance: u16, truth: Truth) -> bool {
        let Some(at) = self.rule_place(n, instance) else { return false };
        let changed = self.rules[at] != truth;
        self.rules[at] = truth;
        changed
    }

    /// A conclusion holds when one of its rules does; it is denied when none of them can.
    pub fn conclusion(&self, book: &Rulebook, n: u16, instance: u16) -> Truth {
        let mut truth = Truth::False;
        for rule in &book.conclusions[n as usize].by {
            match self.rule(*rule, instance) {
                Truth::True => return Truth::True,
                Truth::Unknown => truth = Truth::Unknown,
                Truth::False => {}
            }
        }
        truth
    }
}

/// The starts of all runs, and behind them the end of the last.
fn place(starts: &[u32], n: u16, instance: u16) -> Option<usize> {
    let place = starts[n as usize] + u32::from(instance);
    (place < starts[n as usize + 1]).then_some(place as usize)
}
