//! implausible-number: a fact is compared with a number that it can never plausibly have.

use super::{Reason, comparisons};
use crate::knowledge::schema::ThingId;
use crate::rulebook::expr::parse::parse_with;
use crate::rulebook::expr::tree::{Expr, Node};
use crate::rulebook::names::Meaning;
use crate::source::{Fault, Place};

pub fn faults(reason: &mut Reason, out: &mut Vec<Fault>) {
    let checking = reason.checking;
    for n in reason.speaking() {
        let (raw, spot) = &checking.entries.rules[n as usize];
        for (c, text) in raw.when.iter().enumerate() {
            let Ok(tree) = parse_with(text, &checking.names.phrases) else { continue };
            for compared in comparisons(&tree, checking.schema, &checking.bound(n)) {
                for (fact, number) in [(compared.left, compared.right), (compared.right, compared.left)] {
                    let Some((value, fault)) = fault(reason, fact, number, &compared.bound) else { continue };
                    let place = spot.get("when").item(c).inside(text, value.span);
                    out.push(Fault { place, ..fault });
                    reason.blamed.insert((n, c));
                }
            }
        }
    }
}

fn fault<'e>(reason: &Reason, fact: &Expr, number: &'e Expr, bound: &[ThingId]) -> Option<(&'e Expr, Fault)> {
    let checking = reason.checking;
    let (Node::Name(name), Node::Number { value, unit }) = (&fact.node, &number.node) else { return None };
    let Ok(Meaning::Fact(id)) = checking.names.find(checking.schema, name, bound) else { return None };
    let attribute = checking.schema.of(id);
    let (low, high) = attribute.plausible?;
    let base = unit.map_or(*value, |u| u.to_base(*value));
    let slack = 1e-9 * (high - low).abs();
    if low - slack <= base && base <= high + slack {
        return None;
    }
    let thing = &checking.schema.thing_of(attribute.thing).name;
    let written = checking.knowledge.vocabulary.attribute(thing, &attribute.name)?.plausible.clone()?;
    let shown = format!("{value} {}", unit.map_or("", |u| u.name));
    let what = format!("{} is not a plausible {}", shown.trim(), attribute.called);
    let mut fault = Fault::error("implausible-number", Place::default(), what);
    let declared = checking.place_of(id);
    let note = format!("plausible is {written}");
    match declared {
        Some(place) => fault = fault.other(place, note),
        None => fault = fault.note(note),
    }
    Some((number, fault))
}
