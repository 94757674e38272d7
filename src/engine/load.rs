//! From a case to a world: the likely value of every fact. In: a case. Out: the plain version of it. Knows no word.

use super::value::Value;
use super::world::World;
use crate::case::Case;
use crate::case::fact::{Fact, FactValue};
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::knowledge::vocabulary::Sort;
use crate::rulebook::Rulebook;

/// The plain version of a case.
pub fn world(case: &Case, schema: &Schema, book: &Rulebook) -> World {
    let counts: Vec<u16> = (0..schema.things.len()).map(|n| case.count(ThingId(n as u8))).collect();
    let mut world = World::new(schema, book, counts, case.closed.clone());
    for (n, instances) in case.facts.things.iter().enumerate() {
        for (instance, thing) in instances.iter().enumerate() {
            for (id, fact) in &thing.facts {
                let value = plain(&mut world, fact, schema, *id);
                world.set(*id, instance as u16, value);
            }
        }
        owners(&mut world, case, schema, ThingId(n as u8));
    }
    world
}

/// The likely value. A bound without a likely value ("under 20") is taken at its end, which is what is known of it.
fn plain(world: &mut World, fact: &Fact, schema: &Schema, id: AttributeId) -> Value {
    match &fact.value {
        FactValue::Kind(symbol) => Value::Kind(*symbol),
        FactValue::Kinds(symbols) => world.kinds(symbols),
        FactValue::Amount(_) if matches!(schema.of(id).sort, Sort::Quantity(_)) => {
            let spread = fact.spread;
            spread.likely.or(spread.high).or(spread.low).map_or(Value::Unknown, Value::Number)
        }
        _ => Value::Unknown,
    }
}

/// A thing with an attribute `in` belongs to the filter it is said to be in.
fn owners(world: &mut World, case: &Case, schema: &Schema, thing: ThingId) {
    let (Some(within), Some(filter)) = (schema.attribute(thing, "in"), schema.thing("filter")) else { return };
    for (n, instance) in case.facts.instances(thing).iter().enumerate() {
        if let Some(Fact { value: FactValue::Text(name), .. }) = instance.facts.get(&within)
            && let Some(number) = name.strip_prefix("filter ").and_then(|n| n.parse::<u16>().ok())
        {
            let position = case.facts.instances(filter).iter().position(|f| f.subject.number.max(1) == number);
            world.set_owner(thing, filter, n as u16, position.map(|p| p as u16));
        }
    }
}
