//! Proofs: code evaluated again with what each part came to and which parts decided. In: an evaluation, code or a rule.
//! Out: a tree. Knows no words.

use super::evaluate::Evaluation;
use super::value::{Truth, Value};
use super::world::Bound;
use crate::knowledge::schema::ThingId;
use crate::rulebook::code::Code;

/// What a piece of code came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CameTo {
    Value(Value),
    Truth(Truth),
}

/// A piece of code with what it came to. Of a fact, figure or conclusion `instance` tells which one is meant.
#[derive(Clone, Debug)]
pub struct Proof<'c> {
    pub code: &'c Code,
    pub came_to: CameTo,
    pub instance: u16,
    /// The parts that decided it: of a true `or` the part that is true, of a choice the value chosen and then its
    /// condition, of a sum what was added.
    pub parts: Vec<Proof<'c>>,
}

impl Proof<'_> {
    pub fn truth(&self) -> Truth {
        match self.came_to {
            CameTo::Truth(truth) => truth,
            CameTo::Value(_) => Truth::Unknown,
        }
    }

    pub fn number(&self) -> Option<f64> {
        match self.came_to {
            CameTo::Value(value) => value.number(),
            CameTo::Truth(_) => None,
        }
    }
}

impl<'e> Evaluation<'e> {
    /// The proof of a figure's formula.
    pub fn prove_figure(&self, figure: u16, instance: u16) -> Proof<'e> {
        let figure = &self.book.figures[figure as usize];
        self.prove(&figure.code, &mut Bound::to(figure.for_thing, instance))
    }

    /// The proof of each condition of a rule, in the order written.
    pub fn prove_rule(&self, rule: u16, instance: u16) -> Vec<Proof<'e>> {
        let rule = &self.book.rules[rule as usize];
        let mut bound = Bound::to(rule.for_thing, instance);
        rule.conditions.iter().map(|c| self.prove(&c.code, &mut bound)).collect()
    }

    /// The rule by which a conclusion holds, if it does.
    pub fn concluded_by(&self, conclusion: u16, instance: u16) -> Option<u16> {
        let by = &self.book.conclusions[conclusion as usize].by;
        by.iter().copied().find(|rule| self.state.rule(*rule, instance).is_true())
    }

    /// Evaluates `code` again and keeps what decided it.
    pub fn prove<'c>(&self, code: &'c Code, bound: &mut Bound) -> Proof<'c> {
        let mut proof = Proof { code, came_to: self.came_to(code, bound), instance: 0, parts: vec![] };
        match code {
            Code::Number(_) | Code::Quantity(..) => {}
            Code::Fact(id) => proof.instance = bound.instance(self.schema.of(*id).thing),
            Code::Figure(n) => {
                proof.instance = self.book.figures[*n as usize].for_thing.map_or(0, |t| bound.instance(t));
            }
            Code::Conclusion(n) => {
                proof.instance = self.book.conclusions[*n as usize].for_thing.map_or(0, |t| bound.instance(t));
            }
            Code::Call(_, parts) => proof.parts = parts.iter().map(|p| self.prove(p, bound)).collect(),
            Code::All(parts) | Code::Any(parts) => {
                let parts: Vec<Proof> = parts.iter().map(|p| self.prove(p, bound)).collect();
                proof.parts = deciding(parts, proof.truth(), matches!(code, Code::All(_)));
            }
            Code::Not(a) | Code::IsKind(a, ..) | Code::Known(a) | Code::Negate(a) => {
                proof.parts.push(self.prove(a, bound));
            }
            Code::Compare(_, a, b) | Code::SameKind(a, b, _) | Code::Arithmetic(_, a, b) => {
                proof.parts = vec![self.prove(a, bound), self.prove(b, bound)];
            }
            Code::Choice(branches) => proof.parts = self.prove_choice(branches, bound),
            Code::Exists { every, thing, with } => {
                let each = self.prove_each(*thing, with.as_deref(), None, bound);
                let each = each.into_iter().map(|(with, _)| with).collect();
                proof.parts = deciding(each, proof.truth(), *every);
            }
            Code::Fold { of, thing, with, .. } => {
                let each = self.prove_each(*thing, with.as_deref(), of.as_deref(), bound);
                let counted = each.into_iter().filter(|(with, _)| with.truth() != Truth::False);
                proof.parts = counted.map(|(with, of)| of.unwrap_or(with)).collect();
            }
        }
        proof
    }

    fn came_to(&self, code: &Code, bound: &mut Bound) -> CameTo {
        match code.is_condition() {
            true => CameTo::Truth(self.truth(code, bound)),
            false => CameTo::Value(self.value(code, bound)),
        }
    }

    /// The value chosen and its condition; when nothing could be chosen, everything that was tried.
    fn prove_choice<'c>(&self, branches: &'c [(Option<Code>, Code)], bound: &mut Bound) -> Vec<Proof<'c>> {
        let mut tried = Vec::new();
        for (condition, value) in branches {
            match condition {
                None => {
                    let value = self.prove(value, bound);
                    if matches!(value.came_to, CameTo::Value(v) if v.is_known()) {
                        return vec![value];
                    }
                    tried.push(value);
                }
                Some(condition) => {
                    let condition = self.prove(condition, bound);
                    match condition.truth() {
                        Truth::True => return vec![self.prove(value, bound), condition],
                        Truth::Unknown => return vec![condition],
                        Truth::False => {}
                    }
                }
            }
        }
        tried
    }

    /// For each instance of `thing` that belongs to what is bound: the proof of `with` and of `of`.
    fn prove_each<'c>(
        &self,
        thing: ThingId,
        with: Option<&'c Code>,
        of: Option<&'c Code>,
        bound: &mut Bound,
    ) -> Vec<(Proof<'c>, Option<Proof<'c>>)> {
        let before = bound.of(thing);
        let mut out = Vec::new();
        for instance in 0..self.world.count(thing) {
            if !self.world.belongs(thing, instance, bound) {
                continue;
            }
            bound.set(thing, instance);
            let with = match with {
                Some(with) => self.prove(with, bound),
                None => Proof { code: &ALWAYS, came_to: CameTo::Truth(Truth::True), instance, parts: vec![] },
            };
            out.push((with, of.map(|of| self.prove(of, bound))));
            bound.free(thing, before);
        }
        out
    }
}

static ALWAYS: Code = Code::All(Vec::new());

/// Of the parts of an `and` (`all`) or an `or`, those that made it what it is.
fn deciding(parts: Vec<Proof>, truth: Truth, all: bool) -> Vec<Proof> {
    // One true part makes an `or` true, one false part an `and` false; else every part had its share.
    let one = match (truth, all) {
        (Truth::True, false) => Some(Truth::True),
        (Truth::False, true) => Some(Truth::False),
        _ => None,
    };
    match (one, truth) {
        (Some(wanted), _) => parts.into_iter().find(|p| p.truth() == wanted).into_iter().collect(),
        (None, Truth::Unknown) => parts.into_iter().filter(|p| p.truth() == Truth::Unknown).collect(),
        (None, _) => parts,
    }
}
