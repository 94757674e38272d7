//! The page of the vocabulary: every fact that a rule may name. In: a book. Out: Markdown.

use super::cell;
use crate::knowledge::schema::Kinds;
use crate::knowledge::vocabulary::{Attribute, Sort, Thing};
use crate::rulebook::Book;
use std::fmt::Write;

/// Lists of kinds longer than this are only counted: they stand in their table.
const MOST_KINDS: usize = 24;

pub fn page(book: &Book) -> String {
    let mut out =
        String::from("# Vocabulary\n\nEvery thing a caller can speak of, and every fact of it that a rule may name.\n");
    for thing in &book.knowledge.vocabulary.things {
        let _ = write!(out, "\n## {}\n\n", thing.thing);
        let several = match (thing.is_several(), thing.unsaid) {
            (false, _) => "There is one in a call.",
            (true, crate::knowledge::vocabulary::Unsaid::None) => {
                "There may be any number; when nothing is said, there is none."
            }
            (true, _) => "There may be any number; when nothing is said, it is not known.",
        };
        let _ = writeln!(out, "{several}\n\n| fact | is | of itself | asked |\n| --- | --- | --- | --- |");
        for attribute in &thing.attributes {
            let _ = writeln!(
                out,
                "| `{}.{}`: {} | {} | {} | {} |",
                thing.thing,
                attribute.attribute,
                cell(&attribute.called),
                cell(&is(book, thing, attribute)),
                cell(&of_itself(attribute)),
                cell(attribute.ask.as_deref().unwrap_or("")),
            );
        }
    }
    out
}

/// What sort of fact it is, with its kinds or plausible range.
fn is(book: &Book, thing: &Thing, attribute: &Attribute) -> String {
    let plausible = attribute.plausible.as_ref().map_or(String::new(), |p| format!(", {p}"));
    match attribute.sort() {
        Sort::Quantity(dimension) => format!("{}{plausible}", dimension.words()),
        Sort::Text | Sort::Thing => "a text, which no rule compares".into(),
        Sort::Kind => {
            let id = book.schema.path(&thing.thing, &attribute.attribute);
            match id.map(|id| &book.schema.of(id).kinds) {
                Some(Kinds::List(list)) if list.len() <= MOST_KINDS => {
                    let words: Vec<&str> = list.iter().map(|s| book.schema.word(*s)).collect();
                    format!("one of: {}", words.join(", "))
                }
                Some(Kinds::List(_)) => {
                    format!("a kind of the table `{}`", attribute.kinds_from.as_deref().unwrap_or(&thing.thing))
                }
                _ => "kinds, from the table".into(),
            }
        }
    }
}

/// What is taken for it when nothing is said.
fn of_itself(attribute: &Attribute) -> String {
    match (&attribute.assume, &attribute.present, attribute.is_looked_up()) {
        (Some(assume), ..) => format!("assumed: {assume}"),
        (None, Some(present), _) => format!("by whether there is {present}"),
        (None, None, true) => "looked up".into(),
        _ => String::new(),
    }
}
