//! Every fault that `check` finds: a folder a fault, with a file where it speaks, the whole message, and a file where it
//! must not. `WEIRLINE_BLESS=1` writes the messages anew.

mod disk;
mod strength;
mod witness;

use std::fs;
use std::path::{Path, PathBuf};
use weirline::archive::trial;
use weirline::rulebook::Book;
use weirline::source::draw::draw;
use weirline::source::{Fault, yaml};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/check")
}

/// The little book that all folders lean on, and of one folder those of its files that take the place of them.
fn texts(folder: &Path, rules: &str) -> (Vec<(String, String)>, Vec<Fault>) {
    let mut texts = Vec::new();
    if is_run(folder) {
        texts.extend(crate::rules::book::texts().into_iter().filter(|(path, _)| path.starts_with("knowledge/")));
        texts.push(("rules/rules.yaml".into(), fs::read_to_string(folder.join(rules)).expect("a text")));
        return (texts, vec![]);
    }
    let mut faults = Vec::new();
    let mut add = |path: String, file: &Path| match yaml::text_of(&path, &fs::read(file).expect("a file")) {
        Ok(text) => {
            texts.retain(|(p, _): &(String, String)| *p != path);
            texts.push((path, text));
        }
        Err(fault) => {
            texts.push((path, String::from_utf8_lossy(&fs::read(file).expect("a file")).into_owned()));
            faults.push(*fault);
        }
    };
    for from in [root().join("book"), folder.to_path_buf()] {
        for entry in fs::read_dir(from.join("knowledge")).into_iter().flatten().flatten() {
            add(format!("knowledge/{}", entry.file_name().to_string_lossy()), &entry.path());
        }
    }
    add("rules/rules.yaml".into(), &folder.join(rules));
    (texts, faults)
}

/// Faults that show only when the examples are run: their folders lean on the shipped tables, which the listener needs.
const RUN: &[&str] = &["opposite-advice", "example-fails", "example-unread", "threshold-untried"];

fn is_run(folder: &Path) -> bool {
    folder.file_name().is_some_and(|name| RUN.contains(&name.to_string_lossy().as_ref()))
}

/// All faults of a folder's file; a missing example is told only where it is the matter.
fn faults(folder: &Path, rules: &str) -> (Vec<Fault>, Vec<(String, String)>) {
    let (texts, unread) = texts(folder, rules);
    if !unread.is_empty() {
        return (unread, texts);
    }
    let mut faults = match is_run(folder) {
        true => trial::check(texts.clone(), vec![], "test", None).faults,
        false => Book::check(texts.clone(), "test", false).faults,
    };
    if folder.file_name().is_none_or(|n| n != "no-examples") {
        faults.retain(|f| f.name != "no-examples");
    }
    (faults, texts)
}

fn shown(faults: &[Fault], texts: &[(String, String)]) -> String {
    let find = |file: &str| texts.iter().find(|(p, _)| p == file).map(|(_, t)| t.clone());
    faults.iter().map(|f| draw(f, &find)).collect::<Vec<_>>().join("\n")
}

fn folders() -> Vec<PathBuf> {
    let entries = fs::read_dir(root()).expect("the folder").flatten().map(|e| e.path());
    let mut folders: Vec<PathBuf> = entries.filter(|p| p.join("rules.yaml").exists()).collect();
    folders.sort();
    folders
}

#[test]
fn each_fault_is_told_where_it_is_made() {
    let bless = std::env::var_os("WEIRLINE_BLESS").is_some();
    let mut wrong = Vec::new();
    for folder in folders() {
        let name = folder.file_name().expect("a name").to_string_lossy().into_owned();
        let (found, texts) = faults(&folder, "rules.yaml");
        let message = shown(&found, &texts);
        let file = folder.join("expected.txt");
        if bless {
            fs::write(&file, &message).expect("written");
        }
        let expected = fs::read_to_string(&file).unwrap_or_default();
        if message != expected {
            wrong.push(format!("== {name}: told\n{message}\n-- expected\n{expected}"));
        }
        if !found.iter().any(|f| f.name == name) {
            wrong.push(format!("== {name}: is not found in its own folder:\n{message}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn nothing_is_told_where_nothing_is_wrong() {
    for folder in folders() {
        let (found, texts) = faults(&folder, "quiet.yaml");
        assert!(found.is_empty(), "{}: {}", folder.display(), shown(&found, &texts));
    }
}

/// Names of faults in the source: what stands behind `Fault::error(`, `Fault::warning(` and `ExprFault::new(`.
fn names_in_source() -> std::collections::BTreeSet<String> {
    fn gather(folder: &Path, into: &mut Vec<String>) {
        for entry in fs::read_dir(folder).expect("a folder").flatten() {
            if entry.path().is_dir() {
                gather(&entry.path(), into);
            } else {
                into.push(fs::read_to_string(entry.path()).expect("a source file"));
            }
        }
    }
    let mut texts = Vec::new();
    gather(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut texts);
    let mut names = std::collections::BTreeSet::new();
    for text in &texts {
        for start in ["Fault::error(", "Fault::warning(", "ExprFault::new("] {
            for part in text.split(start).skip(1) {
                if let Some(name) = part.trim_start().strip_prefix('"').and_then(|p| p.split('"').next()) {
                    names.insert(name.to_string());
                }
            }
        }
    }
    names
}

/// Faults of the tables are tried in `tests/knowledge`, those of the disk in `tests/check/disk.rs`.
const TRIED_ELSEWHERE: &[&str] = &[
    "word-twice",
    "unknown-dimension",
    "unknown-table",
    "no-entry",
    "missing-fact",
    "file-too-large",
    "unreadable-file",
    "folder-like-file",
    "no-vocabulary",
];

#[test]
fn each_fault_has_a_page_and_is_tried() {
    let folders: Vec<String> =
        folders().iter().map(|f| f.file_name().expect("a name").to_string_lossy().into_owned()).collect();
    for name in names_in_source() {
        assert!(weirline::rulebook::check::page(&name).is_some(), "`{name}` has no page");
        assert!(folders.contains(&name) || TRIED_ELSEWHERE.contains(&name.as_str()), "`{name}` is not tried");
    }
    let mut before = std::collections::BTreeSet::new();
    for page in weirline::rulebook::check::pages() {
        assert!(before.insert(page.name), "`{}` has two pages", page.name);
        assert!(page.says.ends_with('.'), "`{}`: {}", page.name, page.says);
    }
}

/// The faults' names of a little book with these rule files.
fn names(files: &[(&str, &str)]) -> Vec<String> {
    let (mut texts, _) = texts(&root().join("tab"), "quiet.yaml");
    texts.retain(|(p, _)| p.starts_with("knowledge/"));
    texts.extend(files.iter().map(|(p, t)| (p.to_string(), t.to_string())));
    let found = Book::check(texts.clone(), "test", false).faults;
    let named = |f: &Fault| {
        let text = texts.iter().find(|(p, _)| *p == f.place.file).map_or("", |(_, t)| t.as_str());
        let (line, column) = weirline::source::span::line_and_column(text, f.place.span.start);
        format!("{}:{line}:{column} {}", f.place.file, f.name)
    };
    found.iter().filter(|f| f.name != "no-examples").map(named).collect()
}

const RULE: &str = "about: a\nrules:\n- rule: small-tank\n  topic: enough\n  when:\n  - tank.nominal < 40 L\n  advise:\n    urgency: this week\n    say: Wait.\n    because: It is small.\n  basis: [common practice]\n";

#[test]
fn windows_line_ends_and_a_byte_order_mark_do_no_harm() {
    let windows = RULE.replace('\n', "\r\n");
    let text = yaml::text_of("rules/a.yaml", format!("\u{feff}{windows}").as_bytes()).expect("a text");
    assert_eq!(names(&[("rules/a.yaml", &text)]), Vec::<String>::new());
    let wrong = windows.replace("nominal", "nominl");
    assert_eq!(names(&[("rules/a.yaml", &wrong)]), ["rules/a.yaml:6:5 unknown-name"]);
}

#[test]
fn one_run_finds_the_faults_of_all_files() {
    let misspelt =
        RULE.replace("topic", "topc").replace("small-tank", "one") + &RULE[16..].replace("nominal", "nominl");
    let second = RULE.replace("small-tank", "two").replace("40 L", "40").replace("urgency: this week", "urgency: soon");
    let found = names(&[("rules/a.yaml", &misspelt), ("rules/b.yaml", &second), ("rules/c.yaml", "\tabout: c\n")]);
    let expected = [
        "rules/a.yaml:4:3 unknown-key",
        "rules/a.yaml:15:5 unknown-name",
        "rules/b.yaml:8:14 unknown-word",
        "rules/c.yaml:1:1 tab",
    ];
    assert_eq!(found, expected);
}

#[test]
fn what_leans_on_an_entry_that_cannot_be_read_is_not_blamed() {
    let figure = "about: a\nfigures:\n- figure: half\n  is: tank.nominal / 2\n  basis: [worked out]\n";
    let reader = RULE.replace("tank.nominal", "half");
    assert_eq!(names(&[("rules/a.yaml", figure), ("rules/b.yaml", &reader)]), Vec::<String>::new());
    // A wrong key in the figure: the rule that reads it is right.
    let wrong = figure.replace("basis", "bsis");
    assert_eq!(names(&[("rules/a.yaml", &wrong), ("rules/b.yaml", &reader)]), ["rules/a.yaml:5:3 unknown-key"]);
    // A misspelt fact in the figure: what is worked out of it, and the rules that read it, are right.
    let wrong = figure.replace("tank.nominal / 2", "tank.nominl / 2")
        + "- figure: whole\n  is: half * 2\n  shown in: L\n  basis: [worked out]\n";
    let both = reader.replace("half", "whole");
    let found = names(&[
        ("rules/a.yaml", &wrong),
        ("rules/b.yaml", &reader),
        ("rules/c.yaml", &both.replace("rule: ", "rule: other-")),
    ]);
    assert_eq!(found, ["rules/a.yaml:4:7 unknown-name"]);
    // A file that breaks off: any name may have stood in it; what is near a known name is a slip all the same.
    let broken = figure.replace("is: tank", "is: \"tank");
    let found = names(&[("rules/a.yaml", &broken), ("rules/b.yaml", &reader)]);
    assert_eq!(found, ["rules/a.yaml:4:7 quote-left-open"]);
    let found = names(&[("rules/a.yaml", &broken), ("rules/b.yaml", &RULE.replace("nominal", "nominl"))]);
    assert_eq!(found, ["rules/a.yaml:4:7 quote-left-open", "rules/b.yaml:6:5 unknown-name"]);
}
