//! Rivals: pairs of rules whose acts are opposite, neither of which outranks the other, and which may hold together.
//! What they really do in a call is tried by `archive/trial`, which tells `opposite-advice`.

use super::act_said_two_ways::positive;
use crate::knowledge::Knowledge;
use crate::knowledge::schema::Schema;
use crate::rulebook::Rulebook;
use crate::rulebook::logic::formula::Formulas;
use crate::rulebook::logic::solve::{RuleFormulas, Solver};
use crate::rulebook::logic::{Formula, Ground};
use std::rc::Rc;

/// All pairs, by number of the rules.
pub fn rivals(knowledge: &Knowledge, schema: &Schema, book: &Rulebook) -> Vec<(u16, u16)> {
    let act = |n: usize| book.rules[n].advice.as_ref().and_then(|a| a.act.as_deref());
    let mut pairs = Vec::new();
    for n in 0..book.rules.len() {
        let Some(denied) = act(n).filter(|a| a.starts_with("not:")).map(positive) else { continue };
        for m in (0..book.rules.len()).filter(|m| act(*m) == Some(denied)) {
            let outranks = |a: usize, b: usize| book.rules[a].outranks.iter().any(|(r, _)| *r as usize == b);
            if !outranks(n, m) && !outranks(m, n) {
                pairs.push((n.min(m) as u16, n.max(m) as u16));
            }
        }
    }
    if pairs.is_empty() {
        return pairs;
    }
    pairs.sort_unstable();
    pairs.dedup();
    let ground = Ground::new(knowledge, schema, book, vec![false; book.figures.len()]);
    let mut formulas = Formulas::new(&ground);
    pairs.retain(|(a, b)| {
        let both: Vec<Rc<Formula>> =
            [*a, *b].into_iter().flat_map(|n| RuleFormulas::of(&mut formulas, n).holds).collect();
        Solver::new(&mut formulas, true).possible(&both)
    });
    pairs
}
