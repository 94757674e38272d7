//! Reads rule files. In: texts by path. Out: their entries with places, and every slip of form. A file with a slip gives
//! the entries that have none, so that one run finds the faults of all.

use super::entries::RuleSource;
use super::raw::RuleFile;
use crate::source::yaml::{self, Kind, Node};
use crate::source::{Fault, form};
use serde::de::DeserializeOwned;

/// What could not be read, so that nothing that leans on it is blamed.
#[derive(Clone, Debug, Default)]
pub struct Gaps {
    /// Names of rules, figures and conclusions in entries that could not be read.
    pub names: Vec<String>,
    /// A file broke off: any name may stand in what was not read.
    pub broken_off: bool,
    /// A table of the knowledge could not be read: kinds, cautions and sources may be missing.
    pub tables: bool,
}

/// All rule files.
pub fn read(texts: &[(&str, &str)], faults: &mut Vec<Fault>, gaps: &mut Gaps) -> Vec<RuleSource> {
    let mut sources = Vec::new();
    for (file, text) in texts {
        match yaml::read::<RuleFile>(file, text) {
            Ok(document) => {
                faults.extend(document.warnings);
                sources.push(RuleSource {
                    file: document.file,
                    text: document.text,
                    tree: Some(document.tree),
                    starts: vec![],
                    value: document.value,
                });
            }
            Err(found) => {
                let source = salvage(file, text, gaps);
                gaps.broken_off |= source.is_none();
                sources.extend(source);
                faults.extend(found);
            }
        }
    }
    sources
}

/// The entries of a file that can be read although others cannot.
fn salvage(file: &str, text: &str, gaps: &mut Gaps) -> Option<RuleSource> {
    let (tree, faults) = yaml::tree(file, text);
    let end = tree.span.end;
    // Where YAML itself broke off, the last entry is not whole.
    let broken = faults.iter().any(|f| f.is_error() && f.place.span.start >= end);
    gaps.broken_off |= broken || tree.kind == Kind::Empty;
    let schema = schemars::schema_for!(RuleFile);
    let schema = schema.as_value();
    let mut value =
        RuleFile { about: tree.get("about").map_or(String::new(), |n| n.text().to_string()), ..RuleFile::default() };
    let mut kept: Vec<(Node, Node)> = Vec::new();
    let lists = tree.pairs().len();
    for (n, (key, list)) in tree.pairs().iter().enumerate() {
        let form = schema.pointer(&format!("/properties/{}/items", key.text()));
        let mut items = Vec::new();
        for item in list.items() {
            let slip = faults.iter().any(|f| f.is_error() && item.span.touches(f.place.span));
            let last = broken && n + 1 == lists && list.items().last().is_some_and(|l| l.span == item.span);
            let read = form.is_some_and(|form| {
                let full = with_definitions(form, schema);
                !slip && !last && form::faults(file, text, item, &full).is_empty() && take(key.text(), item, &mut value)
            });
            match read {
                true => items.push(item.clone()),
                false => gaps.names.extend(names_in(item)),
            }
        }
        kept.push((key.clone(), Node { span: list.span, kind: Kind::List(items) }));
    }
    let tree = Node { span: tree.span, kind: Kind::Map(kept) };
    Some(RuleSource { file: file.to_string(), text: text.to_string(), tree: Some(tree), starts: vec![], value })
}

/// One part of a form, with the definitions that it points to.
fn with_definitions(part: &serde_json::Value, whole: &serde_json::Value) -> serde_json::Value {
    let mut full = part.clone();
    if let (Some(object), Some(definitions)) = (full.as_object_mut(), whole.get("$defs")) {
        object.insert("$defs".into(), definitions.clone());
    }
    full
}

fn take(list: &str, item: &Node, value: &mut RuleFile) -> bool {
    fn push<T: DeserializeOwned>(item: &Node, list: &mut Vec<T>) -> bool {
        let read = serde_yaml::from_value(plain(item)).ok();
        let there = read.is_some();
        list.extend(read);
        there
    }
    match list {
        "figures" => push(item, &mut value.figures),
        "rules" => push(item, &mut value.rules),
        "pictures" => push(item, &mut value.pictures),
        _ => false,
    }
}

/// A node as a plain value; rule files hold texts only.
fn plain(node: &Node) -> serde_yaml::Value {
    match &node.kind {
        Kind::Empty => serde_yaml::Value::Null,
        Kind::Text { text, .. } => serde_yaml::Value::String(text.clone()),
        Kind::List(items) => serde_yaml::Value::Sequence(items.iter().map(plain).collect()),
        Kind::Map(pairs) => serde_yaml::Value::Mapping(pairs.iter().map(|(k, v)| (plain(k), plain(v))).collect()),
    }
}

/// Names that an entry which could not be read would have brought in.
fn names_in(item: &Node) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for (key, value) in item.pairs() {
        match key.text() {
            "conclude" => names.extend(value.items().iter().chain([value]).map(|n| n.text().to_string())),
            // The first key names the entry, however it is spelt.
            _ if names.is_empty() => names.push(value.text().to_string()),
            _ => {}
        }
    }
    names
}
