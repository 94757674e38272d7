//! opposite-advice: two rules advise opposite things about one thing, and neither outranks the other.

use super::Trial;
use super::witness::witness;
use crate::rulebook::check::rivals;
use crate::source::Fault;
use crate::source::words::ticked;

pub fn faults(trial: &Trial, out: &mut Vec<Fault>) {
    let book = trial.book;
    for (first, second) in rivals(&book.knowledge, &book.schema, &book.rules) {
        let name = |n: u16| &book.rules.rules[n as usize].name;
        let act = |n: u16| {
            let act = book.rules.rules[n as usize].advice.as_ref().and_then(|a| a.act.as_deref()).unwrap_or_default();
            act.strip_prefix("not:").map_or(format!("to {act}"), |denied| format!("not to {}", denied.trim()))
        };
        let place = |n: u16| trial.entries.rules[n as usize].1.get("rule").place();
        let thing =
            book.rules.rules[first as usize].for_thing.map_or("tank", |t| book.schema.thing_of(t).called.as_str());
        let what = |can: &str| {
            format!("{} and {} {can} opposite things about one {thing}", ticked(name(first)), ticked(name(second)))
        };
        let fault = match witness(trial, first, second) {
            Some(line) => Fault::error("opposite-advice", place(first), what("advise")).shown_by(line),
            None => Fault::warning("opposite-advice", place(first), what("may advise"))
                .note("no caller's line was found on which both speak; if both can, say which of them wins"),
        };
        out.push(
            fault
                .other(place(second), format!("it advises {}", act(second)))
                .note(format!("the first advises {}; neither outranks the other", act(first)))
                .cure("`outranks:` with a reason on the one that should win, or one more condition on either"),
        );
    }
}
