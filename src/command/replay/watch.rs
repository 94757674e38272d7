//! Replays again whenever a file of the book is saved. In: the book's folder. Out: the report, anew each time, until the
//! program is stopped or nobody reads on.

use super::{page, report};
use crate::command::arguments::ReplayFlags;
use crate::command::book::Look;
use crate::command::outcome::{Outcome, show, tell};
use crate::command::settings::Settings;
use std::io::IsTerminal;
use std::time::Duration;

/// How often the folder is looked at: sooner than a hand leaves the keys.
const BETWEEN_LOOKS: Duration = Duration::from_millis(200);

pub fn watch(flags: &ReplayFlags, settings: &Settings) -> Outcome {
    let Some(folder) = &settings.book else {
        tell("the built-in book does not change: name the folder of a book with --book DIR");
        return Outcome::Wrong;
    };
    loop {
        let look = Look::at(folder);
        // A book with faults was told of; it will be saved again.
        if let Ok(report) = report(flags, settings) {
            let mut text = page::page(&report, flags, settings);
            text.push_str(&format!("Watching {folder}. Ctrl-C ends.\n\n"));
            report.unreadable.iter().for_each(|(call, why)| tell(&format!("{call}:{why}")));
            // On a terminal the new report takes the place of the former.
            if std::io::stdout().is_terminal() {
                text.insert_str(0, "\x1b[2J\x1b[H");
            }
            if show(&text).is_err() {
                return Outcome::Fine;
            }
        }
        while Look::at(folder) == look {
            std::thread::sleep(BETWEEN_LOOKS);
        }
    }
}
