//! A world in which some facts and given numbers differ from lane to lane. In: the plain world, what differs. Out: values.

use super::value::Lanes;
use crate::engine::world::World;
use crate::knowledge::schema::AttributeId;
use std::collections::HashMap;

/// The plain world, and what differs from it.
pub struct LaneWorld<'w> {
    pub plain: &'w World,
    /// By place in the plain world.
    facts: Vec<Option<Lanes>>,
    givens: HashMap<u16, Lanes>,
    held: HashMap<(u16, u16), Lanes>,
}

impl<'w> LaneWorld<'w> {
    pub fn new(plain: &'w World) -> Self {
        Self { plain, facts: vec![None; plain.places()], givens: HashMap::new(), held: HashMap::new() }
    }

    pub fn set(&mut self, attribute: AttributeId, instance: u16, lanes: Lanes) {
        self.facts[self.plain.place(attribute, instance)] = Some(lanes);
    }

    pub fn set_given(&mut self, figure: u16, lanes: Lanes) {
        self.givens.insert(figure, lanes);
    }

    /// Keeps a figure's values for an instance; it is worked out in the lanes in which they are unknown.
    pub fn hold(&mut self, figure: u16, instance: u16, lanes: Lanes) {
        self.held.insert((figure, instance), lanes);
    }

    pub fn value(&self, attribute: AttributeId, instance: u16) -> Lanes {
        match &self.facts[self.plain.place(attribute, instance)] {
            Some(lanes) => lanes.clone(),
            None => Lanes::One(self.plain.value(attribute, instance)),
        }
    }

    pub fn given(&self, figure: u16) -> Lanes {
        let plain = || Lanes::One(crate::engine::value::Value::Number(self.plain.given(figure)));
        self.givens.get(&figure).cloned().unwrap_or_else(plain)
    }

    pub fn held(&self, figure: u16, instance: u16) -> Option<Lanes> {
        let kept = self.held.get(&(figure, instance)).cloned();
        kept.or_else(|| self.plain.held(figure, instance).map(Lanes::One))
    }
}
