//! unknown-source: a rule names a source that the table of sources does not hold.

use super::Checking;
use crate::knowledge::table::Table;
use crate::source::words::ticked;
use crate::source::{Fault, suggest};

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    let known = checking.knowledge.names(Table::Source);
    let rules = checking.entries.rules.iter().map(|(r, s)| (&r.source, s));
    let figures = checking.entries.figures.iter().map(|(f, s)| (&f.source, s));
    let pictures = checking.entries.pictures.iter().map(|(p, s)| (&p.source, s));
    for (sources, spot) in rules.chain(figures).chain(pictures) {
        for (n, source) in sources.iter().enumerate().filter(|(_, s)| !known.contains(&s.as_str())) {
            let what = format!("no source is called {}", ticked(source));
            out.push(
                Fault::error("unknown-source", spot.get("source").item(n).place(), what)
                    .note("sources stand in knowledge/sources.yaml")
                    .cure_if(suggest::nearest(source, known.iter().copied())),
            );
        }
    }
}
