//! unread-conclusion: a rule concludes something that no other rule or figure reads.

use super::Checking;
use crate::rulebook::book::{Conclusion, TROUBLE};
use crate::rulebook::code::Read;
use crate::source::words::ticked;
use crate::source::{Fault, suggest};
use std::collections::BTreeSet;

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    let book = checking.book;
    let mut read: BTreeSet<u16> = BTreeSet::new();
    let pictures = book.pictures.iter().flat_map(|p| p.lines.iter().flat_map(|(_, code)| code.reads()));
    let reads = book.rules.iter().flat_map(|r| r.reads.iter().copied());
    for found in reads.chain(book.figures.iter().flat_map(|f| f.reads.iter().copied())).chain(pictures) {
        if let Read::Conclusion(n) = found {
            read.insert(n);
        }
    }
    // The next question reads this one.
    let unread = |(n, c): &(usize, &Conclusion)| !read.contains(&(*n as u16)) && c.name != TROUBLE;
    for (n, conclusion) in book.conclusions.iter().enumerate().filter(unread) {
        let names = book.conclusions.iter().enumerate().filter(|(m, _)| *m != n).map(|(_, c)| c.name.as_str());
        let near = suggest::nearest(&conclusion.name, names);
        for by in &conclusion.by {
            let (raw, spot) = &checking.entries.rules[*by as usize];
            let item = raw.conclude.iter().position(|c| *c == conclusion.name).unwrap_or(0);
            let what = format!("no rule and no figure reads {}", ticked(&conclusion.name));
            let fault = Fault::warning("unread-conclusion", spot.get("conclude").item(item).place(), what);
            out.push(match near {
                Some(near) => fault.note(format!("there is also {}", ticked(near))),
                None => fault.note("what only advises needs no conclusion"),
            });
        }
    }
}
