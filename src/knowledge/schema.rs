//! The schema: things, attributes and kinds numbered, so that facts and rules meet by small numbers instead of words.
//! In: the vocabulary and the names of table entries. Out: ids both ways. Knows no value and no rule.

use super::vocabulary::{Attribute, Sort, Unsaid, Vocabulary};
use crate::units::parse::quantity;
use crate::units::{Amount, Dimension};
use serde::{Deserialize, Serialize};
use std::collections::HashMap;

/// Index of a thing in the vocabulary's order.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord, Serialize, Deserialize)]
pub struct ThingId(pub u8);

/// Index of an attribute, over all things in the vocabulary's order.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord, Serialize, Deserialize)]
pub struct AttributeId(pub u16);

/// A kind word ("canister", "yes", "neon tetra") as a number.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Symbol(pub u16);

/// Which words an attribute of kinds may hold.
#[derive(Clone, Debug, PartialEq)]
pub enum Kinds {
    /// Not an attribute of kinds.
    None,
    /// One of these.
    List(Vec<Symbol>),
    /// Looked up from tables: any word that a table holds for it.
    Open,
}

/// What the vocabulary takes an attribute for until it is said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Assumed {
    Amount(Amount),
    Kind(Symbol),
}

/// One attribute, numbered.
#[derive(Clone, Debug)]
pub struct SchemaAttribute {
    pub thing: ThingId,
    pub name: String,
    pub called: String,
    pub sort: Sort,
    pub kinds: Kinds,
    pub looked_up: bool,
    pub plausible: Option<(f64, f64)>,
    /// What is assumed when it is unsaid.
    pub assumed: Option<Assumed>,
    /// The same in kinds of tank where it is another, by place in the vocabulary's list.
    pub assumed_by_kind: Vec<(Symbol, Amount)>,
}

/// One thing, numbered.
#[derive(Clone, Debug)]
pub struct SchemaThing {
    pub name: String,
    pub called: String,
    pub several: bool,
    pub unsaid: Unsaid,
    pub attributes: std::ops::Range<u16>,
}

/// Everything numbered.
#[derive(Clone, Debug, Default)]
pub struct Schema {
    pub things: Vec<SchemaThing>,
    pub attributes: Vec<SchemaAttribute>,
    symbols: Vec<String>,
    by_symbol: HashMap<String, Symbol>,
    /// For each thing.
    by_attribute: Vec<HashMap<String, AttributeId>>,
}

impl Schema {
    /// `entries`: table and kind of every table entry; `words`: kind words that tables hold for looked-up attributes.
    pub fn new<'k>(
        vocabulary: &Vocabulary,
        entries: impl IntoIterator<Item = (&'k str, &'k str)>,
        words: impl IntoIterator<Item = &'k str>,
    ) -> Self {
        let mut schema = Self::default();
        schema.intern("yes");
        schema.intern("no");
        let mut tables: HashMap<&str, Vec<Symbol>> = HashMap::new();
        for (table, kind) in entries {
            let symbol = schema.intern(kind);
            tables.entry(table).or_default().push(symbol);
        }
        for word in words {
            schema.intern(word);
        }
        for thing in &vocabulary.things {
            let id = ThingId(schema.things.len() as u8);
            let start = schema.attributes.len() as u16;
            schema.by_attribute.push(HashMap::new());
            for attribute in &thing.attributes {
                schema.add_attribute(id, attribute, &tables);
            }
            schema.things.push(SchemaThing {
                name: thing.thing.clone(),
                called: thing.called.clone(),
                several: thing.is_several(),
                unsaid: thing.unsaid,
                attributes: start..schema.attributes.len() as u16,
            });
        }
        schema
    }

    fn add_attribute(&mut self, thing: ThingId, attribute: &Attribute, tables: &HashMap<&str, Vec<Symbol>>) {
        let kinds = match attribute.is.as_str() {
            "yes or no" => Kinds::List(vec![self.intern("yes"), self.intern("no")]),
            "kind" => match (&attribute.kinds_from, attribute.is_looked_up()) {
                (Some(table), _) => {
                    let mut list = tables.get(table.as_str()).cloned().unwrap_or_default();
                    list.push(self.intern("any"));
                    Kinds::List(list)
                }
                (None, true) => Kinds::Open,
                (None, false) => Kinds::List(attribute.kinds.iter().map(|k| self.intern(&k.kind)).collect()),
            },
            _ => Kinds::None,
        };
        let assumed = match attribute.sort() {
            Sort::Quantity(_) => attribute.assumed_amount().map(Assumed::Amount),
            _ => attribute.assume.as_deref().and_then(|word| self.symbol(word)).map(Assumed::Kind),
        };
        let by_kind = attribute.assume_by_kind.iter();
        let assumed_by_kind =
            by_kind.filter_map(|by| Some((self.intern(&by.kind), quantity(&by.assume).ok()?))).collect();
        let id = AttributeId(self.attributes.len() as u16);
        self.by_attribute[thing.0 as usize].insert(attribute.attribute.clone(), id);
        self.attributes.push(SchemaAttribute {
            thing,
            name: attribute.attribute.clone(),
            called: attribute.called.clone(),
            sort: attribute.sort(),
            kinds,
            looked_up: attribute.is_looked_up(),
            plausible: attribute.plausible_range(),
            assumed,
            assumed_by_kind,
        });
    }

    /// The numbers of a thing's attributes, in the vocabulary's order.
    pub fn attributes_of(&self, thing: ThingId) -> impl Iterator<Item = AttributeId> + use<> {
        self.thing_of(thing).attributes.clone().map(AttributeId)
    }

    /// The number of a word; a new one if it has none yet.
    pub fn intern(&mut self, word: &str) -> Symbol {
        if let Some(symbol) = self.by_symbol.get(word) {
            return *symbol;
        }
        let symbol = Symbol(self.symbols.len() as u16);
        self.symbols.push(word.to_string());
        self.by_symbol.insert(word.to_string(), symbol);
        symbol
    }

    pub fn symbol(&self, word: &str) -> Option<Symbol> {
        self.by_symbol.get(word).copied()
    }

    pub fn word(&self, symbol: Symbol) -> &str {
        self.symbols.get(symbol.0 as usize).map_or("", String::as_str)
    }

    pub fn thing(&self, name: &str) -> Option<ThingId> {
        self.things.iter().position(|t| t.name == name).map(|n| ThingId(n as u8))
    }

    pub fn attribute(&self, thing: ThingId, name: &str) -> Option<AttributeId> {
        self.by_attribute.get(thing.0 as usize)?.get(name).copied()
    }

    /// The attribute of a path's two halves.
    pub fn path(&self, thing: &str, attribute: &str) -> Option<AttributeId> {
        self.attribute(self.thing(thing)?, attribute)
    }

    pub fn of(&self, id: AttributeId) -> &SchemaAttribute {
        &self.attributes[id.0 as usize]
    }

    pub fn thing_of(&self, id: ThingId) -> &SchemaThing {
        &self.things[id.0 as usize]
    }

    /// "tank.nominal".
    pub fn path_name(&self, id: AttributeId) -> String {
        let attribute = self.of(id);
        format!("{}.{}", self.thing_of(attribute.thing).name, attribute.name)
    }

    pub fn dimension(&self, id: AttributeId) -> Option<Dimension> {
        match self.of(id).sort {
            Sort::Quantity(dimension) => Some(dimension),
            _ => None,
        }
    }

    pub fn yes(&self) -> Symbol {
        Symbol(0)
    }

    pub fn no(&self) -> Symbol {
        Symbol(1)
    }
}
