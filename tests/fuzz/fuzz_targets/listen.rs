//! Anything at all said to the listener, in up to four turns cut at a zero byte: it never panics, and its reading keeps the
//! laws of `laws.rs`. In: bytes. Out: nothing, or a crash.
#![no_main]

#[path = "../laws.rs"]
mod laws;

use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;
use weirline::listen::Listener;
use weirline::listen::reading::Context;
use weirline::rulebook::Book;

static LISTENER: LazyLock<Listener> = LazyLock::new(|| match Book::built_in() {
    Ok(book) => Listener::new(&book.knowledge),
    Err(_) => std::process::abort(),
});

fuzz_target!(|bytes: &[u8]| {
    let text = String::from_utf8_lossy(bytes);
    let mut context = Context::default();
    for turn in text.split('\0').take(4) {
        let reading = LISTENER.read(turn, &context);
        if let Err(broken) = laws::kept(&reading) {
            panic!("{broken}: {turn:?}");
        }
        context = context.after(&reading);
    }
});
