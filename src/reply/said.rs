//! What was said, in words again: "55 gal", "about 2 weeks ago", "high". In: a value as it was read. Out: a phrase that
//! reads back to the same value. Knows no case.

use super::amounts::{Voice, said as amount};
use super::own_units::{Choice, OwnUnits};
use super::wording::{kind_called, level_word, subject};
use crate::knowledge::schema::AttributeId;
use crate::listen::reading::{Said, TimeRelation};
use crate::rulebook::Book;

/// A value as it was said, in its own unit.
pub fn said(book: &Book, attribute: Option<AttributeId>, value: &Said) -> String {
    // Nothing is converted: every unit stays the caller's.
    let own = OwnUnits { chosen: false, ..OwnUnits::chosen(Choice::Litres) };
    match value {
        Said::Amount(a) => amount(&own, a, Voice::Written),
        Said::Word(word) => attribute.map_or_else(|| word.clone(), |id| kind_called(book, id, word)),
        Said::Time { relation, amount: a } => relative(*relation, &amount(&own, a, Voice::Written)),
        Said::Moment { relation, name } => relative(*relation, name),
        Said::Thing(thing) => subject(book, thing, true),
        Said::Level(level) => level_word(*level).to_string(),
    }
}

fn relative(relation: TimeRelation, time: &str) -> String {
    match relation {
        TimeRelation::Ago => format!("{time} ago"),
        TimeRelation::For => format!("for {time}"),
        TimeRelation::Every => format!("every {time}"),
        TimeRelation::Since => format!("since {time}"),
        TimeRelation::Old => format!("{time} old"),
        TimeRelation::In => format!("in {time}"),
    }
}
