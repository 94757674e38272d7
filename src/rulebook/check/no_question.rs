//! no-question: a rule waits for a fact that the program can never ask for.

use super::Checking;
use crate::knowledge::schema::AttributeId;
use crate::knowledge::vocabulary::{Sort, Unsaid};
use crate::rulebook::code::Read;
use crate::source::Fault;
use crate::source::words::ticked;
use std::collections::BTreeMap;

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    // Each fact once, with the first condition that reads it itself; what only a formula reads has other ways.
    let mut read: BTreeMap<AttributeId, (u16, usize)> = BTreeMap::new();
    for (n, rule) in checking.sound_rules() {
        for (c, condition) in rule.conditions.iter().enumerate() {
            for found in condition.code.reads() {
                if let Read::Fact(id) = found {
                    read.entry(id).or_insert((n, c));
                }
            }
        }
    }
    for (id, (rule, condition)) in read {
        let attribute = checking.schema.of(id);
        let thing = checking.schema.thing_of(attribute.thing);
        let Some(declared) = checking.knowledge.vocabulary.attribute(&thing.name, &attribute.name) else { continue };
        let other_way = declared.assume.is_some()
            || declared.is_looked_up()
            || declared.present.is_some()
            || thing.unsaid == Unsaid::None
            || attribute.name == "kind"
            || !matches!(attribute.sort, Sort::Quantity(_) | Sort::Kind);
        if declared.ask.is_some() || other_way {
            continue;
        }
        let path = checking.schema.path_name(id);
        let what = format!("this waits for {}, and nothing says how to ask for it", ticked(&path));
        let mut fault = Fault::warning("no-question", checking.condition(rule, condition), what);
        if let Some(place) = checking.place_of(id) {
            fault = fault.other(place, "declared here");
        }
        out.push(fault.cure(format!("give {} an `ask:` in the vocabulary", ticked(&path))));
    }
}
