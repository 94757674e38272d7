//! A caller's line on which two rules both speak: found among the examples of the book, put together from two of them, or
//! from the facts that one of the rules wants besides; and always run before it is shown.

use super::{Call, Trial};
use crate::engine::Findings;
use crate::knowledge::schema::Schema;
use crate::knowledge::vocabulary::{Attribute, Vocabulary};
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::Comparison;
use crate::units::unit;

/// Most lines that are tried for one pair.
const MOST: usize = 90;
/// Lines of each of the two that are tried with those of the other.
const MOST_LINES: usize = 6;

/// A line that makes both rules speak, of one thing where both are for the same.
pub fn witness(trial: &Trial, first: u16, second: u16) -> Option<String> {
    let both = |call: &Call| call.tanks.iter().any(|(_, _, findings)| meet(trial, findings, first, second));
    if let Some(call) = trial.calls.iter().filter(|c| both(c)).min_by_key(|c| c.line.len()) {
        return Some(call.line.clone());
    }
    let lines = candidates(trial, first, second);
    let found = lines.into_iter().take(MOST).find(|line| both(&trial.runner.run(line)))?;
    Some(shortest(found, |line| both(&trial.runner.run(line))))
}

/// Leaves out every clause that is not needed.
fn shortest(line: String, holds: impl Fn(&str) -> bool) -> String {
    let mut clauses: Vec<String> = line.split(", ").map(String::from).collect();
    let mut n = 0;
    while n < clauses.len() && clauses.len() > 1 {
        let mut fewer = clauses.clone();
        fewer.remove(n);
        if holds(&fewer.join(", ")) {
            clauses = fewer;
        } else {
            n += 1;
        }
    }
    clauses.join(", ")
}

fn meet(trial: &Trial, findings: &Findings, first: u16, second: u16) -> bool {
    let rules = &trial.book.rules.rules;
    let same = rules[first as usize].for_thing == rules[second as usize].for_thing;
    findings
        .speaking
        .iter()
        .filter(|f| f.rule == first)
        .any(|f| findings.speaking.iter().any(|s| s.rule == second && (!same || s.instance == f.instance)))
}

fn candidates(trial: &Trial, first: u16, second: u16) -> Vec<String> {
    let (a, b) = (lines(trial, first), lines(trial, second));
    let (wants_a, wants_b) = (wanted(trial, first), wanted(trial, second));
    let mut out = Vec::new();
    for line in &a {
        out.push(format!("{line}, {wants_b}"));
    }
    for line in &b {
        out.push(format!("{line}, {wants_a}"));
    }
    for x in &a {
        for y in &b {
            out.push(format!("{x}, {y}"));
            out.push(format!("{y}, {x}"));
        }
    }
    out.push(format!("{wants_a}, {wants_b}"));
    out
}

/// Lines on which a rule speaks, without the clauses that it does not need: what is left does not get in another's way.
fn lines(trial: &Trial, rule: u16) -> Vec<String> {
    let own = trial.examples.iter().filter(|e| e.rule == rule && e.speaks).map(|e| e.line.as_str());
    let mut others: Vec<&str> =
        trial.calls.iter().filter(|c| c.speaks(rule) && c.unread.is_empty()).map(|c| c.line.as_str()).collect();
    others.sort_by_key(|line| (line.len(), *line));
    let speaks = |line: &str| trial.runner.run(line).speaks(rule);
    let mut out: Vec<String> = Vec::new();
    for line in own.take(MOST_LINES).chain(others.into_iter().take(MOST_LINES)) {
        for line in [line.to_string(), shortest(line.to_string(), speaks)] {
            if !out.contains(&line) {
                out.push(line);
            }
        }
    }
    // The shortest first: little is left in them that the other could speak against.
    out.sort_by_key(String::len);
    out.truncate(MOST_LINES);
    out
}

/// What a rule's plain conditions want, as a caller would say it.
fn wanted(trial: &Trial, rule: u16) -> String {
    let book = trial.book;
    let mut said = Vec::new();
    for condition in &book.rules.rules[rule as usize].conditions {
        phrase(&condition.code, &book.schema, &book.knowledge.vocabulary, &mut said);
    }
    said.join(", ")
}

fn phrase(code: &Code, schema: &Schema, vocabulary: &Vocabulary, said: &mut Vec<String>) {
    match code {
        Code::All(parts) => parts.iter().for_each(|p| phrase(p, schema, vocabulary, said)),
        // One alternative is enough.
        Code::Any(parts) => parts.iter().take(1).for_each(|p| phrase(p, schema, vocabulary, said)),
        Code::Exists { every: false, with: Some(with), .. } => phrase(with, schema, vocabulary, said),
        Code::Compare(how, value, limit) => {
            let (Code::Fact(id), Code::Quantity(limit, unit)) = (value.as_ref(), limit.as_ref()) else { return };
            let Some(attribute) = declared(schema, vocabulary, *id) else { return };
            let inside = match how {
                Comparison::Less | Comparison::LessOrEqual => 0.8,
                Comparison::Greater | Comparison::GreaterOrEqual => 1.2,
                _ => 1.0,
            };
            let number = unit.from_base(*limit) * inside;
            let word = attribute.words.first().unwrap_or(&attribute.called);
            let unit = if unit.name == unit::plain().name || unit.name == "pH" { "" } else { unit.name };
            said.push(format!("{word} {} {unit}", (number * 100.0).round() / 100.0).trim_end().to_string());
        }
        Code::IsKind(fact, symbol, true) => {
            let Code::Fact(id) = fact.as_ref() else { return };
            let Some(attribute) = declared(schema, vocabulary, *id) else { return };
            let word = schema.word(*symbol);
            let kind = attribute.kinds.iter().find(|k| k.kind == word);
            let spoken = kind.and_then(|k| k.words.first()).map_or(word, String::as_str);
            said.push(match word {
                "yes" => attribute.called.clone(),
                "no" => format!("no {}", attribute.called),
                _ => spoken.to_string(),
            });
        }
        _ => {}
    }
}

fn declared<'v>(
    schema: &Schema,
    vocabulary: &'v Vocabulary,
    id: crate::knowledge::schema::AttributeId,
) -> Option<&'v Attribute> {
    let attribute = schema.of(id);
    vocabulary.attribute(&schema.thing_of(attribute.thing).name, &attribute.name)
}
