//! Replay as its user meets it: a book is edited, the calls say what that changes and why; accepting, shares, watching.

use serde_json::Value;
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use weirline::archive::call::SavedCall;

const RULE: &str = "look-at-the-intake-by-speed";

/// A folder with an unpacked book and two calls answered with it.
struct Bench {
    folder: tempfile::TempDir,
}

impl Bench {
    fn new() -> Self {
        let bench = Self { folder: tempfile::tempdir().unwrap() };
        assert!(bench.run(&["unpack", "book"]).status.success());
        for (name, line) in [
            ("fry tank", "55 gallon, 30 small tetras, fry present, hang-on filter 400 gph"),
            ("mrs hall", "200 l, 40 guppies, canister 1000 l/h, nitrate 80"),
        ] {
            let mut child =
                bench.command(&["--book", "book"]).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
            child.stdin.take().unwrap().write_all(format!("{line}\nsave {name}\n").as_bytes()).unwrap();
            let out = child.wait_with_output().unwrap();
            assert!(String::from_utf8_lossy(&out.stdout).contains("Saved to calls/"), "{out:?}");
        }
        bench
    }

    fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_weirline"));
        command.args(arguments).current_dir(self.folder.path()).env_clear().stdin(Stdio::null());
        command
    }

    fn run(&self, arguments: &[&str]) -> Output {
        self.command(arguments).output().unwrap()
    }

    /// Replays the calls: status and what was shown.
    fn replay(&self, flags: &[&str]) -> (Option<i32>, String) {
        let output = self.run(&[&["--book", "book", "replay", "calls"], flags].concat());
        (output.status.code(), String::from_utf8(output.stdout).unwrap())
    }

    fn path(&self, file: &str) -> PathBuf {
        self.folder.path().join(file)
    }

    /// Replaces the first `from` behind the head of an entry; gives the line.
    fn edit(&self, file: &Path, head: &str, from: &str, to: &str) -> usize {
        let text = std::fs::read_to_string(file).unwrap();
        let at = text.find(head).unwrap_or_else(|| panic!("no {head} in {}", file.display()));
        let at = at + text[at..].find(from).unwrap_or_else(|| panic!("no {from} behind {head}"));
        std::fs::write(file, format!("{}{to}{}", &text[..at], &text[at + from.len()..])).unwrap();
        text[..at].matches('\n').count() + 1
    }

    /// A rule that was told in one call and not in the other, with the file it stands in.
    fn own_rule(&self) -> (String, PathBuf) {
        let told = |name: &str| {
            let text = std::fs::read_to_string(self.path(&format!("calls/{name}.txt"))).unwrap();
            let call = SavedCall::read(&text).unwrap();
            let told = call.exchanges.into_iter().flat_map(|e| e.told).flat_map(|t| t.advice);
            told.map(|a| a.rule).collect::<Vec<_>>()
        };
        let (one, other) = (told("fry-tank"), told("mrs-hall"));
        assert!(one.contains(&RULE.to_string()), "{one:?}");
        let files: Vec<PathBuf> =
            std::fs::read_dir(self.path("book/rules")).unwrap().flatten().map(|e| e.path()).collect();
        let own = other.into_iter().filter(|rule| !one.contains(rule)).find_map(|rule| {
            let begins = format!("- rule: {rule}\n");
            let file = files.iter().find(|f| std::fs::read_to_string(f).is_ok_and(|t| t.contains(&begins)))?;
            let text = std::fs::read_to_string(file).unwrap();
            let plain =
                text.split(&begins).nth(1)?.split("\n    say: ").nth(1)?.starts_with(|c: char| c.is_ascii_uppercase());
            plain.then(|| (rule, file.clone()))
        });
        own.expect("a rule of its own")
    }
}

#[test]
fn an_edit_is_seen_with_its_line_and_taken_as_right_in_parts() {
    let bench = Bench::new();
    assert_eq!(bench.replay(&[]), (Some(0), "2 calls: nothing changed.\n".to_string()));
    let intake = bench.path("book/rules/intake.yaml");
    let line = bench.edit(&intake, &format!("- rule: {RULE}\n"), "urgency: today", "urgency: in time");
    let (own, file) = bench.own_rule();
    bench.edit(&file, &format!("- rule: {own}\n"), "\n    say: ", "\n    say: Mind this and ");

    // The call whose caller relies on what is no longer said so stands first.
    let (status, text) = bench.replay(&[]);
    assert_eq!(status, Some(1));
    assert!(text.starts_with("Call back"), "{text}");
    let moved = format!("moved from today to in time: {RULE}");
    assert!(
        text.contains(&moved) && text.contains(&format!("rules/intake.yaml:{line} rule {RULE}: today -> in time")),
        "{text}"
    );
    assert!(text.contains("2 calls: 2 would be answered differently, 1 to call back."), "{text}");
    assert!(text.find("fry-tank").unwrap() < text.find("mrs-hall").unwrap(), "{text}");

    // Shares merge into the report of the whole.
    let whole = bench.replay(&["--json"]).1;
    for n in ["1", "2"] {
        std::fs::write(bench.path(&format!("{n}.json")), bench.replay(&["--json", "--part", &format!("{n}/2")]).1)
            .unwrap();
    }
    let merged = bench.run(&["--json", "replay", "--merge", "2.json", "1.json"]);
    assert_eq!(merged.status.code(), Some(1));
    assert_eq!(String::from_utf8(merged.stdout).unwrap(), whole);
    let object: Value = serde_json::from_str(&whole).unwrap();
    assert_eq!((object["calls"].as_u64(), object["changed"].as_array().map(Vec::len)), (Some(2), Some(2)));
    assert_eq!(object["changed"][0]["found"][0]["why"]["edits"][0]["line"].as_u64(), Some(line as u64));

    // Nothing was written so far; then the one edit is taken as right, then the rest.
    let text_of = |name: &str| std::fs::read_to_string(bench.path(&format!("calls/{name}.txt"))).unwrap();
    let before = (text_of("fry-tank"), text_of("mrs-hall"));
    let (status, text) = bench.replay(&["--accept", "--only", &own]);
    assert_eq!(status, Some(0), "{text}");
    assert!(text.contains("1 taken as right"), "{text}");
    assert_eq!(text_of("fry-tank"), before.0);
    assert!(text_of("mrs-hall").contains("Mind this and") && !before.1.contains("Mind this and"));
    let (status, text) = bench.replay(&[]);
    assert_eq!(status, Some(1));
    assert!(text.contains("2 calls: 1 would be answered differently"), "{text}");
    assert_eq!(bench.replay(&["--accept", "--only", "fry-tank"]).0, Some(0));
    assert_eq!(bench.replay(&[]), (Some(0), "2 calls: nothing changed.\n".to_string()));

    // What cannot be read is named, the rest go on.
    std::fs::write(bench.path("calls/a.txt"), "weirline call 99\n").unwrap();
    let output = bench.run(&["--book", "book", "replay", "calls"]);
    assert_eq!(output.status.code(), Some(2));
    let (out, err) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert!(out.contains("3 calls: nothing changed, 1 could not be read"), "{out}");
    assert!(err.contains("a.txt:1") && err.contains("use a newer program"), "{err}");
}

/// What the next caller says never stands in the file of the former one, and a name belongs to one call.
#[test]
fn every_caller_has_a_file_of_their_own() {
    let folder = tempfile::tempdir().unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_weirline"));
    command.current_dir(folder.path()).env_clear().stdin(Stdio::piped()).stdout(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let lines = "55 gallon, 30 small tetras\nsave mrs hall\nnew call\n2 goldfish in 20 gallon\nsave mrs hall\nsave goldfish\n\
                 call 1\nfry present\nnew call, 40 litres, 1 betta\nsave betta\nopen call goldfish\nhob 200 gph\n";
    child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
    let out = child.wait_with_output().unwrap();
    let out = String::from_utf8_lossy(&out.stdout).into_owned();
    assert!(out.contains("Not saved: calls/mrs-hall.txt is there already"), "{out}");
    let typed = |name: &str| {
        let text = std::fs::read_to_string(folder.path().join(format!("calls/{name}.txt"))).unwrap();
        SavedCall::read(&text).unwrap().exchanges.into_iter().map(|e| e.typed).collect::<Vec<_>>()
    };
    assert_eq!(typed("mrs-hall"), ["55 gallon, 30 small tetras", "fry present"]);
    assert_eq!(typed("goldfish"), ["2 goldfish in 20 gallon", "hob 200 gph"]);
    assert_eq!(typed("betta"), ["new call, 40 litres, 1 betta"]);
    let mut replay = Command::new(env!("CARGO_BIN_EXE_weirline"));
    let replayed = replay.args(["replay", "calls"]).current_dir(folder.path()).env_clear().output().unwrap();
    assert_eq!(String::from_utf8_lossy(&replayed.stdout), "3 calls: nothing changed.\n");
}

#[test]
fn a_watched_book_is_replayed_when_it_is_saved() {
    let bench = Bench::new();
    let mut child =
        bench.command(&["--book", "book", "replay", "--watch", "calls"]).stdout(Stdio::piped()).spawn().unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map_while(Result::ok);
    let mut next = || lines.by_ref().take_while(|line| !line.starts_with("Watching")).collect::<Vec<_>>().join("\n");
    let first = next();
    let intake = bench.path("book/rules/intake.yaml");
    bench.edit(&intake, &format!("- rule: {RULE}\n"), "urgency: today", "urgency: in time");
    let second = next();
    child.kill().unwrap();
    child.wait().unwrap();
    assert!(first.contains("2 calls: nothing changed."), "{first}");
    assert!(second.contains("moved from today to in time"), "{second}");
}

#[test]
fn a_saved_call_is_opened_and_goes_on() {
    let bench = Bench::new();
    let go_on = |name: &str, lines: &str| {
        let mut child = bench
            .command(&["--book", "book", "open", name])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let _ = child.stdin.take().unwrap().write_all(lines.as_bytes());
        child.wait_with_output().unwrap()
    };
    let out = go_on("fry tank", "sponge over the intake\nknown\n");
    let text = String::from_utf8_lossy(&out.stdout).into_owned();
    assert!(text.contains("calls/fry-tank.txt is open") && text.contains("55 gal"), "{text}");
    let saved = std::fs::read_to_string(bench.path("calls/fry-tank.txt")).unwrap();
    let call = SavedCall::read(&saved).unwrap();
    let typed: Vec<&str> = call.exchanges.iter().map(|e| e.typed.as_str()).collect();
    assert_eq!(typed[1..], ["sponge over the intake", "known"]);
    assert_eq!(bench.replay(&[]).0, Some(0));
    // By a word of it; by one that two hold; by one that none does.
    assert!(go_on("guppies", "").status.success());
    assert!(String::from_utf8_lossy(&go_on("say", "").stderr).contains("Say which"));
    assert_eq!(go_on("zebra mussel", "").status.code(), Some(2));
    let list = bench.run(&["calls", "guppies"]);
    let list = String::from_utf8_lossy(&list.stdout).into_owned();
    assert!(list.contains("mrs-hall") && !list.contains("fry-tank"), "{list}");
}
