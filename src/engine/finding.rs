//! Findings: the advice that holds, with what it stands on. In: a state. Out: one finding for each rule and instance that
//! speaks, and those another rule outranks. Knows no text.

use super::state::State;
use crate::rulebook::Rulebook;

/// A rule that speaks for one instance of its thing.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord, Hash)]
pub struct Finding {
    pub rule: u16,
    pub instance: u16,
}

/// What speaks, and what would if nothing outranked it (with the rule that does).
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Findings {
    pub speaking: Vec<Finding>,
    pub outranked: Vec<(Finding, u16)>,
}

impl Findings {
    pub fn speaks(&self, rule: u16) -> bool {
        self.speaking.iter().any(|f| f.rule == rule)
    }
}

/// All findings of a state, in the order of rule names.
pub fn findings(book: &Rulebook, state: &State) -> Findings {
    let mut out = Findings::default();
    // Those that speak and outrank others.
    let mut above: Vec<Finding> = Vec::new();
    // Rules that outrank come first, so that one that is itself outranked no longer outranks.
    for n in &book.ranked {
        for (instance, _) in state.truths(*n).iter().enumerate().filter(|(_, truth)| truth.is_true()) {
            let rule = &book.rules[*n as usize];
            let finding = Finding { rule: *n, instance: instance as u16 };
            let outranking = above.iter().find(|above| {
                let other = &book.rules[above.rule as usize];
                let same =
                    other.for_thing != rule.for_thing || above.instance == finding.instance || rule.for_thing.is_none();
                same && other.outranks.iter().any(|(r, _)| r == n)
            });
            if let Some(outranking) = outranking {
                out.outranked.push((finding, outranking.rule));
                continue;
            }
            out.speaking.push(finding);
            if !rule.outranks.is_empty() {
                above.push(finding);
            }
        }
    }
    out.speaking.sort();
    out.outranked.sort();
    out
}
