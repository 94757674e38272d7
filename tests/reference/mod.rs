//! The generated reference: each example of a construct is run, the pages are whole, and those that change with the
//! program alone stand here as they come out. `WEIRLINE_BLESS=1` writes these anew.

mod editors;

use crate::engine::made::{Facts, Made};
use std::fs;
use std::path::Path;
use weirline::engine::{Truth, Value};
use weirline::rulebook::Book;
use weirline::rulebook::reference::{CONSTRUCTS, Example, pages};
use weirline::units::parse;

/// Pages that hold nothing of the rules.
const KEPT: &[&str] = &["language.md", "units.md", "calculations.md", "faults.md"];

#[test]
fn pages_are_as_kept() {
    let book = Book::built_in().unwrap_or_else(|faults| panic!("{faults:?}"));
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference");
    for page in pages(&book).into_iter().filter(|p| KEPT.contains(&p.file)) {
        let file = folder.join(page.file);
        if std::env::var_os("WEIRLINE_BLESS").is_some() {
            fs::write(&file, &page.text).expect("written");
        }
        let kept = fs::read_to_string(&file).unwrap_or_default();
        assert!(kept == page.text, "{} changed; WEIRLINE_BLESS=1 writes it anew", page.file);
    }
}

#[test]
fn everything_of_the_book_is_on_its_page() {
    let book = Book::built_in().unwrap_or_else(|faults| panic!("{faults:?}"));
    let pages = pages(&book);
    let holds = |file: &str, line: String| {
        let page = pages.iter().find(|p| p.file == file).unwrap_or_else(|| panic!("no page {file}"));
        assert!(page.text.lines().any(|l| l.starts_with(&line)), "{file} lacks {line}");
    };
    for rule in &book.rules.rules {
        holds("rules.md", format!("### {}", rule.name));
    }
    for figure in &book.rules.figures {
        holds("figures.md", format!("## {}", figure.name));
    }
    for id in 0..book.schema.attributes.len() {
        let path = book.schema.path_name(weirline::knowledge::schema::AttributeId(id as u16));
        holds("vocabulary.md", format!("| `{path}`"));
    }
    for page in &pages {
        assert!(page.text.starts_with("# "), "{} has no title", page.file);
        assert!(!page.text.contains("\n\n\n"), "{} has two empty lines", page.file);
    }
}

#[test]
fn a_little_book_in_plain_sentences() {
    let read = |path: &str| {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
        (
            path.rsplit_once("book/").map_or(path, |(_, p)| p).to_string(),
            fs::read_to_string(root.join(path)).expect(path),
        )
    };
    let files = vec![
        read("check/book/knowledge/vocabulary.yaml"),
        read("check/book/knowledge/sources.yaml"),
        read("check/book/knowledge/cautions.yaml"),
        (
            "rules/intake.yaml".to_string(),
            fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/little.yaml"))
                .expect("rules"),
        ),
    ];
    let (book, faults) = Book::from_texts(files, "little").unwrap_or_else(|faults| panic!("{faults:?}"));
    assert!(faults.is_empty(), "{faults:?}");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference");
    for page in pages(&book).into_iter().filter(|p| ["rules.md", "figures.md", "vocabulary.md"].contains(&p.file)) {
        let file = folder.join(format!("little-{}", page.file));
        if std::env::var_os("WEIRLINE_BLESS").is_some() {
            fs::write(&file, &page.text).expect("written");
        }
        let kept = fs::read_to_string(&file).unwrap_or_default();
        assert!(kept == page.text, "{} changed; WEIRLINE_BLESS=1 writes it anew", page.file);
    }
}

/// Examples are compiled with the shipped vocabulary and run.
#[test]
fn every_example_of_a_construct_gives_what_it_says() {
    let vocabulary = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("knowledge/vocabulary.yaml"));
    let vocabulary = vocabulary.expect("the vocabulary");
    let mut run = 0;
    for construct in CONSTRUCTS {
        assert!(!construct.examples.is_empty(), "{} has no example", construct.name);
        for example in construct.examples {
            match example {
                Example::Gives { write, where_, gives } => gives_it(&vocabulary, write, where_, gives),
                Example::Entry { yaml } => compiles(yaml),
            }
            run += 1;
        }
    }
    assert!(run > 25, "examples are missing");
}

fn gives_it(vocabulary: &str, write: &str, facts: &[&str], gives: &str) {
    let is_condition = ["true", "false", "unknown"].contains(&gives);
    // `filter.` and a bare attribute are of one filter: the formula is worked out for the first.
    let thing = if write.starts_with("filter.") { "  for: filter\n" } else { "" };
    let text = match is_condition {
        true => {
            format!("about: a\nrules:\n- rule: a\n  topic: flow\n{thing}  when: [\"{write}\"]\n  basis: [worked out]\n")
        }
        false => format!("about: a\nfigures:\n- figure: a\n{thing}  is: \"{write}\"\n  basis: [worked out]\n"),
    };
    let made = Made::new(vocabulary, &[("rules/a.yaml", &text)]);
    let facts = Facts::of(&facts.iter().map(|f| f.to_string()).collect::<Vec<_>>());
    let world = facts.world(&made);
    let state = made.engine().run(&world);
    if is_condition {
        let expected = match gives {
            "true" => Truth::True,
            "false" => Truth::False,
            _ => Truth::Unknown,
        };
        assert_eq!(state.rule(0, 0), expected, "{write}");
        return;
    }
    let expected = parse::quantity(gives).expect("a quantity").base().likely.expect("a value");
    match state.figure(0, 0) {
        Value::Number(found) => assert!((found - expected).abs() <= 1e-9 * expected.abs(), "{write}: {found}"),
        other => panic!("{write}: {other:?}"),
    }
}

/// A piece of a rule file, with the shipped tables: no fault, warnings among them, but for what a piece cannot have.
fn compiles(yaml: &str) {
    let mut files: Vec<(String, String)> =
        crate::rules::book::texts().into_iter().filter(|(path, _)| path.starts_with("knowledge/")).collect();
    files.push(("rules/piece.yaml".into(), format!("about: a piece\n{yaml}\n")));
    let report = weirline::archive::trial::check(files, vec![], "piece", None);
    let told: Vec<String> = report.faults.iter().map(|f| format!("{}: {}", f.name, f.what)).collect();
    assert!(told.is_empty(), "{yaml}\n{}", told.join("\n"));
}
