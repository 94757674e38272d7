//! What was edited between two books, entry by entry: rules, figures, table entries, words. In: the texts of both. Out: edits,
//! each of which can be taken back alone. Knows no meaning of an entry.

use super::edition::Texts;
use crate::source::span::line_and_column;
use crate::source::words::differing;
use crate::source::yaml::{self, Kind, Node};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// How an entry was edited.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum How {
    Changed,
    Added,
    Removed,
}

/// One edited entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Edit {
    pub how: How,
    pub file: String,
    /// The first line of it that differs, in the newer book; of a removed entry, its line in the former one.
    pub line: usize,
    /// What begins it: `rule`, `figure`, `stock`; the part of the file for entries without a name; `file`.
    pub sort: String,
    pub name: String,
    /// The first text that differs, before and after.
    pub from: String,
    pub to: String,
    takes_back: Splice,
}

/// A piece of a file of the newer book with what stood there before.
#[derive(Clone, Debug, PartialEq)]
struct Splice {
    file: String,
    range: Range<usize>,
    with: String,
}

/// Keys that nobody is told anything of: examples are tried by `check` alone.
const SILENT: [&str; 2] = ["examples", "about"];
/// A list whose entries are edited one by one although it stands inside an entry.
const INNER: &str = "attributes";

/// One entry of a file.
#[derive(Clone)]
struct Place {
    file: String,
    /// Its lines.
    block: Range<usize>,
    node: Node,
    /// What stands before it in the same list.
    before: Option<Key>,
}

/// The part of the book, the sort of entry, its name, and which of several of one name.
type Key = (&'static str, String, String, usize);

/// All edits, in the order of files and lines.
pub fn edits(old: &Texts, new: &Texts) -> Vec<Edit> {
    let (mut before, mut after) = (BTreeMap::new(), BTreeMap::new());
    let mut whole = BTreeSet::new();
    let paths: BTreeSet<&String> = old.keys().chain(new.keys()).collect();
    for path in paths {
        match (old.get(path), new.get(path)) {
            (Some(a), Some(b)) if a == b => {}
            (Some(a), Some(b)) => {
                // A file whose entries cannot be told apart is one edit.
                let (mut one, mut other) = (before.clone(), after.clone());
                if entries(path, a, &mut one) && entries(path, b, &mut other) {
                    (before, after) = (one, other);
                } else {
                    whole.insert(path.clone());
                }
            }
            _ => drop(whole.insert(path.clone())),
        }
    }
    let mut out: Vec<Edit> = whole.iter().map(|path| whole_file(path, old, new)).collect();
    for (key, was) in &before {
        match after.get(key) {
            Some(is) if same(&was.node, &is.node) => {}
            Some(is) => out.push(changed(key, was, is, old, new)),
            None => out.extend(removed(key, was, &after, old, new)),
        }
    }
    for (key, is) in after.iter().filter(|(key, _)| !before.contains_key(*key)) {
        out.push(added(key, is, new));
    }
    out.sort_by(|a, b| (&a.file, a.line, &a.name).cmp(&(&b.file, b.line, &b.name)));
    out
}

/// The newer book with some edits taken back.
pub fn taken_back<'e>(new: &Texts, edits: impl Iterator<Item = &'e Edit>) -> Texts {
    let mut splices: Vec<&Splice> = edits.map(|e| &e.takes_back).collect();
    // From the end of a file on, so that what stands before stays where it is.
    splices.sort_by_key(|s| (&s.file, std::cmp::Reverse((s.range.start, s.range.end))));
    let mut texts = new.clone();
    for splice in splices {
        let text = texts.entry(splice.file.clone()).or_default();
        if text.is_char_boundary(splice.range.start) && text.is_char_boundary(splice.range.end) {
            text.replace_range(splice.range.clone(), &splice.with);
        }
        if text.is_empty() {
            texts.remove(&splice.file);
        }
    }
    texts
}

fn whole_file(path: &str, old: &Texts, new: &Texts) -> Edit {
    let (was, is) = (old.get(path), new.get(path));
    let how = match (was, is) {
        (None, _) => How::Added,
        (_, None) => How::Removed,
        _ => How::Changed,
    };
    let takes_back =
        Splice { file: path.to_string(), range: 0..is.map_or(0, String::len), with: was.cloned().unwrap_or_default() };
    let (file, sort, name) = (path.to_string(), "file".to_string(), path.to_string());
    Edit { how, file, line: 1, sort, name, from: String::new(), to: String::new(), takes_back }
}

fn changed(key: &Key, was: &Place, is: &Place, old: &Texts, new: &Texts) -> Edit {
    let (a, b) = first_difference(&was.node, &is.node);
    let (from, to) = differing(a.span.of(&old[&was.file]), b.span.of(&new[&is.file]));
    Edit {
        how: How::Changed,
        file: is.file.clone(),
        line: line_at(&new[&is.file], b.span.start),
        sort: key.1.clone(),
        name: key.2.clone(),
        from,
        to,
        takes_back: Splice {
            file: is.file.clone(),
            range: is.block.clone(),
            with: old[&was.file][was.block.clone()].to_string(),
        },
    }
}

fn added(key: &Key, is: &Place, new: &Texts) -> Edit {
    Edit {
        how: How::Added,
        file: is.file.clone(),
        line: line_at(&new[&is.file], is.node.span.start),
        sort: key.1.clone(),
        name: key.2.clone(),
        from: String::new(),
        to: String::new(),
        takes_back: Splice { file: is.file.clone(), range: is.block.clone(), with: String::new() },
    }
}

/// A removed entry goes back behind the one it stood behind, else before the first of its file that is left.
fn removed(key: &Key, was: &Place, after: &BTreeMap<Key, Place>, old: &Texts, new: &Texts) -> Option<Edit> {
    let here = |place: &&Place| place.file == was.file;
    let mut before = was.before.clone();
    let mut seen = 0;
    let mut at = None;
    while let Some(key) = &before {
        if let Some(place) = after.get(key).filter(here) {
            at = Some(place.block.end);
            break;
        }
        // Whatever else was removed before it: look further up.
        seen += 1;
        before = (seen < 10_000).then(|| earlier(key, old)).flatten();
    }
    let same_list = |k: &Key| k.1 == key.1;
    let first = || after.iter().filter(|(k, p)| same_list(k) && here(p)).map(|(_, p)| p.block.start).min();
    let at = at.or_else(first)?;
    new.get(&was.file)?;
    Some(Edit {
        how: How::Removed,
        file: was.file.clone(),
        line: line_at(&old[&was.file], was.node.span.start),
        sort: key.1.clone(),
        name: key.2.clone(),
        from: String::new(),
        to: String::new(),
        takes_back: Splice {
            file: was.file.clone(),
            range: at..at,
            with: old[&was.file][was.block.clone()].to_string(),
        },
    })
}

/// The key of the entry before one of the former book.
fn earlier(key: &Key, old: &Texts) -> Option<Key> {
    let mut places = BTreeMap::new();
    for (path, text) in old.iter().filter(|(p, _)| p.starts_with(key.0)) {
        entries(path, text, &mut places);
    }
    places.get(key)?.before.clone()
}

/// The entries of a file, added to `out`; `false` when they cannot be told apart.
fn entries(path: &str, text: &str, out: &mut BTreeMap<Key, Place>) -> bool {
    let part = if path.starts_with("rules/") { "rules/" } else { "knowledge/" };
    let (tree, faults) = yaml::tree(path, text);
    if faults.iter().any(|f| f.is_error()) {
        return false;
    }
    let mut gather = Gather { part, path, text, out };
    match &tree.kind {
        Kind::List(items) => gather.list(items, "", text.len()),
        Kind::Map(pairs) => pairs.iter().enumerate().all(|(n, (key, value))| {
            let end = pairs.get(n + 1).map_or(text.len(), |(next, _)| line_start(text, next.span.start));
            match &value.kind {
                _ if SILENT.contains(&key.text()) => true,
                Kind::List(items) if is_entries(items) => gather.list(items, "", end),
                // What stands on lines of its own is edited line by line.
                Kind::Map(inner) if !inner.is_empty() && own_lines(text, inner) => gather.map(inner, key.text(), end),
                _ => {
                    let block = line_start(text, key.span.start)..end;
                    gather.add("part", key.text(), block, value.clone(), None);
                    true
                }
            }
        }),
        _ => false,
    }
}

struct Gather<'g> {
    part: &'static str,
    path: &'g str,
    text: &'g str,
    out: &'g mut BTreeMap<Key, Place>,
}

impl Gather<'_> {
    fn add(&mut self, sort: &str, name: &str, block: Range<usize>, node: Node, before: Option<Key>) -> Key {
        let mut key = (self.part, sort.to_string(), name.to_string(), 0);
        while self.out.contains_key(&key) {
            key.3 += 1;
        }
        self.out.insert(key.clone(), Place { file: self.path.to_string(), block, node, before });
        key
    }

    /// A list of entries that each begin with their sort and name, up to `end`.
    fn list(&mut self, items: &[Node], within: &str, end: usize) -> bool {
        let starts: Vec<usize> = items.iter().map(|i| line_start(self.text, i.span.start)).collect();
        if !is_entries(items) || starts.windows(2).any(|w| w[0] == w[1]) {
            return false;
        }
        let mut before = None;
        for (n, item) in items.iter().enumerate() {
            let end = starts.get(n + 1).copied().unwrap_or(end);
            let Some((key, value)) = item.pairs().first() else { return false };
            let name = format!("{within}{}", value.text());
            let mut node = item.clone();
            let mut stop = end;
            if let (Kind::Map(pairs), Some(inner)) = (&mut node.kind, item.get(INNER).filter(|i| is_entries(i.items())))
            {
                let inner = inner.items();
                stop = line_start(self.text, inner[0].span.start);
                let after = item.pairs().iter().position(|(k, _)| k.text() == INNER).map_or(0, |p| p + 1);
                let inner_end = item.pairs().get(after).map_or(end, |(k, _)| line_start(self.text, k.span.start));
                // What stands behind the inner list belongs to no block of its own.
                if inner_end != end || !self.list(inner, &format!("{}.", value.text()), inner_end) {
                    return false;
                }
                pairs.retain(|(k, _)| k.text() != INNER);
            }
            before = Some(self.add(key.text(), &name, starts[n]..stop, node, before));
        }
        true
    }

    fn map(&mut self, pairs: &[(Node, Node)], within: &str, end: usize) -> bool {
        let mut before = None;
        for (n, (key, value)) in pairs.iter().enumerate() {
            let end = pairs.get(n + 1).map_or(end, |(next, _)| line_start(self.text, next.span.start));
            let block = line_start(self.text, key.span.start)..end;
            before = Some(self.add(within, key.text(), block, value.clone(), before));
        }
        true
    }
}

fn is_entries(items: &[Node]) -> bool {
    !items.is_empty() && items.iter().all(|i| !i.pairs().is_empty())
}

fn own_lines(text: &str, pairs: &[(Node, Node)]) -> bool {
    let mut last = None;
    pairs.iter().all(|(key, _)| {
        let start = line_start(text, key.span.start);
        let own = text[start..key.span.start].trim().is_empty() && last != Some(start);
        last = Some(start);
        own
    })
}

fn line_start(text: &str, at: usize) -> usize {
    text[..at.min(text.len())].rfind('\n').map_or(0, |n| n + 1)
}

fn line_at(text: &str, at: usize) -> usize {
    line_and_column(text, at).0
}

/// The same to every reader: how it is laid out, comments and examples do not matter.
fn same(a: &Node, b: &Node) -> bool {
    match (&a.kind, &b.kind) {
        (Kind::Empty, Kind::Empty) => true,
        (Kind::Text { text: a, .. }, Kind::Text { text: b, .. }) => a == b,
        (Kind::List(a), Kind::List(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b)),
        (Kind::Map(_), Kind::Map(_)) => {
            let (a, b) = (told(a), told(b));
            a.len() == b.len() && a.iter().zip(&b).all(|((k, v), (l, w))| k.text() == l.text() && same(v, w))
        }
        _ => false,
    }
}

/// The pairs of a map that matter.
fn told(node: &Node) -> Vec<&(Node, Node)> {
    node.pairs().iter().filter(|(key, _)| !SILENT.contains(&key.text())).collect()
}

/// The smallest places at which two nodes first differ.
fn first_difference<'n>(a: &'n Node, b: &'n Node) -> (&'n Node, &'n Node) {
    match (&a.kind, &b.kind) {
        (Kind::List(x), Kind::List(y)) if x.len() == y.len() => {
            let found = x.iter().zip(y).find(|(a, b)| !same(a, b));
            found.map_or((a, b), |(a, b)| first_difference(a, b))
        }
        (Kind::List(x), Kind::List(y)) => {
            // One more or one less: the first that is not the same, or the last.
            let n = x.iter().zip(y).take_while(|(a, b)| same(a, b)).count();
            (x.get(n).or(x.last()).unwrap_or(a), y.get(n).or(y.last()).unwrap_or(b))
        }
        (Kind::Map(_), Kind::Map(_)) => {
            let (x, y) = (told(a), told(b));
            let found = x.iter().zip(&y).find(|((k, v), (l, w))| k.text() != l.text() || !same(v, w));
            match found {
                Some(((k, v), (l, w))) if k.text() == l.text() => first_difference(v, w),
                Some(((k, _), (l, _))) => (k, l),
                None => (x.last().map_or(a, |(k, _)| k), y.last().map_or(b, |(k, _)| k)),
            }
        }
        _ => (a, b),
    }
}
