//! How a line was read: each word with what it became, then the facts and questions made of them. In: a reading. Out: a page.
//! Reads nothing itself.

use super::assumed::meant;
use super::page::{Page, Paragraph, Row, Tone};
use super::reading_json::{act_word, became_word, form_word, mark_word};
use crate::listen::reading::{Became, Reading};
use crate::rulebook::Book;
use crate::source::words::harmless;

/// Every word with what it became, for machines.
pub fn words(reading: &Reading) -> Vec<serde_json::Value> {
    let each = reading.words.iter().map(|w| {
        serde_json::json!({ "word": w.span.of(&reading.text), "became": became_word(&w.became), "of": index(&w.became) })
    });
    each.collect()
}

fn index(became: &Became) -> Option<usize> {
    match became {
        Became::Statement(n) | Became::Ask(n) | Became::Act(n) | Became::AskedBack(n) | Became::Aside(n) => Some(*n),
        Became::Noise | Became::Unread => None,
    }
}

/// Words, then what was made of them.
pub fn page(book: &Book, reading: &Reading) -> Page {
    let mut page = Page::default();
    let words = reading.words.iter().map(|w| {
        let word = harmless(w.span.of(&reading.text));
        let of = index(&w.became).map(|n| format!(" {}", n + 1)).unwrap_or_default();
        Paragraph::led(format!("{word:<16} "), format!("{}{of}", became_word(&w.became)))
    });
    page.push(Row::list("Words", Tone::Plain, words.collect()));
    let facts = reading.statements.iter().enumerate().map(|(n, statement)| {
        let mark = statement.mark.map(|m| format!(" ({})", mark_word(m))).unwrap_or_default();
        let of = if statement.subject.tank > 1 { format!(" [tank {}]", statement.subject.tank) } else { String::new() };
        Paragraph::led(format!("{:<2} ", n + 1), format!("{}{mark}{of}", meant(book, statement)))
    });
    page.push(Row::list("Facts", Tone::Plain, facts.collect()));
    let asks = reading.asks.iter().enumerate().map(|(n, ask)| {
        let suppose: Vec<String> = ask.suppose.iter().map(|s| meant(book, s)).collect();
        let suppose = if suppose.is_empty() { String::new() } else { format!(", if {}", suppose.join(" and ")) };
        Paragraph::led(format!("{:<2} ", n + 1), format!("{} {}{suppose}", form_word(ask.form), ask.topic))
    });
    page.push(Row::list("Questions", Tone::Plain, asks.collect()));
    let lost = reading.lost.iter().map(|l| Paragraph::new(harmless(l.of(&reading.text)))).collect();
    page.push(Row::list("Not answered", Tone::Ask, lost));
    let acts: Vec<&str> = reading.acts.iter().map(|(act, _)| act_word(*act)).collect();
    page.push(Row::new("Acts", Tone::Plain, acts.join(", ")));
    page.push(Row::new("Set aside", Tone::Quiet, super::unread::aside(reading).join(", ")));
    page.push(Row::new("Not understood", Tone::Quiet, super::unread::unread(reading).join(", ")));
    let back = super::unread::asked_back(reading);
    page.push(Row::list("Not used yet", Tone::Ask, back.into_iter().map(Paragraph::new).collect()));
    if page.rows.is_empty() {
        return Page::line("Nothing was said.");
    }
    page
}
