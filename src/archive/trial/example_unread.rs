//! example-unread: an example holds words that are not understood, so that it tries less than it seems to.

use super::Trial;
use crate::source::Fault;
use crate::source::words::and_list;

pub fn faults(trial: &Trial, out: &mut Vec<Fault>) {
    for example in &trial.examples {
        let unread = &trial.calls[example.call].unread;
        if !unread.is_empty() {
            let words: Vec<String> = unread.iter().map(|w| format!("\"{w}\"")).collect();
            let what = format!("not understood in this line: {}", and_list(&words));
            out.push(Fault::warning("example-unread", example.place.clone(), what).cure("say it in other words"));
        }
    }
}
