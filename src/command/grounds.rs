//! What the book rests on: every source with what rests on it, and what rests on memory or common practice alone. In: a
//! book. Out: pages. Judges nothing.

use crate::knowledge::basis::{Basis, Seen};
use crate::knowledge::table::Table;
use crate::reply::page::{Page, Paragraph, Row, Tone};
use crate::rulebook::Book;
use crate::rulebook::raw::BasisWord;
use crate::source::words::counted;

/// The pages, by the name under which they are asked for.
pub fn page(book: &Book, name: &str) -> Option<Page> {
    match name {
        "sources" => Some(sources(book)),
        "memory" => Some(memory(book)),
        _ => None,
    }
}

/// How the figures taken from a document were seen, in words.
pub fn seen(seen: Seen) -> &'static str {
    match seen {
        Seen::Read => "read",
        Seen::SecondHand => "known at second hand, not read",
        Seen::Memory => "from memory, not read",
    }
}

/// Entries of the tables whose basis fits, each as "filter sponge-air".
fn entries(book: &Book, fits: impl Fn(&Basis) -> bool) -> Vec<String> {
    let each = Table::ALL.into_iter().flat_map(|table| {
        (0..book.knowledge.count(table)).filter_map(move |n| Some((table, book.knowledge.entry(table, n)?)))
    });
    let fitting = each.filter(|(_, entry)| entry.basis().is_some_and(&fits));
    fitting.map(|(table, entry)| format!("{} {}", table.key(), entry.name())).collect()
}

/// Each source with the rules, figures and entries that rest on it.
fn sources(book: &Book) -> Page {
    let mut page = Page::default();
    let all = &book.knowledge.sources;
    page.push(Row::new(
        "Sources",
        Tone::Say,
        format!("{}, each with what rests on it.", counted(all.len(), "source", "sources")),
    ));
    for source in all {
        let key = &source.source;
        let has = |keys: &[String]| keys.iter().any(|k| k == key);
        let rules = book.rules.rules.iter().filter(|r| has(&r.source)).map(|r| r.name.clone());
        let figures = book.rules.figures.iter().filter(|f| has(&f.source)).map(|f| f.name.clone());
        let lists = [
            ("rules", rules.collect::<Vec<_>>()),
            ("figures", figures.collect()),
            ("entries", entries(book, |basis| has(&basis.published))),
        ];
        let mut paragraphs = vec![Paragraph::new(format!("{} [{}]", source.cite, seen(source.seen)))];
        let filled = lists.iter().filter(|(_, names)| !names.is_empty());
        paragraphs.extend(filled.map(|(what, names)| Paragraph::led("- ", format!("{what}: {}", names.join(", ")))));
        page.push(Row::list(key.clone(), Tone::Plain, paragraphs));
    }
    page
}

/// What no document and no arithmetic stands behind, by what does.
fn memory(book: &Book) -> Page {
    let mut page = Page::default();
    let unproved = |basis: &[BasisWord]| {
        !basis.is_empty() && basis.iter().all(|b| matches!(b, BasisWord::CommonPractice | BasisWord::FromMemory))
    };
    let only = |basis: &[BasisWord]| match basis.contains(&BasisWord::FromMemory) {
        true => "from memory",
        false => "common practice",
    };
    page.push(Row::new(
        "Unproved",
        Tone::Say,
        "What rests on memory or common practice alone; a bucket, a watch or a drop kit beats any of it.",
    ));
    for ground in ["from memory", "common practice"] {
        let fits = |basis: &[BasisWord]| unproved(basis) && only(basis) == ground;
        let rules: Vec<String> = book.rules.rules.iter().filter(|r| fits(&r.basis)).map(|r| r.name.clone()).collect();
        let figures: Vec<String> =
            book.rules.figures.iter().filter(|f| fits(&f.basis)).map(|f| f.name.clone()).collect();
        let entries = entries(book, |basis| {
            let proved = !basis.published.is_empty() || !basis.worked_out.is_empty();
            !proved && basis.from_memory == (ground == "from memory") && !basis.is_empty()
        });
        for (one, many, names) in
            [("rule", "rules", rules), ("figure", "figures", figures), ("entry", "entries", entries)]
        {
            let label = format!("{}, {ground}", counted(names.len(), one, many));
            page.push(Row::list("", Tone::Plain, vec![Paragraph::new(format!("{label}: {}", names.join(", ")))]));
        }
    }
    page
}
