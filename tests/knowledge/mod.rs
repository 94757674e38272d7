//! The tables as shipped: they read clean, are complete, are found by every word, and agree with published sizes.

mod faults;
mod lookups;
mod sizes;
mod tables;
mod words;

use std::sync::OnceLock;
use weirline::knowledge::Knowledge;
use weirline::source::{Fault, draw::draw};

/// Path and text of every file under `knowledge/`.
pub fn texts() -> &'static [(String, String)] {
    static TEXTS: OnceLock<Vec<(String, String)>> = OnceLock::new();
    TEXTS.get_or_init(|| {
        let mut texts = Vec::new();
        gather("knowledge", &mut texts);
        texts.sort();
        texts
    })
}

fn gather(folder: &str, texts: &mut Vec<(String, String)>) {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/");
    for entry in std::fs::read_dir(format!("{root}{folder}")).expect("the folder is shipped") {
        let entry = entry.expect("an entry of the folder");
        let path = format!("{folder}/{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            gather(&path, texts);
        } else if path.ends_with(".yaml") {
            texts.push((path, std::fs::read_to_string(entry.path()).expect("a text file")));
        }
    }
}

/// Reads the shipped files, some replaced by what `change` makes of them (path, text).
pub fn read_with(change: impl Fn(&str, &str) -> Option<String>) -> Result<Knowledge, String> {
    let changed: Vec<(String, String)> =
        texts().iter().map(|(p, t)| (p.clone(), change(p, t).unwrap_or_else(|| t.clone()))).collect();
    let borrowed: Vec<(&str, &str)> = changed.iter().map(|(p, t)| (p.as_str(), t.as_str())).collect();
    let text_of = |file: &str| changed.iter().find(|(p, _)| p == file).map(|(_, t)| t.clone());
    let show = |faults: Vec<Fault>| faults.iter().map(|f| draw(f, &text_of)).collect::<String>();
    Knowledge::from_texts(&borrowed).map_err(show)
}

/// The shipped tables.
pub fn book() -> &'static Knowledge {
    static BOOK: OnceLock<Knowledge> = OnceLock::new();
    BOOK.get_or_init(|| read_with(|_, _| None).unwrap_or_else(|faults| panic!("{faults}")))
}
