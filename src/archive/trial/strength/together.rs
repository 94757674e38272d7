//! A rule's examples as they would be with lines more: an example that a new one replaces, but for a nearer number, falls
//! away when nothing hangs on it alone. In: lines that were found. Out: whole lists of examples, ready to be pasted.

use super::change::Change;
use super::noticed::{is_seen_in, noticing, turns};
use super::search::Proposal;
use crate::archive::trial::Trial;
use crate::archive::trial::limits::{limits, sides};
use crate::archive::trial::run::Call;
use crate::source::Place;
use std::collections::{HashMap, HashSet};

/// All examples of one rule, the new ones among them.
#[derive(Clone, Debug, PartialEq)]
pub struct Examples {
    pub rule: String,
    /// Where those it has now stand.
    pub place: Place,
    pub speaks: Vec<String>,
    pub silent: Vec<String>,
}

/// Examples of every rule for which lines were found.
pub fn examples(
    trial: &Trial,
    saved: &[Call],
    all: &[Vec<Change>],
    proposed: &[(u16, Vec<Proposal>)],
) -> Vec<Examples> {
    let mut new: Vec<Call> = Vec::new();
    let mut gone: HashSet<usize> = HashSet::new();
    let candidates: HashSet<usize> = proposed.iter().flat_map(|(_, p)| p.iter().filter_map(|p| p.from)).collect();
    // What each of them notices, with all that notice it.
    let mut by: HashMap<usize, Vec<(&Change, Vec<usize>)>> = HashMap::new();
    for change in all.iter().flatten() {
        let noticing: Vec<usize> = noticing(trial, change).collect();
        if noticing.iter().any(|e| candidates.contains(e)) && !is_seen_in(trial, saved, change) {
            for e in noticing.iter().filter(|e| candidates.contains(e)) {
                by.entry(*e).or_default().push((change, noticing.clone()));
            }
        }
    }
    for (rule, proposals) in proposed {
        new.clear();
        new.extend(proposals.iter().map(|p| trial.runner.run(&p.line)));
        for example in proposals.iter().filter_map(|p| p.from) {
            let is_kept = |(change, noticing): &(&Change, Vec<usize>)| {
                noticing.iter().any(|e| *e != example && !gone.contains(e))
                    || new.iter().zip(proposals).any(|(call, p)| turns(trial, call, change, *rule) == Some(p.speaks))
            };
            if by.get(&example).is_none_or(|list| list.iter().all(is_kept))
                && keeps_both_sides(trial, example, &gone, &new)
            {
                gone.insert(example);
            }
        }
    }
    proposed.iter().map(|(rule, proposals)| of_rule(trial, *rule, proposals, &gone)).collect()
}

/// Whether every limit of the rule is still met and missed without one of its examples.
fn keeps_both_sides(trial: &Trial, example: usize, gone: &HashSet<usize>, new: &[Call]) -> bool {
    let rule = trial.examples[example].rule;
    limits(trial.book, &trial.phrases, rule).iter().all(|limit| {
        let own = trial.examples.iter().enumerate().filter(|(_, e)| e.rule == rule);
        let own: Vec<(usize, &Call)> = own.map(|(n, e)| (n, &trial.calls[e.call])).collect();
        let left = own.iter().filter(|(n, _)| *n != example && !gone.contains(n)).map(|(_, call)| *call);
        let before = sides(trial.book, rule, limit, own.iter().map(|(_, call)| *call));
        let after = sides(trial.book, rule, limit, left.chain(new));
        (!before.0 || after.0) && (!before.1 || after.1)
    })
}

fn of_rule(trial: &Trial, rule: u16, proposals: &[Proposal], gone: &HashSet<usize>) -> Examples {
    let (raw, spot) = &trial.entries.rules[rule as usize];
    let mut out =
        Examples { rule: raw.rule.clone(), place: spot.key("examples").place(), speaks: vec![], silent: vec![] };
    let mut add = |speaks: bool, line: &str| {
        let list = if speaks { &mut out.speaks } else { &mut out.silent };
        if !list.iter().any(|l| l == line) {
            list.push(line.to_string());
        }
    };
    for (n, example) in trial.examples.iter().enumerate().filter(|(_, e)| e.rule == rule) {
        match proposals.iter().find(|p| p.from == Some(n)) {
            Some(proposal) if gone.contains(&n) => add(proposal.speaks, &proposal.line),
            _ => add(example.speaks, &example.line),
        }
    }
    for proposal in proposals {
        add(proposal.speaks, &proposal.line);
    }
    out
}
