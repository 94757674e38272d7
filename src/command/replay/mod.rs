//! Answers saved calls again. In: files and folders. Out: what changed advice by advice, by cause; status 1 if anything did.

mod books;
mod page;
mod watch;

use super::arguments::ReplayFlags;
use super::book::{Opened, open_to_hear};
use super::outcome::{Outcome, show, tell};
use super::settings::Settings;
use crate::archive::call::SavedCall;
use crate::archive::cause::{Cause, Reader};
use crate::archive::compare::{Change, compare};
use crate::archive::disk::{OwnFile, folder_of};
use crate::archive::folder::calls_in;
use crate::archive::replay::replay;
use crate::archive::report::{ChangedCall, FORM, Found, NamedEdit, Report, Why};
use crate::archive::shelf;
use books::Books;
use indicatif::{ProgressBar, ProgressStyle};
use rayon::prelude::*;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Fewer calls are answered before a bar would be seen.
const WORTH_A_BAR: usize = 100;

/// Runs the command.
pub fn run(flags: &ReplayFlags, settings: &Settings) -> Outcome {
    if flags.merge {
        return merge(&flags.paths, flags, settings);
    }
    if flags.watch {
        return watch::watch(flags, settings);
    }
    match report(flags, settings) {
        Ok(report) => tell_report(&report, flags, settings),
        Err(outcome) => outcome,
    }
}

/// Replays, finds causes, accepts.
fn report(flags: &ReplayFlags, settings: &Settings) -> Result<Report, Outcome> {
    let Opened { book, hear, .. } = open_to_hear(settings.book.as_deref()).map_err(|no_book| {
        no_book.tell();
        Outcome::Wrong
    })?;
    let reader = Reader { book: Arc::new(book), hear };
    let files = files(flags)?;
    let books = Books::new(&reader.book, settings, flags.against.as_deref())?;
    let bar = bar(files.len(), settings);
    let calls: Vec<Result<Option<Answered>, (String, String)>> = files
        .par_iter()
        .map(|file| {
            let answered = answer(file, &reader);
            bar.inc(1);
            answered
        })
        .collect();
    bar.finish_and_clear();
    let mut report = Report { form: FORM, calls: files.len(), ..Report::default() };
    let mut changed = Vec::new();
    for call in calls {
        match call {
            Ok(None) => report.same += 1,
            Ok(Some(call)) => changed.push(call),
            Err(unreadable) => report.unreadable.push(unreadable),
        }
    }
    let bar = self::bar(changed.len(), settings);
    let found: Vec<Option<ChangedCall>> = changed
        .into_par_iter()
        .map(|call| {
            let found = call.found(&books, flags, &reader);
            bar.inc(1);
            found
        })
        .collect();
    bar.finish_and_clear();
    for call in found {
        match call {
            Some(call) => report.changed.push(call),
            None => report.same += 1,
        }
    }
    report.sort();
    Ok(report)
}

fn files(flags: &ReplayFlags) -> Result<Vec<PathBuf>, Outcome> {
    let mut files = Vec::new();
    for path in &flags.paths {
        match calls_in(Path::new(path)) {
            Ok(found) => files.extend(found),
            Err(why) => {
                tell(&format!("cannot read {path}: {why}"));
                return Err(Outcome::Wrong);
            }
        }
    }
    files.sort();
    files.dedup();
    Ok(match flags.part {
        // Every so many-th call: shares are as varied as the whole.
        Some((n, of)) => files.into_iter().skip(n - 1).step_by(of).collect(),
        None => files,
    })
}

fn bar(count: usize, settings: &Settings) -> ProgressBar {
    if count < WORTH_A_BAR || settings.json {
        return ProgressBar::hidden();
    }
    let style = ProgressStyle::with_template("{pos} of {len} calls {bar:40} {eta} left");
    // It draws on standard error, and only where that is a terminal.
    ProgressBar::new(count as u64).with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()))
}

/// A call with what it would be now.
struct Answered {
    name: String,
    file: PathBuf,
    before: SavedCall,
    after: SavedCall,
    changes: Vec<Change>,
}

/// Answers one call again; `None`: as before. Errors: its name, and why it cannot be read.
fn answer(file: &Path, reader: &Reader) -> Result<Option<Answered>, (String, String)> {
    let name = file.to_string_lossy().into_owned();
    let text = std::fs::read_to_string(file).map_err(|why| (name.clone(), format!("cannot be read: {why}")))?;
    let before = SavedCall::read(&text).map_err(|why| (name.clone(), why.to_string()))?;
    let after = replay(&before, &reader.book, &reader.hear);
    let changes = compare(&before, &after);
    if changes.is_empty() && before == after {
        return Ok(None);
    }
    Ok(Some(Answered { name, file: file.to_path_buf(), before, after, changes }))
}

impl Answered {
    /// Its differences with their causes; `None` when nothing of it is asked for. Written anew where that is wanted.
    fn found(self, books: &Books, flags: &ReplayFlags, reader: &Reader) -> Option<ChangedCall> {
        let found = self.causes(books);
        let is_all = |w: &Found| flags.only.is_empty() || flags.only.iter().any(|name| names(name, &self.name, w));
        let wanted: Vec<Found> = found.iter().filter(|f| is_all(f)).cloned().collect();
        if wanted.is_empty() && !found.is_empty() {
            return None;
        }
        // What is not told apart by advice (the line on which a rule stands) is taken along silently.
        let accepts = flags.accept && wanted.len() == found.len();
        let accepted = accepts && self.accept(books, reader).map_err(|why| tell(&why)).is_ok();
        if wanted.is_empty() {
            return None;
        }
        let call_back = wanted.iter().any(|f| f.change.needs_call_back());
        Some(ChangedCall { call: self.name, call_back, accepted, found: wanted })
    }

    fn causes(&self, books: &Books) -> Vec<Found> {
        let mut out: Vec<Option<Why>> = vec![None; self.changes.len()];
        // Turns of one call may have been answered with several books.
        for n in 0..self.changes.len() {
            if out[n].is_some() {
                continue;
            }
            let stamp = self.before.stamp_of(self.changes[n].turn - 1);
            let same: Vec<usize> =
                (n..out.len()).filter(|m| self.before.stamp_of(self.changes[*m].turn - 1) == stamp).collect();
            match books.causes(stamp, folder_of(&self.file)) {
                Err(why) => same.iter().for_each(|m| out[*m] = Some(Why::NoBook(why.clone()))),
                Ok(causes) => {
                    let changes: Vec<&Change> = same.iter().map(|m| &self.changes[*m]).collect();
                    for (m, cause) in same.iter().zip(causes.of(&self.before, &changes)) {
                        out[*m] = Some(match cause {
                            Cause::NotTheBook => Why::NotTheBook,
                            Cause::Edits(edits) => {
                                Why::Edits(edits.into_iter().map(|e| NamedEdit::of(&causes.edits[e])).collect())
                            }
                        });
                    }
                }
            }
        }
        let each = self.changes.iter().cloned().zip(out);
        each.map(|(change, why)| Found { change, why: why.unwrap_or(Why::NotTheBook) }).collect()
    }

    /// Writes the call as it is answered now, unless somebody changed it meanwhile.
    fn accept(&self, books: &Books, reader: &Reader) -> Result<(), String> {
        let (mut file, text) =
            OwnFile::read(self.file.clone()).map_err(|why| format!("cannot read {}: {why}", self.name))?;
        if SavedCall::read(&text).as_ref() != Ok(&self.before) {
            return Err(format!("{} was changed meanwhile; it is left as it is", self.name));
        }
        let mut after = self.after.clone();
        after.head.stamp.book = books.name.clone();
        if after.head.stamp.version.is_some() {
            after.head.stamp.version = Some(books.version.clone());
            if !reader.book.files.is_empty()
                && let Err(why) = shelf::keep(folder_of(&self.file), &reader.book.texts())
            {
                tell(&format!("the book could not be kept beside {}: {why}", self.name));
            }
        }
        after.exchanges.iter_mut().for_each(|e| e.stamp = None);
        file.write(&after.write()).map_err(|why| why.to_string())
    }
}

/// Whether a name given with `--only` means this call or this cause.
fn names(name: &str, call: &str, found: &Found) -> bool {
    let stem = Path::new(call).file_stem().is_some_and(|s| s.to_string_lossy() == name);
    if call == name || stem {
        return true;
    }
    match &found.why {
        Why::Edits(edits) => edits.iter().all(|e| e.name == name || e.place() == name || e.file == name),
        Why::NotTheBook | Why::NoBook(_) => false,
    }
}

/// Reports of shares as one.
fn merge(paths: &[String], flags: &ReplayFlags, settings: &Settings) -> Outcome {
    let mut parts = Vec::new();
    for path in paths {
        let read = std::fs::read_to_string(path).map_err(|why| why.to_string());
        match read.and_then(|text| serde_json::from_str::<Report>(&text).map_err(|why| why.to_string())) {
            Ok(part) if part.form == FORM => parts.push(part),
            Ok(part) => {
                tell(&format!("{path} is a report of form {}; this program reads form {FORM}", part.form));
                return Outcome::Wrong;
            }
            Err(why) => {
                tell(&format!("{path} is no report of a replay: {why}"));
                return Outcome::Wrong;
            }
        }
    }
    tell_report(&Report::merged(parts), flags, settings)
}

fn tell_report(report: &Report, flags: &ReplayFlags, settings: &Settings) -> Outcome {
    if settings.json {
        let _ = show(&format!("{}\n", object(report)));
    } else {
        report.unreadable.iter().for_each(|(call, why)| tell(&format!("{call}:{why}")));
        let _ = show(&page::page(report, flags, settings));
    }
    let open = report.changed.iter().any(|c| !c.accepted);
    match (report.unreadable.is_empty(), open) {
        (false, _) => Outcome::Wrong,
        (true, true) => Outcome::Found,
        (true, false) => Outcome::Fine,
    }
}

/// The report for machines: its own keys, and `causes`, the same grouped.
fn object(report: &Report) -> Value {
    let mut object = serde_json::to_value(report).unwrap_or_default();
    let groups = report.groups();
    object["causes"] = groups
        .iter()
        .map(|g| {
            let counts: Vec<Value> = g.counts.iter().map(|(what, n)| json!({ "what": what, "count": n })).collect();
            json!({ "why": g.why, "calls": g.calls, "call backs": g.call_backs, "counts": counts, "example": g.example.0 })
        })
        .collect();
    object
}
