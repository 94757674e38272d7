//! Many versions worked out side by side say what each says alone, on random books and cases.

use super::made::Made;
use super::random::{Draw, VOCABULARY, entries, facts, file};
use proptest::prelude::*;
use weirline::engine::finding::{Finding, findings};
use weirline::engine::lanes::{Cells, LANES, LanePass, Lanes, Varied};
use weirline::engine::{Value, World};
use weirline::knowledge::schema::AttributeId;

/// The value of a fact in a lane: as it was, not known, another number, another kind.
fn value(plain: Value, kinds: &[Value], byte: u8) -> Value {
    match (plain, byte % 4) {
        (_, 0) => Value::Unknown,
        (Value::Number(n), 1) => Value::Number(n + f64::from(byte) / 16.0),
        (Value::Number(_), 2) => Value::Number(f64::from(byte / 4) - 20.0),
        (Value::Kind(_), 1 | 2) => kinds[byte as usize / 4 % kinds.len()],
        _ => plain,
    }
}

proptest! {
    #![proptest_config(crate::tries(200))]

    #[test]
    fn each_lane_is_what_its_version_alone_gives(
        book in prop::collection::vec(any::<u8>(), 0..240),
        case in prop::collection::vec(any::<u8>(), 0..240),
        lanes in prop::collection::vec(any::<u8>(), 1..200),
    ) {
        let entries = entries(&mut Draw::new(&book));
        let text = file(&entries.iter().collect::<Vec<_>>());
        let facts = facts(&mut Draw::new(&case));
        let made = Made::new(VOCABULARY, &[("rules/a.yaml", &text)]);
        let engine = made.engine();
        let plain = facts.world(&made);
        let kinds: Vec<Value> = ["red", "blue", "green", "iron", "clay"].iter().filter_map(|w| made.schema.symbol(w)).map(Value::Kind).collect();
        let byte = |place: usize, lane: usize| lanes[(place * 31 + lane * 7) % lanes.len()].wrapping_add((lane * place) as u8);
        let mut worlds: Vec<World> = vec![plain.clone(); LANES];
        let mut together = Varied::default();
        for n in 0..made.schema.attributes.len() {
            let id = AttributeId(n as u16);
            for instance in 0..plain.count(made.schema.of(id).thing) {
                let place = plain.place(id, instance);
                let was = plain.value(id, instance);
                // Two facts of three differ from lane to lane.
                if place % 3 == 2 || !was.is_known() {
                    continue;
                }
                let values: Vec<Value> = (0..LANES).map(|lane| value(was, &kinds, byte(place, lane))).collect();
                worlds.iter_mut().zip(&values).for_each(|(world, value)| world.set(id, instance, *value));
                together.set(&plain, id, instance, Lanes::of(&values));
            }
        }
        let state = engine.run(&plain);
        let cells = Cells::of(&engine, &state);
        let all = LanePass { engine, world: &plain, plain: &state, vary: &together, cells: &cells };
        for (lane, world) in worlds.iter().enumerate() {
            let alone = engine.run(world);
            for (n, figure) in made.book.figures.iter().enumerate() {
                for instance in 0..figure.for_thing.map_or(1, |t| world.count(t)) {
                    let (a, b) = (all.figure(n as u16, instance).at(lane), alone.figure(n as u16, instance));
                    prop_assert_eq!(a, b, "{} in lane {}\n{}", figure.name, lane, text);
                }
            }
            for (n, rule) in made.book.rules.iter().enumerate() {
                for instance in 0..rule.for_thing.map_or(1, |t| world.count(t)) {
                    let (a, b) = (all.rule(n as u16, instance).at(lane), alone.rule(n as u16, instance));
                    prop_assert_eq!(a, b, "{} in lane {}\n{}", rule.name, lane, text);
                }
            }
            let each = (0..made.book.rules.len() as u16).flat_map(|rule| {
                let of = made.book.rules[rule as usize].for_thing;
                (0..of.map_or(1, |t| world.count(t))).map(move |instance| Finding { rule, instance })
            });
            let speaks: Vec<Finding> = each.filter(|f| all.speaks(*f) >> lane & 1 == 1).collect();
            prop_assert_eq!(speaks, findings(&made.book, &alone).speaking, "lane {}\n{}", lane, text);
        }
    }
}
