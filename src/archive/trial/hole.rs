//! may-be-unknown, seen: a rule speaks in an example, and a figure that its text names is unknown there. What can be seen
//! without running is told by `rulebook/check`; this is left: calculations that refuse what they are given.

use super::Trial;
use crate::engine::{Engine, world::Bound};
use crate::rulebook::code::Code;
use crate::rulebook::template::Piece;
use crate::source::Fault;
use crate::source::words::ticked;
use std::collections::BTreeSet;

pub fn faults(trial: &Trial, out: &mut Vec<Fault>) {
    let book = trial.book;
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let mut told: BTreeSet<(u16, String)> = BTreeSet::new();
    for call in &trial.calls {
        for (world, state, findings) in &call.tanks {
            for finding in &findings.speaking {
                let rule = &book.rules.rules[finding.rule as usize];
                let Some(advice) = &rule.advice else { continue };
                let evaluation = engine.evaluation(world, state);
                let mut bound = Bound::to(rule.for_thing, finding.instance);
                for piece in [&advice.say, &advice.because].into_iter().chain(&advice.steps).flatten() {
                    let (code, name) = match piece {
                        Piece::Figure(n) => (Code::Figure(*n), book.rules.figures[*n as usize].name.clone()),
                        Piece::Fact(id) => (Code::Fact(*id), book.schema.path_name(*id)),
                        Piece::Text(_) => continue,
                    };
                    if evaluation.value(&code, &mut bound).is_known() || !told.insert((finding.rule, name.clone())) {
                        continue;
                    }
                    let place = trial.entries.rules[finding.rule as usize].1.get("advise").get("say").place();
                    let what = format!("the text names {}, which is unknown in the case shown", ticked(&name));
                    out.push(
                        Fault::error("may-be-unknown", place, what)
                            .shown_by(&call.line)
                            .cure(format!("- {name} is known     (as one more line under `when`)")),
                    );
                }
            }
        }
    }
}
