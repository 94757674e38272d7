//! The book as a whole: no faults, every source and caution it names exists, every basis is honest.

use std::collections::BTreeSet;
use std::path::Path;
use weirline::rulebook::Book;
use weirline::rulebook::raw::BasisWord;
use weirline::source::draw::draw;

/// Every YAML file of the book on disk, as `unpack` would write it.
pub fn texts() -> Vec<(String, String)> {
    fn gather(folder: &Path, root: &Path, into: &mut Vec<(String, String)>) {
        let mut entries: Vec<_> = std::fs::read_dir(folder).unwrap().flatten().map(|e| e.path()).collect();
        entries.sort();
        for path in entries {
            if path.is_dir() {
                gather(&path, root, into);
            } else if path.extension().is_some_and(|e| e == "yaml") {
                let name = path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
                into.push((name, std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut out = Vec::new();
    for folder in ["knowledge", "rules"] {
        gather(&root.join(folder), root, &mut out);
    }
    out
}

#[test]
fn compiles_without_faults() {
    let texts = texts();
    let find = |file: &str| texts.iter().find(|(p, _)| p == file).map(|(_, t)| t.clone());
    let faults = match Book::from_texts(texts.clone(), "on disk") {
        Ok((_, warnings)) => warnings,
        Err(faults) => faults,
    };
    let shown: String = faults.iter().map(|f| draw(f, &find)).collect();
    assert!(faults.is_empty(), "{shown}");
}

#[test]
fn every_source_and_caution_exists() {
    let book = &*super::call::BOOK;
    let sources: BTreeSet<&str> = book.knowledge.sources.iter().map(|s| s.source.as_str()).collect();
    let cautions: BTreeSet<&str> = book.knowledge.cautions.iter().map(|c| c.caution.as_str()).collect();
    let rules = book.rules.rules.iter().map(|r| (&r.name, &r.basis, &r.source));
    let figures = book.rules.figures.iter().map(|f| (&f.name, &f.basis, &f.source));
    for (name, basis, source) in rules.chain(figures) {
        assert!(!basis.is_empty(), "`{name}` has no basis");
        assert_eq!(basis.contains(&BasisWord::Published), !source.is_empty(), "`{name}`: published means a source");
        for key in source {
            assert!(sources.contains(key.as_str()), "`{name}` names the source `{key}`, which there is not");
        }
    }
    for rule in &book.rules.rules {
        for caution in &rule.cautions {
            assert!(cautions.contains(caution.as_str()), "`{}` names the caution `{caution}`", rule.name);
        }
    }
}
