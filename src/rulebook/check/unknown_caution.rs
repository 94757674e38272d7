//! unknown-caution: a rule names a caution that the table of cautions does not hold.

use super::Checking;
use crate::knowledge::table::Table;
use crate::source::words::ticked;
use crate::source::{Fault, suggest};

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    let known = checking.knowledge.names(Table::Caution);
    for (rule, spot) in &checking.entries.rules {
        for (n, caution) in rule.cautions.iter().enumerate().filter(|(_, c)| !known.contains(&c.as_str())) {
            let what = format!("no caution is called {}", ticked(caution));
            out.push(
                Fault::error("unknown-caution", spot.get("cautions").item(n).place(), what)
                    .note("cautions stand in the folder knowledge/cautions")
                    .cure_if(suggest::nearest(caution, known.iter().copied())),
            );
        }
    }
}
