//! The corpus: calls are read as written. What is still open of a call may be missing; nothing may be misread.

use super::compare::{Call, play};
use super::voices::{Voice, hear};

/// Every file of a folder under tests/listen, by name.
fn files(folder: &str) -> Vec<(String, String)> {
    let folder = format!("{}/tests/listen/{folder}", env!("CARGO_MANIFEST_DIR"));
    let mut files: Vec<_> = std::fs::read_dir(&folder)
        .unwrap_or_else(|e| panic!("{folder}: {e}"))
        .map(|f| f.expect("a file").path())
        .map(|p| (p.display().to_string(), std::fs::read_to_string(&p).expect("text")))
        .collect();
    files.sort();
    files
}

#[test]
fn calls_are_read_as_written() {
    let mut failed = String::new();
    let (mut whole, mut count) = (0, 0);
    for (file, text) in files("calls") {
        let calls: Vec<Call> = serde_yaml::from_str(&text).unwrap_or_else(|e| panic!("{file}: {e}"));
        for call in &calls {
            count += 1;
            let outcome = play(call, super::listener());
            match (outcome.is_whole(), &call.open) {
                (true, None) => whole += 1,
                (true, Some(_)) => failed += &format!("{} is read whole: take its `open` out\n", call.call),
                (false, Some(_)) if outcome.wrong.is_empty() => {}
                (false, _) => {
                    failed += &format!("{}: misread {:?}, missing {:?}\n", call.call, outcome.wrong, outcome.missing)
                }
            }
        }
    }
    assert!(count > 300, "{count} calls");
    assert!(failed.is_empty(), "{whole} of {count} whole\n{failed}");
}

#[test]
fn other_voices_are_read_as_written() {
    let mut failed = String::new();
    let (mut whole, mut count) = (0, 0);
    for (file, text) in files("voices") {
        let voices: Vec<Voice> = serde_yaml::from_str(&text).unwrap_or_else(|e| panic!("{file}: {e}"));
        for voice in &voices {
            count += 1;
            let (missing, wrong) = hear(voice, super::listener());
            match (missing.is_empty() && wrong.is_empty(), &voice.open) {
                (true, None) => whole += 1,
                (true, Some(_)) => failed += &format!("{:?} is read whole: take its `open` out\n", voice.say),
                (false, Some(_)) if wrong.is_empty() => {}
                (false, _) => failed += &format!("{:?}: misread {wrong:?}, missing {missing:?}\n", voice.say),
            }
        }
    }
    assert!(count > 300, "{count} lines");
    assert!(failed.is_empty(), "{whole} of {count} whole\n{failed}");
}
