//! The schemas that editors read: as committed they are what the book gives, and every file of the book names its own in
//! its first line. `WEIRLINE_BLESS=1` writes both anew.

use std::fs;
use std::path::Path;
use weirline::rulebook::Book;
use weirline::rulebook::editor_schema::{of_knowledge, of_rules};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn is_blessed() -> bool {
    std::env::var_os("WEIRLINE_BLESS").is_some()
}

#[test]
fn schemas_are_as_committed() {
    let (book, _) =
        Book::from_texts(crate::rules::book::texts(), "on disk").unwrap_or_else(|faults| panic!("{faults:?}"));
    for (file, text) in [("rules/schema.json", of_rules(&book)), ("knowledge/schema.json", of_knowledge(&book))] {
        let path = root().join(file);
        if is_blessed() {
            fs::write(&path, &text).expect("written");
        }
        let committed = fs::read_to_string(&path).unwrap_or_default();
        assert!(
            committed == text,
            "{file} is not what the book gives; WEIRLINE_BLESS=1 cargo test reference writes it anew"
        );
        let parsed: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        assert!(parsed.is_object());
    }
}

#[test]
fn schemas_hold_the_names_of_the_book() {
    let (book, _) =
        Book::from_texts(crate::rules::book::texts(), "on disk").unwrap_or_else(|faults| panic!("{faults:?}"));
    let rules: serde_json::Value = serde_json::from_str(&of_rules(&book)).expect("JSON");
    let of = |path: &str| {
        let list = rules.pointer(path).unwrap_or_else(|| panic!("no {path}"));
        serde_json::to_string(list).expect("text")
    };
    assert!(of("/$defs/RawRule/properties/topic/enum").contains("\"media order\""));
    assert!(of("/$defs/RawRule/properties/cautions/items/enum").contains("\"unplug-first\""));
    assert!(of("/$defs/RawRule/properties/when/items/anyOf/1/enum").contains("\"tank.kind = pond\""));
    assert!(of("/$defs/RawAdvice/properties/figures/items/enum").contains("\"turnover\""));
    assert!(!of("/$defs").contains("null"), "editors would offer to leave a key empty");
    // Every name that the shipped rules use is one that editors let stand.
    let listed = |path: &str| -> Vec<String> {
        serde_json::from_value(rules.pointer(path).unwrap_or_else(|| panic!("no {path}")).clone()).expect("words")
    };
    let (topics, sources) =
        (listed("/$defs/RawRule/properties/topic/enum"), listed("/$defs/RawRule/properties/source/items/enum"));
    for rule in &book.rules.rules {
        assert!(topics.contains(&rule.topic), "{}", rule.topic);
        assert!(rule.source.iter().all(|s| sources.contains(s)), "{}", rule.name);
    }
}

#[test]
fn every_file_names_its_schema() {
    for (path, text) in crate::rules::book::texts() {
        let up = "../".repeat(path.matches('/').count() - 1);
        let line = format!("# yaml-language-server: $schema={up}schema.json\n");
        if is_blessed() && !text.starts_with(&line) {
            fs::write(root().join(&path), format!("{line}{text}")).expect("written");
            continue;
        }
        assert!(text.starts_with(&line), "{path} does not begin with: {line}");
    }
}
