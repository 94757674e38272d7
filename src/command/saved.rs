//! Saved calls by command: lists them, opens one and goes on with it. In: words, a name. Out: a list; the chat.

use super::outcome::{Outcome, show};
use super::settings::Settings;
use super::{ask, keep, prompt};
use crate::archive::folder;
use crate::reply::lines::set;
use crate::reply::paint::paint;
use serde_json::json;
use std::path::Path;

/// Lists the saved calls that hold all of the words.
pub fn list(words: &str, settings: &Settings) -> Outcome {
    let calls = Path::new(&settings.calls);
    if settings.json {
        let found = folder::list(calls, words).unwrap_or_default();
        let entries = found.iter().map(|e| {
            json!({
                "name": e.name, "file": e.path.to_string_lossy(), "date": e.date(), "first": e.first_words(),
                "fault": e.call.as_ref().err(),
            })
        });
        let _ = show(&format!("{}\n", json!({ "saved": entries.collect::<Vec<_>>() })));
        return Outcome::Fine;
    }
    let _ = show(&paint(&set(&keep::list(calls, words), settings.width), settings.colour));
    Outcome::Fine
}

/// Goes on with a saved call, at the prompt or with piped lines.
pub fn open(name: &str, settings: &Settings) -> Outcome {
    if settings.talks { prompt::chat(settings, Some(name)) } else { ask::piped(settings, Some(name)) }
}
