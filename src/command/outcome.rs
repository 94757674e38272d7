//! What a command ends with, and the one place where anything is written to standard output. In: text. Out: exit status.

use std::io::Write;
use std::process::ExitCode;

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Answered, or clean.
    Fine,
    /// `check` or `replay` found something.
    Found,
    /// Wrong use, an unreadable file, a book with errors.
    Wrong,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Fine => ExitCode::SUCCESS,
            Outcome::Found => ExitCode::from(1),
            Outcome::Wrong => ExitCode::from(2),
        }
    }
}

/// Standard output was closed: nobody reads on, and that is no fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Closed;

/// Writes to standard output at once.
pub fn show(text: &str) -> Result<(), Closed> {
    let mut out = std::io::stdout().lock();
    out.write_all(text.as_bytes()).and_then(|()| out.flush()).map_err(|_| Closed)
}

/// A message beside the answer, on standard error; nobody may be there to read it.
pub fn tell(message: &str) {
    let _ = writeln!(std::io::stderr().lock(), "weirline: {message}");
}

/// Text that is a message already, on standard error.
pub fn tell_text(text: &str) {
    let _ = write!(std::io::stderr().lock(), "{text}");
}
