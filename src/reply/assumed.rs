//! What was assumed, and how unplain words were read. In: the facts that shown advice rests on, the marks of a reading.
//! Out: a few short phrases. Computes nothing.

use super::amounts::Voice;
use super::own_units::Choice;
use super::wording::{Wording, subject};
use crate::case::fact::{Fact, FactValue, Origin};
use crate::case::facts::Gallon;
use crate::engine::Leaves;
use crate::listen::reading::{Mark, Reading, Says, Statement};
use crate::rulebook::Book;
use crate::source::words::harmless;

impl Wording<'_> {
    /// The assumed facts among `leaves`, the gallon first; each once.
    pub fn assumed(&self, leaves: &Leaves) -> Vec<String> {
        let mut out = Vec::new();
        let counts_gallons = self.own.chosen || self.own.volume != Choice::Litres;
        if counts_gallons && self.view.case.facts.gallon_used && !self.view.case.facts.gallon_said {
            out.push(match self.view.case.facts.gallon {
                Gallon::Us => "US gallons".to_string(),
                Gallon::Imperial => "imperial gallons".to_string(),
            });
        }
        for (id, instance) in &leaves.facts {
            let Some(fact) = self.fact(*id, *instance).filter(|f| f.origin == Origin::Assumed) else { continue };
            let phrase = self.assumed_fact(*id, *instance, fact);
            if !out.contains(&phrase) {
                out.push(phrase);
            }
        }
        out
    }

    /// One assumed fact in few words: "no plants", "temperature about 25 C".
    pub fn assumed_fact(&self, id: crate::knowledge::schema::AttributeId, instance: u16, fact: &Fact) -> String {
        let called = self.attribute(id, instance);
        let schema = &self.book.schema;
        match &fact.value {
            FactValue::Kind(symbol) if *symbol == schema.no() => format!("no {called}"),
            FactValue::Kind(symbol) if *symbol == schema.yes() => called,
            FactValue::Kind(_) => {
                let thing = schema.of(id).thing;
                // "fish adult" needs the thing beside it: the stage of which fish?
                match schema.of(id).name.as_str() {
                    "stage" => format!("{} {}", self.thing(thing, instance), self.value(id, fact, Voice::Written)),
                    _ => format!("{called} {}", self.value(id, fact, Voice::Written)),
                }
            }
            _ => {
                let value = self.value(id, fact, Voice::Written);
                match value.starts_with(&called) {
                    true => value,
                    false => format!("{called} {value}"),
                }
            }
        }
    }
}

/// Longer runs of words are not quoted.
const LONGEST: usize = 30;

/// How the words of a turn were read that were not plain: spelling, a unit carried on, a thing taken from a question.
pub fn read_as(book: &Book, reading: &Reading) -> Vec<String> {
    // What was made of the same words is told together.
    let mut out: Vec<(String, Vec<String>)> = Vec::new();
    for statement in &reading.statements {
        let words = harmless(statement.span.of(&reading.text)).trim().to_string();
        let whole = statement.subject.thing == "keeper" || words.chars().count() > LONGEST;
        let lead = match statement.mark {
            Some(Mark::Spelling) => format!("\"{words}\" read as "),
            // What gallons or litres are meant leans on the whole line, not on a word of it.
            Some(Mark::Hint) if whole => String::new(),
            Some(Mark::Hint) => format!("\"{words}\" taken as "),
            Some(Mark::Presumed) => "from your question: ".to_string(),
            Some(Mark::Derived) | None => continue,
        };
        let mut meant = meant(book, statement);
        if lead.is_empty() {
            meant.push_str(", by your words");
        }
        match out.iter_mut().find(|(l, _)| *l == lead && !lead.is_empty()) {
            Some((_, list)) if !list.contains(&meant) => list.push(meant),
            Some(_) => {}
            None => out.push((lead, vec![meant])),
        }
    }
    out.into_iter().map(|(lead, meant)| format!("{lead}{}", meant.join(", "))).collect()
}

/// A statement in the words of the book.
pub fn meant(book: &Book, statement: &Statement) -> String {
    let thing = subject(book, &statement.subject, statement.subject.number > 1);
    match &statement.says {
        Says::Present => thing,
        Says::Absent => format!("no {thing}"),
        Says::Unsure => format!("{thing} not known"),
        Says::Dropped => format!("{thing} withdrawn"),
        Says::DroppedValue { attribute } => format!("{attribute} withdrawn"),
        Says::Value { attribute, value, .. } => {
            let id = book.schema.path(&statement.subject.thing, attribute);
            let called = id.map_or(attribute.as_str(), |id| book.schema.of(id).called.as_str());
            let value = super::said::said(book, id, value);
            if (statement.subject.thing.as_str(), attribute.as_str()) == ("keeper", "gallon") {
                return if value == "us" { "US gallons".to_string() } else { format!("{value} gallons") };
            }
            match value.as_str() {
                "yes" => return format!("{thing}, {called}"),
                "no" => return format!("{thing}, not {called}"),
                _ => {}
            }
            // "pH 6.4" names itself.
            if value.starts_with(called) {
                return value;
            }
            match (attribute.as_str(), statement.subject.kind.is_some() || statement.subject.stage.is_some()) {
                ("kind", _) => value,
                ("count", true) => format!("{value} {thing}"),
                (_, true) => format!("{thing}, {called} {value}"),
                (_, false) => format!("{called} {value}"),
            }
        }
    }
}
