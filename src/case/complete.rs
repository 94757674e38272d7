//! Completes what was said: facts looked up by kind in the tables, facts that follow from what is there, and what the
//! vocabulary assumes. In: facts as said. Out: the same with the rest filled in, each marked. Knows no rule.

use super::fact::{Fact, FactValue, Instance, Origin};
use super::facts::Facts;
use super::look_ups::{self, Group, LookUps};
use crate::knowledge::Knowledge;
use crate::knowledge::schema::{Assumed, Schema, ThingId};
use crate::knowledge::table::Table;
use crate::knowledge::vocabulary::Unsaid;

/// The facts of one tank, complete.
#[derive(Clone, Debug, Default)]
pub struct Case {
    pub facts: Facts,
    /// For each thing: there are no others than those listed (said, or meant by silence).
    pub closed: Vec<bool>,
}

impl Case {
    pub fn complete(mut facts: Facts, knowledge: &Knowledge, schema: &Schema, look_ups: &LookUps) -> Self {
        look_up(&mut facts, knowledge, schema, look_ups);
        presences(&mut facts, knowledge, schema);
        assume(&mut facts, knowledge, schema);
        let closed = schema
            .things
            .iter()
            .map(|thing| {
                let none = facts.absent.iter().any(|a| {
                    a.thing == thing.name && a.stage.is_none() && a.kind.as_deref().is_none_or(|k| k == "any")
                });
                none || thing.unsaid == Unsaid::None
            })
            .collect();
        Self { facts, closed }
    }

    pub fn count(&self, thing: ThingId) -> u16 {
        self.facts.things[thing.0 as usize].len() as u16
    }
}

/// Facts of each thing's kind that were not said, from the tables.
fn look_up(facts: &mut Facts, knowledge: &Knowledge, schema: &Schema, look_ups: &LookUps) {
    for (thing, table) in look_ups::TABLES {
        let Some(id) = schema.thing(thing) else { continue };
        let Some(kind_id) = schema.attribute(id, "kind") else { continue };
        for instance in &mut facts.things[id.0 as usize] {
            let Some(Fact { value: FactValue::Kind(kind), .. }) = instance.facts.get(&kind_id) else { continue };
            let kind = schema.word(*kind);
            for (attribute, fact) in look_ups.of_kind((knowledge, schema), table, id, kind).iter() {
                instance.facts.entry(*attribute).or_insert_with(|| fact.clone());
            }
            if table == Table::Stock {
                stock_sizes(instance, knowledge, schema, look_ups, id);
            }
        }
    }
}

/// Length by kind, stage and size word; feed by stage.
fn stock_sizes(instance: &mut Instance, knowledge: &Knowledge, schema: &Schema, look_ups: &LookUps, stock: ThingId) {
    let word = |attribute: &str| match instance.facts.get(&schema.attribute(stock, attribute)?)?.value {
        FactValue::Kind(symbol) => Some(schema.word(symbol).to_string()),
        _ => None,
    };
    let Some(kind) = word("kind") else { return };
    let group = Group { kind, stage: word("stage"), size: word("size") };
    if let (Some(id), Some(length)) = (schema.attribute(stock, "length"), look_ups.length(knowledge, &group)) {
        instance.facts.entry(id).or_insert(length);
    }
    if let (Some(id), Some(feed)) = (schema.attribute(stock, "feed share"), look_ups.feed(knowledge, &group)) {
        instance.facts.insert(id, feed);
    }
}

/// Yes-or-no attributes that tell whether something is there ("fry"), from what was said to be there or not.
fn presences(facts: &mut Facts, knowledge: &Knowledge, schema: &Schema) {
    for (n, thing) in knowledge.vocabulary.things.iter().enumerate() {
        for (attribute, id) in thing.attributes.iter().zip(schema.attributes_of(ThingId(n as u8))) {
            let Some(of) = &attribute.present else { continue };
            if facts.fact(id, schema, 0).is_some() {
                continue;
            }
            let (name, stage) = of.split_once('/').map_or((of.as_str(), None), |(n, s)| (n, Some(s)));
            let (name, kind) = match name.split_once('(') {
                Some((name, kind)) => (name, Some(kind.trim_end_matches(')'))),
                None => (name, None),
            };
            let Some(target) = schema.thing(name) else { continue };
            let fits = |s: &crate::listen::reading::Subject| {
                s.thing == name
                    && stage.is_none_or(|w| s.stage.as_deref() == Some(w))
                    && kind.is_none_or(|w| s.kind.as_deref() == Some(w))
            };
            let there = if schema.thing_of(target).several {
                facts.things[target.0 as usize].iter().any(|i| fits(&i.subject))
            } else {
                facts.present.iter().any(fits) || !facts.things[target.0 as usize][0].facts.is_empty()
            };
            let absent = facts.absent.iter().any(fits)
                || (stage.is_some()
                    && facts
                        .absent
                        .iter()
                        .any(|s| s.thing == name && s.stage.is_none() && s.kind.as_deref().is_none_or(|k| k == "any")));
            let symbol = match (there, absent) {
                (true, _) => schema.yes(),
                (false, true) => schema.no(),
                _ => continue,
            };
            let owner = schema.of(id).thing.0 as usize;
            facts.things[owner][0].facts.insert(id, Fact::kind(symbol, Origin::WorkedOut));
        }
    }
}

/// What the vocabulary assumes of attributes that are still unknown.
fn assume(facts: &mut Facts, knowledge: &Knowledge, schema: &Schema) {
    let kind = schema.path("tank", "kind").and_then(|id| match facts.fact(id, schema, 0)?.value {
        FactValue::Kind(kind) => Some(kind),
        _ => None,
    });
    for (n, thing) in knowledge.vocabulary.things.iter().enumerate() {
        for (attribute, id) in thing.attributes.iter().zip(schema.attributes_of(ThingId(n as u8))) {
            let entry = schema.of(id);
            let of_kind = entry.assumed_by_kind.iter().position(|(k, _)| Some(*k) == kind);
            let because = of_kind.map_or(&attribute.because, |n| &attribute.assume_by_kind[n].because);
            let fact = match entry.assumed {
                Some(Assumed::Amount(amount)) => {
                    Fact::amount(of_kind.map_or(amount, |n| entry.assumed_by_kind[n].1), Origin::Assumed)
                }
                Some(Assumed::Kind(kind)) => Fact::kind(kind, Origin::Assumed),
                None => continue,
            };
            for instance in &mut facts.things[n] {
                // A word without a figure ("nitrate is high") is no reason to compute with the usual value.
                let assumed = || Fact { because: because.clone(), ..fact.clone() };
                instance.facts.entry(id).or_insert_with(assumed);
            }
        }
    }
}
