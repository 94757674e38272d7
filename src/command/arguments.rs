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
        /// Also try every change of the rules, and list those that no example notices (takes a while)
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
    /// Answers saved calls again and shows what changed; exit status 1 if anything did
    Replay {
        #[arg(required = true)]
        paths: Vec<String>,
        /// Take the new answers as right
        #[arg(long)]
        accept: bool,
    },
}
