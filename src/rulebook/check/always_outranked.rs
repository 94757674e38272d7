//! always-outranked: a rule that never gives its advice, because one that outranks it speaks whenever it does.

use super::Reason;
use crate::rulebook::logic::{Bindings, known};
use crate::source::Fault;
use crate::source::words::ticked;
use std::collections::BTreeSet;
use std::rc::Rc;

pub fn faults(reason: &mut Reason, out: &mut Vec<Fault>) {
    let speaking = reason.speaking();
    for above in &speaking {
        let outranks = &reason.checking.book.rules[*above as usize].outranks;
        for (m, (below, _)) in outranks.iter().enumerate() {
            if !speaking.contains(below) || !always(reason, *above, *below) {
                continue;
            }
            let checking = reason.checking;
            let (upper, lower) = (&checking.book.rules[*above as usize], &checking.book.rules[*below as usize]);
            let place = checking.entries.rules[*below as usize].1.get("rule").place();
            let what = format!("{} is always outranked by {}", ticked(&lower.name), ticked(&upper.name));
            let order = checking.entries.rules[*above as usize].1.get("outranks").item(m).get("rule").place();
            out.push(
                Fault::error("always-outranked", place, what)
                    .other(order, "it outranks here")
                    .note(format!("whenever {} holds, {} holds too", ticked(&lower.name), ticked(&upper.name)))
                    .cure(format!("add a condition to {}, or take {} out", ticked(&upper.name), ticked(&lower.name))),
            );
        }
    }
}

/// Whether every condition of `above` is certainly true when all of `below` are.
fn always(reason: &mut Reason, above: u16, below: u16) -> bool {
    let book = reason.checking.book;
    let (upper, lower) = (&book.rules[above as usize], &book.rules[below as usize]);
    // A rule that is itself outranked does not always win; and rules of different things are not compared.
    let outranked = book.rules.iter().any(|r| r.outranks.iter().any(|(n, _)| *n == above));
    if outranked || (upper.for_thing.is_some() && upper.for_thing != lower.for_thing) {
        return false;
    }
    let bindings = lower.for_thing.map_or(Bindings::default(), |t| Bindings::default().with(t, 0));
    let (mut given, mut there) = (BTreeSet::new(), BTreeSet::new());
    for condition in &lower.conditions {
        given.extend(known::when(reason.ground, &condition.code, true, &bindings));
        known::there(&condition.code, &mut there);
    }
    there.extend(lower.for_thing);
    let certain = known::Certain { ground: reason.ground, given: &given, there: &there };
    if !upper.conditions.iter().all(|c| certain.truth(&c.code, &bindings)) {
        return false;
    }
    let holds: Vec<_> = reason.rules[below as usize].holds.iter().map(Rc::clone).collect();
    let denied: Vec<_> = reason.rules[above as usize].denied.iter().map(Rc::clone).collect();
    denied.into_iter().all(|d| {
        let mut with = holds.clone();
        with.push(d);
        !reason.possible_through_conclusions(&with)
    })
}
