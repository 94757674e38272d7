//! Why a rule is silent: the conditions that fail or wait, and by how much. In: an evaluation, a rule. Out: misses, the
//! nearest instance first. Knows no words.

use super::evaluate::Evaluation;
use super::finding::Findings;
use super::value::Truth;
use super::why::Proof;
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::Comparison;

/// A condition that keeps a rule silent.
#[derive(Clone, Debug)]
pub struct Miss<'c> {
    /// Which condition of the rule, from 0.
    pub condition: usize,
    pub proof: Proof<'c>,
}

/// Why a rule does not speak for one instance.
#[derive(Clone, Debug)]
pub struct Silence<'c> {
    pub instance: u16,
    pub misses: Vec<Miss<'c>>,
    /// All conditions hold, but this rule outranks it.
    pub outranked_by: Option<u16>,
}

/// A comparison that fails: value and limit, both in base units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margin {
    pub how: Comparison,
    pub value: f64,
    pub limit: f64,
}

impl Margin {
    /// How far the value is from the limit, as a share of the larger of the two.
    pub fn share(&self) -> f64 {
        let size = self.value.abs().max(self.limit.abs());
        if size == 0.0 { 0.0 } else { (self.value - self.limit).abs() / size }
    }
}

impl<'e> Evaluation<'e> {
    /// Why a rule is silent, for the instance that comes nearest; `None` when it speaks or there is nothing it is for.
    pub fn silence(&self, rule: u16, findings: &Findings) -> Option<Silence<'e>> {
        if findings.speaks(rule) {
            return None;
        }
        let count = self.book.rules[rule as usize].for_thing.map_or(1, |t| self.world.count(t));
        let silences = (0..count).map(|instance| {
            let outranked = findings.outranked.iter().find(|(f, _)| f.rule == rule && f.instance == instance);
            Silence {
                instance,
                misses: self
                    .prove_rule(rule, instance)
                    .into_iter()
                    .enumerate()
                    .filter(|(_, p)| !p.truth().is_true())
                    .map(|(condition, proof)| Miss { condition, proof })
                    .collect(),
                outranked_by: outranked.map(|(_, by)| *by),
            }
        });
        silences.min_by(|a, b| a.distance().total_cmp(&b.distance()))
    }
}

impl Silence<'_> {
    /// Fewer misses are nearer; a waiting condition counts half, a comparison by how far off it is.
    pub fn distance(&self) -> f64 {
        let each = |miss: &Miss| match (miss.proof.truth(), margin(&miss.proof)) {
            (Truth::Unknown, _) => 0.5,
            (_, Some(margin)) => 0.5 + 0.5 * margin.share().min(1.0),
            _ => 1.0,
        };
        self.misses.iter().map(each).sum()
    }
}

/// The comparison that made a condition false, if one alone did.
pub fn margin(proof: &Proof) -> Option<Margin> {
    match proof.code {
        Code::Compare(how, ..) => match proof.parts[..] {
            [ref value, ref limit] => Some(Margin { how: *how, value: value.number()?, limit: limit.number()? }),
            _ => None,
        },
        Code::All(_) | Code::Any(_) | Code::Exists { .. } => match proof.parts[..] {
            [ref one] => margin(one),
            _ => None,
        },
        _ => None,
    }
}
