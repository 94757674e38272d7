//! Strength: how much of a book its examples and transcripts hold in place. Each rule is taken out, each comparison turned
//! round, each limit moved; what no example and no transcript notices is listed. Slow beside a check.

use super::Trial;
use super::limits::{compared_mut, comparisons_of};
use super::run::Call;
use crate::engine::finding::{Findings, findings};
use crate::engine::{Engine, Truth, world::Bound};
use crate::rulebook::book::{Condition, Rule};
use crate::rulebook::code::{Code, Read};
use crate::rulebook::expr::tree::Arithmetic;
use crate::source::Place;
use crate::units::Dimension;

/// A change of the book that nothing notices.
#[derive(Clone, Debug, PartialEq)]
pub struct Survivor {
    pub rule: String,
    pub place: Place,
    /// What could be done: "the limit could be a quarter higher".
    pub change: String,
}

/// What came of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Strength {
    /// Changes that were tried.
    pub tried: usize,
    pub survivors: Vec<Survivor>,
}

/// Limits are moved by this share; temperatures and pH by a step of their own scale.
const SHARE: f64 = 0.25;
const STEP_CELSIUS: f64 = 2.0;
const STEP_PH: f64 = 0.5;

/// One change of one rule.
struct Change {
    place: Place,
    words: String,
    /// The changed conditions; none: the rule is out.
    conditions: Option<Vec<Condition>>,
}

/// Tries every change. `transcripts`: typed lines of saved calls, turns parted by ` | `; any change of who speaks is noticed.
pub fn strength(trial: &Trial, transcripts: &[&str]) -> Strength {
    let saved = trial.runner.all(transcripts);
    let mut out = Strength::default();
    for n in 0..trial.book.rules.rules.len() as u16 {
        for change in changes(trial, n) {
            out.tried += 1;
            if !is_noticed(trial, &saved, n, change.conditions.as_deref()) {
                let rule = trial.book.rules.rules[n as usize].name.clone();
                out.survivors.push(Survivor { rule, place: change.place, change: change.words });
            }
        }
    }
    out
}

fn changes(trial: &Trial, n: u16) -> Vec<Change> {
    let rule = &trial.book.rules.rules[n as usize];
    let (raw, spot) = &trial.entries.rules[n as usize];
    let whole =
        Change { place: spot.get("rule").place(), words: "the rule could be taken out".into(), conditions: None };
    let mut out = vec![whole];
    for (c, condition) in rule.conditions.iter().enumerate() {
        for (m, (span, code)) in comparisons_of(trial.book, &trial.phrases, condition).into_iter().enumerate() {
            let place = spot.get("when").item(c).inside(&raw.when[c], span);
            let mut with = |words: &str, to: Code| {
                let mut conditions = rule.conditions.clone();
                if let Some(found) = compared_mut(&mut conditions[c].code, &mut { m }) {
                    *found = to;
                    out.push(Change { place: place.clone(), words: words.into(), conditions: Some(conditions) });
                }
            };
            match code {
                Code::IsKind(a, symbol, equal) => {
                    with("the comparison could be turned round", Code::IsKind(a.clone(), *symbol, !equal));
                }
                Code::Compare(how, a, b) => {
                    with("the comparison could be turned round", Code::Compare(how.denied(), a.clone(), b.clone()));
                    for (words, up) in [("higher", true), ("lower", false)] {
                        let moved = Code::Compare(*how, a.clone(), Box::new(moved(b, up)));
                        with(&format!("the limit could be {} {words}", by(b)), moved);
                    }
                }
                _ => {}
            }
        }
    }
    out
}

/// The limit, moved up or down.
fn moved(limit: &Code, up: bool) -> Code {
    let (how, by) = match step(limit) {
        Some(step) => (Arithmetic::Add, if up { step } else { -step }),
        None => (Arithmetic::Multiply, if up { 1.0 + SHARE } else { 1.0 / (1.0 + SHARE) }),
    };
    Code::Arithmetic(how, Box::new(limit.clone()), Box::new(Code::Number(by)))
}

fn by(limit: &Code) -> String {
    match step(limit) {
        Some(step) => format!("{step}"),
        None => "a quarter".into(),
    }
}

fn step(limit: &Code) -> Option<f64> {
    match limit {
        Code::Quantity(_, unit) if unit.dimension == Dimension::TEMPERATURE => Some(STEP_CELSIUS),
        Code::Quantity(_, unit) if unit.dimension == Dimension::ACIDITY => Some(STEP_PH),
        _ => None,
    }
}

fn is_noticed(trial: &Trial, saved: &[Call], n: u16, conditions: Option<&[Condition]>) -> bool {
    let by_example = trial.calls.iter().enumerate().any(|(c, call)| {
        let Some(after) = after(trial, call, n, conditions) else { return false };
        trial
            .examples
            .iter()
            .filter(|e| e.call == c && call.speaks(e.rule) == e.speaks)
            .any(|e| after.iter().any(|f| f.speaks(e.rule)) != e.speaks)
    });
    by_example
        || saved.iter().any(|call| {
            after(trial, call, n, conditions).is_some_and(|after| {
                after.iter().zip(&call.tanks).any(|(a, (_, _, before))| a.speaking != before.speaking)
            })
        })
}

/// Who speaks in each tank of a call when a rule has other conditions; nothing when the rule comes out the same.
fn after(trial: &Trial, call: &Call, n: u16, conditions: Option<&[Condition]>) -> Option<Vec<Findings>> {
    let book = &trial.book.rules;
    let engine = Engine { schema: &trial.book.schema, book };
    let rule: &Rule = &book.rules[n as usize];
    let mut out = Vec::new();
    let mut differs = false;
    for (world, state, before) in &call.tanks {
        let mut changed = None;
        for instance in 0..rule.for_thing.map_or(1, |t| world.count(t)) {
            let mut bound = Bound::to(rule.for_thing, instance);
            let evaluation = engine.evaluation(world, state);
            let truth = conditions.map_or(Truth::False, |conditions| {
                let mut all = Truth::True;
                for condition in conditions {
                    match evaluation.truth(&condition.code, &mut bound) {
                        Truth::False => return Truth::False,
                        Truth::Unknown => all = Truth::Unknown,
                        Truth::True => {}
                    }
                }
                all
            });
            if truth != state.rule(n, instance) {
                changed.get_or_insert_with(|| state.clone()).set_rule(n, instance, truth);
            }
        }
        out.push(match changed {
            None => before.clone(),
            Some(mut state) => {
                differs = true;
                let reads: Vec<Read> = rule.concludes.iter().map(|c| Read::Conclusion(*c)).collect();
                engine.update(world, &mut state, &reads);
                findings(book, world, &state)
            }
        });
    }
    differs.then_some(out)
}
