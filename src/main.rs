//! The program: arguments to a command, its result to an exit status; nothing else.

use std::process::ExitCode;

fn main() -> ExitCode {
    weirline::command::run().into()
}
