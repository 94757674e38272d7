//! no-examples: a rule without a caller's line on which it speaks, or without one on which it does not.

use super::Checking;
use crate::source::Fault;
use crate::source::words::ticked;

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    for (rule, spot) in &checking.entries.rules {
        let examples = &rule.examples;
        let missing = match (examples.speaks.is_empty(), examples.silent.is_empty()) {
            (true, true) => "no examples",
            (true, false) => "no example on which it speaks",
            // What holds of every call cannot be silent.
            (false, true) if !rule.when.is_empty() => "no example on which it is silent",
            _ => continue,
        };
        let fault =
            Fault::warning("no-examples", spot.key("rule").place(), format!("{} has {missing}", ticked(&rule.rule)));
        out.push(fault.cure(match missing {
            "no example on which it is silent" => "silent: [\"a caller's line just outside its conditions\"]",
            _ => "speaks: [\"a caller's line that makes it speak\"]",
        }));
    }
}
