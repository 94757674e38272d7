//! A word of the trade explained: terms, media, filters, symptoms, treatments, animals. In: a book, words. Out: a page, or
//! nothing when the book has no such word. Computes nothing.

use super::page::{Page, Paragraph, Row, Tone};
use super::wording::entry_called;
use crate::knowledge::basis::Basis;
use crate::knowledge::index::normal;
use crate::knowledge::table::Table;
use crate::rulebook::Book;
use crate::source::words::{and_list, capital};

/// Tables whose words are explained, in the order in which a word that stands in several is taken.
const EXPLAINED: [Table; 9] = [
    Table::Term,
    Table::Medium,
    Table::Filter,
    Table::Treatment,
    Table::Stock,
    Table::Plant,
    Table::Symptom,
    Table::Caution,
    Table::Job,
];

/// The longest words in a question that the book explains.
pub fn meant(book: &Book, question: &str) -> Option<(Table, String)> {
    let words = normal(&question.replace(['?', '!', ',', '.', '"', ';', ':'], " "));
    let words: Vec<&str> = words.split(' ').filter(|w| !w.is_empty()).collect();
    let mut best: Option<(usize, usize, Table, String)> = None;
    for start in 0..words.len() {
        for end in start + 1..=words.len().min(start + book.knowledge.words.most_words()) {
            let run = words[start..end].join(" ");
            for hit in book.knowledge.words.find_normal(&run) {
                let Some(rank) = EXPLAINED.iter().position(|t| *t == hit.table) else { continue };
                let Some(entry) = book.knowledge.entry(hit.table, hit.entry as usize) else { continue };
                let better = best
                    .as_ref()
                    .is_none_or(|(length, place, ..)| run.len() > *length || (run.len() == *length && rank < *place));
                if better {
                    best = Some((run.len(), rank, hit.table, entry.name().to_string()));
                }
            }
        }
    }
    best.map(|(_, _, table, name)| (table, name))
}

/// The page of an entry.
pub fn explain(book: &Book, table: Table, name: &str) -> Option<Page> {
    let knowledge = &book.knowledge;
    let mut page = Page::default();
    let title = capital(&entry_called(book, table, name));
    match table {
        Table::Term => {
            let term = knowledge.terms.iter().find(|t| t.term == name)?;
            page.push(Row::new(title, Tone::Say, term.says.clone()));
            page.push(Row::new("Example", Tone::Plain, term.example.clone()));
            page.push(Row::new("See also", Tone::Quiet, term.see.join(", ")));
        }
        Table::Medium => {
            let medium = knowledge.media.iter().find(|m| m.medium == name)?;
            page.push(Row::new(title, Tone::Say, medium.says.clone()));
            page.push(Row::new("Lasts", Tone::Plain, medium.life.clone()));
            page.push(Row::new("Clean", Tone::Plain, medium.clean.clone()));
            page.push(Row::new("Never", Tone::Plain, medium.never.join("; ")));
            page.push(Row::new("Note", Tone::Plain, medium.note.clone()));
        }
        Table::Filter => {
            let filter = knowledge.filters.iter().find(|f| f.filter == name)?;
            page.push(Row::new(title, Tone::Say, filter.says.clone()));
            page.push(Row::new("Enters", Tone::Plain, filter.enters.clone()));
            page.push(Row::new("Intake", Tone::Plain, filter.intake.clone()));
            page.push(Row::new("Bypass", Tone::Plain, filter.bypass.clone()));
            page.push(Row::new("If it stops", Tone::Plain, filter.when_it_stops.clone()));
            let steps =
                filter.refit.iter().enumerate().map(|(n, s)| Paragraph::led(format!("{:<2} ", n + 1), s.clone()));
            page.push(Row::list("Refit", Tone::Plain, steps.collect()));
            page.push(Row::new("Good for", Tone::Plain, filter.good_for.join(", ")));
            page.push(Row::new("Poor for", Tone::Plain, filter.poor_for.join(", ")));
        }
        Table::Symptom => {
            let symptom = knowledge.symptoms.iter().find(|s| s.symptom == name)?;
            page.push(Row::new(title, Tone::Say, symptom.first.clone()));
            let causes = symptom.causes.iter().enumerate();
            let causes = causes.map(|(n, c)| {
                Paragraph::led(
                    format!("{:<2} ", n + 1),
                    format!("{}. Test: {}. Then: {}.", full(&c.is), full(&c.test), full(&c.act)),
                )
            });
            page.push(Row::list("Causes", Tone::Plain, causes.collect()));
        }
        Table::Job => {
            let job = knowledge.jobs.iter().find(|j| j.job == name)?;
            page.push(Row::new(title, Tone::Say, job.says.clone()));
            let steps = job.steps.iter().enumerate();
            page.push(Row::list(
                "Steps",
                Tone::Plain,
                steps.map(|(n, s)| Paragraph::led(format!("{:<2} ", n + 1), s.act.clone())).collect(),
            ));
            page.push(Row::new("", Tone::Quiet, format!("Say: walk me through {}.", entry_called(book, table, name))));
        }
        Table::Caution => {
            let caution = knowledge.cautions.iter().find(|c| c.caution == name)?;
            page.push(Row::new(title, Tone::Danger, caution.says.clone()));
            page.push(Row::new("Note", Tone::Plain, caution.note.clone()));
            if caution.defer_to != "nobody" {
                page.push(Row::new("Ask", Tone::Plain, format!("Who decides: {}.", caution.defer_to)));
            }
        }
        _ => {
            let entry = knowledge.find(table, name)?;
            page.push(Row::new(title, Tone::Say, entry.says().to_string()));
        }
    }
    if let Some(basis) = knowledge.find(table, name).and_then(|e| e.basis()) {
        page.push(Row::new("Rests on", Tone::Quiet, ground(basis)));
    }
    Some(page)
}

fn full(text: &str) -> String {
    capital(text.trim_end_matches('.'))
}

/// The basis of an entry in words.
pub fn ground(basis: &Basis) -> String {
    format!("{}.", capital(&and_list(&basis.words())))
}
