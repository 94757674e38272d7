//! A call as a plain text: a head, then what was typed and what was shown, turn by turn. In: text, or exchanges. Out: the
//! other. Files are written whole or not at all. Knows no book.

use crate::reply::own_units::Choice;
use crate::reply::text::Length;
use std::io::Write;
use std::path::Path;

/// The first line of every saved call; the number is the version of the form.
const FIRST: &str = "weirline call 1";
const TYPED: &str = "call> ";
/// Stands before the further lines of a turn that had several.
const WENT_ON: &str = "  ..> ";
/// The width at which calls are saved.
pub const WIDTH: usize = 80;

/// What shaped the replies.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Head {
    /// Name of the book; `None`: the built-in one.
    pub book: Option<String>,
    pub units: Option<Choice>,
    pub length: Length,
}

/// One turn: what was typed, what was shown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Exchange {
    pub typed: String,
    pub shown: String,
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
}

impl std::fmt::Display for NotACall {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::First(line) => write!(f, "1: a saved call begins with \"{FIRST}\", this one with \"{line}\""),
            Self::Version(line) => write!(f, "1: \"{line}\" is of a version that this program does not read"),
            Self::Head(n, line) => write!(f, "{n}: the head has no line \"{line}\""),
            Self::Before(n) => write!(f, "{n}: text stands before the first \"{}\"", TYPED.trim_end()),
        }
    }
}

impl SavedCall {
    /// The text of a call.
    pub fn write(&self) -> String {
        let mut out = format!("{FIRST}\n");
        out.push_str(&format!("book: {}\n", self.head.book.as_deref().unwrap_or("built in")));
        if let Some(units) = self.head.units {
            out.push_str(&format!("units: {}\n", units.word()));
        }
        if self.head.length == Length::Full {
            out.push_str("length: full\n");
        }
        for exchange in &self.exchanges {
            let typed = exchange.typed.replace('\n', &format!("\n{WENT_ON}"));
            out.push_str(&format!("\n{TYPED}{typed}\n{}", exchange.shown));
        }
        out
    }

    /// Reads the text of a call. Line ends may be those of any system.
    pub fn read(text: &str) -> Result<Self, NotACall> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text).replace("\r\n", "\n");
        let mut lines = text.lines().enumerate();
        match lines.next().map(|(_, line)| line.trim_end()) {
            Some(FIRST) => {}
            Some(line) if line.starts_with("weirline call ") => return Err(NotACall::Version(line.to_string())),
            line => return Err(NotACall::First(line.unwrap_or("").chars().take(60).collect())),
        }
        let mut call = SavedCall::default();
        let mut in_head = true;
        for (n, line) in lines {
            if let Some(typed) = line.strip_prefix(TYPED).or_else(|| (line == TYPED.trim_end()).then_some("")) {
                in_head = false;
                call.exchanges.push(Exchange { typed: typed.to_string(), shown: String::new() });
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
        Ok(call)
    }

    fn head_line(&mut self, line: &str, n: usize) -> Result<(), NotACall> {
        let unknown = || NotACall::Head(n, line.to_string());
        match line.split_once(": ").map(|(key, value)| (key, value.trim())) {
            _ if line.trim().is_empty() || line.starts_with('#') => {}
            Some(("book", "built in")) => self.head.book = None,
            Some(("book", name)) => self.head.book = Some(name.to_string()),
            Some(("units", word)) => self.head.units = Some(Choice::by_word(word).ok_or_else(unknown)?),
            Some(("length", "full")) => self.head.length = Length::Full,
            Some(("length", "brief")) => self.head.length = Length::Brief,
            None => return Err(NotACall::Before(n)),
            Some(_) => return Err(unknown()),
        }
        Ok(())
    }
}

/// Writes a file whole or not at all: into a new file beside it, which then takes its name.
pub fn write_whole(path: &Path, text: &str) -> std::io::Result<()> {
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = tempfile::NamedTempFile::new_in(folder)?;
    file.write_all(text.as_bytes())?;
    file.as_file().sync_all()?;
    // A new file has private rights; one that was there keeps its own, and a first one gets the usual.
    let rights = match std::fs::metadata(path) {
        Ok(there) => Some(there.permissions()),
        Err(_) => usual_rights(),
    };
    if let Some(rights) = rights {
        file.as_file().set_permissions(rights)?;
    }
    file.persist(path).map(|_| ()).map_err(|e| e.error)
}

#[cfg(unix)]
fn usual_rights() -> Option<std::fs::Permissions> {
    use std::os::unix::fs::PermissionsExt;
    Some(std::fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn usual_rights() -> Option<std::fs::Permissions> {
    None
}
