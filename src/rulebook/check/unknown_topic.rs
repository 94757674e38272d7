//! unknown-topic: a rule answers a question that nobody can ask.

use super::Checking;
use crate::rulebook::topics;
use crate::source::words::ticked;
use crate::source::{Fault, suggest};

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    let rules = checking.entries.rules.iter().map(|(r, s)| (r.topic.as_str(), s));
    let pictures = checking.entries.pictures.iter().map(|(p, s)| (p.topic.as_str(), s));
    for (topic, spot) in rules.chain(pictures).filter(|(t, _)| !topics::is_topic(t)) {
        let fault =
            Fault::error("unknown-topic", spot.get("topic").place(), format!("no topic is called {}", ticked(topic)));
        out.push(match suggest::nearest(topic, topics::names()) {
            Some(near) => fault.cure(near),
            None => fault.note(format!("topics: {}", topics::names().collect::<Vec<_>>().join(", "))),
        });
    }
}
