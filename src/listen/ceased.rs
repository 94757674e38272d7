//! What has ceased: "the rattling has stopped", "the smell is gone", "it stopped rattling". In: mentions of a clause. Out: a state
//! taken back where it was held, and nothing said of the filter's standing still. Knows no figure.

use super::bind::Binder;
use super::found::Found;
use super::items::What;
use super::mention::{Mention, Noun};
use super::name;
use super::reading::Says;
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// Takes out each noise, smell or look that is said to be over, with the word that ends it.
    pub fn ceased(&mut self) {
        let Some(first) = self.mentions.iter().position(is_passing) else { return };
        let (start, last) = (self.mentions[first].item, self.mentions[first].last);
        let ends = |m: &Mention| {
            matches!(m.noun, Noun::State { thing: name::FILTER, attribute: name::RUNNING | name::FLOW_STATE, kind }
                if kind == name::NO || self.name(kind) == "stopped")
        };
        let told =
            self.mentions.iter().any(|m| m.item > last && matches!(m.noun, Noun::Filter(_)) && m.item < last + 3);
        // "the noise has stopped", "stopped rattling".
        let stopped = self.mentions.iter().position(|m| ends(m) && (m.item > last || m.last + 1 == start));
        let gone = (last + 1..self.clause.to).rfind(|i| {
            let ends = i + 1 == self.clause.to || self.items[i + 1].what != What::Term;
            ends && self.has_role(*i, Role::Gone) && self.has_role(*i, Role::Course)
        });
        if told || stopped.is_none() && gone.is_none() || self.clause_negates() || self.asking {
            return;
        }
        let Noun::State { thing, attribute, .. } = self.mentions[first].noun else { return };
        let mut terms = self.terms_of(start, last);
        if let Some(index) = stopped {
            terms.extend(self.terms_of(self.mentions[index].item, self.mentions[index].last));
        }
        terms.extend(gone.map(|i| self.items[i].first));
        let of = self.subject_for(thing, None, start);
        let drop = [Some(first), stopped];
        let mut index = 0;
        self.mentions.retain(|_| {
            index += 1;
            !drop.contains(&Some(index - 1))
        });
        if self.state.value(&of, self.name(attribute)).is_some() {
            let says = Says::DroppedValue { attribute: self.name(attribute).to_string() };
            self.push(Found::new(of, says, terms));
        }
    }
}

/// A state that comes and goes.
fn is_passing(mention: &Mention) -> bool {
    let Noun::State { thing, attribute, .. } = mention.noun else { return false };
    matches!(
        (thing, attribute),
        (name::FILTER, name::NOISE | name::LOOKS)
            | (name::TANK, name::LOOKS | name::SMELL)
            | (name::STOCK, name::HEALTH)
    )
}
