//! What a book holds: its rules by topic, those that hold a word, who reads what a rule concludes, where an entry stands.
//! In: a book. Out: numbers of rules and figures, lines. Words no page.

use super::Rulebook;
use super::code::Read;
use super::library::Book;
use super::template::{Piece, Template};
use super::topics::TOPICS;
use crate::source::Place;
use crate::source::span::line_and_column;

/// Topics that have rules, in the order of the topic list, each with what is asked and the numbers of its rules.
pub fn by_topic(book: &Rulebook) -> Vec<(&'static str, &'static str, Vec<u16>)> {
    let of = |topic: &str| {
        let rules = book.rules.iter().enumerate().filter(|(_, r)| r.topic == topic);
        rules.map(|(n, _)| n as u16).collect::<Vec<u16>>()
    };
    let all = TOPICS.iter().map(|(topic, asks)| (*topic, *asks, of(topic)));
    all.filter(|(.., rules)| !rules.is_empty()).collect()
}

/// Rules that hold every one of the words: in their names first, then anywhere; in the order of names.
pub fn search(book: &Book, words: &str) -> Vec<u16> {
    let words: Vec<String> = words.to_lowercase().split_whitespace().map(String::from).collect();
    if words.is_empty() {
        return vec![];
    }
    let holds = |text: &str| {
        let text = text.to_lowercase();
        words.iter().all(|w| text.contains(w))
    };
    let mut found: Vec<(bool, u16)> = Vec::new();
    for (n, rule) in book.rules.rules.iter().enumerate() {
        let name = rule.name.replace('-', " ");
        if holds(&name) || holds(&rule.name) {
            found.push((false, n as u16));
        } else if holds(&whole_text(book, n as u16)) {
            found.push((true, n as u16));
        }
    }
    found.sort_unstable();
    found.into_iter().map(|(_, n)| n).collect()
}

/// Everything that a rule says, in one text.
fn whole_text(book: &Book, rule: u16) -> String {
    let rule = &book.rules.rules[rule as usize];
    let mut text = format!("{} {}", rule.name, rule.topic);
    let mut add = |part: &str| {
        text.push(' ');
        text.push_str(part);
    };
    rule.conditions.iter().for_each(|c| add(&c.text));
    rule.concludes.iter().for_each(|c| add(&book.rules.conclusions[*c as usize].name));
    if let Some(advice) = &rule.advice {
        advice.act.iter().for_each(|act| add(act));
        [&advice.say, &advice.because].into_iter().chain(&advice.steps).for_each(|t| add(&named(book, t)));
    }
    text
}

/// A text with its figures named instead of filled in.
pub fn named(book: &Book, template: &Template) -> String {
    let pieces = template.iter().map(|piece| match piece {
        Piece::Text(text) => text.clone(),
        Piece::Figure(n) => format!("[{}]", book.rules.figures[*n as usize].called),
        Piece::Fact(id) => format!("[{}]", book.schema.of(*id).called),
    });
    pieces.collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Who reads what a rule concludes: rules, and figures.
pub fn readers(book: &Rulebook, rule: u16) -> (Vec<u16>, Vec<u16>) {
    let concludes = &book.rules[rule as usize].concludes;
    let reads = |reads: &[Read]| reads.iter().any(|r| matches!(r, Read::Conclusion(c) if concludes.contains(c)));
    let rules = book.rules.iter().enumerate().filter(|(_, r)| reads(&r.reads)).map(|(n, _)| n as u16);
    let figures = book.figures.iter().enumerate().filter(|(_, f)| reads(&f.reads)).map(|(n, _)| n as u16);
    (rules.collect(), figures.collect())
}

/// Figures that a rule reads or shows.
pub fn figures_of(book: &Rulebook, rule: u16) -> Vec<u16> {
    let rule = &book.rules[rule as usize];
    let mut out: Vec<u16> = Vec::new();
    out.extend(rule.reads.iter().filter_map(|r| if let Read::Figure(n) = r { Some(*n) } else { None }));
    if let Some(advice) = &rule.advice {
        let texts = [&advice.say, &advice.because].into_iter().chain(&advice.steps).flatten();
        out.extend(texts.filter_map(|p| if let Piece::Figure(n) = p { Some(*n) } else { None }));
        out.extend(&advice.figures);
    }
    out.sort_unstable();
    out.dedup();
    out
}

/// Where an entry stands, as "rules/intake.yaml:14".
pub fn line_of(book: &Book, place: &Place) -> String {
    match book.text_of(&place.file) {
        Some(text) => format!("{}:{}", place.file, line_and_column(&text, place.span.start).0),
        None => place.file.clone(),
    }
}
