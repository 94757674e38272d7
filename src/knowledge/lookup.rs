//! Look-ups: the facts of an entry with those of the classes it is like. In: a table, a name, an attribute.
//! Out: values with what they rest on. Knows no case; what a caller said rules over it elsewhere.

use super::Knowledge;
use super::basis::Basis;
use super::facts::{Value, value};
use super::table::{Entry, Table};

/// How many levels of classes are followed; circles are refused when a book is read.
const DEEPEST: usize = 8;

/// One fact of an entry.
#[derive(Clone, PartialEq, Debug)]
pub struct Fact<'k> {
    pub attribute: &'k str,
    pub value: Value<'k>,
    pub basis: &'k Basis,
    /// The entry or class that states it ("body general").
    pub from: &'k str,
    pub from_table: Table,
}

impl Knowledge {
    /// All facts of an entry: its own first, then those of its classes that it does not state itself.
    ///
    /// `group` is a fact of every kind of animal. Empty where there is no such entry.
    pub fn facts_of<'k>(&'k self, table: Table, name: &str) -> Vec<Fact<'k>> {
        let mut facts = Vec::new();
        if let Some(entry) = self.find(table, name) {
            self.gather(entry, &mut facts, 0);
        }
        if table == Table::Stock
            && let Some(stock) = self.stock.iter().find(|s| s.stock == name)
        {
            facts.push(Fact {
                attribute: "group",
                value: Value::Kinds(vec![&stock.group]),
                basis: &stock.basis,
                from: &stock.stock,
                from_table: table,
            });
        }
        facts
    }

    /// One fact of an entry, its own or inherited.
    pub fn fact<'k>(&'k self, table: Table, name: &str, attribute: &str) -> Option<Fact<'k>> {
        self.facts_of(table, name).into_iter().find(|f| f.attribute == attribute)
    }

    fn gather<'k>(&'k self, entry: &'k dyn Entry, facts: &mut Vec<Fact<'k>>, depth: usize) {
        if let (Some(own), Some(basis)) = (entry.facts(), entry.basis()) {
            for (attribute, text) in own.iter() {
                if facts.iter().any(|f| f.attribute == attribute) {
                    continue;
                }
                // Texts that cannot be read are faults of the book; a book with faults is never looked up.
                let Ok(value) = value(text) else { continue };
                facts.push(Fact { attribute, value, basis, from: entry.name(), from_table: entry.table() });
            }
        }
        if depth < DEEPEST {
            for class in entry.like() {
                if let Some(class) = self.find(Table::Class, class) {
                    self.gather(class, facts, depth + 1);
                }
            }
        }
    }
}
