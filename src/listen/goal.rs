//! Where something rises from: "how long for nitrate to reach 40 from 10". In: a clause that names a goal. Out: the reading
//! it starts at. A goal is an attribute named after the one that gets there.

use super::bind::Binder;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use crate::knowledge::language::Role;

/// What the name of a goal ends with.
const GOAL: &str = " goal";

impl Binder<'_, '_> {
    /// A bare figure behind "from", where the clause names a goal.
    pub fn start_of_rise(&mut self, item: usize, measure: &Measure) -> bool {
        if self.preposition(item) != Some(Role::From) {
            return false;
        }
        let goal = self.mentions.iter().find_map(|m| match m.noun {
            Noun::Label { thing: name::READING, attribute } => self.name(attribute).strip_suffix(GOAL),
            _ => None,
        });
        let Some(attribute) = goal.and_then(|start| self.listener.lexicon.names.find(start)) else { return false };
        if !self.fits(name::READING, attribute, measure) {
            return false;
        }
        let subject = self.subject_for(name::READING, None, item);
        let terms = self.terms_of(item, item);
        self.value(item, subject, (name::READING, attribute), measure, terms, false);
        true
    }
}
