//! The command line as it may be written. In: arguments. Out: a command and flags, or clap's own message. Does nothing.

use clap::{ArgAction, Args, Parser, Subcommand, ValueEnum};

/// Advises on aquarium and pond filters: say the tank, the fish, the filter and the worry.
///
///   weirline                                      the chat
///   weirline 55 gallon, 30 small tetras, fry      one call, answered
///   weirline check my-book                        checks a book of rules
#[derive(Clone, Debug, Parser)]
#[command(name = "weirline", version, verbatim_doc_comment, args_conflicts_with_subcommands = false)]
#[command(subcommand_precedence_over_arg = true, disable_help_subcommand = true, disable_help_flag = true)]
pub struct Arguments {
    #[command(subcommand)]
    pub command: Option<Command>,

    /// A caller's line: answered, then the program ends
    #[arg(value_name = "WORDS")]
    pub words: Vec<String>,

    #[command(flatten)]
    pub flags: Flags,
}

/// Flags that hold for every command.
#[derive(Clone, Debug, Default, Args)]
pub struct Flags {
    /// The folder of the book in use (else WEIRLINE_BOOK, else the built-in book)
    #[arg(long, global = true, value_name = "DIR")]
    pub book: Option<String>,

    /// One JSON object instead of text
    #[arg(long, global = true)]
    pub json: bool,

    /// The first screen only (the default)
    #[arg(long, global = true, conflicts_with = "full")]
    pub brief: bool,

    /// Everything: all advice, reasons, figures and what they rest on
    #[arg(long, global = true)]
    pub full: bool,

    /// Units of the answer, whatever was said
    #[arg(long, global = true, value_name = "UNITS")]
    pub units: Option<UnitsFlag>,

    /// Columns of the page
    #[arg(long, global = true, value_name = "N")]
    pub width: Option<usize>,

    /// When to colour
    #[arg(long, global = true, value_name = "WHEN", default_value = "auto")]
    pub color: Colour,

    /// Keep the lines typed at the prompt in this file (else WEIRLINE_HISTORY, else nowhere)
    #[arg(long, global = true, value_name = "FILE")]
    pub history: Option<String>,

    /// Write the call to this file after every turn
    #[arg(long, global = true, value_name = "FILE")]
    pub save: Option<String>,

    /// The folder of calls saved by name (else WEIRLINE_CALLS, else calls)
    #[arg(long, global = true, value_name = "DIR")]
    pub calls: Option<String>,

    /// Print this help
    #[arg(short, long, global = true, action = ArgAction::HelpLong)]
    pub help: Option<bool>,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    #[default]
    Auto,
    Always,
    Never,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum UnitsFlag {
    Litres,
    Us,
    Imperial,
}

#[derive(Clone, Debug, PartialEq, Eq, Subcommand)]
pub enum Command {
    /// Shows how a line is read, word by word
    Listen {
        #[arg(required = true)]
        words: Vec<String>,
    },
    /// Checks a book (default: the one in use); exit status 1 if anything is found
    Check {
        folder: Option<String>,
        /// Also try every change of the rules; list those that no example and no saved call (--calls) notices, each with an
        /// example that would (takes a while)
        #[arg(long)]
        strength: bool,
    },
    /// Writes an editable copy of the built-in book
    Unpack { folder: String },
    /// Explains a rule, figure, medium, filter, term, symptom, source, caution, or a fault that check finds
    Explain {
        #[arg(required = true)]
        name: Vec<String>,
    },
    /// Lists the saved calls, or those that hold some words
    Calls { words: Vec<String> },
    /// Goes on with a saved call
    Open {
        #[arg(required = true)]
        name: Vec<String>,
    },
    /// Writes the page that goes back with a refitted filter: one HTML file beside the call
    Sheet {
        /// The name of a saved call, or its file
        #[arg(required = true)]
        name: Vec<String>,
        /// Plain text on standard output instead
        #[arg(long)]
        text: bool,
        /// Another file; - is standard output
        #[arg(long, value_name = "FILE")]
        out: Option<String>,
    },
    /// Answers saved calls again and shows what changed and which edit did it; exit status 1 if anything changed
    Replay(ReplayFlags),
}

/// What `replay` takes.
#[derive(Clone, Debug, Default, PartialEq, Eq, Args)]
pub struct ReplayFlags {
    /// Calls, or folders of them
    #[arg(required = true)]
    pub paths: Vec<String>,

    /// Take the new answers as right: all of them, or what --only names
    #[arg(long)]
    pub accept: bool,

    /// Only what this edit did (its rule or entry, or file:line), or only this call; may be given several times
    #[arg(long, value_name = "NAME")]
    pub only: Vec<String>,

    /// The book the calls were answered with, where it is not kept beside them
    #[arg(long, value_name = "DIR")]
    pub against: Option<String>,

    /// Go on: show it again whenever a file of the book is saved
    #[arg(long, conflicts_with_all = ["accept", "merge", "json"])]
    pub watch: bool,

    /// One share of the calls, as 2/8; the --json reports of all shares merge into one
    #[arg(long, value_name = "N/M", value_parser = share)]
    pub part: Option<(usize, usize)>,

    /// The paths are JSON reports of shares: show them as one report
    #[arg(long, conflicts_with_all = ["accept", "part", "against"])]
    pub merge: bool,
}

/// "2/8": which share of how many.
fn share(text: &str) -> Result<(usize, usize), String> {
    let numbers = text.split_once('/').and_then(|(n, of)| Some((n.parse().ok()?, of.parse().ok()?)));
    match numbers {
        Some((n, of)) if (1..=of).contains(&n) => Ok((n, of)),
        _ => Err("say which share of how many: 2/8".to_string()),
    }
}
