//! The commands over all stages. In: arguments, files, the terminal. Out: text, exit status.

pub mod arguments;
pub mod ask;
pub mod book;
pub mod check;
pub mod explain;
pub mod grounds;
pub mod keep;
pub mod keys;
pub mod listen;
pub mod outcome;
pub mod prompt;
pub mod replay;
pub mod saved;
pub mod settings;
pub mod sheet;
pub mod strength;
pub mod talk;

use arguments::{Arguments, Command};
use clap::Parser;
use outcome::Outcome;
use settings::{Settings, Surroundings};
use std::ffi::OsString;

/// A caller's line that begins with a minus and a figure ("-5 guppies") is no flag: the blank before it says so.
fn said(argument: OsString) -> OsString {
    match argument.to_str().and_then(|text| text.strip_prefix('-')) {
        Some(rest) if rest.starts_with(|c: char| c.is_ascii_digit() || c == '.') => format!(" -{rest}").into(),
        _ => argument,
    }
}

/// Runs the command that the arguments of this process name.
pub fn run() -> Outcome {
    let arguments = match Arguments::try_parse_from(std::env::args_os().map(said)) {
        Ok(arguments) => arguments,
        Err(message) => {
            // Help and version are answers; anything else is wrong use.
            let _ = message.print();
            return if message.use_stderr() { Outcome::Wrong } else { Outcome::Fine };
        }
    };
    let settings = Settings::decide(&arguments.flags, &Surroundings::here());
    crate::reply::paint::decide(settings.colour);
    match arguments.command {
        Some(Command::Listen { words }) => listen::listen(&words.join(" "), &settings),
        Some(Command::Check { folder, strength }) => check::check(folder.as_deref(), strength, &settings),
        Some(Command::Unpack { folder }) => book::unpack(&folder),
        Some(Command::Explain { name }) => explain::explain(&name.join(" "), &settings),
        Some(Command::Replay(flags)) => replay::run(&flags, &settings),
        Some(Command::Calls { words }) => saved::list(&words.join(" "), &settings),
        Some(Command::Sheet { name, text, out }) => sheet::sheet(&name.join(" "), text, out.as_deref(), &settings),
        Some(Command::Open { name }) => saved::open(&name.join(" "), &settings),
        None if !arguments.words.is_empty() => ask::once(&arguments.words.join(" "), &settings),
        None if settings.talks => prompt::chat(&settings, None),
        None => ask::piped(&settings, None),
    }
}
