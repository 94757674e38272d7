//! Words for facts, figures and things of one tank. In: a book, an assessed tank, the caller's own units. Out: phrases.
//! Knows no order and no page.

use super::amounts::{self, Quantity, Voice};
use super::own_units::OwnUnits;
use crate::case::fact::{Fact, FactValue, Origin};
use crate::doubt::TankView;
use crate::engine::Leaves;
use crate::engine::evaluate::Evaluation;
use crate::knowledge::schema::{AttributeId, Symbol, ThingId};
use crate::knowledge::table::Table;
use crate::listen::reading::{Level, Subject};
use crate::rulebook::Book;
use crate::rulebook::code::Code;
use crate::rulebook::template::{Piece, Template};
use crate::units::Spread;

/// Words of a text behind which a value needs no hedge of its own.
const HEDGES: [&str; 6] = ["about", "about every", "near", "under", "up to", "at least"];
const ABOUT: &str = "about ";

/// "about {figure}" already says what a range would say.
fn is_hedged(text: &str) -> bool {
    HEDGES.iter().any(|hedge| text.trim_end().ends_with(hedge))
}

/// "at pH {reading.ph}" has its unit before it already.
fn unit_once<'p>(text: &str, phrase: &'p str) -> &'p str {
    match phrase.strip_prefix("pH") {
        Some(number) if text.trim_end().ends_with("pH") => number.trim_start_matches([' ', amounts::TIED]),
        _ => phrase,
    }
}

/// Everything that is needed to word something of one tank.
#[derive(Clone, Copy)]
pub struct Wording<'w> {
    pub book: &'w Book,
    pub view: &'w TankView,
    pub own: OwnUnits,
    /// The call has more than one tank, so that each must be named.
    pub several_tanks: bool,
}

impl<'w> Wording<'w> {
    pub fn evaluation(&self) -> Evaluation<'w> {
        let (schema, book) = (&self.book.schema, &self.book.rules);
        Evaluation { schema, book, world: &self.view.world, state: &self.view.state }
    }

    /// Fills a text: `instance` is that of the thing its rule is for.
    pub fn fill(&self, template: &Template, instance: u16, voice: Voice) -> String {
        let mut out = String::new();
        for piece in template {
            match piece {
                Piece::Text(text) => out.push_str(text),
                Piece::Figure(n) => {
                    let phrase = self.figure_in_sentence(*n, instance, voice);
                    let phrase = if is_hedged(&out) { phrase.strip_prefix(ABOUT).unwrap_or(&phrase) } else { &phrase };
                    out.push_str(unit_once(&out, phrase));
                }
                Piece::Fact(id) => {
                    let phrase = self.fact_phrase(*id, instance, voice);
                    out.push_str(unit_once(&out, &phrase));
                }
            }
        }
        // A folded text may hold line ends; the page is wrapped anew.
        if !out.contains('\n') && !out.contains("  ") && out.trim().len() == out.len() {
            return out;
        }
        out.split(' ').flat_map(|w| w.split('\n')).filter(|w| !w.is_empty()).collect::<Vec<_>>().join(" ")
    }

    fn figure_in_sentence(&self, figure: u16, instance: u16, voice: Voice) -> String {
        match self.quantity(figure, self.instance_of(figure, instance)) {
            Some(quantity) => quantity.in_sentence(voice),
            None => format!("an unknown {}", self.book.rules.figures[figure as usize].called),
        }
    }

    /// A figure with its range in the caller's units, if it is known.
    pub fn quantity(&self, figure: u16, instance: u16) -> Option<Quantity> {
        let range = self.view.range(self.book, figure, instance)?;
        Some(self.quantity_of(figure, instance, range))
    }

    /// A figure at another range, as it would be if something else were so.
    pub fn quantity_of(&self, figure: u16, instance: u16, range: Spread) -> Quantity {
        let entry = &self.book.rules.figures[figure as usize];
        // A number that the book gives is shown in the unit it was written in.
        let written = match &entry.code {
            Code::Quantity(_, unit) => Some(*unit),
            _ => None,
        };
        let shown_in = entry.shown_in.or(written);
        amounts::quantity(&self.own, range, entry.dimension, shown_in, self.carried(figure, instance))
    }

    /// What a figure rests on.
    pub fn leaves_of(&self, figure: u16, instance: u16) -> &'w Leaves {
        self.evaluation().leaves_of_figure(figure, instance, &self.view.grounds)
    }

    /// How many digits the said facts behind a figure carry.
    fn carried(&self, figure: u16, instance: u16) -> i32 {
        let leaves = self.leaves_of(figure, instance);
        let said = leaves.facts.iter().filter_map(|(id, n)| self.fact(*id, *n)).filter(|f| f.is_said());
        let digits = said.filter_map(|fact| match &fact.value {
            // A count of animals is exact, however few digits it has.
            FactValue::Amount(amount) if amount.unit.name.is_empty() => None,
            FactValue::Amount(amount) => {
                let value = amount.likely.or(amount.high).or(amount.low)?;
                Some(super::digits::carried(value, amount.decimals))
            }
            _ => None,
        });
        digits.min().unwrap_or(3)
    }

    pub fn fact(&self, id: AttributeId, instance: u16) -> Option<&'w Fact> {
        self.view.case.facts.fact(id, &self.book.schema, instance)
    }

    /// The value of a fact in a sentence.
    pub fn fact_phrase(&self, id: AttributeId, instance: u16, voice: Voice) -> String {
        let instance = if self.book.schema.thing_of(self.book.schema.of(id).thing).several { instance } else { 0 };
        match self.fact(id, instance) {
            Some(fact) => self.value(id, fact, voice),
            None => format!("an unknown {}", self.book.schema.of(id).called),
        }
    }

    /// The value of a fact.
    pub fn value(&self, id: AttributeId, fact: &Fact, voice: Voice) -> String {
        match &fact.value {
            FactValue::Amount(amount) if fact.is_said() => amounts::said(&self.own, amount, voice),
            FactValue::Amount(amount) => {
                let dimension = amount.unit.dimension;
                // A round figure of a table is no more exact in other units.
                let digits = amount.likely.map_or(3, |v| super::digits::carried(v, amount.decimals));
                amounts::quantity(&self.own, fact.spread, dimension, Some(amount.unit), digits).in_sentence(voice)
            }
            FactValue::Kind(symbol) => self.kind(id, *symbol),
            FactValue::Kinds(symbols) => {
                let words: Vec<String> = symbols.iter().map(|s| self.kind(id, *s)).collect();
                crate::source::words::and_list(&words)
            }
            FactValue::Text(text) => text.clone(),
            FactValue::Level(level) => level_word(*level).to_string(),
        }
    }

    /// A kind as callers know it.
    pub fn kind(&self, id: AttributeId, symbol: Symbol) -> String {
        kind_called(self.book, id, self.book.schema.word(symbol))
    }

    /// What a thing of the case is called: "the filter", "filter 2 (canister)", "neon tetra fry".
    pub fn thing(&self, thing: ThingId, instance: u16) -> String {
        let entry = self.book.schema.thing_of(thing);
        let Some(found) = self.view.case.facts.instances(thing).get(instance as usize) else {
            return entry.called.clone();
        };
        let several = self.view.case.count(thing) > 1;
        let named = subject(self.book, &found.subject, several);
        // What is told apart by a number alone is easier known by its kind.
        let kind =
            self.book.schema.path(&entry.name, "kind").and_then(|id| Some((id, &self.fact(id, instance)?.value)));
        match kind {
            Some((id, FactValue::Kind(kind))) if several && named == format!("{} {}", entry.called, instance + 1) => {
                format!("{named} ({})", self.kind(id, *kind))
            }
            _ => named,
        }
    }

    /// What an attribute of one thing is called: "tank size", "flow printed on filter 2".
    pub fn attribute(&self, id: AttributeId, instance: u16) -> String {
        let attribute = self.book.schema.of(id);
        let thing = attribute.thing;
        match self.book.schema.thing_of(thing).several && self.view.case.count(thing) > 1 {
            true => format!("{} of {}", attribute.called, self.thing(thing, instance)),
            false => attribute.called.clone(),
        }
    }

    /// What a figure is called, with the thing it belongs to where there are several.
    pub fn figure_called(&self, figure: u16, instance: u16) -> String {
        let entry = &self.book.rules.figures[figure as usize];
        match entry.for_thing {
            Some(thing) if self.view.world.count(thing) > 1 => {
                format!("{} ({})", entry.called, self.thing(thing, instance))
            }
            _ => entry.called.clone(),
        }
    }

    /// The words of the caller that said a fact.
    pub fn said_in(&self, fact: &Fact) -> Option<u16> {
        match fact.origin {
            Origin::Said { turn, .. } => Some(turn),
            _ => None,
        }
    }
}

/// A kind word as an answer shows it.
pub fn kind_called(book: &Book, id: AttributeId, word: &str) -> String {
    let attribute = book.schema.of(id);
    let thing = book.schema.thing_of(attribute.thing).name.as_str();
    let entry = book.knowledge.vocabulary.attribute(thing, &attribute.name);
    if let Some(kind) = entry.and_then(|a| a.kinds.iter().find(|k| k.kind == word)) {
        return kind.called.clone().unwrap_or_else(|| kind.kind.clone());
    }
    let table = entry.and_then(|a| a.kinds_from.as_deref()).and_then(Table::by_key);
    table.map_or_else(|| word.replace('-', " "), |table| entry_called(book, table, word))
}

/// A table entry as callers know it: its name, or, where that is a short form, its first other word.
pub fn entry_called(book: &Book, table: Table, name: &str) -> String {
    let Some(entry) = book.knowledge.find(table, name) else { return name.replace('-', " ") };
    let also = entry.also();
    let turned = name.split_once('-').map(|(a, b)| format!("{b} {a}"));
    if let Some(turned) = turned
        && also.contains(&turned)
    {
        return turned;
    }
    let short = name.len() <= 3 || (table == Table::Filter && name.contains('-'));
    match also.first() {
        Some(first) if short => first.clone(),
        _ => name.replace('-', " "),
    }
}

/// A thing as it was spoken of.
pub fn subject(book: &Book, subject: &Subject, several: bool) -> String {
    let table = Table::by_key(&subject.thing).filter(|t| t.names_things());
    let kind = subject.kind.as_deref().filter(|k| *k != "any" && *k != "unknown");
    let called = match (table, kind) {
        (Some(table), Some(kind)) => Some(entry_called(book, table, kind)),
        (None, Some(kind)) => Some(kind.to_string()),
        _ => None,
    };
    let thing = book.schema.thing(&subject.thing).map_or(subject.thing.as_str(), |t| &book.schema.thing_of(t).called);
    match (called, subject.stage.as_deref()) {
        (Some(kind), Some(stage)) if stage != "adult" => format!("{kind} {stage}"),
        (Some(kind), _) if subject.thing == "filter" && several => format!("filter {} ({kind})", subject.number.max(1)),
        (Some(kind), _) => kind,
        (None, Some(stage)) => stage.to_string(),
        (None, None) if several => format!("{thing} {}", subject.number.max(1)),
        (None, None) => thing.to_string(),
    }
}

/// What was said in place of a figure.
pub fn level_word(level: Level) -> &'static str {
    match level {
        Level::Unknown => "not known",
        Level::Untested => "not tested",
        Level::High => "high",
        Level::Low => "low",
        Level::Fine => "fine",
        Level::OffChart => "off the chart",
        Level::Never => "never so far",
    }
}
