//! YAML's own complaints in a fishkeeper's words, and the traps that YAML reads without complaint.
//! In: a file's text, an error of a reader. Out: faults with place and cure. Knows no rule.

use super::fault::{Fault, Place};
use super::span::Span;
use super::suggest::nearest;
use super::words::{or_list, ticked};
use super::yaml::{Kind, Node};

/// Traps found by looking at the lines: a tab for indentation, an empty file.
pub fn traps(file: &str, text: &str) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut offset = 0;
    for line in text.split_inclusive('\n') {
        let indent = line.len() - line.trim_start_matches([' ', '\t']).len();
        if let Some(tab) = line[..indent].find('\t')
            && !line.trim().is_empty()
        {
            let place = Place::new(file, Span::new(offset + tab, offset + tab + 1));
            faults.push(
                Fault::error("tab", place, "this line is moved in by a tab").cure("use spaces: two for each level"),
            );
        }
        offset += line.len();
    }
    if text.lines().all(|l| l.trim().is_empty() || l.trim_start().starts_with('#')) {
        faults.push(
            Fault::error("empty-file", Place::new(file, Span::default()), "nothing stands in this file")
                .cure("write an entry, or delete the file"),
        );
    }
    faults
}

/// Plain texts that YAML cut at ` #`, and list items one space too far right that it swallowed.
pub fn swallowed(file: &str, text: &str, tree: &Node) -> Vec<Fault> {
    let mut faults = Vec::new();
    tree.walk(&mut |node| {
        let Kind::Text { plain: true, text: value, .. } = &node.kind else {
            return;
        };
        let written = node.span.of(text);
        let rest = text.get(node.span.end..).unwrap_or("");
        let line_rest = rest.split('\n').next().unwrap_or("");
        if line_rest.trim_start().starts_with('#') && line_rest.starts_with([' ', '\t']) && value.contains(' ') {
            let hash = node.span.end + line_rest.find('#').unwrap_or(0);
            faults.push(
                Fault::warning(
                    "text-cut-at-hash",
                    Place::new(file, Span::new(hash, hash + 1)),
                    "everything from ` #` on is left out of this text",
                )
                .note(format!("what is left: \"{value}\""))
                .cure("put quotes round the text, or move the remark to a line of its own"),
            );
        }
        for (line_start, line) in inner_lines(written) {
            if let Some(dash) = line.find("- ")
                && line[..dash].trim().is_empty()
            {
                let at = node.span.start + line_start + dash;
                let column = super::span::line_and_column(text, node.span.start).1.saturating_sub(2);
                faults.push(
                    Fault::error(
                        "swallowed-item",
                        Place::new(file, Span::new(at, at + 1)),
                        "this line was read as part of the line above it",
                    )
                    .note(format!("YAML made one text of both: \"{value}\""))
                    .cure(format!("put this `-` in column {}, under the one above it", column.max(1))),
                );
            }
        }
    });
    faults
}

fn inner_lines(written: &str) -> Vec<(usize, &str)> {
    let mut offset = 0;
    let mut lines = Vec::new();
    for (n, line) in written.split('\n').enumerate() {
        if n > 0 {
            lines.push((offset, line));
        }
        offset += line.len() + 1;
    }
    lines
}

/// A complaint of the spanned reader, in plain words.
pub fn scan_fault(file: &str, text: &str, offset: usize, info: &str) -> Fault {
    let line_start = text[..offset.min(text.len())].rfind('\n').map_or(0, |n| n + 1);
    let line = text[line_start..].split('\n').next().unwrap_or("");
    let place = Place::new(file, Span::new(offset.min(text.len()), (offset + 1).min(text.len().max(1))));
    if info.contains("mapping values") || (line.matches(": ").count() > 1 && !line.contains('{')) {
        return Fault::error("colon-in-text", place, "a colon followed by a space starts a new key here")
            .cure("put quotes round the whole text");
    }
    if line.trim_start().trim_start_matches("- ").contains(": {") || line.contains(": [") {
        return Fault::error("brace-at-start", place, "a text that begins with `{` or `[` is not read as text")
            .cure("put quotes round the whole text");
    }
    if line.contains(": >") || line.trim_start().starts_with("- >") {
        return Fault::error("mark-at-start", place, "a text that begins with `>` or `|` is not read as it stands")
            .cure("put quotes round the whole text");
    }
    if info.contains("quoted") || info.contains("end of stream") {
        return Fault::error("quote-left-open", place, "a quote that starts a text is never closed")
            .cure("close the quote at the end of the text");
    }
    Fault::error("bad-form", place, "this line does not fit the ones above it")
        .note(format!("the reader says: {info}"))
        .cure("line it up with its neighbours, and put quotes round texts with signs in them")
}

/// A complaint of the typed reader (unknown key, missing key, wrong form), in plain words and at the right place.
pub fn fault_of(file: &str, text: &str, tree: &Node, error: &serde_yaml::Error) -> Fault {
    let message = error.to_string();
    let offset = error.location().map_or(0, |l| l.index());
    let span = span_at(text, offset);
    let place = Place::new(file, span);
    let quoted: Vec<&str> = message.split('`').skip(1).step_by(2).collect();
    if message.contains("unknown field") {
        let name = quoted.first().copied().unwrap_or("");
        let place = deepest_key(tree, name, offset).map_or(place, |span| Place::new(file, span));
        let allowed: Vec<&str> = quoted.iter().skip(1).copied().collect();
        let fault = Fault::error("unknown-key", place, format!("there is no key called `{name}` here"))
            .note(format!("keys that may stand here: {}", allowed.join(", ")));
        return match nearest(name, allowed.iter().copied()) {
            Some(near) => fault.cure(near.to_string()),
            None => fault,
        };
    }
    if message.contains("missing field") {
        return Fault::error(
            "missing-key",
            place,
            format!("the key `{}` is missing here", quoted.first().unwrap_or(&"")),
        );
    }
    if message.contains("unknown variant") {
        let allowed: Vec<String> = quoted.iter().skip(1).map(|q| ticked(q)).collect();
        let name = quoted.first().copied().unwrap_or("");
        let fault = Fault::error("unknown-word", place, format!("`{name}` cannot stand here"))
            .note(format!("it may be {}", or_list(&allowed)));
        return match nearest(name, quoted.iter().skip(1).copied()) {
            Some(near) => fault.cure(near.to_string()),
            None => fault,
        };
    }
    let tail = message.rsplit(": ").next().unwrap_or(&message);
    let plain = tail
        .split(" at line")
        .next()
        .unwrap_or(tail)
        .replace("invalid type: ", "")
        .replace("sequence", "a list")
        .replace("map", "keys with values")
        .replace("unit value", "nothing");
    Fault::error("wrong-form", place, format!("this is not written in the form that belongs here: {plain}"))
}

/// The word or value that starts at `offset`.
fn span_at(text: &str, offset: usize) -> Span {
    let offset = offset.min(text.len());
    let mut start = offset;
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    let end = text[start..].find(['\n', ':']).map_or(text.len(), |n| start + n);
    Span::new(start, end.max(start + 1).min(text.len().max(start + 1)))
}

/// The key `name` nearest to `offset`: the typed reader sometimes blames the entry's start.
fn deepest_key(tree: &Node, name: &str, offset: usize) -> Option<Span> {
    let mut best: Option<Span> = None;
    tree.walk(&mut |node| {
        for (key, _) in node.pairs() {
            if key.text() == name && best.is_none_or(|b| key.span.start.abs_diff(offset) < b.start.abs_diff(offset)) {
                best = Some(key.span);
            }
        }
    });
    best
}
