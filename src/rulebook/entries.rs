//! The entries of all rule files together, each with its spot. In: files. Out: figures, rules and pictures in the order of
//! their names, so that the order of files and entries never matters. Knows no meaning.

use super::expr::token::ExprFault;
use super::raw::{RawFigure, RawPicture, RawRule, RuleFile};
use crate::source::yaml;
use crate::source::{Fault, Place, Span};

/// A rule file with its places; the built-in book, checked before it was built in, has none.
pub struct RuleSource {
    pub file: String,
    pub text: String,
    pub tree: Option<yaml::Node>,
    /// Spans of its entries, figures then rules, where there is no tree.
    pub starts: Vec<Span>,
    pub value: RuleFile,
}

/// Where a piece of a rule file stands.
#[derive(Clone, Copy)]
pub struct Spot<'s> {
    pub source: &'s RuleSource,
    node: Option<&'s yaml::Node>,
    /// The entry's place, where there is no tree.
    start: Span,
}

impl<'s> Spot<'s> {
    /// The whole file.
    pub fn file(source: &'s RuleSource) -> Self {
        Self { source, node: source.tree.as_ref(), start: Span::default() }
    }

    /// The value under a key; the entry where the key is not written.
    pub fn get(&self, key: &str) -> Spot<'s> {
        Spot { node: self.node.and_then(|n| n.get(key)).or(self.node), ..*self }
    }

    /// The key itself; the entry's first key where it is not written.
    pub fn key(&self, key: &str) -> Spot<'s> {
        let first = self.node.and_then(|n| n.pairs().first()).map(|(k, _)| k);
        Spot { node: self.node.and_then(|n| n.key(key)).or(first).or(self.node), ..*self }
    }

    pub fn item(&self, n: usize) -> Spot<'s> {
        Spot { node: self.node.and_then(|x| x.item(n)).or(self.node), ..*self }
    }

    pub fn place(&self) -> Place {
        Place::new(self.source.file.clone(), self.span())
    }

    pub fn span(&self) -> Span {
        self.node.map_or(self.start, |n| n.span)
    }

    /// The place of `span` of the text `value` that stands at this node.
    pub fn inside(&self, value: &str, span: Span) -> Place {
        let Some(node) = self.node else { return self.place() };
        let written = node.span.of(&self.source.text);
        let fragment = value.get(span.start..span.end).unwrap_or("");
        let offset = match written.find(value) {
            Some(start) => start + span.start,
            // A folded text: look for the fragment itself.
            None => written.find(fragment).unwrap_or(0),
        };
        let start = node.span.start + offset;
        Place::new(self.source.file.clone(), Span::new(start, (start + fragment.len()).max(start + 1)))
    }

    /// A fault of an expression, at its place.
    pub fn fault(&self, value: &str, fault: ExprFault) -> Fault {
        let mut out = Fault::error(fault.name, self.inside(value, fault.span), fault.what);
        out.notes = fault.notes;
        out.cure = fault.cure;
        out
    }
}

/// All entries, by name.
pub struct Entries<'s> {
    pub figures: Vec<(&'s RawFigure, Spot<'s>)>,
    pub rules: Vec<(&'s RawRule, Spot<'s>)>,
    pub pictures: Vec<(&'s RawPicture, Spot<'s>)>,
}

impl<'s> Entries<'s> {
    pub fn of(sources: impl IntoIterator<Item = &'s RuleSource>) -> Self {
        let mut entries = Self { figures: vec![], rules: vec![], pictures: vec![] };
        for source in sources {
            let root = Spot::file(source);
            let start = |n: usize| source.starts.get(n).copied().unwrap_or_default();
            for (n, figure) in source.value.figures.iter().enumerate() {
                entries.figures.push((figure, Spot { start: start(n), ..root.get("figures").item(n) }));
            }
            for (n, rule) in source.value.rules.iter().enumerate() {
                let start = start(source.value.figures.len() + n);
                entries.rules.push((rule, Spot { start, ..root.get("rules").item(n) }));
            }
            let pictures = source.value.pictures.iter().enumerate();
            entries.pictures.extend(pictures.map(|(n, p)| (p, root.get("pictures").item(n))));
        }
        // Two of one name are a fault; where they stand decides which is the second.
        fn by_name<'a>(name: &'a str, spot: &Spot<'a>) -> (&'a str, &'a str, Span) {
            (name, &spot.source.file, spot.span())
        }
        entries.figures.sort_by(|a, b| by_name(&a.0.figure, &a.1).cmp(&by_name(&b.0.figure, &b.1)));
        entries.rules.sort_by(|a, b| by_name(&a.0.rule, &a.1).cmp(&by_name(&b.0.rule, &b.1)));
        entries.pictures.sort_by(|a, b| by_name(&a.0.picture, &a.1).cmp(&by_name(&b.0.picture, &b.1)));
        entries
    }
}
