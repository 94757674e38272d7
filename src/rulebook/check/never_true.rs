//! never-true: a condition that nothing can satisfy, alone or together with others of its rule.

use super::{Reason, always_true};
use crate::source::{Fault, span::line_and_column};
use std::rc::Rc;

pub fn faults(reason: &mut Reason, out: &mut Vec<Fault>) {
    for n in reason.speaking() {
        let count = reason.rules[n as usize].holds.len();
        let all: Vec<usize> = (0..count).collect();
        if possible(reason, n, &all) {
            continue;
        }
        reason.silent.insert(n);
        if all.iter().any(|c| reason.blamed.contains(&(n, *c))) {
            continue;
        }
        let fewest = least(reason, n, all);
        let fault = blame(reason, n, fewest);
        out.push(fault);
    }
}

fn possible(reason: &mut Reason, rule: u16, conditions: &[usize]) -> bool {
    let formulas: Vec<_> = conditions.iter().map(|c| Rc::clone(&reason.rules[rule as usize].holds[*c])).collect();
    reason.possible(&formulas)
}

/// The fewest conditions that cannot hold together, by leaving out one after the other.
fn least(reason: &mut Reason, rule: u16, mut conditions: Vec<usize>) -> Vec<usize> {
    let mut n = 0;
    while n < conditions.len() {
        let mut fewer = conditions.clone();
        fewer.remove(n);
        if fewer.is_empty() || possible(reason, rule, &fewer) {
            n += 1;
        } else {
            conditions = fewer;
        }
    }
    conditions
}

fn blame(reason: &mut Reason, rule: u16, conditions: Vec<usize>) -> Fault {
    let checking = reason.checking;
    let text = |c: usize| checking.entries.rules[rule as usize].0.when[c].as_str();
    let Some((last, first)) = conditions.split_last() else {
        return Fault::error(
            "never-true",
            checking.book.rules[rule as usize].place.clone(),
            "nothing can satisfy this",
        );
    };
    let place = checking.condition(rule, *last);
    let line = |c: usize| {
        let place = checking.condition(rule, c);
        checking.text_of(&place.file).map_or(0, |t| line_and_column(t, place.span.start).0)
    };
    if first.is_empty() {
        return Fault::error("never-true", place, "nothing can satisfy this condition");
    }
    let lines: Vec<String> = first.iter().map(|c| format!("line {}", line(*c))).collect();
    let what = format!("nothing can satisfy this together with {}", crate::source::words::and_list(&lines));
    let mut fault = Fault::error("never-true", place, what);
    for c in first {
        fault = fault.other(checking.condition(rule, *c), "holds only when this does not");
    }
    // "Either" helps only if it does not let everything through.
    let denied: Vec<_> = conditions.iter().map(|c| Rc::clone(&reason.rules[rule as usize].denied[*c])).collect();
    if conditions.len() == 2
        && reason.possible(&denied)
        && !conditions.iter().any(|c| always_true::holds(reason, rule, *c))
    {
        fault = fault.cure(format!("{} or {}     (if either should do)", text(first[0]), text(*last)));
    }
    fault
}
