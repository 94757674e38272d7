//! Places: where each entry of the tables was written. In: files and their trees. Out: the place of an entry, a key or
//! a value, for faults. Knows no table's meaning.

use super::table::Table;
use crate::source::yaml::{Kind, Node};
use crate::source::{Place, Span};
use std::collections::HashMap;

/// Files that were read, and for each entry the file and the item it came from.
#[derive(Default)]
pub struct Places {
    files: Vec<(String, Node)>,
    entries: HashMap<(Table, usize), (usize, usize)>,
}

impl Places {
    /// Remembers a file with the entries of one table, which start at the `first` of that table.
    pub fn add(&mut self, file: &str, tree: Node, table: Table, first: usize, count: usize) {
        for item in 0..count {
            self.entries.insert((table, first + item), (self.files.len(), item));
        }
        self.files.push((file.to_string(), tree));
    }

    /// The place of `text` under `key` of an entry; of the key's value, the key or the entry where it is not found.
    pub fn of(&self, table: Table, entry: usize, key: &str, text: &str) -> Place {
        let Some((file, item)) = self.entries.get(&(table, entry)) else {
            return Place::default();
        };
        let (name, tree) = &self.files[*file];
        let span = tree.item(*item).map_or(Span::default(), |node| span_under(node, key, text));
        Place::new(name.clone(), span)
    }
}

fn span_under(entry: &Node, key: &str, text: &str) -> Span {
    let Some(value) = entry.get(key) else {
        return entry.pairs().first().map_or(entry.span, |(first, _)| first.span);
    };
    let mut found = None;
    value.walk(&mut |node| {
        if found.is_none() && matches!(&node.kind, Kind::Text { text: t, .. } if t == text) {
            found = Some(node.span);
        }
    });
    match (&value.kind, found) {
        (_, Some(span)) => span,
        (Kind::Text { .. }, None) => value.span,
        _ => entry.key(key).map_or(value.span, |k| k.span),
    }
}
