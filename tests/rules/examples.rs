//! Every rule's own examples, through the listener: it speaks where it must and is silent where it must be.

use super::call::{BOOK, Call, line};
use crate::listen::notation::statement;
use weirline::engine::{Engine, world::Bound};
use weirline::rulebook::book::Rule;
use weirline::rulebook::library::built_in_texts;

/// How a line was read and which conditions of the rule did not hold, for the message of a failure.
fn shown(call: &Call, n: usize, rule: &Rule) -> String {
    let read: Vec<String> = call.statements.iter().map(statement).collect();
    let engine = Engine { schema: &BOOK.schema, book: &BOOK.rules };
    let mut out = format!("    read: {}\n", read.join("; "));
    for instance in 0..rule.for_thing.map_or(1, |t| call.world.count(t)) {
        for condition in &rule.conditions {
            let mut bound = Bound::to(rule.for_thing, instance);
            let truth = engine.evaluation(&call.world, &call.state).truth(&condition.code, &mut bound);
            out += &format!("    {truth:?}: {}\n", condition.text);
        }
    }
    for (finding, above) in &call.findings.outranked {
        if finding.rule as usize == n {
            out += &format!("    outranked by {}\n", BOOK.rules.rules[*above as usize].name);
        }
    }
    out
}

#[test]
fn every_rule_has_examples_of_both_sorts() {
    for rule in &BOOK.rules.rules {
        let examples = BOOK.examples(rule);
        assert!(!examples.speaks.is_empty(), "`{}` has no example on which it speaks", rule.name);
        assert!(!examples.silent.is_empty(), "`{}` has no example on which it is silent", rule.name);
    }
}

#[test]
fn examples_hold() {
    let (mut failures, mut count) = (String::new(), 0);
    for (n, rule) in BOOK.rules.rules.iter().enumerate() {
        let examples = BOOK.examples(rule);
        let speaks = examples.speaks.iter().map(|e| (e, true));
        for (example, expected) in speaks.chain(examples.silent.iter().map(|e| (e, false))) {
            let call = line(example);
            count += 1;
            if call.findings.speaks(n as u16) != expected {
                let word = if expected { "must speak" } else { "must be silent" };
                failures += &format!("{}: {word} on \"{example}\"\n{}", rule.name, shown(&call, n, rule));
            }
        }
    }
    assert!(failures.is_empty(), "of {count} examples these failed:\n{failures}");
}

#[test]
fn the_shipped_book_has_no_fault_and_every_word_of_its_examples_is_read() {
    let report = weirline::archive::trial::check(built_in_texts(), vec![], "built in", None);
    let faults: String = report.faults.iter().map(|f| format!("{f:?}\n")).collect();
    assert!(report.faults.is_empty(), "{faults}");
    assert!(report.examples > 800, "{} examples", report.examples);
}
