//! The program: arguments to a command, its result to an exit status; nothing else.

use std::process::ExitCode;

/// Opening a book asks for memory a hundred thousand times in a few milliseconds.
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    weirline::command::run().into()
}
