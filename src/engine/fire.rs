//! The pass of the engine: every figure and rule, each after what it reads, until nothing changes. A changed fact works out
//! again what depends on it and nothing else; taking it back gives exactly the former state. Knows no text.

use super::evaluate::Evaluation;
use super::state::State;
use super::value::{Truth, Value};
use super::world::{Bound, World};
use crate::knowledge::schema::Schema;
use crate::rulebook::Rulebook;
use crate::rulebook::book::Step;
use crate::rulebook::code::Read;

/// The engine: a book and the schema it was compiled for.
#[derive(Clone, Copy)]
pub struct Engine<'e> {
    pub schema: &'e Schema,
    pub book: &'e Rulebook,
}

impl Engine<'_> {
    /// Works everything out.
    pub fn run(&self, world: &World) -> State {
        let mut state = State::new(self.book, world);
        self.run_steps(&self.book.order, world, &mut state);
        state
    }

    /// Works out these steps again, in their order; gives whether a rule's truth changed.
    pub fn run_steps(&self, steps: &[Step], world: &World, state: &mut State) -> bool {
        let mut rules = false;
        for step in steps {
            let changed = self.step(*step, world, state);
            rules |= changed && matches!(step, Step::Rule(_));
        }
        rules
    }

    /// Works out again what depends on `changed`; gives whether a rule's truth changed. `state` must have been worked out for
    /// the same counts of things.
    pub fn update(&self, world: &World, state: &mut State, changed: &[Read]) -> bool {
        let mut rules = false;
        let mut dirty = Dirty::of(self.book.order.len());
        for read in changed {
            dirty.mark(self.book.readers.of(read));
            // A given number is read through its own figure.
            if let Read::Figure(n) = read
                && let Some(rank) = self.book.order.iter().position(|s| *s == Step::Figure(*n))
            {
                dirty.mark(&[rank as u16]);
            }
        }
        // What a step changes is read behind it only.
        while let Some(rank) = dirty.next() {
            let step = self.book.order[rank];
            if self.step(step, world, state) {
                match step {
                    Step::Figure(n) => dirty.mark(self.book.readers.of(&Read::Figure(n))),
                    Step::Rule(n) => {
                        rules = true;
                        for conclusion in &self.book.rules[n as usize].concludes {
                            dirty.mark(self.book.readers.of(&Read::Conclusion(*conclusion)));
                        }
                    }
                }
            }
        }
        rules
    }

    /// Works out one figure or rule for every instance; gives whether anything changed.
    fn step(&self, step: Step, world: &World, state: &mut State) -> bool {
        let mut changed = false;
        match step {
            Step::Figure(n) => {
                let figure = &self.book.figures[n as usize];
                if figure.given.is_some() {
                    return state.set_figure(n, 0, Value::Number(world.given(n)));
                }
                for instance in 0..figure.for_thing.map_or(1, |t| world.count(t)) {
                    let value = world.held(n, instance).unwrap_or_else(|| {
                        let mut bound = Bound::to(figure.for_thing, instance);
                        self.evaluation(world, state).value(&figure.code, &mut bound)
                    });
                    changed |= state.set_figure(n, instance, value);
                }
            }
            Step::Rule(n) => {
                let rule = &self.book.rules[n as usize];
                for instance in 0..rule.for_thing.map_or(1, |t| world.count(t)) {
                    let mut bound = Bound::to(rule.for_thing, instance);
                    let evaluation = self.evaluation(world, state);
                    let mut truth = Truth::True;
                    for condition in &rule.conditions {
                        match evaluation.truth(&condition.code, &mut bound) {
                            Truth::False => {
                                truth = Truth::False;
                                break;
                            }
                            Truth::Unknown => truth = Truth::Unknown,
                            Truth::True => {}
                        }
                    }
                    changed |= state.set_rule(n, instance, truth);
                }
            }
        }
        changed
    }

    /// The state of `world` from that of `before`: what differs is worked out again, or everything where the worlds hold
    /// other things.
    pub fn run_from(&self, world: &World, before: &World, state: &State) -> State {
        match world.changed_since(before) {
            Some(changed) => {
                let mut state = state.clone();
                let changed: Vec<Read> = changed.into_iter().map(Read::Fact).collect();
                self.update(world, &mut state, &changed);
                state
            }
            None => self.run(world),
        }
    }

    pub fn evaluation<'s>(&'s self, world: &'s World, state: &'s State) -> Evaluation<'s> {
        Evaluation { schema: self.schema, book: self.book, world, state }
    }
}

/// Steps to be worked out again, by rank, as bits.
struct Dirty {
    words: Vec<u64>,
    /// Words before this one are done.
    at: usize,
}

impl Dirty {
    fn of(steps: usize) -> Self {
        Self { words: vec![0; steps.div_ceil(64)], at: 0 }
    }

    fn mark(&mut self, ranks: &[u16]) {
        for rank in ranks {
            self.words[*rank as usize / 64] |= 1 << (rank % 64);
        }
    }

    /// Takes the first that is marked.
    fn next(&mut self) -> Option<usize> {
        while let Some(word) = self.words.get_mut(self.at) {
            if *word != 0 {
                let bit = word.trailing_zeros() as usize;
                *word &= *word - 1;
                return Some(self.at * 64 + bit);
            }
            self.at += 1;
        }
        None
    }
}
