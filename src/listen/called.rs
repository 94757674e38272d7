//! What the caller calls his tanks and filters, to tell one from the others: "the frag tank", "the left hand one". In: names as
//! they are heard. Out: which of the things is meant. Knows no word.

use super::state::State;

/// A name that tells one of several from the others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Called {
    /// Name of a thing in the vocabulary.
    pub thing: String,
    /// Which of them, from 1.
    pub number: u16,
    pub name: String,
}

impl State {
    /// The one that goes by that name.
    pub fn called(&self, thing: &str, name: &str) -> Option<u16> {
        self.called.iter().rev().find(|c| c.thing == thing && c.name == name).map(|c| c.number)
    }

    /// Remembers a name.
    pub fn call(&mut self, thing: &str, name: &str, number: u16) {
        self.called.retain(|c| !(c.thing == thing && c.name == name));
        self.called.push(Called { thing: thing.to_string(), number, name: name.to_string() });
    }

    /// The tank that is spoken of: in this line, else the one that the line before spoke of last.
    pub fn tank_in_talk(&self) -> u16 {
        let here = self.tanks.iter().any(|t| t.number == self.tank && t.here);
        let last = self.held.iter().rev().find(|s| s.subject.thing != "keeper" && s.subject.tank > 0);
        if here { self.tank } else { last.map_or(self.tank, |s| s.subject.tank) }
    }
}
