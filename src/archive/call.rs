//! A call as a plain text: a head, what was typed and shown turn by turn, then what that told, piece by piece. In: text, or
//! exchanges. Out: the other. Demo, regression test and saved call are this one form. Knows no book and no file.

use super::told::{self, Told};
use crate::reply::own_units::Choice;
use crate::reply::text::Length;

/// The first line of every saved call; the number is the version of the form.
const FIRST: &str = "weirline call ";
/// The newest form, which is the one written.
const FORM: u32 = 2;
const TYPED: &str = "call> ";
/// Stands before the further lines of a turn that had several.
const WENT_ON: &str = "  ..> ";
/// From here on another book, or another day, answered.
const STAMP: &str = "book> ";
/// Behind it stands what was told.
const TOLD: &str = "told>";
/// What `git merge` leaves where two versions do not agree.
const CONFLICTS: [&str; 3] = ["<<<<<<< ", ">>>>>>> ", "||||||| "];
const BUILT_IN: &str = "built in";
/// The width at which calls are saved.
pub const WIDTH: usize = 80;

/// Which book answered, and when; a demo carries neither version nor date, so that it is the same on every day.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stamp {
    /// Name of the book; `None`: the built-in one.
    pub book: Option<String>,
    /// Of the book's content.
    pub version: Option<String>,
    /// As 2026-11-25.
    pub date: Option<String>,
}

/// What shaped the replies.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Head {
    pub stamp: Stamp,
    pub units: Option<Choice>,
    pub length: Length,
}

/// One turn: what was typed, what was shown, what that told.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Exchange {
    pub typed: String,
    pub shown: String,
    /// What stood after this turn; `None` where it was not written down (the first form).
    pub told: Option<Told>,
    /// Where it is another than before.
    pub stamp: Option<Stamp>,
}

/// A saved call.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SavedCall {
    pub head: Head,
    pub exchanges: Vec<Exchange>,
}

/// Why a text is not a saved call.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotACall {
    /// The first line is another.
    First(String),
    /// The form is of a later version.
    Version(String),
    /// A line of the head that is not known, with its number.
    Head(usize, String),
    /// Text stands before anything was typed.
    Before(usize),
    /// A line of what was told that is not known.
    Told(usize, String),
    /// A merge left two versions side by side.
    Conflict(usize),
}

impl std::fmt::Display for NotACall {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::First(line) => write!(f, "1: a saved call begins with \"{FIRST}{FORM}\", this one with \"{line}\""),
            Self::Version(line) => {
                write!(f, "1: \"{line}\" is of a later version; this program reads up to {FORM}: use a newer program")
            }
            Self::Head(n, line) => write!(f, "{n}: the head has no line \"{line}\""),
            Self::Before(n) => write!(f, "{n}: text stands before the first \"{}\"", TYPED.trim_end()),
            Self::Told(n, line) => write!(f, "{n}: below \"{TOLD}\" there is no line \"{line}\""),
            Self::Conflict(n) => write!(f, "{n}: a merge left two versions here; keep one of them"),
        }
    }
}

impl Stamp {
    fn book_word(&self) -> &str {
        self.book.as_deref().unwrap_or(BUILT_IN)
    }

    fn set_book(&mut self, word: &str) {
        self.book = (word != BUILT_IN).then(|| word.to_string());
    }

    /// "my-book, version 3f9a2c41d0b7, 2026-11-25".
    fn write(&self) -> String {
        let version = self.version.as_ref().map(|v| format!(", version {v}"));
        let date = self.date.as_ref().map(|d| format!(", {d}"));
        format!("{}{}{}", self.book_word(), version.unwrap_or_default(), date.unwrap_or_default())
    }

    fn read(text: &str) -> Self {
        let mut stamp = Self::default();
        let mut rest = text.trim();
        let is_date = |t: &str| t.len() == 10 && t.chars().all(|c| c.is_ascii_digit() || c == '-');
        if let Some((front, last)) = rest.rsplit_once(", ").filter(|(_, last)| is_date(last)) {
            (stamp.date, rest) = (Some(last.to_string()), front);
        }
        if let Some((front, last)) = rest.rsplit_once(", version ") {
            (stamp.version, rest) = (Some(last.to_string()), front);
        }
        stamp.set_book(rest);
        stamp
    }
}

impl SavedCall {
    /// The text of a call.
    pub fn write(&self) -> String {
        let mut out = format!("{FIRST}{FORM}\nbook: {}\n", self.head.stamp.book_word());
        let mut line = |key: &str, value: Option<&str>| {
            if let Some(value) = value {
                out.push_str(&format!("{key}: {value}\n"));
            }
        };
        line("version", self.head.stamp.version.as_deref());
        line("date", self.head.stamp.date.as_deref());
        line("units", self.head.units.map(|u| u.word()));
        line("length", (self.head.length == Length::Full).then_some("full"));
        for exchange in &self.exchanges {
            let typed = exchange.typed.replace('\n', &format!("\n{WENT_ON}"));
            out.push('\n');
            if let Some(stamp) = &exchange.stamp {
                out.push_str(&format!("{STAMP}{}\n", stamp.write()));
            }
            out.push_str(&format!("{TYPED}{typed}\n{}", exchange.shown));
        }
        let told: Option<Vec<&Told>> = self.exchanges.iter().map(|e| e.told.as_ref()).collect();
        if let Some(told) = told.filter(|t| !t.is_empty()) {
            out.push_str(&format!("\n{TOLD}\n{}", told::write(&told)));
        }
        out
    }

    /// Reads the text of a call. Line ends may be those of any system.
    pub fn read(text: &str) -> Result<Self, NotACall> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text).replace("\r\n", "\n");
        let lines: Vec<&str> = text.lines().collect();
        let first = lines.first().map_or("", |line| line.trim_end());
        match first.strip_prefix(FIRST).map(str::parse::<u32>) {
            Some(Ok(1..=FORM)) => {}
            Some(Ok(n)) if n > FORM => return Err(NotACall::Version(first.to_string())),
            _ => return Err(NotACall::First(first.chars().take(60).collect())),
        }
        if let Some(n) = lines.iter().position(|line| CONFLICTS.iter().any(|mark| line.starts_with(mark))) {
            return Err(NotACall::Conflict(n + 1));
        }
        let end = lines.iter().rposition(|line| line.trim_end() == TOLD).unwrap_or(lines.len());
        let mut call = SavedCall::default();
        let (mut in_head, mut stamp) = (true, None);
        for (n, line) in lines.iter().enumerate().take(end).skip(1) {
            if let Some(typed) = line.strip_prefix(TYPED).or_else(|| (*line == TYPED.trim_end()).then_some("")) {
                in_head = false;
                let typed = typed.to_string();
                call.exchanges.push(Exchange { typed, stamp: stamp.take(), ..Exchange::default() });
            } else if let Some(text) = line.strip_prefix(STAMP) {
                stamp = Some(Stamp::read(text));
            } else if in_head {
                call.head_line(line, n + 1)?;
            } else if let Some(last) = call.exchanges.last_mut() {
                match line.strip_prefix(WENT_ON) {
                    Some(more) if last.shown.is_empty() => last.typed.push_str(&format!("\n{more}")),
                    _ => last.shown.push_str(&format!("{line}\n")),
                }
            }
        }
        // The blank line before the next turn belongs to the form, not to the reply.
        for exchange in &mut call.exchanges {
            while exchange.shown.ends_with("\n\n") {
                exchange.shown.pop();
            }
            if exchange.shown == "\n" {
                exchange.shown.clear();
            }
        }
        if let Some(below) = lines.get(end + 1..) {
            let wrong = |at: usize| NotACall::Told(end + at + 2, below[at].to_string());
            let told = told::read(below, call.exchanges.len()).map_err(wrong)?;
            call.exchanges.iter_mut().zip(told).for_each(|(exchange, told)| exchange.told = Some(told));
        }
        Ok(call)
    }

    /// What answered the n-th turn.
    pub fn stamp_of(&self, n: usize) -> &Stamp {
        let before = self.exchanges.get(..=n).unwrap_or(&self.exchanges);
        before.iter().rev().find_map(|e| e.stamp.as_ref()).unwrap_or(&self.head.stamp)
    }

    fn head_line(&mut self, line: &str, n: usize) -> Result<(), NotACall> {
        let unknown = || NotACall::Head(n, line.to_string());
        match line.split_once(": ").map(|(key, value)| (key, value.trim())) {
            _ if line.trim().is_empty() || line.starts_with('#') => {}
            Some(("book", word)) => self.head.stamp.set_book(word),
            Some(("version", version)) => self.head.stamp.version = Some(version.to_string()),
            Some(("date", date)) => self.head.stamp.date = Some(date.to_string()),
            Some(("units", word)) => self.head.units = Some(Choice::by_word(word).ok_or_else(unknown)?),
            Some(("length", "full")) => self.head.length = Length::Full,
            Some(("length", "brief")) => self.head.length = Length::Brief,
            None => return Err(NotACall::Before(n)),
            Some(_) => return Err(unknown()),
        }
        Ok(())
    }
}
