//! Keeps the calls of a conversation in files: notes every turn, saves, lists, opens. In: turns, names. Out: files, pages.
//! What cannot be written is told and stays in memory.

use super::outcome::tell;
use super::settings::Settings;
use crate::archive::call::{Exchange, Head, SavedCall, Stamp};
use crate::archive::disk::{NotSaved, OwnFile, folder_of};
use crate::archive::{Conversation, Errand, Reply, date, folder, replay, shelf};
use crate::reply::page::{Page, Paragraph, Row, Tone};
use crate::rulebook::Book;
use crate::source::words::{counted, harmless};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Calls shown in a list; beyond them words must be given.
const MOST: usize = 30;
/// Letters of a caller's line in a list.
const SHOWN: usize = 56;

/// One transcript.
#[derive(Debug, Default)]
struct Thread {
    saved: SavedCall,
    file: Option<OwnFile>,
    /// The last failure, so that it is told once.
    failed: Option<String>,
}

/// The transcripts of a conversation.
pub struct Keep {
    /// Where calls that are saved by name go.
    calls: PathBuf,
    head: Head,
    threads: Vec<Thread>,
    /// For each call of the conversation, the number of its transcript.
    of_call: Vec<usize>,
    /// Everything goes to the file of `--save`.
    in_one: bool,
    /// The version of the book in use, worked out once for each book.
    version: Option<(Arc<Book>, String)>,
}

impl Keep {
    pub fn new(settings: &Settings) -> Self {
        let stamp = Stamp { book: settings.book.clone(), ..Stamp::default() };
        let head = Head { stamp, units: settings.units, length: settings.length };
        let file = settings.save.as_ref().map(|path| OwnFile::new(PathBuf::from(path)));
        let first = Thread { saved: SavedCall { head: head.clone(), exchanges: vec![] }, file, failed: None };
        Self {
            calls: PathBuf::from(&settings.calls),
            head,
            threads: vec![first],
            of_call: vec![0],
            in_one: settings.save.is_some(),
            version: None,
        }
    }

    /// Notes a turn, and writes it down where the call has a file.
    pub fn note(&mut self, line: &str, reply: &Reply, before: usize, conversation: &Conversation) {
        let stamp = self.stamp(conversation.book());
        let is_new = self.of_call.len() <= conversation.current();
        let thread = self.thread(conversation.current());
        let thread = match (is_new, self.thread(before) == thread) {
            (_, true) => thread,
            // Another call was taken up: that belongs to neither.
            (false, false) => return,
            // The next caller's words do not belong into the former one's file.
            (true, false) if conversation.ledger().is_empty() => return,
            (true, false) => thread,
        };
        let begins = is_new && self.threads[thread].saved.exchanges.is_empty();
        let thread = &mut self.threads[thread];
        let saved = &mut thread.saved;
        let mut exchange = Exchange {
            typed: line.to_string(),
            shown: replay::plain(&reply.page),
            told: Some(conversation.told()),
            stamp: None,
        };
        if begins {
            // What was shown spoke of the call before; the transcript begins here.
            let alone = SavedCall { head: saved.head.clone(), exchanges: vec![exchange.clone()] };
            exchange = replay::replay(&alone, conversation.book(), conversation.hear()).exchanges.remove(0);
        }
        match saved.exchanges.is_empty() {
            true => saved.head.stamp = stamp,
            false if *saved.stamp_of(saved.exchanges.len()) != stamp => exchange.stamp = Some(stamp),
            false => {}
        }
        saved.exchanges.push(exchange);
        if thread.file.is_some()
            && let Err(why) = thread.write(conversation.book(), false)
        {
            let why = why.to_string();
            if thread.failed.as_ref() != Some(&why) {
                tell(&format!("{why}; the call is not saved. Say save and another name"));
            }
            thread.failed = Some(why);
        }
    }

    /// Does what needs files.
    pub fn run(&mut self, errand: &Errand, conversation: &mut Conversation) -> Page {
        match errand {
            Errand::Save(name) => self.save(name, conversation),
            Errand::List(words) => list(&self.calls, words),
            Errand::Open(name) => self.open(name, conversation).unwrap_or_else(Page::line),
        }
    }

    /// The transcript of a call: each has its own, unless all go to one file that was named at the start.
    fn thread(&mut self, call: usize) -> usize {
        while self.of_call.len() <= call {
            let next = if self.in_one { 0 } else { self.threads.len() };
            if !self.in_one {
                let saved = SavedCall { head: self.head.clone(), exchanges: vec![] };
                self.threads.push(Thread { saved, ..Thread::default() });
            }
            self.of_call.push(next);
        }
        self.of_call[call]
    }

    fn stamp(&mut self, book: &Arc<Book>) -> Stamp {
        let known = self.version.as_ref().filter(|(of, _)| Arc::ptr_eq(of, book)).map(|(_, v)| v.clone());
        let version = known.unwrap_or_else(|| book.version());
        self.version = Some((book.clone(), version.clone()));
        Stamp { book: self.head.stamp.book.clone(), version: Some(version), date: date::today() }
    }

    fn save(&mut self, name: &str, conversation: &Conversation) -> Page {
        let thread = self.thread(conversation.current());
        let thread = &mut self.threads[thread];
        if thread.saved.exchanges.is_empty() {
            return Page::line("Nothing was said yet, so there is nothing to save.");
        }
        if !name.is_empty() {
            let Some(path) = folder::place(&self.calls, name) else {
                return Page::line(format!("\"{}\" is no name for a call: it has no letter.", harmless(name)));
            };
            // The folder of saved calls is made when it is first needed; any other must be there.
            if path.parent() == Some(self.calls.as_path())
                && let Err(why) = make_private(&self.calls)
            {
                return Page::line(format!(
                    "Cannot make the folder {}: {why}. The call is still here.",
                    self.calls.display()
                ));
            }
            if thread.file.as_ref().is_none_or(|file| file.path != path) {
                let before = thread.file.replace(OwnFile::new(path));
                if let Err(why) = thread.write(conversation.book(), !folder::is_path(name)) {
                    thread.file = before;
                    return not_saved(&why);
                }
                return thread.saved_page();
            }
        }
        if thread.file.is_none() {
            return Page::line("Say save and a name for the call: save mrs hall");
        }
        match thread.write(conversation.book(), false) {
            Ok(()) => thread.saved_page(),
            Err(why) => not_saved(&why),
        }
    }

    /// Goes on with a saved call: what was typed is taken again, so that everything said holds; what was shown stays.
    pub fn open(&mut self, name: &str, conversation: &mut Conversation) -> Result<Page, String> {
        let path = self.find(name)?;
        let (file, text) =
            OwnFile::read(path.clone()).map_err(|why| format!("Cannot read {}: {why}.", path.display()))?;
        let saved = SavedCall::read(&text).map_err(|why| format!("{}:{why}.", path.display()))?;
        conversation.begin();
        let first = conversation.current();
        conversation.manner_mut().shape.units = saved.head.units.or(conversation.manner_mut().shape.units);
        let same = saved
            .exchanges
            .iter()
            .filter(|e| conversation.take(&e.typed).errand.is_none())
            .last()
            .is_none_or(|e| e.told.as_ref().is_none_or(|told| *told == conversation.told()));
        if first > 0 {
            self.thread(first - 1);
        }
        self.of_call.truncate(first);
        self.threads.push(Thread { saved, file: Some(file), failed: None });
        self.of_call.resize(conversation.current().max(first) + 1, self.threads.len() - 1);
        let mut page = Page::line(format!("{} is open: say what is new.", path.display()));
        if !same {
            let line =
                "This book answers it differently than the call was answered; weirline replay shows how and why.";
            page.push(Row::new("", Tone::Plain, line));
        }
        page.rows.extend(conversation.take("again").page.rows);
        Ok(page)
    }

    /// The file that a name means: the call of that name, else the only one whose name or words hold it.
    fn find(&self, name: &str) -> Result<PathBuf, String> {
        if let Some(path) = folder::place(&self.calls, name).filter(|p| p.is_file()) {
            return Ok(path);
        }
        let found = folder::list(&self.calls, name).unwrap_or_default();
        match found.as_slice() {
            [one] => Ok(one.path.clone()),
            [] => Err(format!("No saved call in {} is called \"{}\".", self.calls.display(), harmless(name))),
            several => {
                let names: Vec<&str> = several.iter().take(6).map(|e| e.name.as_str()).collect();
                let count = counted(several.len(), "saved call holds", "saved calls hold");
                Err(format!("{count} \"{}\": {}. Say which.", harmless(name), names.join(", ")))
            }
        }
    }
}

impl Thread {
    fn write(&mut self, book: &Book, with_built_in: bool) -> Result<(), NotSaved> {
        let Some(file) = &mut self.file else { return Ok(()) };
        file.write(&self.saved.write())?;
        self.failed = None;
        // Beside a call stands the book that answered it, so that what an edit changed can be found out later.
        if (!book.files.is_empty() || with_built_in)
            && let Err(why) = shelf::keep(folder_of(&file.path), &book.texts())
        {
            tell(&format!("the book could not be kept beside {}: {why}", file.path.display()));
        }
        Ok(())
    }

    fn saved_page(&self) -> Page {
        let path = self.file.as_ref().map_or(Path::new(""), |f| &f.path);
        Page::line(format!("Saved to {}. What is said from here on is saved, too.", path.display()))
    }
}

fn not_saved(why: &NotSaved) -> Page {
    let cure = match why {
        NotSaved::Taken(_) | NotSaved::Changed(_) => "Save under another name",
        NotSaved::Busy(_) => "Try again in a moment",
        NotSaved::NoFolder(_) | NotSaved::Failed(..) => "Save in another place",
    };
    Page::line(format!("Not saved: {why}. {cure}; the call is still here."))
}

#[cfg(unix)]
fn make_private(folder: &Path) -> std::io::Result<()> {
    use std::os::unix::fs::DirBuilderExt;
    std::fs::DirBuilder::new().recursive(true).mode(0o700).create(folder)
}

#[cfg(not(unix))]
fn make_private(folder: &Path) -> std::io::Result<()> {
    std::fs::create_dir_all(folder)
}

/// The page of saved calls that hold some words.
pub fn list(calls: &Path, words: &str) -> Page {
    let found = match folder::list(calls, words) {
        Ok(found) => found,
        Err(why) if why.kind() == std::io::ErrorKind::NotFound => vec![],
        Err(why) => return Page::line(format!("Cannot read {}: {why}.", calls.display())),
    };
    if found.is_empty() {
        return Page::line(match words.is_empty() {
            true => format!("No call is saved in {}. Say save and a name: save mrs hall", calls.display()),
            false => format!("No saved call in {} holds \"{}\".", calls.display(), harmless(words)),
        });
    }
    let widest = found.iter().take(MOST).map(|e| e.name.chars().count()).max().unwrap_or(0).min(28);
    let lines = found.iter().take(MOST).map(|entry| {
        let about = match &entry.call {
            Ok(_) => harmless(entry.first_words()).chars().take(SHOWN).collect::<String>(),
            Err(why) => format!("cannot be used: {why}"),
        };
        Paragraph::led(
            format!("{:<widest$}  ", entry.name),
            format!("{}  {about}", entry.date().unwrap_or("no date   ")),
        )
    });
    let mut page = Page { rows: vec![Row::list("Saved", Tone::Plain, lines.collect())] };
    if found.len() > MOST {
        page.push(Row::new("", Tone::Quiet, format!("{} more: give a word, as in find call koi.", found.len() - MOST)));
    }
    page.push(Row::new("", Tone::Quiet, "open call and a name goes on with one."));
    page
}
