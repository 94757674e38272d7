//! The program as a whole: streams, exit status, pipes, colour, broken input. No HOME, no terminal, a cleared environment.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

const CALL: &str = "55 gallon, 30 small tetras, fry present";

fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_weirline"));
    command.env_clear().stdin(Stdio::null());
    command
}

fn run(arguments: &[&str]) -> Output {
    program().args(arguments).output().unwrap()
}

fn piped(input: &[u8], arguments: &[&str]) -> Output {
    let mut child =
        program().args(arguments).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let input = input.to_vec();
    // The program may end before it has read all.
    let writer = std::thread::spawn(move || drop(stdin.write_all(&input)));
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap();
    output
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn status(output: &Output) -> Option<i32> {
    output.status.code()
}

#[test]
fn one_call_is_answered_on_standard_output() {
    let output = run(&[CALL]);
    assert_eq!(status(&output), Some(0));
    assert!(out(&output).starts_with("Say "), "{}", out(&output));
    assert_eq!(err(&output), "");
    let words: Vec<&str> = CALL.split(' ').collect();
    assert_eq!(out(&run(&words)), out(&output));
}

#[test]
fn words_that_begin_with_a_minus_are_words() {
    let output = run(&["-5", "guppies,", "40", "l"]);
    assert_eq!(status(&output), Some(0));
    assert!(out(&output).contains("Not used yet"), "{}", out(&output));
}

#[test]
fn wrong_use_is_told_on_standard_error() {
    for arguments in [&["--nonsense"][..], &["--width", "wide"], &["replay"], &["--color", "pink", CALL], &["listen"]] {
        let output = run(arguments);
        assert_eq!((status(&output), out(&output).as_str()), (Some(2), ""), "{arguments:?}");
        assert!(!err(&output).is_empty());
    }
    for arguments in [&["--help"][..], &["--version"], &["-h"]] {
        let output = run(arguments);
        assert_eq!((status(&output), err(&output).as_str()), (Some(0), ""), "{arguments:?}");
    }
}

#[test]
fn piped_lines_are_turns_without_a_prompt() {
    let output = piped(b"55 gallon, 30 small tetras\n\nfry present\nknown\n", &[]);
    assert_eq!((status(&output), err(&output).as_str()), (Some(0), ""));
    let text = out(&output);
    assert!(!text.contains("call>"), "{text}");
    assert!(text.contains("fry: yes"), "{text}");
    // A last line without its end counts, and `bye` ends before the rest.
    assert!(out(&piped(b"known", &[])).contains("Nothing was said"));
    assert!(!out(&piped(b"bye\n55 gallon, 30 small tetras\n", &[])).contains("Say "));
}

#[test]
fn json_is_one_object() {
    for output in [run(&[CALL, "--json"]), piped(b"55 gallon\n30 small tetras\n", &["--json"])] {
        let value: serde_json::Value = serde_json::from_str(&out(&output)).unwrap();
        assert!(value["turns"].as_array().is_some_and(|t| !t.is_empty()));
        assert!(!out(&output).contains('\u{1b}'));
    }
    let value: serde_json::Value = serde_json::from_str(&out(&piped(b"55 gallon\nknown\n", &["--json"]))).unwrap();
    assert_eq!(value["replies"][1]["said"], "known");
    assert!(value["replies"][1]["text"].as_str().is_some_and(|t| t.contains("55 US gal")), "{value}");
    let value: serde_json::Value = serde_json::from_str(&out(&run(&["listen", CALL, "--json"]))).unwrap();
    assert!(value["words"].as_array().is_some_and(|w| w.len() >= 6), "{value}");
}

#[test]
fn colour_is_decided_once() {
    let coloured = |arguments: &[&str], variables: &[(&str, &str)]| {
        let output = program().args(arguments).envs(variables.iter().copied()).output().unwrap();
        out(&output).contains('\u{1b}')
    };
    assert!(!coloured(&[CALL], &[]), "a pipe is no terminal");
    assert!(!coloured(&[CALL], &[("CLICOLOR_FORCE", "1")]), "only the flag forces");
    assert!(coloured(&[CALL, "--color", "always"], &[]));
    assert!(
        coloured(&[CALL, "--color", "always"], &[("NO_COLOR", "1"), ("TERM", "dumb")]),
        "the flag beats the environment"
    );
    assert!(!coloured(&[CALL, "--color", "never"], &[("CLICOLOR_FORCE", "1")]));
}

#[test]
fn brief_full_units_and_width_shape_the_answer() {
    let brief = out(&run(&[CALL]));
    let full = out(&run(&[CALL, "--full"]));
    assert!(full.lines().count() > brief.lines().count());
    assert!(out(&run(&[CALL, "--full", "--units", "litres"])).contains(" L"));
    let narrow = out(&run(&[CALL, "--width", "50"]));
    assert!(narrow.lines().all(|l| l.chars().count() <= 50), "{narrow}");
    assert_eq!(status(&run(&[CALL, "--brief", "--full"])), Some(2));
}

#[test]
fn hostile_input_gets_a_short_plain_answer_in_bounded_time() {
    let begun = Instant::now();
    let inputs: Vec<Vec<u8>> = vec![
        vec![b'a'; 1_000_000],
        [vec![b'9'; 500_000], b"\n55 gallon\n".to_vec()].concat(),
        b"\xff\xfe\x00 55 gallon \x80\n".to_vec(),
        b"\x1b[31m55 gallon\x07\x08\r\n".to_vec(),
        "55 gallon \u{202e}tetras \u{200b}\u{1f41f}\n".as_bytes().to_vec(),
        b"\n\n\n".to_vec(),
        vec![],
        b"(((((((((((((((((((((((((((((((((((((((\n".to_vec(),
        "1e999 gallons, NaN guppies, -0 l, 1/0 tetras\n".as_bytes().to_vec(),
    ];
    for input in inputs {
        let output = piped(&input, &[]);
        let shown: String = String::from_utf8_lossy(&input[..input.len().min(40)]).into_owned();
        assert_eq!(status(&output), Some(0), "{shown:?}: {}", err(&output));
        let text = out(&output);
        assert!(text.lines().count() < 60, "{shown:?} gave {} lines", text.lines().count());
        assert!(!text.contains(['\u{1b}', '\u{7}', '\u{8}', '\u{202e}']), "{shown:?}: {text:?}");
    }
    // Nine starts of an unoptimised program on a busy machine; a hang would take for ever.
    assert!(begun.elapsed() < Duration::from_secs(120));
}

#[test]
fn bytes_that_are_not_utf8_are_replaced_and_told() {
    let output = piped(b"55 gallon \xff\n", &[]);
    assert_eq!(status(&output), Some(0));
    assert!(err(&output).contains("line 1") && err(&output).contains("UTF-8"), "{}", err(&output));
}

#[test]
fn a_closed_pipe_ends_quietly() {
    let mut child = program().args(["--full", CALL]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!((status(&output), err(&output).as_str()), (Some(0), ""));
}

fn book_folder(rules: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir(folder.path().join("rules")).unwrap();
    std::fs::write(folder.path().join("rules/mine.yaml"), rules).unwrap();
    folder
}

const MINE: &str = "about: Mine.
rules:
- rule: always
  topic: first step
  when: [tank.nominal > 1 L]
  advise: {urgency: today, say: This is my own book., because: It is mine.}
  basis: [common practice]
  examples: {speaks: [40 litres], silent: [6 guppies]}
";

#[test]
fn a_book_of_ones_own_is_used_and_named() {
    let folder = book_folder(MINE);
    let path = folder.path().to_str().unwrap();
    for output in [run(&["--book", path, "40 l"]), program().env("WEIRLINE_BOOK", path).arg("40 l").output().unwrap()] {
        let text = out(&output);
        assert!(text.contains("This is my own book.") && text.starts_with("Book "), "{text}");
    }
    // An empty variable is none.
    let output = program().env("WEIRLINE_BOOK", "").arg("40 l").output().unwrap();
    assert!(!out(&output).contains("my own book"));
}

#[test]
fn a_broken_book_is_refused_with_its_place() {
    let folder = book_folder(&MINE.replace("tank.nominal", "tank.nominl"));
    let path = folder.path().to_str().unwrap();
    let output = run(&["--book", path, "40 l"]);
    assert_eq!((status(&output), out(&output).as_str()), (Some(2), ""));
    assert!(err(&output).contains("rules/mine.yaml:5:10: error[unknown-name]"), "{}", err(&output));
    assert!(err(&output).contains("try:  tank.nominal"), "{}", err(&output));
    let checked = run(&["check", path]);
    assert_eq!(status(&checked), Some(1));
    assert!(out(&checked).contains("1 error") && out(&checked).contains("this book is not used"), "{}", out(&checked));
}

#[test]
fn the_shipped_book_has_no_error() {
    for arguments in [&["check"][..], &["check", env!("CARGO_MANIFEST_DIR")]] {
        let output = run(arguments);
        assert_ne!(status(&output), Some(2), "{}", out(&output));
        assert!(!out(&output).contains(": error["), "{}", out(&output));
    }
}

#[test]
fn folders_without_a_book_are_wrong_use() {
    let empty = tempfile::tempdir().unwrap();
    for path in [empty.path().to_str().unwrap(), "/no/such/folder"] {
        for arguments in [&["check", path][..], &["--book", path, "40 l"]] {
            let output = run(arguments);
            assert_eq!((status(&output), out(&output).as_str()), (Some(2), ""), "{arguments:?}");
            assert!(err(&output).starts_with("weirline: "), "{}", err(&output));
        }
    }
}

#[test]
fn a_copy_of_the_book_answers_as_the_book_does() {
    let folder = tempfile::tempdir().unwrap();
    let copy = folder.path().join("copy");
    let path = copy.to_str().unwrap();
    assert_eq!(status(&run(&["unpack", path])), Some(0));
    assert!(Path::new(path).join("rules").is_dir() && Path::new(path).join("knowledge").is_dir());
    let own = out(&run(&["--book", path, "--full", CALL]));
    let built_in = out(&run(&["--full", CALL]));
    assert_eq!(own.split_once('\n').map(|(_, rest)| rest), Some(built_in.as_str()));
    // Nothing is overwritten.
    assert_eq!(status(&run(&["unpack", path])), Some(2));
}

#[test]
fn a_changed_book_is_taken_up_between_turns() {
    let folder = book_folder(MINE);
    let path = folder.path().to_str().unwrap().to_string();
    let mut child = program()
        .args(["--book", &path])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let mut stdout = std::io::BufReader::new(child.stdout.take().unwrap());
    let mut read_until = |wanted: &str| {
        use std::io::BufRead;
        let mut text = String::new();
        while !text.contains(wanted) {
            let mut line = String::new();
            assert!(stdout.read_line(&mut line).unwrap() > 0, "{wanted} never came: {text}");
            text.push_str(&line);
        }
        text
    };
    let file = folder.path().join("rules/mine.yaml");
    stdin.write_all(b"40 l\n").unwrap();
    read_until("This is my own book.");
    std::fs::write(&file, MINE.replace("my own book", "a changed and longer book")).unwrap();
    stdin.write_all(b"again\n").unwrap();
    let changed = read_until("a changed and longer book");
    assert!(changed.contains("book was changed"), "{changed}");
    // A fault leaves the book before in use.
    std::fs::write(&file, "about: [").unwrap();
    stdin.write_all(b"50 l\n").unwrap();
    read_until("a changed and longer book");
    drop(stdin);
    let output = child.wait_with_output().unwrap();
    assert!(err(&output).contains("rules/mine.yaml:1"), "{}", err(&output));
    assert!(err(&output).contains("the one before is used on"), "{}", err(&output));
}

#[test]
fn calls_are_saved_and_replayed() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("call.txt");
    let path = file.to_str().unwrap();
    let output = piped(b"55 gallon, 30 small tetras\nfry present\n", &["--save", path]);
    assert_eq!(status(&output), Some(0), "{}", err(&output));
    let same = run(&["replay", path]);
    assert_eq!((status(&same), out(&same).as_str()), (Some(0), "1 call: nothing changed.\n"));
    let text = std::fs::read_to_string(&file).unwrap();
    std::fs::write(&file, text.replace("Say ", "Said")).unwrap();
    let changed = run(&["replay", path]);
    assert_eq!(status(&changed), Some(1));
    assert!(out(&changed).contains("other words: what is shown: \"Said"), "{}", out(&changed));
    assert!(out(&changed).contains("not the book"), "{}", out(&changed));
    assert_eq!(status(&run(&["replay", "--accept", path])), Some(0));
    assert_eq!(std::fs::read_to_string(&file).unwrap(), text);
    assert_eq!(status(&run(&["replay", "/no/such/call"])), Some(2));
    std::fs::write(&file, "no call").unwrap();
    let wrong = run(&["replay", path]);
    assert_eq!(status(&wrong), Some(2));
    assert!(err(&wrong).contains("call.txt:1: a saved call begins"), "{}", err(&wrong));
}

#[test]
fn names_are_explained() {
    for name in ["ppi", "turnover", "canister", "carbon"] {
        let output = run(&["explain", name]);
        assert_eq!(status(&output), Some(0), "{name}: {}", err(&output));
    }
    let unknown = run(&["explain", "turnovr"]);
    assert_eq!(status(&unknown), Some(2));
    assert!(err(&unknown).contains("Did you mean turnover?"), "{}", err(&unknown));
}

#[test]
fn the_help_text_is_as_it_was_read() {
    insta::assert_snapshot!("help", out(&run(&["--help"])));
}

#[test]
fn what_the_book_rests_on_is_listed_with_one_command_each() {
    let sources = out(&run(&["explain", "sources"]));
    assert!(sources.contains("emerson-1975") && sources.contains("ammonia-harms-now"), "{sources}");
    let memory = out(&run(&["explain", "memory"]));
    assert!(memory.contains("from memory: ") && memory.contains("common practice: "), "{memory}");
    // Published, or worked out: not in the list.
    assert!(!memory.contains("ammonia-harms-now"), "{memory}");
}
