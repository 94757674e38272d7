//! What can differ between plausible versions: figures and rules that read something uncertain, directly or through others,
//! and are not settled by something certain. In: a case's plain pass, its uncertain leaves. Out: steps. Knows no range.

use super::versions::{Leaf, Uncertain};
use crate::engine::value::Truth;
use crate::engine::world::Bound;
use crate::engine::{Engine, State, World};
use crate::rulebook::book::Step;
use crate::rulebook::code::Read;

/// Facts, figures and conclusions that may differ, by number.
struct Varying {
    facts: Vec<bool>,
    figures: Vec<bool>,
    conclusions: Vec<bool>,
}

impl Varying {
    fn reaches(&self, reads: &[Read]) -> bool {
        reads.iter().any(|read| match read {
            Read::Fact(id) => self.facts[id.0 as usize],
            Read::Figure(n) => self.figures[*n as usize],
            Read::Conclusion(n) => self.conclusions[*n as usize],
            Read::Things(_) => false,
        })
    }
}

/// The steps of the pass that have to be worked out again for each version, in the order of the pass. `also`: figures that
/// vary for another reason.
pub fn varying(engine: &Engine, world: &World, state: &State, leaves: &[Uncertain], also: &[u16]) -> Vec<Step> {
    let book = engine.book;
    let mut varying = Varying {
        facts: vec![false; engine.schema.attributes.len()],
        figures: vec![false; book.figures.len()],
        conclusions: vec![false; book.conclusions.len()],
    };
    let mut given = vec![false; book.figures.len()];
    for leaf in leaves {
        match leaf.leaf {
            Leaf::Fact { attribute, .. } => varying.facts[attribute.0 as usize] = true,
            Leaf::Given { figure } => given[figure as usize] = true,
        }
    }
    let mut steps = Vec::new();
    for step in &book.order {
        let varies = match *step {
            Step::Figure(n) => {
                let figure = &book.figures[n as usize];
                let varies = match figure.given.is_some() {
                    true => given[n as usize],
                    false => also.contains(&n) || varying.reaches(&figure.reads),
                };
                varying.figures[n as usize] = varies;
                varies
            }
            Step::Rule(n) => {
                let varies = rule_varies(engine, world, state, &varying, n);
                if varies {
                    for conclusion in &book.rules[n as usize].concludes {
                        varying.conclusions[*conclusion as usize] = true;
                    }
                }
                varies
            }
        };
        if varies {
            steps.push(*step);
        }
    }
    steps
}

/// A rule varies when one of its conditions does, unless another that is certain is false for every instance.
fn rule_varies(engine: &Engine, world: &World, state: &State, varying: &Varying, n: u16) -> bool {
    let rule = &engine.book.rules[n as usize];
    let open: Vec<bool> = rule.conditions.iter().map(|c| varying.reaches(&c.reads)).collect();
    if !open.contains(&true) {
        return false;
    }
    let evaluation = engine.evaluation(world, state);
    (0..rule.for_thing.map_or(1, |t| world.count(t))).any(|instance| {
        let mut bound = Bound::to(rule.for_thing, instance);
        let mut certain = rule.conditions.iter().zip(&open).filter(|(_, open)| !**open);
        !certain.any(|(condition, _)| evaluation.truth(&condition.code, &mut bound) == Truth::False)
    })
}
