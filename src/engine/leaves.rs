//! What a proof rests on in the end: facts, and the figures and rules on the way to them. In: an evaluation, a proof, a figure
//! or a rule. Out: each once, in a fixed order. Knows no words.

use super::evaluate::Evaluation;
use super::state::State;
use super::why::Proof;
use crate::knowledge::schema::AttributeId;
use crate::rulebook::code::Code;
use std::collections::BTreeSet;
use std::sync::OnceLock;

/// What a proof rests on in the end, each once and in a fixed order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Leaves {
    pub facts: BTreeSet<(AttributeId, u16)>,
    /// Figures on the way.
    pub figures: BTreeSet<(u16, u16)>,
    /// Rules whose conclusions were read on the way.
    pub rules: BTreeSet<(u16, u16)>,
}

impl Leaves {
    pub fn add(&mut self, other: &Leaves) {
        self.facts.extend(&other.facts);
        self.figures.extend(&other.figures);
        self.rules.extend(&other.rules);
    }
}

/// What each figure and rule of one pass rests on, found once: many answers lean on the same figures.
#[derive(Clone, Debug, Default)]
pub struct Grounds {
    figures: Vec<OnceLock<Box<Leaves>>>,
    rules: Vec<OnceLock<Box<Leaves>>>,
}

impl Grounds {
    /// Nothing found yet, for this pass and no other.
    pub fn of(state: &State) -> Self {
        Self {
            figures: vec![OnceLock::new(); state.figure_places()],
            rules: vec![OnceLock::new(); state.rule_places()],
        }
    }
}

static NOTHING: Leaves = Leaves { facts: BTreeSet::new(), figures: BTreeSet::new(), rules: BTreeSet::new() };

impl Evaluation<'_> {
    /// Every fact that decided a proof, through figures and conclusions.
    pub fn leaves(&self, proof: &Proof, grounds: &Grounds) -> Leaves {
        let mut leaves = Leaves::default();
        self.gather(proof, grounds, &mut leaves);
        leaves
    }

    /// The same for all conditions of a rule.
    pub fn leaves_of_rule<'g>(&self, rule: u16, instance: u16, grounds: &'g Grounds) -> &'g Leaves {
        let Some(place) = self.state.rule_place(rule, instance) else { return &NOTHING };
        grounds.rules[place].get_or_init(|| {
            let mut leaves = Leaves::default();
            self.prove_rule(rule, instance).iter().for_each(|p| self.gather(p, grounds, &mut leaves));
            Box::new(leaves)
        })
    }

    /// The same for a figure; the figure itself counts as one of them.
    pub fn leaves_of_figure<'g>(&self, figure: u16, instance: u16, grounds: &'g Grounds) -> &'g Leaves {
        let Some(place) = self.state.figure_place(figure, instance) else { return &NOTHING };
        grounds.figures[place].get_or_init(|| {
            let mut leaves = Leaves::default();
            leaves.figures.insert((figure, instance));
            self.gather(&self.prove_figure(figure, instance), grounds, &mut leaves);
            Box::new(leaves)
        })
    }

    fn gather(&self, proof: &Proof, grounds: &Grounds, leaves: &mut Leaves) {
        match proof.code {
            Code::Fact(id) => {
                leaves.facts.insert((*id, proof.instance));
            }
            Code::Figure(n) => {
                if !leaves.figures.contains(&(*n, proof.instance)) {
                    leaves.add(self.leaves_of_figure(*n, proof.instance, grounds));
                }
            }
            Code::Conclusion(n) => {
                if let Some(rule) = self.concluded_by(*n, proof.instance)
                    && leaves.rules.insert((rule, proof.instance))
                {
                    leaves.add(self.leaves_of_rule(rule, proof.instance, grounds));
                }
            }
            _ => proof.parts.iter().for_each(|p| self.gather(p, grounds, leaves)),
        }
    }
}
