//! Facts of kinds from the tables, worked out once for each kind: what a table says of tetras is the same in every call.
//! In: a kind, its stage and size. Out: facts by attribute. Knows no case.

use super::fact::{Fact, Origin};
use crate::knowledge::Knowledge;
use crate::knowledge::facts::Value;
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::knowledge::table::Table;
use crate::units::{Amount, Spread, unit};
use std::collections::HashMap;
use std::hash::Hash;
use std::sync::{Arc, RwLock};

/// The things whose kinds have tables.
pub const TABLES: [(&str, Table); 3] = [("filter", Table::Filter), ("medium", Table::Medium), ("stock", Table::Stock)];

type Found = Arc<[(AttributeId, Fact)]>;

/// A kind of animal, its stage and its size, each as said.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Group {
    pub kind: String,
    pub stage: Option<String>,
    pub size: Option<String>,
}

/// What was looked up so far in the tables of one book.
#[derive(Default)]
pub struct LookUps {
    kinds: RwLock<HashMap<(Table, String), Found>>,
    lengths: RwLock<HashMap<Group, Option<Fact>>>,
    feeds: RwLock<HashMap<Group, Option<Fact>>>,
}

impl LookUps {
    /// Every fact of a kind.
    pub fn of_kind(&self, book: (&Knowledge, &Schema), table: Table, thing: ThingId, kind: &str) -> Found {
        once(&self.kinds, (table, kind.to_string()), || {
            let (knowledge, schema) = book;
            let facts = knowledge.facts_of(table, kind).into_iter().filter_map(|fact| {
                let value = match fact.value {
                    Value::Amount(amount) => Fact::amount(amount, Origin::LookedUp),
                    Value::Kinds(words) => kinds_fact(schema, &words),
                };
                Some((schema.attribute(thing, fact.attribute)?, value))
            });
            facts.collect()
        })
    }

    /// How long animals are, by kind, stage and size word.
    pub fn length(&self, knowledge: &Knowledge, group: &Group) -> Option<Fact> {
        once(&self.lengths, group.clone(), || {
            let size = knowledge.length_of(&group.kind, group.stage.as_deref(), group.size.as_deref())?;
            Some(Fact::amount(spread_in(size.length, "cm"), Origin::LookedUp))
        })
    }

    /// What they eat a day, as a share of what they weigh, by kind and stage.
    pub fn feed(&self, knowledge: &Knowledge, group: &Group) -> Option<Fact> {
        once(&self.feeds, group.clone(), || {
            let spread = knowledge.amount_at_stage(&group.kind, group.stage.as_deref(), "feed share")?;
            Some(Fact::amount(spread_in(spread, "%"), Origin::LookedUp))
        })
    }
}

/// What is kept under a key; worked out the first time it is asked for.
fn once<K: Hash + Eq, V: Clone>(kept: &RwLock<HashMap<K, V>>, key: K, work_out: impl FnOnce() -> V) -> V {
    if let Some(value) = kept.read().unwrap_or_else(|poisoned| poisoned.into_inner()).get(&key) {
        return value.clone();
    }
    let value = work_out();
    kept.write().unwrap_or_else(|poisoned| poisoned.into_inner()).insert(key, value.clone());
    value
}

fn kinds_fact(schema: &Schema, words: &[&str]) -> Fact {
    let mut symbols: Vec<_> = words.iter().filter_map(|w| schema.symbol(w)).collect();
    symbols.sort();
    match symbols[..] {
        [one] => Fact::kind(one, Origin::LookedUp),
        _ => Fact::kinds(symbols, Origin::LookedUp),
    }
}

fn spread_in(spread: Spread, name: &str) -> Amount {
    let unit = unit::by_name(name).unwrap_or_else(unit::plain);
    let each = |v: Option<f64>| v.map(|v| unit.from_base(v));
    Amount {
        low: each(spread.low),
        likely: each(spread.likely),
        high: each(spread.high),
        unit,
        strict: false,
        decimals: 0,
    }
}
