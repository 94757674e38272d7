//! Checks of facts: attributes that exist, of the dimension they have everywhere, and none missing that mass and
//! waste are worked out from. In: tables and places. Out: faults.

use super::Knowledge;
use super::facts::{Value, value};
use super::places::Places;
use super::table::{Entry, Table};
use super::vocabulary::Sort;
use crate::source::words::{counted, ticked};
use crate::source::{Fault, suggest};
use crate::units::Dimension;
use std::collections::{BTreeMap, BTreeSet};

/// The dimension of a value; `None` for kind words.
type Measure = Option<Dimension>;
/// Attribute, what it is measured in, and the entry that states it.
type Stated<'k> = (&'k str, Measure, Table, &'k str);

/// An attribute is usual in a table when this many entries have it.
const USUAL: usize = 3;

/// All faults of facts; every text of them can be read already.
pub fn faults(knowledge: &Knowledge, places: &Places) -> Vec<Fault> {
    let mut faults = Vec::new();
    for table in Table::ALL {
        let stated = stated(knowledge, table);
        let measures = measures(knowledge, table, &stated);
        for (n, facts) in &stated {
            for (attribute, measure, from_table, from) in facts {
                let at = |text: &str| {
                    let at = knowledge.names(*from_table).iter().position(|name| name == from).unwrap_or(*n);
                    places.of(*from_table, at, "facts", text)
                };
                match measures.get(attribute) {
                    Some(usual) if usual != measure => {
                        let text = knowledge.find(*from_table, from).and_then(|e| e.facts()?.get(attribute));
                        let what =
                            format!("`{attribute}` is {}, but elsewhere it is {}", words(*measure), words(*usual));
                        faults.push(Fault::error("wrong-dimension", at(text.unwrap_or("")), what));
                    }
                    Some(_) => {}
                    None => {
                        if let Some(near) = suggest::nearest(attribute, measures.keys().copied()) {
                            let what = format!("no fact is called {}", ticked(attribute));
                            faults.push(Fault::error("unknown-name", at(attribute), what).cure(near));
                        }
                    }
                }
            }
        }
        if table == Table::Stock && faults.is_empty() {
            faults.extend(missing(knowledge, places, &stated));
        }
    }
    faults
}

/// The facts of each entry of a table with those of its classes; of a class, only its own.
fn stated(knowledge: &Knowledge, table: Table) -> Vec<(usize, Vec<Stated<'_>>)> {
    let has_facts = |n| knowledge.entry(table, n).filter(|e| e.facts().is_some());
    let entries = (0..knowledge.count(table)).filter_map(|n| Some((n, has_facts(n)?)));
    entries
        .map(|(n, entry)| match table {
            Table::Class => (n, own(entry)),
            _ => {
                let facts = knowledge.facts_of(table, entry.name()).into_iter();
                (n, facts.map(|f| (f.attribute, measure(&f.value), f.from_table, f.from)).collect())
            }
        })
        .collect()
}

fn own(entry: &dyn Entry) -> Vec<Stated<'_>> {
    let facts = entry.facts().into_iter().flat_map(|f| f.iter());
    facts.filter_map(|(a, text)| Some((a, measure(&value(text).ok()?), entry.table(), entry.name()))).collect()
}

/// What each known attribute of a table is measured in: as the vocabulary declares it, else as most entries have it.
fn measures<'k>(
    knowledge: &'k Knowledge,
    table: Table,
    stated: &[(usize, Vec<Stated<'k>>)],
) -> BTreeMap<&'k str, Measure> {
    let mut uses: BTreeMap<&str, BTreeMap<Measure, usize>> = BTreeMap::new();
    for (attribute, measure, ..) in stated.iter().flat_map(|(_, facts)| facts) {
        *uses.entry(attribute).or_default().entry(*measure).or_default() += 1;
    }
    let usual = uses.into_iter().filter(|(_, by_measure)| by_measure.values().sum::<usize>() >= USUAL);
    let mut measures: BTreeMap<&str, Measure> = usual
        .filter_map(|(attribute, by_measure)| Some((attribute, by_measure.into_iter().max_by_key(|(_, n)| *n)?.0)))
        .collect();
    for attribute in knowledge.vocabulary.thing(table.key()).iter().flat_map(|t| &t.attributes) {
        let declared = match attribute.sort() {
            Sort::Quantity(dimension) => Some(dimension),
            _ => None,
        };
        measures.insert(&attribute.attribute, declared);
    }
    measures
}

/// Kinds of animals without what mass and waste are worked out from; one fault for each fact, however many lack it.
fn missing(knowledge: &Knowledge, places: &Places, stated: &[(usize, Vec<Stated<'_>>)]) -> Vec<Fault> {
    let mut lacking: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (n, facts) in stated {
        let has: BTreeSet<&str> = facts.iter().map(|(attribute, ..)| *attribute).collect();
        let needed = ["grown length", "feed share", "solids share"].into_iter().filter(|a| !has.contains(a));
        let mass = has.contains("grown mass") || has.contains("mass coefficient") && has.contains("mass exponent");
        let mass = (!mass).then_some("mass coefficient, mass exponent");
        needed.chain(mass).for_each(|a| lacking.entry(a).or_default().push(*n));
    }
    let fault = |(attribute, entries): (&str, Vec<usize>)| {
        let first = *entries.first()?;
        let name = &knowledge.stock.get(first)?.stock;
        let what = format!("{} has no `{attribute}`, of its own or of a class", ticked(name));
        let fault = Fault::error("missing-fact", places.of(Table::Stock, first, Table::Stock.key(), name), what);
        Some(match entries.len() - 1 {
            0 => fault,
            more => fault.note(format!("{} more lack it as well", counted(more, "kind", "kinds"))),
        })
    };
    lacking.into_iter().filter_map(fault).collect()
}

fn measure(value: &Value) -> Measure {
    match value {
        Value::Amount(amount) => Some(amount.unit.dimension),
        Value::Kinds(_) => None,
    }
}

fn words(measure: Measure) -> String {
    measure.map_or_else(|| "a kind".to_string(), Dimension::words)
}
