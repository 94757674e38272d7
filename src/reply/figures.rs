//! Figure lines: name, formula, numbers put in, result, where it came from. In: figures to show, the wording of a tank.
//! Out: lines, each figure once. Computes nothing.

use super::amounts::{Voice, with_unit};
use super::answer::{FigureLine, Input};
use super::wording::Wording;
use crate::case::fact::Origin;
use crate::engine::why::Proof;
use crate::rulebook::code::Code;
use std::collections::BTreeSet;

impl Wording<'_> {
    /// The line of a figure; `None` when it is not known.
    pub fn figure_line(&self, figure: u16, instance: u16, asked: bool) -> Option<FigureLine> {
        let entry = &self.book.rules.figures[figure as usize];
        let quantity = self.quantity(figure, instance)?;
        let proof = self.evaluation().prove_figure(figure, instance);
        let result = quantity.whole();
        let bare = with_unit(&quantity.likely, quantity.unit, Voice::Written);
        let numbers = self.numbers(&proof).filter(|numbers| *numbers != bare && *numbers != result);
        // A formula that only repeats the figure's own name, or a number that was given, explains nothing.
        let formula = Some(entry.formula.clone()).filter(|_| entry.given.is_none()).filter(|f| *f != entry.called);
        Some(FigureLine {
            figure: entry.name.clone(),
            called: match self.several_tanks {
                true => format!("tank {}: {}", self.view.tank, self.figure_called(figure, instance)),
                false => self.figure_called(figure, instance),
            },
            tank: self.view.tank,
            formula,
            numbers,
            result,
            values: quantity.values,
            unit: quantity.unit.shown.to_string(),
            inputs: self.inputs(&proof),
            origin: self.figure_origin(figure, &proof),
            basis: entry.basis.iter().map(|b| b.to_string()).collect(),
            assumed: self.assumed(self.leaves_of(figure, instance)),
            asked,
        })
    }

    /// Facts and figures that stand in a formula, each once, in order.
    pub fn inputs(&self, proof: &Proof) -> Vec<Input> {
        let mut inputs = Vec::new();
        self.gather_inputs(proof, &mut inputs);
        let mut seen = BTreeSet::new();
        inputs.retain(|i: &Input| seen.insert(i.name.clone()));
        inputs
    }

    fn gather_inputs(&self, proof: &Proof, inputs: &mut Vec<Input>) {
        match proof.code {
            Code::Fact(id) => {
                if let Some(fact) = self.fact(*id, proof.instance) {
                    inputs.push(Input {
                        name: self.attribute(*id, proof.instance),
                        value: self.value(*id, fact, Voice::Written),
                        origin: fact.origin.word(),
                    });
                }
            }
            Code::Figure(n) => {
                if let Some(quantity) = self.quantity(*n, proof.instance) {
                    let below = self.evaluation().prove_figure(*n, proof.instance);
                    inputs.push(Input {
                        name: self.figure_called(*n, proof.instance),
                        value: quantity.whole(),
                        origin: self.figure_origin(*n, &below),
                    });
                }
            }
            // Of a choice only the value counts; its condition is told by `why`.
            Code::Choice(_) => proof.parts.iter().take(1).for_each(|p| self.gather_inputs(p, inputs)),
            _ => proof.parts.iter().for_each(|p| self.gather_inputs(p, inputs)),
        }
    }

    /// Where a figure came from: a given number is assumed, a fact shown as a figure is as its fact, all else worked out.
    pub fn figure_origin(&self, figure: u16, proof: &Proof) -> &'static str {
        if self.book.rules.figures[figure as usize].given.is_some() {
            return Origin::Assumed.word();
        }
        match proof.code {
            Code::Fact(id) => {
                self.fact(*id, proof.instance).map_or(Origin::WorkedOut.word(), |fact| fact.origin.word())
            }
            Code::Number(_) | Code::Quantity(..) => Origin::Assumed.word(),
            Code::Choice(_) => {
                proof.parts.first().map_or(Origin::WorkedOut.word(), |part| self.figure_origin(figure, part))
            }
            _ => Origin::WorkedOut.word(),
        }
    }
}

impl FigureLine {
    /// "turnover = flow / water = 260 gal/h / 47 gal = about 5.6 per hour (4 to 7), worked out".
    pub fn text(&self) -> String {
        let parts = [Some(&self.called), self.formula.as_ref(), self.numbers.as_ref(), Some(&self.result)];
        let mut out = parts.into_iter().flatten().cloned().collect::<Vec<_>>().join(" = ");
        let basis: Vec<&str> = self
            .basis
            .iter()
            .map(String::as_str)
            .filter(|b| *b != "worked out" || self.origin != "worked out")
            .collect();
        out.push_str(&format!("; {}", [vec![self.origin], basis].concat().join(", ")));
        out
    }
}
