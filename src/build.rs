//! The build script: turns `knowledge/` and `rules/` into a compact form with the same loader that reads a book on disk,
//! and stops the build on any fault of form.

// The script shares the loader by path; it uses only a part of it.
#![allow(dead_code, unused_imports, clippy::all)]

mod knowledge;
#[path = "rulebook/raw.rs"]
mod raw;
mod source;
mod units;
#[path = "rulebook/version.rs"]
mod version;

use knowledge::Knowledge;
use serde::Serialize;
use source::{Fault, Span, draw::draw, yaml};
use std::path::Path;

/// The same shape as `rulebook::library::BuiltInRules`.
#[derive(Serialize)]
struct BuiltInRules {
    file: String,
    value: raw::RuleFile,
    starts: Vec<Span>,
}

fn main() {
    let mut texts = Vec::new();
    for folder in ["knowledge", "rules"] {
        println!("cargo::rerun-if-changed={folder}");
        gather(Path::new(folder), &mut texts);
    }
    texts.sort();
    let mut faults = Vec::new();
    let under: Vec<(&str, &str)> =
        texts.iter().filter(|(p, _)| p.starts_with("knowledge/")).map(|(p, t)| (p.as_str(), t.as_str())).collect();
    let knowledge = Knowledge::from_texts(&under).unwrap_or_else(|found| {
        faults.extend(found);
        Knowledge::default()
    });
    let (mut rules, mut examples) = (Vec::new(), Vec::new());
    for (path, text) in texts.iter().filter(|(p, _)| p.starts_with("rules/")) {
        match yaml::read::<raw::RuleFile>(path, text) {
            Ok(mut document) => {
                // Read only when somebody asks for them; at the start they would only cost time.
                for rule in &mut document.value.rules {
                    examples.push((rule.rule.clone(), std::mem::take(&mut rule.examples)));
                }
                let spans = |key: &str| {
                    document.tree.get(key).map_or(&[][..], |n| n.items()).iter().map(|n| n.span).collect::<Vec<_>>()
                };
                let starts = [spans("figures"), spans("rules")].concat();
                rules.push(BuiltInRules { file: document.file, value: document.value, starts });
            }
            Err(found) => faults.extend(found),
        }
    }
    if faults.iter().any(Fault::is_error) {
        let find = |file: &str| texts.iter().find(|(p, _)| p == file).map(|(_, t)| t.clone());
        let shown: String = faults.iter().map(|f| draw(f, &find)).collect();
        eprintln!("the book cannot be built in:\n{shown}");
        std::process::exit(1);
    }
    let out = std::env::var("OUT_DIR").unwrap_or_else(|_| ".".into());
    write(Path::new(&out).join("knowledge.postcard"), &knowledge);
    write(Path::new(&out).join("rules.postcard"), &rules);
    write(Path::new(&out).join("examples.postcard"), &examples);
    write(Path::new(&out).join("texts.postcard"), &texts);
    // Hashing the whole book at every start would be felt.
    let version = version::version(&texts);
    std::fs::write(Path::new(&out).join("version.txt"), version).unwrap_or_else(|e| fail(&e.to_string()));
}

/// Every YAML file below `folder`, by path with `/`.
fn gather(folder: &Path, texts: &mut Vec<(String, String)>) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let path = entry.path();
        if path.is_dir() {
            gather(&path, texts);
        } else if path.extension().is_some_and(|e| e == "yaml") {
            let bytes = std::fs::read(&path).unwrap_or_default();
            let name = path.to_string_lossy().replace('\\', "/");
            texts.push((name, String::from_utf8_lossy(&bytes).into_owned()));
        }
    }
}

fn write(path: std::path::PathBuf, value: &impl Serialize) {
    let bytes = postcard::to_stdvec(value).unwrap_or_else(|e| fail(&e.to_string()));
    std::fs::write(&path, bytes).unwrap_or_else(|e| fail(&e.to_string()));
}

fn fail(why: &str) -> ! {
    eprintln!("the book cannot be built in: {why}");
    std::process::exit(1)
}
