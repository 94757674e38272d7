//! YAML's own complaints in a fishkeeper's words, and the traps that YAML reads without complaint.
//! In: a file's text, its tree, an error of a reader. Out: faults with place and cure. Knows no rule.

use super::fault::{Fault, Place};
use super::span::{Span, line_and_column};
use super::words::ticked;
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

/// Traps found in the tree: texts cut at ` #`, items one space too far right, keys with nothing behind them.
pub fn looks(file: &str, text: &str, tree: &Node) -> Vec<Fault> {
    let mut faults = Vec::new();
    tree.walk(&mut |node| {
        for (key, value) in node.pairs() {
            // Between braces it may be a text with a figure in it, which is told better elsewhere.
            let braced = text[..key.span.start].trim_end().ends_with(['{', ',']);
            if value.kind == Kind::Empty && !braced {
                faults.push(
                    Fault::error(
                        "empty-value",
                        Place::new(file, key.span),
                        format!("nothing stands behind {}", ticked(key.text())),
                    )
                    .cure("write its value, or take the key out"),
                );
            }
        }
        for item in node.items().iter().filter(|i| i.kind == Kind::Empty) {
            let dash = text[..item.span.start.min(text.len())].rfind('-').unwrap_or(item.span.start);
            faults.push(
                Fault::error(
                    "empty-value",
                    Place::new(file, Span::new(dash, dash + 1)),
                    "nothing stands behind this `-`",
                )
                .cure("write the item, or take the `-` out"),
            );
        }
        if let Kind::Text { text: value, plain: true, .. } = &node.kind {
            faults.extend(cut(file, text, node, value));
            faults.extend(swallowed(file, text, node, value));
        }
    });
    faults
}

/// A text that YAML cut at ` #`. One word before it may well be meant so ("kind: box # as sold").
fn cut(file: &str, text: &str, node: &Node, value: &str) -> Option<Fault> {
    let rest = text.get(node.span.end..)?.split('\n').next()?;
    if !rest.trim_start().starts_with('#') || !rest.starts_with([' ', '\t']) || !value.contains(' ') {
        return None;
    }
    let hash = node.span.end + rest.find('#')?;
    let place = Place::new(file, Span::new(hash, hash + 1));
    Some(
        Fault::warning("text-cut-at-hash", place, "everything from ` #` on is left out of this text")
            .note(format!("what is left: \"{value}\""))
            .cure("put quotes round the text, or move the remark to a line of its own"),
    )
}

/// List items, and keys, that YAML took for part of the text above them because they stand too far right.
fn swallowed(file: &str, text: &str, node: &Node, value: &str) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (start, line) in inner_lines(node.span.of(text)) {
        let indent = line.len() - line.trim_start().len();
        if line[indent..].starts_with("- ") {
            let at = node.span.start + start + indent;
            let (line_above, column_above) = above_dash(text, node.span.start);
            let column = line_and_column(text, at).1;
            let far = match column.saturating_sub(column_above) {
                1 => "one space".to_string(),
                n => format!("{n} spaces"),
            };
            faults.push(
                Fault::error(
                    "swallowed-item",
                    Place::new(file, Span::new(at, at + 1)),
                    "this line was read as part of the line above it",
                )
                .note(format!("it stands {far} too far to the right of line {line_above}"))
                .note(format!("YAML made one text of both: \"{value}\""))
                .cure(format!("put this `-` in column {column_above}, under the one above it")),
            );
        }
    }
    faults
}

/// Line and column of the `-` (or, without one, of the text) that begins the line at `offset`.
fn above_dash(text: &str, offset: usize) -> (usize, usize) {
    let start = text[..offset].rfind('\n').map_or(0, |n| n + 1);
    let indent = text[start..].len() - text[start..].trim_start_matches(' ').len();
    line_and_column(text, start + indent)
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
    let offset = offset.min(text.len());
    let start = text[..offset].rfind('\n').map_or(0, |n| n + 1);
    let line = text[start..].split('\n').next().unwrap_or("").trim_end_matches('\r');
    let place = |from: usize, length: usize| Place::new(file, Span::new(from, from + length.max(1)));
    let here = place(offset, 1);
    let (key, value_at) = key_and_value(line);
    let value = &line[value_at..];
    if info.contains("mapping values are not allowed") || info.contains("simple key") {
        let colon = line[value_at..].find(": ").or_else(|| value.ends_with(':').then(|| value.len() - 1));
        if let (false, Some(colon)) = (key.is_empty(), colon) {
            return Fault::error(
                "colon-in-text",
                place(start + value_at + colon, 1),
                "a colon followed by a space starts a new key here",
            )
            .cure("put quotes round the whole text");
        }
        if !key.is_empty() {
            let indent = line.len() - line.trim_start().len();
            return Fault::error(
                "key-out-of-line",
                place(start + indent, key.len()),
                "this key stands too far to the right",
            )
            .note("YAML read it as part of the line above it")
            .cure("put it under the first letter of the keys above it");
        }
    }
    let closing = value.starts_with(['{', '[']).then(|| value.find(['}', ']'])).flatten();
    if closing.is_some_and(|at| at + 1 < value.trim_end().len()) && !value.trim_end().ends_with(['}', ']']) {
        return Fault::error(
            "brace-at-start",
            place(start + value_at, 1),
            "a text that begins with `{` or `[` is not read as text",
        )
        .cure("put quotes round the whole text");
    }
    if value.starts_with(['>', '|', '%', '@', '`', '&', '*', '!', '#']) {
        let sign = &value[..1];
        return Fault::error(
            "mark-at-start",
            place(start + value_at, 1),
            format!("a text that begins with `{sign}` is not read as it stands"),
        )
        .cure("put quotes round the whole text");
    }
    if let Some(open) = open_quote(text, offset) {
        return Fault::error("quote-left-open", place(open, 1), "a quote begins here and is never closed")
            .cure("close it at the end of the text, or put the whole text in the other kind of quotes");
    }
    if value.starts_with(['"', '\'']) {
        return Fault::error("text-after-quote", here, "something stands behind the closing quote")
            .cure("put the whole text into the quotes");
    }
    if info.contains("recursion") {
        return Fault::error("nested-too-deep", here, "this stands too many levels deep")
            .cure("close the brackets above it");
    }
    if info.contains("unclosed bracket") || info.contains("flow") {
        let open = open_bracket(&text[..offset]).unwrap_or(offset);
        let closing = if text[open..].starts_with('{') { "}" } else { "]" };
        return Fault::error("bracket-left-open", place(open, 1), "this is never closed")
            .cure(format!("close it with `{closing}`"));
    }
    Fault::error("out-of-line", here, "this line does not fit the ones above it")
        .note("entries of one list, and keys of one entry, stand exactly under each other")
        .cure("put it under the first letter of its neighbours")
}

/// The key that begins a line (behind its dashes), and where its value begins.
fn key_and_value(line: &str) -> (&str, usize) {
    let mut at = line.len() - line.trim_start().len();
    while line[at..].starts_with("- ") {
        at += 2 + line[at + 2..].len() - line[at + 2..].trim_start().len();
    }
    let quoted = line[at..].starts_with(['"', '\'', '{', '[']);
    match line[at..].find(": ").or_else(|| line[at..].ends_with(':').then(|| line.len() - at - 1)) {
        Some(colon) if !quoted => {
            let value = (at + colon + 1).min(line.len());
            (&line[at..at + colon], value + line[value..].len() - line[value..].trim_start().len())
        }
        _ => ("", at),
    }
}

/// The last quote that opens a text above `offset` and is not closed before it.
fn open_quote(text: &str, offset: usize) -> Option<usize> {
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        if at > offset {
            break;
        }
        let (_, value) = key_and_value(line.trim_end());
        let rest = line[value.min(line.len())..].trim_end();
        let quote = rest.chars().next().filter(|c| matches!(c, '"' | '\''));
        if let Some(quote) = quote
            && !text[at + value + 1..offset.max(at + value + 1).min(text.len())].contains(quote)
        {
            return Some(at + value);
        }
        at += line.len();
    }
    None
}

/// The last bracket that is open at the end of `text`.
fn open_bracket(text: &str) -> Option<usize> {
    let mut open = Vec::new();
    for (at, c) in text.char_indices() {
        match c {
            '[' | '{' => open.push(at),
            ']' | '}' => drop(open.pop()),
            _ => {}
        }
    }
    open.pop()
}

/// A text in the quotes that word processors set.
pub fn curly_quote(file: &str, span: Span, value: &str) -> Option<Fault> {
    let quote = value.chars().next().filter(|c| matches!(c, '“' | '”' | '‘' | '’'))?;
    let place = Place::new(file, Span::new(span.start, span.start + quote.len_utf8()));
    let what = format!("a text that begins with `{quote}` is not read as it stands");
    Some(Fault::error("mark-at-start", place, what).cure("put straight quotes round the text: \" in the place of each"))
}

/// What the typed reader complains of where the form of the file shows no slip.
pub fn fault_of(file: &str, error: &serde_yaml::Error) -> Fault {
    let message = error.to_string();
    let offset = error.location().map_or(0, |l| l.index());
    let place = Place::new(file, Span::new(offset, offset + 1));
    let plain = message.split(" at line").next().unwrap_or(&message);
    Fault::error("wrong-form", place, "this is not written in the form that belongs here")
        .note(format!("the reader says: {plain}"))
}
