//! never-speaks: a rule that waits for a conclusion which can never be drawn, or not in its own case.

use super::Reason;
use crate::rulebook::code::Code;
use crate::source::Fault;
use crate::source::words::{and_list, ticked};
use std::rc::Rc;

pub fn faults(reason: &mut Reason, out: &mut Vec<Fault>) {
    for n in reason.speaking() {
        let all: Vec<_> = reason.rules[n as usize].holds.iter().map(Rc::clone).collect();
        if reason.possible_through_conclusions(&all) {
            continue;
        }
        reason.silent.insert(n);
        let checking = reason.checking;
        let rule = &checking.book.rules[n as usize];
        // The condition that names the conclusion, and the rules that would have to conclude it.
        let named = rule.conditions.iter().enumerate().find_map(|(c, condition)| {
            let mut found = None;
            condition.code.walk(&mut |code| {
                if let Code::Conclusion(m) = code {
                    found.get_or_insert(*m);
                }
            });
            found.map(|m| (c, m))
        });
        let place = named.map_or(rule.place.clone(), |(c, _)| checking.condition(n, c));
        let what = format!("{} can never speak", ticked(&rule.name));
        let mut fault = Fault::error("never-speaks", place, what);
        if let Some((_, conclusion)) = named {
            let conclusion = &checking.book.conclusions[conclusion as usize];
            let by: Vec<String> =
                conclusion.by.iter().map(|r| ticked(&checking.book.rules[*r as usize].name)).collect();
            let alone = conclusion.by.iter().all(|r| reason.silent.contains(r));
            fault = fault.note(match alone {
                true => format!("`{}` is concluded only by {}, which can never hold", conclusion.name, and_list(&by)),
                false => format!(
                    "where {} concludes `{}`, another condition of this rule does not hold",
                    and_list(&by),
                    conclusion.name
                ),
            });
            for by in &conclusion.by {
                fault = fault.other(checking.entries.rules[*by as usize].1.get("rule").place(), "concludes it");
            }
        }
        out.push(fault);
    }
}
