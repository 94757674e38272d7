//! What rules wait for: the unknown facts that keep a rule from being true or false. In: a world and its state. Out:
//! attributes and instances. Knows no question.

use super::evaluate::Evaluation;
use super::state::State;
use super::value::Truth;
use super::world::{Bound, World};
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::rulebook::Rulebook;
use crate::rulebook::code::Code;

/// Every unknown fact that some rule with an undecided truth reads, directly or through figures and conclusions; each once,
/// in the order of the schema.
pub fn waiting(schema: &Schema, book: &Rulebook, world: &World, state: &State) -> Vec<(AttributeId, u16)> {
    let evaluation = Evaluation { schema, book, world, state };
    let mut search = Search { evaluation, found: vec![], unsaid: vec![], seen_figures: vec![], seen_rules: vec![] };
    for n in 0..book.rules.len() as u16 {
        let for_thing = book.rules[n as usize].for_thing;
        for instance in 0..for_thing.map_or(1, |t| world.count(t)) {
            if state.rule(n, instance) == Truth::Unknown {
                search.rule(n, instance);
            }
        }
    }
    search.found.sort();
    search.found.dedup();
    search.found
}

/// What keeps a rule silent: facts, and things of which nothing was said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Waits {
    pub facts: Vec<(AttributeId, u16)>,
    pub things: Vec<ThingId>,
}

/// What alone keeps one rule silent, in the order of the schema; nothing when some condition is false for another reason
/// than that something is not known.
pub fn waiting_for(schema: &Schema, book: &Rulebook, world: &World, state: &State, rule: u16) -> Waits {
    let evaluation = Evaluation { schema, book, world, state };
    let entry = &book.rules[rule as usize];
    let mut waits = Waits::default();
    for instance in 0..entry.for_thing.map_or(1, |t| world.count(t)) {
        let mut search = Search { evaluation, found: vec![], unsaid: vec![], seen_figures: vec![], seen_rules: vec![] };
        let could_speak = entry.conditions.iter().all(|condition| {
            let mut bound = Bound::to(entry.for_thing, instance);
            let truth = evaluation.truth(&condition.code, &mut bound);
            let is_open = truth == Truth::Unknown || matches!(condition.code, Code::Known(_)) && truth == Truth::False;
            if is_open {
                search.code(&condition.code, &mut bound);
            }
            is_open || truth == Truth::True
        });
        if could_speak {
            waits.facts.append(&mut search.found);
            waits.things.append(&mut search.unsaid);
        }
    }
    waits.settle();
    waits
}

impl Waits {
    /// Each once, in the order of the schema.
    fn settle(&mut self) {
        self.facts.sort();
        self.facts.dedup();
        self.things.sort();
        self.things.dedup();
    }
}

/// What keeps a figure from being worked out: unknown facts, and things of which nothing was said.
pub fn missing(schema: &Schema, book: &Rulebook, world: &World, state: &State, figure: u16) -> Waits {
    let evaluation = Evaluation { schema, book, world, state };
    let mut search = Search { evaluation, found: vec![], unsaid: vec![], seen_figures: vec![], seen_rules: vec![] };
    let entry = &book.figures[figure as usize];
    match entry.for_thing.filter(|thing| world.count(*thing) == 0) {
        // Of no instance: what its formula lacks beside the thing itself.
        Some(thing) => {
            search.unsaid.push(thing);
            search.code(&entry.code, &mut Bound::default());
        }
        None => search.code(&Code::Figure(figure), &mut Bound::default()),
    }
    let mut waits = Waits { facts: search.found, things: search.unsaid };
    waits.settle();
    waits
}

struct Search<'e> {
    evaluation: Evaluation<'e>,
    found: Vec<(AttributeId, u16)>,
    /// Things of which nothing was said at all.
    unsaid: Vec<ThingId>,
    seen_figures: Vec<(u16, u16)>,
    seen_rules: Vec<(u16, u16)>,
}

impl Search<'_> {
    fn rule(&mut self, n: u16, instance: u16) {
        if self.seen_rules.contains(&(n, instance)) {
            return;
        }
        self.seen_rules.push((n, instance));
        let rule = &self.evaluation.book.rules[n as usize];
        for condition in &rule.conditions {
            let mut bound = Bound::to(rule.for_thing, instance);
            if self.evaluation.truth(&condition.code, &mut bound) == Truth::Unknown {
                self.code(&condition.code, &mut bound);
            }
        }
    }

    /// Looks for unknown facts below a node that is itself unknown.
    fn code(&mut self, code: &Code, bound: &mut Bound) {
        match code {
            Code::Number(_) | Code::Quantity(..) => {}
            Code::Fact(id) => {
                let thing = self.evaluation.schema.of(*id).thing;
                let instance = bound.instance(thing);
                if instance >= self.evaluation.world.count(thing) {
                    // Of a thing that is not there, the thing itself is waited for.
                    self.unsaid.push(thing);
                } else if !self.evaluation.world.value(*id, instance).is_known() {
                    self.found.push((*id, instance));
                }
            }
            Code::Figure(n) => {
                let figure = &self.evaluation.book.figures[*n as usize];
                let instance = figure.for_thing.map_or(0, |t| bound.instance(t));
                let unknown = !self.evaluation.state.figure(*n, instance).is_known();
                if unknown && !self.seen_figures.contains(&(*n, instance)) {
                    self.seen_figures.push((*n, instance));
                    let mut bound = Bound::to(figure.for_thing, instance);
                    self.code(&figure.code, &mut bound);
                }
            }
            Code::Conclusion(n) => {
                let conclusion = &self.evaluation.book.conclusions[*n as usize];
                let instance = conclusion.for_thing.map_or(0, |t| bound.instance(t));
                for rule in &conclusion.by {
                    if self.evaluation.state.rule(*rule, instance) == Truth::Unknown {
                        self.rule(*rule, instance);
                    }
                }
            }
            Code::Exists { thing, with, .. } => self.each(*thing, with.as_deref(), None, bound),
            Code::Fold { thing, with, of, .. } => self.each(*thing, with.as_deref(), of.as_deref(), bound),
            Code::Call(_, parts) | Code::All(parts) | Code::Any(parts) => {
                parts.iter().for_each(|p| self.code(p, bound))
            }
            Code::Not(a) | Code::IsKind(a, ..) | Code::Known(a) | Code::Negate(a) => self.code(a, bound),
            Code::Compare(_, a, b) | Code::SameKind(a, b, _) | Code::Arithmetic(_, a, b) => {
                self.code(a, bound);
                self.code(b, bound);
            }
            Code::Choice(branches) => {
                for (condition, value) in branches {
                    condition.iter().for_each(|c| self.code(c, bound));
                    self.code(value, bound);
                }
            }
        }
    }

    fn each(&mut self, thing: ThingId, with: Option<&Code>, of: Option<&Code>, bound: &mut Bound) {
        let before = bound.of(thing);
        if self.evaluation.world.count(thing) == 0 && !self.evaluation.world.is_closed(thing) {
            self.unsaid.push(thing);
        }
        for instance in 0..self.evaluation.world.count(thing) {
            if !self.evaluation.world.belongs(thing, instance, bound) {
                continue;
            }
            bound.set(thing, instance);
            if let Some(with) = with {
                self.code(with, bound);
            }
            if let Some(of) = of {
                self.code(of, bound);
            }
            bound.free(thing, before);
        }
    }
}
