//! One plain version of a case: how many there are of each thing, the value of each attribute, the value of each given
//! number. In: the schema and counts. Out: values by attribute and instance. Knows no origin and no spread.

use super::value::Value;
use crate::knowledge::schema::{AttributeId, Schema, Symbol, ThingId};
use crate::rulebook::Rulebook;

/// Values of one version of one case.
#[derive(Clone, Debug)]
pub struct World {
    /// Instances of each thing; one for things of which there is one.
    counts: Vec<u16>,
    /// It was said, or silence means, that there are no others than those counted.
    closed: Vec<bool>,
    /// Start of each attribute's run in `values`.
    starts: Vec<u32>,
    values: Vec<Value>,
    /// For each thing: the instance of another thing that each instance belongs to (a medium in its filter).
    owners: Vec<Option<(ThingId, Vec<Option<u16>>)>>,
    /// The number of each figure that is a given number; not a number for the others.
    givens: Vec<f64>,
    /// Sets of kinds that values point to.
    sets: Vec<Vec<Symbol>>,
    /// Figures that keep the value they had, whatever is supposed: what a reading shows.
    held: Vec<(u16, u16, Value)>,
}

impl World {
    pub fn new(schema: &Schema, book: &Rulebook, counts: Vec<u16>, closed: Vec<bool>) -> Self {
        let mut starts = Vec::with_capacity(schema.attributes.len());
        let mut next = 0;
        for attribute in &schema.attributes {
            starts.push(next);
            next += u32::from(counts[attribute.thing.0 as usize]);
        }
        let givens = book.figures.iter().map(|f| f.given.and_then(|s| s.likely).unwrap_or(f64::NAN)).collect();
        Self {
            owners: vec![None; counts.len()],
            counts,
            closed,
            starts,
            values: vec![Value::Unknown; next as usize],
            givens,
            sets: vec![],
            held: vec![],
        }
    }

    pub fn count(&self, thing: ThingId) -> u16 {
        self.counts[thing.0 as usize]
    }

    pub fn is_closed(&self, thing: ThingId) -> bool {
        self.closed[thing.0 as usize]
    }

    /// Where a value stands among all of them.
    pub fn place(&self, attribute: AttributeId, instance: u16) -> usize {
        (self.starts[attribute.0 as usize] + u32::from(instance)) as usize
    }

    /// How many values there are.
    pub fn places(&self) -> usize {
        self.values.len()
    }

    pub fn value(&self, attribute: AttributeId, instance: u16) -> Value {
        self.values[self.place(attribute, instance)]
    }

    pub fn set(&mut self, attribute: AttributeId, instance: u16, value: Value) {
        let place = self.place(attribute, instance);
        self.values[place] = value;
    }

    /// The attributes whose values differ; nothing when the worlds hold other things, so that they cannot be laid side by
    /// side.
    pub fn changed_since(&self, before: &World) -> Option<Vec<AttributeId>> {
        let alike = self.counts == before.counts
            && self.closed == before.closed
            && self.owners == before.owners
            && self.sets == before.sets
            && self.starts == before.starts
            && self.held == before.held;
        if !alike {
            return None;
        }
        let ends = self.starts.iter().skip(1).copied().chain([self.values.len() as u32]);
        let runs = self.starts.iter().copied().zip(ends).map(|(start, end)| start as usize..end as usize).enumerate();
        let differs = |run: &std::ops::Range<usize>| self.values[run.clone()] != before.values[run.clone()];
        Some(runs.filter(|(_, run)| differs(run)).map(|(n, _)| AttributeId(n as u16)).collect())
    }

    /// The value that stands for several kinds at once; one kind is just that kind.
    pub fn kinds(&mut self, kinds: &[Symbol]) -> Value {
        match kinds {
            [] => Value::Unknown,
            [one] => Value::Kind(*one),
            several => {
                let found = self.sets.iter().position(|s| s == several).unwrap_or_else(|| {
                    self.sets.push(several.to_vec());
                    self.sets.len() - 1
                });
                Value::Kinds(found as u16)
            }
        }
    }

    pub fn set_of(&self, n: u16) -> &[Symbol] {
        self.sets.get(n as usize).map_or(&[], Vec::as_slice)
    }

    pub fn given(&self, figure: u16) -> f64 {
        self.givens[figure as usize]
    }

    pub fn set_given(&mut self, figure: u16, value: f64) {
        self.givens[figure as usize] = value;
    }

    /// Keeps a figure's value for an instance.
    pub fn hold(&mut self, figure: u16, instance: u16, value: Value) {
        self.held.retain(|(f, i, _)| (*f, *i) != (figure, instance));
        self.held.push((figure, instance, value));
    }

    /// The value a figure keeps.
    pub fn held(&self, figure: u16, instance: u16) -> Option<Value> {
        self.held.iter().find(|(f, i, _)| (*f, *i) == (figure, instance)).map(|(_, _, value)| *value)
    }

    pub fn set_owner(&mut self, thing: ThingId, owner: ThingId, instance: u16, of: Option<u16>) {
        let count = self.counts[thing.0 as usize] as usize;
        let owners = self.owners[thing.0 as usize].get_or_insert_with(|| (owner, vec![None; count]));
        owners.1[instance as usize] = of;
    }

    /// Whether an instance may belong to what is bound: a medium of another filter does not.
    pub fn belongs(&self, thing: ThingId, instance: u16, bound: &Bound) -> bool {
        match &self.owners[thing.0 as usize] {
            Some((owner, list)) => match (list[instance as usize], bound.of(*owner)) {
                (Some(own), Some(asked)) => own == asked,
                _ => true,
            },
            None => true,
        }
    }
}

/// Most things a vocabulary may declare.
pub const MOST_THINGS: usize = 24;
const FREE: u16 = u16::MAX;

/// Which instance of each thing is meant.
#[derive(Clone, Copy, Debug)]
pub struct Bound([u16; MOST_THINGS]);

impl Default for Bound {
    fn default() -> Self {
        Self([FREE; MOST_THINGS])
    }
}

impl Bound {
    pub fn to(thing: Option<ThingId>, instance: u16) -> Self {
        let mut bound = Self::default();
        if let Some(thing) = thing {
            bound.set(thing, instance);
        }
        bound
    }

    pub fn set(&mut self, thing: ThingId, instance: u16) {
        self.0[thing.0 as usize] = instance;
    }

    pub fn free(&mut self, thing: ThingId, before: Option<u16>) {
        self.0[thing.0 as usize] = before.unwrap_or(FREE);
    }

    pub fn of(&self, thing: ThingId) -> Option<u16> {
        let instance = self.0[thing.0 as usize];
        (instance != FREE).then_some(instance)
    }

    /// The instance that is meant; of things of which there is one, that one.
    pub fn instance(&self, thing: ThingId) -> u16 {
        self.of(thing).unwrap_or(0)
    }
}
