//! example-fails: a rule is silent on a line on which it must speak, or speaks on one on which it must not.

use super::{Example, Trial};
use crate::engine::value::Truth;
use crate::engine::{Engine, Grounds, why_not::Silence};
use crate::source::Fault;
use crate::source::span::line_and_column;
use crate::source::words::{or_list, ticked};

pub fn faults(trial: &Trial, out: &mut Vec<Fault>) {
    for example in &trial.examples {
        let call = &trial.calls[example.call];
        if call.speaks(example.rule) == example.speaks {
            continue;
        }
        let name = ticked(&trial.book.rules.rules[example.rule as usize].name);
        let fault = |what| Fault::error("example-fails", example.place.clone(), what);
        out.push(match example.speaks {
            false => {
                let lines = lines(trial, example);
                fault(format!("{name} speaks on this line, and must not"))
                    .note(format!("all its conditions hold{lines}"))
                    .cure("add a condition, or move the line to `speaks`")
            }
            true => {
                let mut fault = fault(format!("{name} is silent on this line, and must speak"));
                fault.notes.extend(reasons(trial, example));
                fault.cure("widen the condition, or move the line to `silent`")
            }
        });
    }
}

/// The lines of the conditions, as " (lines 6 to 8)".
fn lines(trial: &Trial, example: &Example) -> String {
    let rule = &trial.book.rules.rules[example.rule as usize];
    let line = |n: usize| condition_line(trial, example.rule, n);
    match rule.conditions.len() {
        0 => String::new(),
        1 => format!(" (line {})", line(0)),
        n => format!(" (lines {} to {})", line(0), line(n - 1)),
    }
}

fn condition_line(trial: &Trial, rule: u16, condition: usize) -> usize {
    let (_, spot) = &trial.entries.rules[rule as usize];
    line_and_column(&spot.source.text, spot.get("when").item(condition).span().start).0
}

/// Why the rule is silent, for the tank and instance that come nearest.
fn reasons(trial: &Trial, example: &Example) -> Vec<String> {
    let book = trial.book;
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let rule = &book.rules.rules[example.rule as usize];
    let mut nearest: Option<(f64, Vec<String>)> = None;
    for (world, state, findings) in &trial.calls[example.call].tanks {
        let evaluation = engine.evaluation(world, state);
        let Some(silence) = evaluation.silence(example.rule, findings) else { continue };
        let distance = silence.distance();
        if nearest.as_ref().is_none_or(|(d, _)| distance < *d) {
            let mut notes: Vec<String> = Vec::new();
            for miss in &silence.misses {
                let line = condition_line(trial, example.rule, miss.condition);
                let text = &rule.conditions[miss.condition].text;
                notes.push(match miss.proof.truth() {
                    Truth::Unknown => {
                        let unknown = unknown(trial, world, &evaluation.leaves(&miss.proof, &Grounds::of(state)).facts);
                        match unknown.is_empty() {
                            true => format!("line {line} is not known: {text}"),
                            false => format!("line {line} waits for {}: {text}", or_list(&unknown)),
                        }
                    }
                    _ => format!("line {line} does not hold: {text}"),
                });
            }
            notes.extend(outranked(trial, &silence));
            nearest = Some((distance, notes));
        }
    }
    nearest.map(|(_, notes)| notes).unwrap_or_else(|| {
        let thing = rule.for_thing.map_or("tank", |t| book.schema.thing_of(t).called.as_str());
        vec![format!("there is no {thing} in this call")]
    })
}

fn outranked(trial: &Trial, silence: &Silence) -> Option<String> {
    let above = silence.outranked_by?;
    Some(format!("{} outranks it", ticked(&trial.book.rules.rules[above as usize].name)))
}

fn unknown(
    trial: &Trial,
    world: &crate::engine::World,
    facts: &std::collections::BTreeSet<(crate::knowledge::schema::AttributeId, u16)>,
) -> Vec<String> {
    let unknown = facts.iter().filter(|(id, instance)| !world.value(*id, *instance).is_known());
    let mut names: Vec<String> = unknown.map(|(id, _)| ticked(&trial.book.schema.path_name(*id))).collect();
    names.sort();
    names.dedup();
    names.truncate(4);
    names
}
