//! What differs from lane to lane; everything else is as in the plain world. In: values. Out: them, by where they stand.

use super::value::Lanes;
use crate::engine::world::World;
use crate::knowledge::schema::AttributeId;
use std::collections::HashMap;

/// Facts, given numbers and kept figures that differ from lane to lane.
pub trait Vary: Sync {
    /// The fact at that place of the world, if it differs.
    fn fact(&self, place: usize) -> Option<&Lanes>;
    /// The given number of that figure, if it differs.
    fn given(&self, figure: u16) -> Option<&Lanes>;
    /// What is kept of a figure; it is worked out in the lanes in which that is unknown.
    fn held(&self, figure: u16, instance: u16) -> Option<&Lanes>;
}

/// Values put in one by one.
#[derive(Clone, Debug, Default)]
pub struct Varied {
    facts: HashMap<usize, Lanes>,
    givens: HashMap<u16, Lanes>,
    held: HashMap<(u16, u16), Lanes>,
}

impl Varied {
    pub fn set(&mut self, world: &World, attribute: AttributeId, instance: u16, lanes: Lanes) {
        self.facts.insert(world.place(attribute, instance), lanes);
    }

    pub fn set_given(&mut self, figure: u16, lanes: Lanes) {
        self.givens.insert(figure, lanes);
    }

    pub fn hold(&mut self, figure: u16, instance: u16, lanes: Lanes) {
        self.held.insert((figure, instance), lanes);
    }
}

impl Vary for Varied {
    fn fact(&self, place: usize) -> Option<&Lanes> {
        self.facts.get(&place)
    }

    fn given(&self, figure: u16) -> Option<&Lanes> {
        self.givens.get(&figure)
    }

    fn held(&self, figure: u16, instance: u16) -> Option<&Lanes> {
        self.held.get(&(figure, instance))
    }
}
