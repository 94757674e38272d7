//! adds-nothing: a condition that holds whenever another condition of its rule does.

use super::Reason;
use crate::rulebook::logic::Bindings;
use crate::rulebook::logic::known;
use crate::source::Fault;
use std::rc::Rc;

pub fn faults(reason: &mut Reason, out: &mut Vec<Fault>) {
    for n in reason.speaking() {
        let count = reason.rules[n as usize].holds.len();
        let mut dropped: Vec<usize> = Vec::new();
        // From the end, so that of two that say the same the later one is blamed.
        for c in (0..count).rev() {
            if reason.blamed.contains(&(n, c)) {
                continue;
            }
            let other = (0..count).find(|o| *o != c && !dropped.contains(o) && follows(reason, n, *o, c));
            let Some(other) = other else { continue };
            dropped.push(c);
            let checking = reason.checking;
            let place = checking.condition(n, c);
            out.push(
                Fault::warning("adds-nothing", place, "this holds whenever another condition of the rule does")
                    .other(checking.condition(n, other), "that other condition")
                    .cure("take this line out"),
            );
        }
    }
}

/// Whether condition `c` is certainly true when `other` is: never false, and known whenever the other is.
fn follows(reason: &mut Reason, rule: u16, other: usize, c: usize) -> bool {
    let formulas = &reason.rules[rule as usize];
    let both = [Rc::clone(&formulas.holds[other]), Rc::clone(&formulas.denied[c])];
    if reason.possible(&both) {
        return false;
    }
    let compiled = &reason.checking.book.rules[rule as usize];
    let bindings = compiled.for_thing.map_or(Bindings::default(), |t| Bindings::default().with(t, 0));
    let mut there = std::collections::BTreeSet::new();
    known::there(&compiled.conditions[other].code, &mut there);
    let given = known::when(reason.ground, &compiled.conditions[other].code, true, &bindings);
    let certain = known::Certain { ground: reason.ground, given: &given, there: &there };
    certain.truth(&compiled.conditions[c].code, &bindings)
}
