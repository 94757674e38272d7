//! no-source: something is called published, and no source is named.

use super::Checking;
use crate::rulebook::raw::BasisWord;
use crate::source::Fault;
use crate::source::words::ticked;

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    let rules = checking.entries.rules.iter().map(|(r, s)| (r.rule.as_str(), &r.basis, &r.source, s));
    let figures = checking.entries.figures.iter().map(|(f, s)| (f.figure.as_str(), &f.basis, &f.source, s));
    let pictures = checking.entries.pictures.iter().map(|(p, s)| (p.picture.as_str(), &p.basis, &p.source, s));
    for (name, basis, source, spot) in rules.chain(figures).chain(pictures) {
        if basis.contains(&BasisWord::Published) && source.is_empty() {
            let what = format!("{} is called published, and no source is named", ticked(name));
            out.push(
                Fault::error("no-source", spot.key("basis").place(), what)
                    .note("sources stand in knowledge/sources.yaml, each with a key")
                    .cure("name its key under `source:`, or say `from memory`"),
            );
        }
    }
}
