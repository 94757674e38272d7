//! Reasoning about conditions without a case: what can hold together, what always holds, what is known whenever a rule
//! speaks. In: compiled code, plausible ranges and kinds. Out: yes or no, never a guess: where it cannot tell, it says
//! that something may be. Knows no fault and no file.

pub mod eval;
pub mod formula;
pub mod interval;
pub mod known;
pub mod solve;

pub use formula::{Formula, Formulas};
pub use interval::Interval;

use crate::knowledge::Knowledge;
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::knowledge::vocabulary::{Sort, Unsaid};
use crate::rulebook::Rulebook;
use crate::units::Dimension;

/// What reasoning leans on.
pub struct Ground<'b> {
    pub schema: &'b Schema,
    pub book: &'b Rulebook,
    /// For each attribute: what it may plausibly be, in base units.
    pub plausible: Vec<Interval>,
    /// For each attribute: something is always taken for it when it is unsaid.
    pub assumed: Vec<bool>,
    /// Figures whose formula is at fault: anything may come of them.
    pub broken: Vec<bool>,
}

/// Which binding of a thing is meant: 0 is the rule's own, the others those of `any ... with`.
pub type Binding = u32;

/// The bindings around a piece of code; a thing that is not listed is the only one of its kind.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bindings(Vec<(ThingId, Binding)>);

impl Bindings {
    pub fn of(&self, thing: ThingId) -> Binding {
        self.0.iter().rev().find(|(t, _)| *t == thing).map_or(0, |(_, b)| *b)
    }

    pub fn with(&self, thing: ThingId, binding: Binding) -> Self {
        let mut list: Vec<_> = self.0.iter().filter(|(t, _)| *t != thing).copied().collect();
        list.push((thing, binding));
        Self(list)
    }
}

impl<'b> Ground<'b> {
    pub fn new(knowledge: &Knowledge, schema: &'b Schema, book: &'b Rulebook, broken: Vec<bool>) -> Self {
        let mut assumed = vec![false; schema.attributes.len()];
        for thing in &knowledge.vocabulary.things {
            for attribute in thing.attributes.iter().filter(|a| a.assume.is_some()) {
                if let Some(id) = schema.path(&thing.thing, &attribute.attribute) {
                    assumed[id.0 as usize] = true;
                }
            }
        }
        let plausible = schema
            .attributes
            .iter()
            .map(|attribute| match (attribute.plausible, attribute.sort) {
                (Some((low, high)), _) => Interval::closed(low, high),
                (None, Sort::Quantity(Dimension::TEMPERATURE)) => Interval::ALL,
                (None, Sort::Quantity(_)) if !attribute.looked_up => Interval::closed(0.0, f64::INFINITY),
                _ => Interval::ALL,
            })
            .collect();
        Self { schema, book, plausible, assumed, broken }
    }

    /// Silence means there is none of it, so that it is always known how many there are.
    pub fn is_closed(&self, thing: ThingId) -> bool {
        self.schema.thing_of(thing).unsaid == Unsaid::None
    }

    /// The attribute's binding, by its thing.
    pub fn binding(&self, id: AttributeId, bindings: &Bindings) -> Binding {
        bindings.of(self.schema.of(id).thing)
    }

    /// The binding of something that belongs to one thing, or to the whole case.
    pub fn binding_of(&self, thing: Option<ThingId>, bindings: &Bindings) -> Binding {
        thing.map_or(0, |t| bindings.of(t))
    }

    /// The bindings that decide which of a thing are meant: media of one filter are not those of the whole tank.
    pub fn owner(&self, thing: ThingId, bindings: &Bindings) -> String {
        match self.schema.attribute(thing, "in") {
            Some(_) => format!("{:?}", bindings.0),
            None => String::new(),
        }
    }

    /// The bindings in which a figure or conclusion of `thing` is worked out.
    pub fn inner(&self, thing: Option<ThingId>, binding: Binding) -> Bindings {
        thing.map_or(Bindings::default(), |t| Bindings::default().with(t, binding))
    }
}
