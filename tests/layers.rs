//! The arrows of the program: a module uses only modules below it; every file has a head comment and one screenful of ideas.

use std::path::{Path, PathBuf};

/// From the top down; a module may use those behind it.
const LAYERS: [&str; 13] = [
    "command",
    "archive",
    "reply",
    "doubt",
    "engine",
    "rulebook",
    "case",
    "listen",
    "knowledge",
    "water",
    "units",
    "source",
    "",
];
const LONGEST: usize = 400;

fn sources() -> Vec<(PathBuf, String)> {
    fn gather(folder: &Path, out: &mut Vec<(PathBuf, String)>) {
        let mut entries: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().flatten().map(|e| e.path()).collect();
        entries.sort();
        for path in entries {
            if path.is_dir() {
                gather(&path, out);
            } else if path.extension().is_some_and(|e| e == "rs") {
                out.push((path.clone(), std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    let mut out = Vec::new();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    gather(&root.join("src"), &mut out);
    out.into_iter().map(|(path, text)| (path.strip_prefix(root).unwrap().to_path_buf(), text)).collect()
}

fn layer(path: &Path) -> Option<usize> {
    let folder = path.components().nth(1)?.as_os_str().to_str()?;
    LAYERS.iter().position(|l| *l == folder)
}

/// Names of our own modules that a text mentions behind `crate::`, with the line.
fn used(text: &str) -> Vec<(usize, String)> {
    let mut out = Vec::new();
    for (n, line) in text.lines().enumerate() {
        let code = line.split("//").next().unwrap_or("");
        for part in code.split("crate::").skip(1) {
            let name: String = part.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
            out.push((n + 1, name));
        }
    }
    out
}

#[test]
fn no_arrow_points_up() {
    let mut wrong = Vec::new();
    for (path, text) in sources() {
        let Some(own) = layer(&path) else { continue };
        for (line, name) in used(&text) {
            if let Some(other) = LAYERS.iter().position(|l| *l == name)
                && other < own
            {
                wrong.push(format!("{}:{line} uses {name}", path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_folder_has_its_place() {
    for (path, _) in sources() {
        if path.components().count() > 2 {
            assert!(layer(&path).is_some(), "{} is in no layer", path.display());
        }
    }
}

#[test]
fn no_file_is_too_long() {
    let long: Vec<String> = sources()
        .into_iter()
        .map(|(path, text)| (path, text.lines().count()))
        .filter(|(_, lines)| *lines > LONGEST)
        .map(|(path, lines)| format!("{} has {lines} lines", path.display()))
        .collect();
    assert!(long.is_empty(), "{}", long.join("\n"));
}

#[test]
fn every_file_says_what_it_is() {
    for (path, text) in sources() {
        let head = text.lines().take_while(|l| l.starts_with("//!")).count();
        assert!((1..=10).contains(&head), "{} begins with {head} lines of head comment", path.display());
    }
}

#[test]
fn only_paint_knows_colour() {
    for (path, text) in sources() {
        if path != Path::new("src/reply/paint.rs") {
            assert!(!text.contains("colored::"), "{} knows colour", path.display());
        }
        assert!(!text.contains("unsafe {"), "{}", path.display());
    }
}
