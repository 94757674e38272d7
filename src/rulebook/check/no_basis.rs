//! no-basis: a rule or figure does not say what it rests on.

use super::Checking;
use crate::source::Fault;
use crate::source::words::ticked;

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    let rules = checking.entries.rules.iter().map(|(r, s)| (r.rule.as_str(), &r.basis, s));
    let figures = checking.entries.figures.iter().map(|(f, s)| (f.figure.as_str(), &f.basis, s));
    for (name, basis, spot) in rules.chain(figures) {
        if basis.is_empty() {
            let what = format!("nothing says what {} rests on", ticked(name));
            out.push(
                Fault::error("no-basis", spot.key("basis").place(), what)
                    .note("it may be `published`, `worked out`, `common practice`, `from memory`, or several of them")
                    .cure("basis: [from memory]"),
            );
        }
    }
}
