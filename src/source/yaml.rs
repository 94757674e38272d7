//! YAML with places. In: the text of one file. Out: typed values (serde_yaml says *what*) and a tree of spans
//! (saphyr-parser says *where*); or every fault of the file's form. Knows no rule and no table.

use super::fault::{Fault, Place};
use super::span::Span;
use saphyr_parser::{Event, Parser, ScalarStyle};
use schemars::JsonSchema;
use serde::de::DeserializeOwned;

/// The largest file that is read, in bytes: beyond it a slip of the hand is likelier than a book.
pub const LARGEST: usize = 2_000_000;
/// The deepest nesting: rules need five levels.
const DEEPEST: usize = 24;

/// One value of the file with the place it stands at.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Node {
    pub span: Span,
    pub kind: Kind,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub enum Kind {
    #[default]
    Empty,
    /// A text; `plain` when it stands without quotes on its own line(s), `block` for `>` and `|`.
    Text {
        text: String,
        plain: bool,
        block: bool,
    },
    List(Vec<Node>),
    Map(Vec<(Node, Node)>),
}

impl Node {
    /// The value under `key` of a map.
    pub fn get(&self, key: &str) -> Option<&Node> {
        match &self.kind {
            Kind::Map(pairs) => pairs.iter().find(|(k, _)| k.text() == key).map(|(_, v)| v),
            _ => None,
        }
    }

    /// The key itself, for pointing at it.
    pub fn key(&self, key: &str) -> Option<&Node> {
        match &self.kind {
            Kind::Map(pairs) => pairs.iter().find(|(k, _)| k.text() == key).map(|(k, _)| k),
            _ => None,
        }
    }

    /// The n-th item of a list.
    pub fn item(&self, n: usize) -> Option<&Node> {
        match &self.kind {
            Kind::List(items) => items.get(n),
            _ => None,
        }
    }

    pub fn items(&self) -> &[Node] {
        match &self.kind {
            Kind::List(items) => items,
            _ => &[],
        }
    }

    pub fn pairs(&self) -> &[(Node, Node)] {
        match &self.kind {
            Kind::Map(pairs) => pairs,
            _ => &[],
        }
    }

    pub fn text(&self) -> &str {
        match &self.kind {
            Kind::Text { text, .. } => text,
            _ => "",
        }
    }

    /// Calls `see` for every node below and this one.
    pub fn walk<'n>(&'n self, see: &mut impl FnMut(&'n Node)) {
        see(self);
        match &self.kind {
            Kind::List(items) => items.iter().for_each(|i| i.walk(see)),
            Kind::Map(pairs) => pairs.iter().for_each(|(k, v)| {
                k.walk(see);
                v.walk(see);
            }),
            _ => {}
        }
    }
}

/// A file that was read: its values, its places, its text.
pub struct Document<T> {
    pub file: String,
    pub text: String,
    pub tree: Node,
    pub value: T,
    /// What is worth a look, though the file can be used.
    pub warnings: Vec<Fault>,
}

impl<T> Document<T> {
    pub fn place(&self, span: Span) -> Place {
        Place::new(self.file.clone(), span)
    }
}

/// Bytes of a file to text: size, UTF-8 and control characters are checked, a byte-order mark is taken off.
pub fn text_of(file: &str, bytes: &[u8]) -> Result<String, Box<Fault>> {
    let at = |offset| Place::new(file, Span::new(offset, offset + 1));
    if bytes.len() > LARGEST {
        let what = format!("this file has {} bytes; a file of a book has at most {LARGEST}", bytes.len());
        return Err(Fault::error("file-too-large", at(0), what).cure("split it by topic").into());
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text,
        Err(e) => {
            let what = "this letter is not written in UTF-8";
            return Err(Fault::error("not-utf8", at(e.valid_up_to()), what)
                .cure("save the file as UTF-8 in your editor")
                .into());
        }
    };
    if let Some((offset, c)) = text.char_indices().find(|(_, c)| c.is_control() && !matches!(c, '\n' | '\r' | '\t')) {
        let what = format!("a character that cannot be seen stands here (code {})", c as u32);
        return Err(Fault::error("control-character", at(offset), what).cure("delete it").into());
    }
    Ok(text.to_string())
}

/// Reads one file: typed value and tree of places, or all faults of its form.
pub fn read<T: DeserializeOwned + JsonSchema>(file: &str, text: &str) -> Result<Document<T>, Vec<Fault>> {
    let (tree, mut faults) = tree(file, text);
    if faults.iter().any(Fault::is_error) {
        return Err(faults);
    }
    match serde_yaml::from_str::<T>(text) {
        Ok(value) => Ok(Document { file: file.to_string(), text: text.to_string(), tree, value, warnings: faults }),
        Err(e) => {
            let slips = super::form::faults(file, text, &tree, schemars::schema_for!(T).as_value());
            match slips.is_empty() {
                true => faults.push(super::yaml_words::fault_of(file, &e)),
                false => faults.extend(slips),
            }
            Err(faults)
        }
    }
}

/// The tree of places of one file, and the faults of its YAML. Where it breaks off, the tree holds what stands above.
pub fn tree(file: &str, text: &str) -> (Node, Vec<Fault>) {
    let mut faults = super::yaml_words::traps(file, text);
    if faults.iter().any(Fault::is_error) {
        return (Node::default(), faults);
    }
    let root = events(file, text, &mut faults);
    faults.extend(super::yaml_words::looks(file, text, &root));
    (root, faults)
}

fn events(file: &str, text: &str, faults: &mut Vec<Fault>) -> Node {
    let offsets = Offsets::new(text);
    let mut stack: Vec<(Node, Option<Node>)> = Vec::new();
    let mut root = Node::default();
    let mut documents = 0;
    for event in Parser::new_from_str(text) {
        let (event, span) = match event {
            Ok(pair) => pair,
            Err(e) => {
                let offset = offsets.byte(e.marker().index());
                faults.push(super::yaml_words::scan_fault(file, text, offset, e.info()));
                return closed(root, stack, file);
            }
        };
        let span = Span::new(offsets.byte(span.start.index()), offsets.byte(span.end.index()));
        let place = || Place::new(file, span);
        let done = match event {
            Event::DocumentStart(_) => {
                documents += 1;
                if documents > 1 {
                    faults.push(
                        Fault::error("several-documents", place(), "a second document starts here")
                            .cure("delete the line `---`"),
                    );
                    return closed(root, stack, file);
                }
                None
            }
            Event::Alias(_) => {
                faults.push(
                    Fault::error(
                        "alias",
                        place(),
                        "this `*` points to text elsewhere; a rule must read the same aloud",
                    )
                    .cure("write the text out, or put quotes round it"),
                );
                let text = span.of(text).to_string();
                Some(Node { span, kind: Kind::Text { text, plain: false, block: false } })
            }
            Event::Scalar(value, style, anchor, tag) => {
                if anchor > 0 || tag.is_some() {
                    faults.push(anchored(place()));
                }
                if style == ScalarStyle::Plain {
                    faults.extend(super::yaml_words::curly_quote(file, span, &value));
                }
                let block = matches!(style, ScalarStyle::Literal | ScalarStyle::Folded);
                let plain = style == ScalarStyle::Plain;
                if plain && value.is_empty() {
                    Some(Node { span, kind: Kind::Empty })
                } else {
                    Some(Node { span, kind: Kind::Text { text: value.into_owned(), plain, block } })
                }
            }
            Event::SequenceStart(anchor, tag) => {
                if anchor > 0 || tag.is_some() {
                    faults.push(anchored(place()));
                }
                stack.push((Node { span, kind: Kind::List(vec![]) }, None));
                None
            }
            Event::MappingStart(anchor, tag) => {
                if anchor > 0 || tag.is_some() {
                    faults.push(anchored(place()));
                }
                stack.push((Node { span, kind: Kind::Map(vec![]) }, None));
                None
            }
            Event::SequenceEnd | Event::MappingEnd => stack.pop().map(|(mut node, _)| {
                node.span.end = span.end.max(node.span.start);
                node
            }),
            _ => None,
        };
        if stack.len() > DEEPEST {
            faults.push(
                Fault::error("nested-too-deep", place(), format!("this stands more than {DEEPEST} levels deep"))
                    .cure("close the brackets above it"),
            );
            return closed(root, stack, file);
        }
        if let Some(node) = done {
            match stack.last_mut() {
                None => root = node,
                Some((parent, waiting)) => attach(parent, waiting, node, file, faults),
            }
        }
    }
    root
}

/// What was read when the file broke off: every value that was begun, with what stands in it so far.
fn closed(root: Node, mut stack: Vec<(Node, Option<Node>)>, file: &str) -> Node {
    let mut done = root;
    while let Some((mut node, waiting)) = stack.pop() {
        if done != Node::default() {
            attach(&mut node, &mut waiting.clone(), done, file, &mut vec![]);
        }
        done = node;
    }
    done
}

fn anchored(place: Place) -> Fault {
    Fault::error("anchor", place, "`&` and `!` at the start of a value mean something else in YAML")
        .cure("put quotes round the text")
}

fn attach(parent: &mut Node, waiting: &mut Option<Node>, node: Node, file: &str, faults: &mut Vec<Fault>) {
    match &mut parent.kind {
        Kind::List(items) => items.push(node),
        Kind::Map(pairs) => match waiting.take() {
            None => {
                if !matches!(node.kind, Kind::Text { .. }) {
                    faults.push(
                        Fault::error(
                            "brace-at-start",
                            Place::new(file, node.span),
                            "a text that begins with `{` or `[` is not read as text",
                        )
                        .cure("put quotes round the whole text"),
                    );
                } else if let Some((first, _)) = pairs.iter().find(|(k, _)| k.text() == node.text()) {
                    faults.push(
                        Fault::error(
                            "key-twice",
                            Place::new(file, node.span),
                            format!("`{}` is said twice here", node.text()),
                        )
                        .other(Place::new(file, first.span), "the first time")
                        .cure("keep one of the two"),
                    );
                } else if node.text() == "<<" {
                    faults.push(
                        Fault::error("merge-key", Place::new(file, node.span), "`<<` is not used in a book")
                            .cure("write the keys out"),
                    );
                }
                *waiting = Some(node);
            }
            Some(key) => pairs.push((key, node)),
        },
        _ => {}
    }
}

/// Character indices to byte offsets: the parser counts characters, Rust counts bytes.
struct Offsets<'t> {
    text: &'t str,
    /// Byte offset of each character; `None` when the text is ASCII and they are the same.
    bytes: Option<Vec<u32>>,
}

impl<'t> Offsets<'t> {
    fn new(text: &'t str) -> Self {
        let bytes = (!text.is_ascii()).then(|| text.char_indices().map(|(i, _)| i as u32).collect());
        Self { text, bytes }
    }

    fn byte(&self, character: usize) -> usize {
        match &self.bytes {
            None => character.min(self.text.len()),
            Some(bytes) => bytes.get(character).map_or(self.text.len(), |b| *b as usize),
        }
    }
}
