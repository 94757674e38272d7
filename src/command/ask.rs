//! One call in one line, and piped lines: each a turn, without a prompt. In: words, or bytes on standard input. Out: answers.

use super::outcome::{Outcome, tell};
use super::settings::Settings;
use super::talk::Talk;
use std::io::{BufRead, Read};

/// A line longer than this is cut: nobody says so much in a turn.
const LONGEST: usize = 64 * 1024;

/// Answers one line and ends.
pub fn once(line: &str, settings: &Settings) -> Outcome {
    let mut talk = match Talk::open(settings, true) {
        Ok(talk) => talk,
        Err(outcome) => return outcome,
    };
    if talk.turn(line).is_ok() && settings.json {
        // A reader that has gone away wants no object either.
        let _ = talk.show_object();
    }
    // The process ends: giving a whole book back piece by piece would be waited for.
    std::mem::forget(talk);
    Outcome::Fine
}

/// Takes standard input line by line, after the turns of a saved call where one is named.
pub fn piped(settings: &Settings, call: Option<&str>) -> Outcome {
    let mut talk = match Talk::open(settings, false) {
        Ok(talk) => talk,
        Err(outcome) => return outcome,
    };
    if let Some(why) = call.and_then(|name| talk.go_on(name).err()) {
        tell(&why);
        return Outcome::Wrong;
    }
    let mut input = std::io::stdin().lock();
    let (mut number, mut turns) = (0, 0);
    loop {
        number += 1;
        let line = match next_line(&mut input, number) {
            Ok(Some(line)) => line,
            Ok(None) => break,
            Err(why) => {
                tell(&format!("standard input cannot be read: {why}"));
                return Outcome::Wrong;
            }
        };
        if line.trim().is_empty() {
            continue;
        }
        if turns > 0 && !settings.json && super::outcome::show("\n").is_err() {
            return Outcome::Fine;
        }
        turns += 1;
        match talk.turn(&line) {
            Ok(false) => {}
            Ok(true) => break,
            Err(_) => return Outcome::Fine,
        }
    }
    if turns == 0 && call.is_none() && !settings.json {
        let _ = talk.turn("");
    }
    if settings.json {
        let _ = talk.show_object();
    }
    Outcome::Fine
}

/// The next line without its end; bytes that are no UTF-8 are replaced and told of; a far too long line is cut.
fn next_line(input: &mut impl BufRead, number: usize) -> std::io::Result<Option<String>> {
    let mut bytes = Vec::new();
    let read = input.by_ref().take(LONGEST as u64).read_until(b'\n', &mut bytes)?;
    if read == 0 {
        return Ok(None);
    }
    if bytes.len() == LONGEST && !bytes.ends_with(b"\n") {
        let mut rest = Vec::new();
        // What follows is read in pieces, so that a line without end does not fill the memory.
        while input.by_ref().take(LONGEST as u64).read_until(b'\n', &mut rest)? > 0 && !rest.ends_with(b"\n") {
            rest.clear();
        }
        tell(&format!("line {number} is longer than {LONGEST} bytes; the rest of it was not read"));
    }
    while bytes.last().is_some_and(|b| matches!(b, b'\n' | b'\r')) {
        bytes.pop();
    }
    Ok(Some(match String::from_utf8(bytes) {
        Ok(line) => line,
        Err(bad) => {
            tell(&format!("line {number} holds bytes that are not UTF-8; they were replaced"));
            String::from_utf8_lossy(bad.as_bytes()).into_owned()
        }
    }))
}
