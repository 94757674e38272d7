//! The facts of one tank of a call: statements taken in order, later ones superseding, contradictions kept. In: the
//! ledger's statements. Out: things with their facts as said. Knows no table and no rule.

use super::fact::{Contradiction, Fact, FactValue, Instance, Origin};
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::listen::reading::{How, Mark, Said, Says, Statement, Subject, TimeRelation};
use crate::units::{Amount, unit};

/// Which gallon is meant where it was not said.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Gallon {
    #[default]
    Us,
    Imperial,
}

/// The things of one tank.
#[derive(Clone, Debug, Default)]
pub struct Facts {
    /// The tank's number in the call, from 1.
    pub tank: u16,
    /// Instances by thing, in the order they were first spoken of.
    pub things: Vec<Vec<Instance>>,
    /// Said not to be there: a kind, a stage, or all of a thing.
    pub absent: Vec<Subject>,
    /// Said to be there, of things of which there is one (plants).
    pub present: Vec<Subject>,
    pub contradictions: Vec<Contradiction>,
    pub gallon: Gallon,
    /// Which gallon is meant was said or leaned on a hint, not assumed.
    pub gallon_said: bool,
    /// A gallon unit was used without saying which.
    pub gallon_used: bool,
}

impl Facts {
    /// Facts of tank number `tank`; things without a tank (source, keeper) belong to all.
    pub fn said<'s>(
        schema: &Schema,
        tank: u16,
        statements: impl Iterator<Item = (u16, &'s Statement)> + Clone,
    ) -> Self {
        let mut facts = Self { tank, things: vec![vec![]; schema.things.len()], ..Self::default() };
        let own = |s: &Statement| {
            s.subject.tank == tank
                || matches!(s.subject.thing.as_str(), "keeper" | "source")
                || (s.subject.tank == 0 && tank == 1)
        };
        for (_, statement) in statements.clone() {
            if statement.subject.thing == "keeper"
                && let Says::Value { attribute, value: Said::Word(word), .. } = &statement.says
                && attribute == "gallon"
            {
                facts.gallon = if word == "imperial" { Gallon::Imperial } else { Gallon::Us };
                facts.gallon_said = true;
            }
            // A unit that says whose gallon it is says it for the whole call.
            if let Some(gallon) = statement.gallon() {
                facts.gallon = if gallon == "impgal" { Gallon::Imperial } else { Gallon::Us };
                facts.gallon_said = true;
            }
        }
        for (n, thing) in schema.things.iter().enumerate() {
            if !thing.several {
                let subject = Subject { thing: thing.name.clone(), number: 1, tank, ..Subject::default() };
                facts.things[n].push(Instance { subject, ..Instance::default() });
            }
        }
        for (turn, statement) in statements.filter(|(_, s)| own(s)) {
            facts.take(schema, turn, statement);
        }
        facts
    }

    /// The same with one statement more, as if it were said last. The statement must be of this tank, and not say whose gallon
    /// is meant: that would change what was said before it.
    pub fn with(&self, schema: &Schema, turn: u16, statement: &Statement) -> Self {
        let mut facts = self.clone();
        facts.take(schema, turn, statement);
        facts
    }

    pub fn instances(&self, thing: ThingId) -> &[Instance] {
        &self.things[thing.0 as usize]
    }

    /// The fact of an attribute of one instance.
    pub fn fact(&self, attribute: AttributeId, schema: &Schema, instance: u16) -> Option<&Fact> {
        self.things[schema.of(attribute).thing.0 as usize].get(instance as usize)?.facts.get(&attribute)
    }

    fn take(&mut self, schema: &Schema, turn: u16, statement: &Statement) {
        let Some(thing) = schema.thing(&statement.subject.thing) else { return };
        let subject = &statement.subject;
        let before = self.things[thing.0 as usize].len();
        match &statement.says {
            Says::Present => {
                self.absent.retain(|a| !same_group(a, subject));
                self.instance(schema, thing, subject);
                self.present.push(subject.clone());
            }
            Says::Absent => {
                self.drop(schema, thing, subject);
                if !self.absent.contains(subject) {
                    self.absent.push(subject.clone());
                }
                self.present.retain(|p| !same_group(subject, p));
            }
            Says::Dropped => self.drop(schema, thing, subject),
            Says::Unsure => {}
            Says::DroppedValue { attribute } => {
                if let Some(id) = schema.attribute(thing, attribute) {
                    for n in self.targets(schema, thing, subject) {
                        self.things[thing.0 as usize][n].facts.remove(&id);
                    }
                }
            }
            Says::Value { attribute, how, value } => {
                let Some(id) = schema.attribute(thing, attribute) else { return };
                self.absent.retain(|a| !same_group(a, subject));
                for n in self.targets(schema, thing, subject) {
                    let origin = Origin::Said { turn, span: statement.span };
                    if let Some(fact) = self.fact_of(schema, id, value, origin, statement.mark) {
                        self.put(thing, n, id, *how, fact);
                    }
                }
            }
        }
        self.things[thing.0 as usize].iter_mut().skip(before).for_each(|new| new.since = turn);
    }

    /// The instances a subject means: its own, or all stock groups when any is meant.
    fn targets(&mut self, schema: &Schema, thing: ThingId, subject: &Subject) -> Vec<usize> {
        let count = self.things[thing.0 as usize].len();
        let general = subject.kind.as_deref().is_none_or(|k| k == "any") && subject.stage.is_none();
        if general && schema.thing_of(thing).name == "stock" && count > 0 {
            return (0..count).collect();
        }
        vec![self.instance(schema, thing, subject)]
    }

    /// The instance of a subject; made if there is none yet.
    fn instance(&mut self, schema: &Schema, thing: ThingId, subject: &Subject) -> usize {
        let list = &mut self.things[thing.0 as usize];
        if !schema.thing_of(thing).several {
            return 0;
        }
        let wanted = named(subject);
        let by_number = schema.thing_of(thing).name == "filter";
        let found = list.iter().position(|i| {
            if by_number {
                i.subject.number.max(1) == subject.number.max(1)
            } else {
                named(&i.subject) == wanted && i.subject.number.max(1) == subject.number.max(1)
            }
        });
        if let Some(n) = found {
            return n;
        }
        let mut instance = Instance { subject: subject.clone(), ..Instance::default() };
        let origin = Origin::WorkedOut;
        if let (Some(kind), Some(id)) = (wanted.0, schema.attribute(thing, "kind"))
            && let Some(symbol) = schema.symbol(kind)
        {
            instance.facts.insert(id, Fact::kind(symbol, origin));
        }
        if let (Some(stage), Some(id)) = (&subject.stage, schema.attribute(thing, "stage"))
            && let Some(symbol) = schema.symbol(stage)
        {
            instance.facts.insert(id, Fact::kind(symbol, origin));
        }
        list.push(instance);
        list.len() - 1
    }

    fn drop(&mut self, schema: &Schema, thing: ThingId, subject: &Subject) {
        if !schema.thing_of(thing).several {
            // There is always one of it; what was said of it is forgotten.
            self.things[thing.0 as usize].iter_mut().for_each(|i| i.facts.clear());
            return;
        }
        let general = subject.kind.as_deref().is_none_or(|k| k == "any") && subject.stage.is_none();
        self.things[thing.0 as usize].retain(|i| {
            let same = named(&i.subject) == named(subject) && (i.subject.number.max(1) == subject.number.max(1));
            // "no fry" takes away fry of every kind; "no fish" takes away all.
            let stage = subject.stage.is_some()
                && subject.kind.as_deref().is_none_or(|k| k == "any")
                && i.subject.stage == subject.stage;
            !(same || stage || general)
        });
    }

    fn put(&mut self, thing: ThingId, n: usize, id: AttributeId, how: How, fact: Fact) {
        let instance = &mut self.things[thing.0 as usize][n];
        let former = instance.facts.get(&id).cloned();
        // Two values were shown and asked about: what is said then settles it.
        let subject = instance.subject.clone();
        let open = self.contradictions.iter().position(|c| c.attribute == id && c.subject == subject);
        if let Some(open) = open {
            self.contradictions.remove(open);
            self.things[thing.0 as usize][n].facts.insert(id, fact);
            return;
        }
        let instance = &mut self.things[thing.0 as usize][n];
        let fact = match (how, former) {
            (How::Add | How::Take, Some(former)) => combined(&former, &fact, how == How::Add).unwrap_or(fact),
            (How::Set, Some(former)) if former.is_said() && differ(&former, &fact) => {
                let contradiction =
                    Contradiction { subject: instance.subject.clone(), attribute: id, former, latter: fact.clone() };
                self.contradictions.push(contradiction);
                fact
            }
            (How::Replace, _) => {
                let subject = instance.subject.clone();
                self.contradictions.retain(|c| !(c.attribute == id && c.subject == subject));
                fact
            }
            _ => fact,
        };
        self.things[thing.0 as usize][n].facts.insert(id, fact);
    }

    fn fact_of(
        &mut self,
        schema: &Schema,
        id: AttributeId,
        said: &Said,
        origin: Origin,
        mark: Option<Mark>,
    ) -> Option<Fact> {
        let fact = match said {
            Said::Amount(amount) => Fact::amount(self.gallons(*amount), origin),
            Said::Word(word) => match schema.symbol(word) {
                Some(symbol) if schema.dimension(id).is_none() => Fact::kind(symbol, origin),
                _ => Fact { value: FactValue::Text(word.clone()), ..Fact::kind(schema.yes(), origin) },
            },
            Said::Time { relation, amount } => match relation {
                // Something in the future is a plan, not a fact of today.
                TimeRelation::In => return None,
                _ => Fact::amount(*amount, origin),
            },
            Said::Moment { name, .. } => {
                Fact { value: FactValue::Text(name.clone()), ..Fact::kind(schema.yes(), origin) }
            }
            Said::Thing(subject) => Fact {
                value: FactValue::Text(format!("{} {}", subject.thing, subject.number.max(1))),
                ..Fact::kind(schema.yes(), origin)
            },
            Said::Level(level) => Fact { value: FactValue::Level(*level), ..Fact::kind(schema.yes(), origin) },
        };
        Some(Fact { mark, ..fact })
    }

    /// A gallon whose kind was not said becomes the gallon of the call.
    fn gallons(&mut self, amount: Amount) -> Amount {
        let name = match (amount.unit.name, self.gallon) {
            ("gal", Gallon::Us) => "usgal",
            ("gal", Gallon::Imperial) => "impgal",
            ("gal/h", Gallon::Us) => "usgal/h",
            ("gal/h", Gallon::Imperial) => "impgal/h",
            _ => return amount,
        };
        self.gallon_used = true;
        unit::by_name(name).map_or(amount, |u| amount.in_unit(u))
    }
}

/// Kind and stage; `any` and none are the same.
fn named(subject: &Subject) -> (Option<&str>, Option<&str>) {
    (subject.kind.as_deref().filter(|k| *k != "any"), subject.stage.as_deref())
}

fn same_group(a: &Subject, b: &Subject) -> bool {
    a.thing == b.thing
        && (named(a) == named(b)
            || (named(a) == (None, None))
            || (a.stage.is_some() && a.stage == b.stage && named(a).0.is_none()))
}

/// Whether two facts say different things: amounts that do not overlap, kinds that are not the same.
fn differ(a: &Fact, b: &Fact) -> bool {
    match (&a.value, &b.value) {
        (FactValue::Amount(_), FactValue::Amount(_)) => {
            let edge = |v: Option<f64>, open: f64| v.unwrap_or(open);
            let (low, high) = (f64::NEG_INFINITY, f64::INFINITY);
            let slack = 1e-9 * edge(a.spread.high, 0.0).abs().max(edge(b.spread.high, 0.0).abs());
            edge(a.spread.high, high) < edge(b.spread.low, low) - slack
                || edge(b.spread.high, high) < edge(a.spread.low, low) - slack
        }
        (FactValue::Kind(a), FactValue::Kind(b)) => a != b,
        _ => false,
    }
}

/// A sum or difference of two amounts, in the former's unit.
fn combined(former: &Fact, by: &Fact, add: bool) -> Option<Fact> {
    let (FactValue::Amount(a), FactValue::Amount(b)) = (&former.value, &by.value) else { return None };
    let sign = if add { 1.0 } else { -1.0 };
    let in_unit = |v: Option<f64>| v.map(|v| a.unit.from_base(b.unit.to_base(v)));
    let sum = |x: Option<f64>, y: Option<f64>| Some((x? + sign * y?).max(0.0));
    let amount = Amount {
        low: sum(a.low, if add { in_unit(b.low) } else { in_unit(b.high) }),
        likely: sum(a.likely, in_unit(b.likely)),
        high: sum(a.high, if add { in_unit(b.high) } else { in_unit(b.low) }),
        ..*a
    };
    Some(Fact::amount(amount, by.origin))
}
