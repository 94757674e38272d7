//! The pass over many lanes, worked out as far as somebody asks. In: an engine, a world and its plain pass, what differs from
//! lane to lane. Out: the value of a figure, the truth of a rule, where a finding speaks. Knows no text.

use super::evaluate::{LaneEvaluation, Picked};
use super::value::{Lanes, Truths};
use super::world::Vary;
use crate::engine::Engine;
use crate::engine::evaluate::Evaluation;
use crate::engine::finding::Finding;
use crate::engine::state::State;
use crate::engine::value::{Truth, Value};
use crate::engine::world::{Bound, World};
use crate::knowledge::schema::AttributeId;
use crate::rulebook::code::Read;
use std::sync::OnceLock;

/// What was worked out so far.
#[derive(Clone, Debug, Default)]
pub struct Cells {
    /// By place in the plain state.
    figures: Vec<OnceLock<Lanes>>,
    rules: Vec<OnceLock<Truths>>,
    /// Whether a figure or rule can differ at all, by number.
    figures_vary: Vec<OnceLock<bool>>,
    rules_vary: Vec<OnceLock<bool>>,
}

impl Cells {
    pub fn of(engine: &Engine, plain: &State) -> Self {
        Self {
            figures: vec![OnceLock::new(); plain.figure_places()],
            rules: vec![OnceLock::new(); plain.rule_places()],
            figures_vary: vec![OnceLock::new(); engine.book.figures.len()],
            rules_vary: vec![OnceLock::new(); engine.book.rules.len()],
        }
    }
}

/// One pass over many lanes.
#[derive(Clone, Copy)]
pub struct LanePass<'p> {
    pub engine: Engine<'p>,
    pub world: &'p World,
    pub plain: &'p State,
    pub vary: &'p dyn Vary,
    /// Of this pass and no other.
    pub cells: &'p Cells,
}

impl LanePass<'_> {
    pub fn figure(&self, n: u16, instance: u16) -> Lanes {
        let entry = &self.engine.book.figures[n as usize];
        if !self.figure_varies(n) {
            return Lanes::One(self.plain.figure(n, instance));
        }
        if entry.given.is_some() {
            return self.vary.given(n).map_or(Lanes::One(Value::Number(self.world.given(n))), Lanes::clone);
        }
        // Of a thing that is not there.
        let Some(cell) = self.plain.figure_place(n, instance).map(|place| &self.cells.figures[place]) else {
            return Lanes::One(Value::Unknown);
        };
        let worked_out = || {
            let mut bound = Bound::to(entry.for_thing, instance);
            LaneEvaluation { pass: *self }.value(&entry.code, &mut bound)
        };
        let lanes = cell.get_or_init(|| match self.held(n, instance) {
            Some(held) if held.known() == u128::MAX => held,
            Some(held) => {
                let mut picked = Picked::default();
                picked.take(held.known(), held);
                picked.take(u128::MAX, worked_out());
                picked.lanes()
            }
            None => worked_out(),
        });
        lanes.clone()
    }

    fn held(&self, n: u16, instance: u16) -> Option<Lanes> {
        self.vary.held(n, instance).cloned().or_else(|| self.world.held(n, instance).map(Lanes::One))
    }

    pub fn rule(&self, n: u16, instance: u16) -> Truths {
        if !self.rule_varies(n) {
            return Truths::all(self.plain.rule(n, instance));
        }
        let Some(cell) = self.plain.rule_place(n, instance).map(|place| &self.cells.rules[place]) else {
            return Truths::default();
        };
        *cell.get_or_init(|| {
            let rule = &self.engine.book.rules[n as usize];
            let mut bound = Bound::to(rule.for_thing, instance);
            // What is the same in every lane is tried first: mostly it settles the matter.
            let mut settled = rule.conditions.iter().filter(|c| !self.reads_vary(&c.reads));
            if settled.any(|c| self.plainly().truth(&c.code, &mut bound) == Truth::False) {
                return Truths::NO;
            }
            LaneEvaluation { pass: *self }.all(rule.conditions.iter().map(|c| &c.code), &mut bound)
        })
    }

    fn plainly(&self) -> Evaluation<'_> {
        self.engine.evaluation(self.world, self.plain)
    }

    /// A conclusion holds when one of its rules does; it is denied when none of them can.
    pub fn conclusion(&self, n: u16, instance: u16) -> Truths {
        let by = self.engine.book.conclusions[n as usize].by.iter();
        by.fold(Truths::NO, |truths, rule| truths.or(self.rule(*rule, instance)))
    }

    /// The lanes in which a finding speaks: those in which `findings` of that version alone would hold it.
    pub fn speaks(&self, finding: Finding) -> u128 {
        let rule = &self.engine.book.rules[finding.rule as usize];
        let mut speaks = self.rule(finding.rule, finding.instance).yes;
        for n in &rule.outranked_by {
            if speaks == 0 {
                break;
            }
            let other = &self.engine.book.rules[*n as usize];
            let same_thing = other.for_thing == rule.for_thing && rule.for_thing.is_some();
            for instance in 0..other.for_thing.map_or(1, |t| self.world.count(t)) {
                if !same_thing || instance == finding.instance {
                    speaks &= !self.speaks(Finding { rule: *n, instance });
                }
            }
        }
        speaks
    }

    fn figure_varies(&self, n: u16) -> bool {
        *self.cells.figures_vary[n as usize].get_or_init(|| {
            let figure = &self.engine.book.figures[n as usize];
            if figure.given.is_some() {
                return self.vary.given(n).is_some();
            }
            let count = figure.for_thing.map_or(1, |t| self.world.count(t));
            (0..count).any(|instance| self.vary.held(n, instance).is_some()) || self.reads_vary(&figure.reads)
        })
    }

    fn rule_varies(&self, n: u16) -> bool {
        *self.cells.rules_vary[n as usize]
            .get_or_init(|| self.engine.book.rules[n as usize].conditions.iter().any(|c| self.reads_vary(&c.reads)))
    }

    fn reads_vary(&self, reads: &[Read]) -> bool {
        reads.iter().any(|read| match read {
            Read::Fact(id) => {
                let count = self.world.count(self.engine.schema.of(*id).thing);
                (0..count).any(|instance| self.vary.fact(self.world.place(*id, instance)).is_some())
            }
            Read::Figure(n) => self.figure_varies(*n),
            Read::Conclusion(n) => {
                self.engine.book.conclusions[*n as usize].by.iter().any(|rule| self.rule_varies(*rule))
            }
            Read::Things(_) => false,
        })
    }

    /// A fact in each lane.
    pub fn fact(&self, id: AttributeId, instance: u16) -> Lanes {
        let varied = self.vary.fact(self.world.place(id, instance));
        varied.map_or_else(|| Lanes::One(self.world.value(id, instance)), Lanes::clone)
    }
}
