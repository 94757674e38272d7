//! Settings, decided once: the flag, then the environment, then the terminal. In: arguments, surroundings. Out: settings.
//! Reads nothing itself, so that it can be tried without a terminal.

use super::arguments::{Colour, Flags, UnitsFlag};
use crate::archive::Manner;
use crate::reply::own_units::Choice;
use crate::reply::text::Length;
use crate::reply::{Shape, lines};

/// What a terminal that does not tell its width is taken to have, and the widest page that still reads well.
pub const WIDTH: usize = 80;
const WIDEST: usize = 100;

/// What the program was started in.
#[derive(Clone, Debug, Default)]
pub struct Surroundings {
    /// `NO_COLOR`, `TERM`, `WEIRLINE_BOOK`, `WEIRLINE_HISTORY`, `WEIRLINE_CALLS`, as far as they are set.
    pub no_color: Option<String>,
    pub term: Option<String>,
    pub book: Option<String>,
    pub history: Option<String>,
    pub calls: Option<String>,
    pub stdin_is_terminal: bool,
    pub stdout_is_terminal: bool,
    /// Columns of the terminal on standard output.
    pub columns: Option<usize>,
}

impl Surroundings {
    /// The surroundings of this process.
    pub fn here() -> Self {
        use std::io::IsTerminal;
        let variable = |name: &str| std::env::var_os(name).map(|v| v.to_string_lossy().into_owned());
        Self {
            no_color: variable("NO_COLOR"),
            term: variable("TERM"),
            book: variable("WEIRLINE_BOOK"),
            history: variable("WEIRLINE_HISTORY"),
            calls: variable("WEIRLINE_CALLS"),
            stdin_is_terminal: std::io::stdin().is_terminal(),
            stdout_is_terminal: std::io::stdout().is_terminal(),
            columns: terminal_size::terminal_size().map(|(width, _)| usize::from(width.0)),
        }
    }
}

/// Where calls saved by name go when nothing else is said: a folder one sees.
pub const CALLS: &str = "calls";

/// Everything that holds for the whole run.
#[derive(Clone, Debug)]
pub struct Settings {
    pub colour: bool,
    pub width: usize,
    pub units: Option<Choice>,
    pub length: Length,
    pub json: bool,
    /// The folder of the book; `None`: the built-in one.
    pub book: Option<String>,
    pub history: Option<String>,
    pub save: Option<String>,
    /// The folder of calls saved by name.
    pub calls: String,
    pub talks: bool,
}

impl Settings {
    pub fn decide(flags: &Flags, around: &Surroundings) -> Self {
        let set = |value: &Option<String>| value.clone().filter(|v| !v.is_empty());
        let colour = match flags.color {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => {
                around.stdout_is_terminal && set(&around.no_color).is_none() && around.term.as_deref() != Some("dumb")
            }
        };
        let terminal = around.columns.filter(|_| around.stdout_is_terminal).filter(|c| *c > 0);
        Self {
            colour: colour && !flags.json,
            width: flags.width.unwrap_or(terminal.unwrap_or(WIDTH).min(WIDEST)).max(lines::NARROWEST),
            units: flags.units.map(|units| match units {
                UnitsFlag::Litres => Choice::Litres,
                UnitsFlag::Us => Choice::Us,
                UnitsFlag::Imperial => Choice::Imperial,
            }),
            length: if flags.full { Length::Full } else { Length::Brief },
            json: flags.json,
            book: flags.book.clone().or(set(&around.book)),
            history: flags.history.clone().or(set(&around.history)),
            save: flags.save.clone(),
            calls: flags.calls.clone().or(set(&around.calls)).unwrap_or_else(|| CALLS.to_string()),
            talks: around.stdin_is_terminal,
        }
    }

    /// How a conversation is held.
    pub fn manner(&self, once: bool) -> Manner {
        let shape = Shape { units: self.units, ..Shape::default() };
        Manner { shape, length: self.length, width: self.width, once }
    }
}
