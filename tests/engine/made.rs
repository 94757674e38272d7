//! Made-up worlds: a vocabulary and rules as text, facts as text, through the real compiler and engine.

use std::collections::BTreeMap;
use weirline::engine::finding::{Findings, findings};
use weirline::engine::{Engine, State, Truth, Value, World};
use weirline::knowledge::schema::{Schema, ThingId};
use weirline::knowledge::vocabulary::{Sort, Vocabulary};
use weirline::rulebook::Rulebook;
use weirline::rulebook::build::build;
use weirline::rulebook::read::{Gaps, read};
use weirline::source::draw::draw;
use weirline::source::{Fault, yaml};
use weirline::units::parse;

/// A compiled made-up book.
pub struct Made {
    pub schema: Schema,
    pub book: Rulebook,
}

impl Made {
    /// Compiles rule files (path, text); any error ends the test.
    pub fn new(vocabulary: &str, files: &[(&str, &str)]) -> Self {
        let vocabulary = yaml::read::<Vocabulary>("vocabulary", vocabulary).expect("a vocabulary").value;
        let schema = Schema::new(&vocabulary, [], []);
        let mut faults = Vec::new();
        let sources = read(files, &mut faults, &mut Gaps::default());
        let (book, found) = build(&sources, &schema, vec![]);
        faults.extend(found);
        let text = |file: &str| files.iter().find(|(p, _)| *p == file).map(|(_, t)| t.to_string());
        let errors: Vec<String> = faults.iter().filter(|f: &&Fault| f.is_error()).map(|f| draw(f, &text)).collect();
        assert!(errors.is_empty(), "{}", errors.join("\n"));
        Self { schema, book }
    }

    pub fn engine(&self) -> Engine<'_> {
        Engine { schema: &self.schema, book: &self.book }
    }
}

/// A case of a made-up world: how many there are, what is known, what belongs where.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Facts {
    /// Of things of which there may be several.
    pub counts: BTreeMap<String, u16>,
    /// Things of which it was said that there are no others.
    pub closed: Vec<String>,
    /// Thing, instance from 0, attribute, value as a rule writes it.
    pub values: Vec<(String, u16, String, String)>,
    /// Thing, instance, the thing it belongs to, and which.
    pub owners: Vec<(String, u16, String, u16)>,
}

impl Facts {
    /// Reads `pot 2.heat = 30 C`, `pots: 3`, `only pot`, `lid 1 in pot 2`.
    pub fn of(lines: &[String]) -> Self {
        let mut facts = Self::default();
        for line in lines {
            if let Some((thing, count)) = line.split_once(": ") {
                facts.counts.insert(thing.into(), count.parse().expect("a count"));
            } else if let Some(thing) = line.strip_prefix("only ") {
                facts.closed.push(thing.into());
            } else if let Some((own, of)) = line.split_once(" in ") {
                let ((thing, n), (owner, m)) = (numbered(own), numbered(of));
                facts.owners.push((thing, n, owner, m));
            } else {
                let (path, value) = line.split_once(" = ").unwrap_or_else(|| panic!("no fact: {line}"));
                let (thing, attribute) = path.split_once('.').expect("a path");
                let (thing, n) = numbered(thing);
                facts.values.push((thing, n, attribute.into(), value.into()));
            }
        }
        facts
    }

    pub fn world(&self, made: &Made) -> World {
        let several = |n: usize| made.schema.things[n].several;
        let count = |n: usize| match several(n) {
            true => self.counts.get(&made.schema.things[n].name).copied().unwrap_or(0),
            false => 1,
        };
        let counts: Vec<u16> = (0..made.schema.things.len()).map(count).collect();
        let closed = made.schema.things.iter().map(|t| self.closed.contains(&t.name)).collect();
        let mut world = World::new(&made.schema, &made.book, counts, closed);
        for (thing, n, attribute, value) in &self.values {
            let id = made.schema.path(thing, attribute).unwrap_or_else(|| panic!("no {thing}.{attribute}"));
            let value = match made.schema.of(id).sort {
                Sort::Quantity(_) => {
                    Value::Number(parse::quantity(value).expect("a quantity").base().likely.expect("a value"))
                }
                _ => Value::Kind(made.schema.symbol(value).unwrap_or_else(|| panic!("no kind {value}"))),
            };
            world.set(id, *n, value);
        }
        for (thing, n, owner, m) in &self.owners {
            let id = |name: &str| made.schema.thing(name).expect("a thing");
            world.set_owner(id(thing), id(owner), *n, Some(*m));
        }
        world
    }
}

fn numbered(text: &str) -> (String, u16) {
    match text.rsplit_once(' ') {
        Some((thing, n)) if n.parse::<u16>().is_ok() => (thing.into(), n.parse::<u16>().expect("a number") - 1),
        _ => (text.into(), 0),
    }
}

/// What came of a case, by names: what two books of the same words must agree on.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Name and instance of each figure, in base units; nothing where it is unknown.
    pub figures: BTreeMap<(String, u16), Option<f64>>,
    pub rules: BTreeMap<(String, u16), Truth>,
    pub conclusions: BTreeMap<(String, u16), Truth>,
    /// Rules that speak and rules that are outranked.
    pub speaking: Vec<(String, u16)>,
    pub outranked: Vec<(String, u16)>,
}

impl Outcome {
    pub fn of(made: &Made, world: &World, state: &State) -> Self {
        let book = &made.book;
        let instances = |thing: Option<ThingId>| 0..thing.map_or(1, |t| world.count(t));
        let Findings { speaking, outranked } = findings(book, state);
        let named = |rule: u16, instance: u16| (book.rules[rule as usize].name.clone(), instance);
        let mut out = Self {
            figures: BTreeMap::new(),
            rules: BTreeMap::new(),
            conclusions: BTreeMap::new(),
            speaking: speaking.iter().map(|f| named(f.rule, f.instance)).collect(),
            outranked: outranked.iter().map(|(f, _)| named(f.rule, f.instance)).collect(),
        };
        for (n, figure) in book.figures.iter().enumerate() {
            for i in instances(figure.for_thing) {
                out.figures.insert((figure.name.clone(), i), state.figure(n as u16, i).number());
            }
        }
        for (n, rule) in book.rules.iter().enumerate() {
            for i in instances(rule.for_thing) {
                out.rules.insert((rule.name.clone(), i), state.rule(n as u16, i));
            }
        }
        for (n, conclusion) in book.conclusions.iter().enumerate() {
            for i in instances(conclusion.for_thing) {
                out.conclusions.insert((conclusion.name.clone(), i), state.conclusion(book, n as u16, i));
            }
        }
        out.speaking.sort();
        out.outranked.sort();
        out
    }
}
