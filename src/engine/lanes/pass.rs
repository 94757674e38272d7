//! The pass over many lanes: figures and rules that can differ, each after what it reads, and what speaks in which lanes.
//! In: an engine, a world of lanes, the plain pass, steps. Out: values, truths, findings by lane. Knows no text.

use super::evaluate::{LaneEvaluation, Picked};
use super::value::{Lanes, Truths};
use super::world::LaneWorld;
use crate::engine::Engine;
use crate::engine::finding::Finding;
use crate::engine::state::State;
use crate::engine::world::Bound;
use crate::rulebook::Rulebook;
use crate::rulebook::book::Step;

/// The plain pass, and what differs from it.
pub struct LaneState<'s> {
    plain: &'s State,
    /// By place in the plain state.
    figures: Vec<Option<Lanes>>,
    rules: Vec<Option<Truths>>,
}

impl<'s> LaneState<'s> {
    pub fn new(plain: &'s State) -> Self {
        Self { plain, figures: vec![None; plain.figure_places()], rules: vec![None; plain.rule_places()] }
    }

    pub fn figure(&self, n: u16, instance: u16) -> Lanes {
        match self.figures.get(self.plain.figure_place(n, instance)).and_then(Option::as_ref) {
            Some(lanes) => lanes.clone(),
            None => Lanes::One(self.plain.figure(n, instance)),
        }
    }

    pub fn rule(&self, n: u16, instance: u16) -> Truths {
        match self.rules.get(self.plain.rule_place(n, instance)).copied().flatten() {
            Some(truths) => truths,
            None => Truths::all(self.plain.rule(n, instance)),
        }
    }

    /// A conclusion holds when one of its rules does; it is denied when none of them can.
    pub fn conclusion(&self, book: &Rulebook, n: u16, instance: u16) -> Truths {
        let by = book.conclusions[n as usize].by.iter();
        by.fold(Truths::NO, |truths, rule| truths.or(self.rule(*rule, instance)))
    }
}

/// Works out these steps in every lane, in their order. Steps that are left out must be the same in every lane.
pub fn run<'s>(engine: &Engine, world: &LaneWorld, plain: &'s State, steps: &[Step]) -> LaneState<'s> {
    let mut state = LaneState::new(plain);
    for step in steps {
        match *step {
            Step::Figure(n) => {
                let figure = &engine.book.figures[n as usize];
                if figure.given.is_some() {
                    state.figures[plain.figure_place(n, 0)] = Some(world.given(n));
                    continue;
                }
                for instance in 0..figure.for_thing.map_or(1, |t| world.plain.count(t)) {
                    let worked_out = || {
                        let mut bound = Bound::to(figure.for_thing, instance);
                        LaneEvaluation { engine: *engine, world, state: &state }.value(&figure.code, &mut bound)
                    };
                    let lanes = match world.held(n, instance) {
                        Some(held) if held.known() == u128::MAX => held,
                        Some(held) => {
                            let mut picked = Picked::default();
                            picked.take(held.known(), held);
                            picked.take(u128::MAX, worked_out());
                            picked.lanes()
                        }
                        None => worked_out(),
                    };
                    state.figures[plain.figure_place(n, instance)] = Some(lanes);
                }
            }
            Step::Rule(n) => {
                let rule = &engine.book.rules[n as usize];
                for instance in 0..rule.for_thing.map_or(1, |t| world.plain.count(t)) {
                    let mut bound = Bound::to(rule.for_thing, instance);
                    let evaluation = LaneEvaluation { engine: *engine, world, state: &state };
                    let truths = evaluation.all(rule.conditions.iter().map(|c| &c.code), &mut bound);
                    state.rules[plain.rule_place(n, instance)] = Some(truths);
                }
            }
        }
    }
    state
}

/// What speaks in at least one lane, and in which: the masks that `findings` of each lane alone would come to.
pub fn speaking(book: &Rulebook, world: &LaneWorld, state: &LaneState) -> Vec<(Finding, u128)> {
    let mut out: Vec<(Finding, u128)> = Vec::new();
    // Those that outrank others; rules that outrank come first.
    let mut above: Vec<usize> = Vec::new();
    for n in &book.ranked {
        let rule = &book.rules[*n as usize];
        for instance in 0..rule.for_thing.map_or(1, |t| world.plain.count(t)) {
            let mut speaks = state.rule(*n, instance).yes;
            if speaks == 0 {
                continue;
            }
            for (finding, their) in above.iter().map(|at| out[*at]) {
                let other = &book.rules[finding.rule as usize];
                let same =
                    other.for_thing != rule.for_thing || finding.instance == instance || rule.for_thing.is_none();
                if same && other.outranks.iter().any(|(r, _)| r == n) {
                    speaks &= !their;
                }
            }
            if speaks != 0 {
                if !rule.outranks.is_empty() {
                    above.push(out.len());
                }
                out.push((Finding { rule: *n, instance }, speaks));
            }
        }
    }
    out.sort();
    out
}
