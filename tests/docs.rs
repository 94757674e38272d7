//! The README is true: the exchange it quotes stands in its transcript, the commands it names exist, its book commands work.

use std::path::Path;

fn shipped(file: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(file)).unwrap_or_else(|e| panic!("{file}: {e}"))
}

#[test]
fn quoted_exchanges_stand_in_their_transcripts() {
    let readme = shipped("README.md");
    let mut quoted = 0;
    for part in readme.split("<!-- exchange: ").skip(1) {
        let (file, rest) = part.split_once(" -->").expect("the mark is closed");
        let block = rest.split("```\n").nth(1).expect("a block follows");
        let transcript = shipped(file);
        assert!(block.starts_with("call> "), "{file}: the quote starts with what was typed");
        assert!(transcript.contains(block.trim_end()), "{file} does not hold:\n{block}");
        quoted += 1;
    }
    assert!(quoted > 0);
}

#[test]
fn the_readme_starts_with_the_job_and_two_commands() {
    let readme = shipped("README.md");
    let first = readme.lines().skip_while(|l| l.starts_with('#') || l.is_empty()).take_while(|l| !l.is_empty());
    assert!(first.collect::<Vec<_>>().join(" ").contains("filtration"));
    let block = readme.split("```\n").nth(1).expect("a block of commands");
    assert_eq!(block, "cargo run --release\ncargo test\n");
}

#[test]
fn the_book_can_be_unpacked_checked_and_used_as_the_readme_says() {
    let folder = tempfile::tempdir().expect("a folder");
    let book = folder.path().join("my-book");
    let run = |arguments: &[&str]| {
        let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_weirline"));
        command.args(arguments).current_dir(folder.path()).env_remove("WEIRLINE_BOOK");
        command.output().expect("the program runs")
    };
    let unpacked = run(&["unpack", "my-book"]);
    assert!(unpacked.status.success(), "{}", String::from_utf8_lossy(&unpacked.stderr));
    assert!(book.join("rules").is_dir() && book.join("knowledge/vocabulary.yaml").is_file());
    let checked = run(&["check", "my-book"]);
    // Warnings ask for a look; only an error keeps a book from being used.
    let report = String::from_utf8_lossy(&checked.stdout).into_owned();
    assert!(!report.contains("error["), "{report}");
    let answered = run(&["--book", "my-book", "55 gallon, 30 small tetras, fry present"]);
    assert!(String::from_utf8_lossy(&answered.stdout).contains("my-book"), "the answer's head names the book");
}
