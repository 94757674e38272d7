//! What callers say for a kind, borrowed from the examples of the book. In: readings of its lines. Out: clauses by
//! attribute and kind, the shortest first. Knows no rule.

use crate::archive::trial::TURNS;
use crate::archive::trial::Trial;
use crate::engine::{Value, World};
use crate::knowledge::schema::{AttributeId, Kinds, Symbol};
use crate::listen::reading::{Said, Says};
use crate::source::Span;
use std::collections::HashMap;

/// Most clauses kept for one kind.
const MOST: usize = 4;

/// What one statement of a line says of a kind.
#[derive(Clone, Debug)]
pub struct Spoken {
    pub id: AttributeId,
    pub symbol: Symbol,
    /// Where it stands in the line: the words themselves, and the clause round them.
    pub words: Span,
    pub clause: Span,
}

/// Clauses by what they say.
pub struct Clauses {
    clauses: HashMap<(AttributeId, Symbol), Vec<String>>,
    words: HashMap<(AttributeId, Symbol), Vec<String>>,
    /// What the tables say of a kind, for attributes that are numbers.
    numbers: HashMap<AttributeId, Vec<(Symbol, f64)>>,
}

impl Clauses {
    pub fn new(trial: &Trial) -> Self {
        let schema = &trial.book.schema;
        let mut out = Self { clauses: HashMap::new(), words: HashMap::new(), numbers: HashMap::new() };
        for call in &trial.calls {
            let spoken = spoken(trial, &call.line);
            for said in &spoken {
                let key = (said.id, said.symbol);
                out.clauses.entry(key).or_default().push(said.clause.of(&call.line).to_string());
                out.words.entry(key).or_default().push(said.words.of(&call.line).to_string());
            }
            for (world, ..) in &call.tanks {
                for (n, attribute) in schema.attributes.iter().enumerate().filter(|(_, a)| a.looked_up) {
                    let (id, Some(kind)) = (AttributeId(n as u16), schema.attribute(attribute.thing, "kind")) else {
                        continue;
                    };
                    for instance in 0..world.count(attribute.thing) {
                        for of in kinds(world, kind, instance) {
                            let said = || spoken.iter().filter(|s| (s.id, s.symbol) == (kind, of));
                            for symbol in kinds(world, id, instance) {
                                let clauses = said().map(|s| s.clause.of(&call.line).to_string());
                                out.clauses.entry((id, symbol)).or_default().extend(clauses);
                            }
                            if let (Value::Number(number), true) = (world.value(id, instance), said().next().is_some())
                            {
                                out.numbers.entry(id).or_default().push((of, number));
                            }
                        }
                    }
                }
            }
        }
        out.add_vocabulary(trial);
        for list in out.clauses.values_mut().chain(out.words.values_mut()) {
            list.sort_by(|a, b| (a.len(), a).cmp(&(b.len(), b)));
            list.dedup();
            list.truncate(MOST);
        }
        out
    }

    fn add_vocabulary(&mut self, trial: &Trial) {
        let schema = &trial.book.schema;
        for thing in &trial.book.knowledge.vocabulary.things {
            for attribute in &thing.attributes {
                let Some(id) = schema.path(&thing.thing, &attribute.attribute) else { continue };
                for kind in &attribute.kinds {
                    let Some(symbol) = schema.symbol(&kind.kind) else { continue };
                    let word = kind.words.first().unwrap_or(&kind.kind);
                    self.clauses.entry((id, symbol)).or_insert_with(|| vec![word.clone()]);
                }
                // Of a table, the name of its entry.
                let table = if attribute.kinds_from.is_some() { &schema.of(id).kinds } else { &Kinds::None };
                let Kinds::List(symbols) = table else { continue };
                for symbol in symbols {
                    let name = || vec![schema.word(*symbol).replace('-', " ")];
                    self.clauses.entry((id, *symbol)).or_insert_with(name);
                }
            }
        }
    }

    /// Words for a kind, in place of those for another of the same fact.
    pub fn words(&self, id: AttributeId, symbol: Symbol) -> &[String] {
        self.words.get(&(id, symbol)).map_or(&[], Vec::as_slice)
    }

    /// Kinds of which the tables have a number of an attribute between two.
    pub fn between(&self, id: AttributeId, low: f64, high: f64) -> Vec<Symbol> {
        let list = self.numbers.get(&id).map_or(&[][..], Vec::as_slice);
        let mut out: Vec<Symbol> =
            list.iter().filter(|(_, n)| low <= *n && *n <= high).map(|(kind, _)| *kind).collect();
        out.sort_unstable();
        out.dedup();
        out
    }

    /// Clauses for a kind; of one that no line says, the first word that the vocabulary has for it, or its name.
    pub fn of(&self, id: AttributeId, symbol: Symbol) -> &[String] {
        self.clauses.get(&(id, symbol)).map_or(&[], Vec::as_slice)
    }

    /// Every kind of an attribute that is said somewhere.
    pub fn kinds(&self, id: AttributeId) -> Vec<Symbol> {
        let mut out: Vec<Symbol> = self.clauses.keys().filter(|(a, _)| *a == id).map(|(_, s)| *s).collect();
        out.sort_unstable();
        out
    }
}

/// The kinds that a fact of a world is, several at once where a table holds several.
fn kinds(world: &World, id: AttributeId, instance: u16) -> Vec<Symbol> {
    match world.value(id, instance) {
        Value::Kind(symbol) => vec![symbol],
        Value::Kinds(set) => world.set_of(set).to_vec(),
        _ => vec![],
    }
}

/// What a line says of kinds.
pub fn spoken(trial: &Trial, line: &str) -> Vec<Spoken> {
    let schema = &trial.book.schema;
    let (mut out, mut start) = (Vec::new(), 0);
    for (turn, reading) in line.split(TURNS).zip(trial.runner.readings(line)) {
        for statement in &reading.statements {
            let thing = &statement.subject.thing;
            let words = Span::new(start + statement.span.start, start + statement.span.end);
            let clause = clause(line, words);
            let mut add = |attribute: &str, word: &str| {
                if let (Some(id), Some(symbol)) = (schema.path(thing, attribute), schema.symbol(word)) {
                    out.push(Spoken { id, symbol, words, clause });
                }
            };
            match &statement.says {
                Says::Value { attribute, value: Said::Word(word), .. } => add(attribute, word),
                Says::Absent | Says::Unsure | Says::Dropped | Says::DroppedValue { .. } => continue,
                _ => {}
            }
            if let Some(kind) = &statement.subject.kind {
                add("kind", kind);
            }
            if let Some(stage) = &statement.subject.stage {
                add("stage", stage);
            }
        }
        start += turn.len() + TURNS.len();
    }
    out
}

/// The part between the commas, or the ends of the turn, round a place.
fn clause(line: &str, words: Span) -> Span {
    let before = &line[..words.start];
    let from = [", ", TURNS].iter().filter_map(|mark| before.rfind(mark).map(|n| n + mark.len())).max().unwrap_or(0);
    let after = &line[words.end..];
    let to = [", ", TURNS].iter().filter_map(|mark| after.find(mark)).min().unwrap_or(after.len());
    Span::new(from, words.end + to)
}
