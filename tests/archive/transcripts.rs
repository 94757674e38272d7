//! Every call of transcripts-demo/, answered again and compared whole.

use crate::reply::shipped;
use std::path::{Path, PathBuf};
use weirline::archive::call::SavedCall;
use weirline::archive::listener;
use weirline::archive::replay::{Difference, differences, replay};

/// The demo calls with their texts.
pub fn demos() -> Vec<(PathBuf, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("transcripts-demo");
    let mut files: Vec<PathBuf> = std::fs::read_dir(&folder).unwrap().flatten().map(|e| e.path()).collect();
    files.sort();
    files.into_iter().map(|f| (f.clone(), std::fs::read_to_string(f).unwrap())).collect()
}

#[test]
fn every_demo_is_answered_as_it_stands() {
    let book = shipped();
    let hear = listener(&book.knowledge);
    let demos = demos();
    assert!(demos.len() >= 25, "only {} demos", demos.len());
    let mut wrong = String::new();
    for (file, text) in &demos {
        let call = SavedCall::read(text).unwrap_or_else(|why| panic!("{}:{why}", file.display()));
        let after = replay(&call, &book, &hear).write();
        if after != *text {
            wrong.push_str(&format!("{}\n", file.display()));
            for line in differences(text, &after) {
                match line {
                    Difference::Gone(line) => wrong.push_str(&format!("- {line}\n")),
                    Difference::New(line) => wrong.push_str(&format!("+ {line}\n")),
                    Difference::Same(_) => {}
                }
            }
        }
    }
    assert!(wrong.is_empty(), "read what changed; if it is right: weirline replay --accept transcripts-demo\n{wrong}");
}

/// The first screen of an answer: what can be read out in half a minute.
const SCREEN: usize = 16;

#[test]
fn the_first_screen_of_every_demo_is_short() {
    for (file, text) in demos() {
        let call = SavedCall::read(&text).unwrap_or_else(|why| panic!("{}:{why}", file.display()));
        for exchange in &call.exchanges {
            // Only what was asked for at length may be longer: the rest, the reasons, how sure, on whose word.
            let wanted = ["more", "why", "how sure", "says who", "show figures"];
            let lines = exchange.shown.trim_end().lines().count();
            let asked = exchange.typed.to_lowercase();
            if !wanted.iter().any(|w| asked.starts_with(w)) {
                assert!(lines <= SCREEN, "{}: {lines} lines after {asked}", file.display());
            }
        }
    }
}
