//! What was treated: new water with a conditioner, or the tank and its fish with a medicine. In: mentions of a clause. Out: the
//! same, reshaped. Knows no medicine.

use super::bind::Binder;
use super::items::What;
use super::mention::{Mention, Noun};
use super::name;
use super::reading::Subject;
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// "I treated the tank with copper", "they were treated for flukes": medicine, and no word of the tap water.
    pub fn treated_whom(&mut self) {
        let by_verb = |m: &Mention| {
            matches!(m.noun, Noun::State { thing: name::SOURCE, attribute: name::TREATED, .. })
                && self.has_role(m.item, Role::Treat)
        };
        let Some(index) = self.mentions.iter().position(by_verb) else { return };
        let water = (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Water));
        let conditioned = self
            .mentions
            .iter()
            .enumerate()
            .any(|(n, m)| n != index && matches!(m.noun, Noun::Source | Noun::State { thing: name::SOURCE, .. }));
        if water || conditioned {
            return;
        }
        let patient = self.mentions.iter().any(|m| {
            matches!(
                m.noun,
                Noun::Tank
                    | Noun::Stock { .. }
                    | Noun::Treatment(_)
                    | Noun::State { thing: name::TANK, attribute: name::KIND, .. }
                    | Noun::State { thing: name::STOCK, .. }
            )
        });
        let after = self.mentions[index].last + 1;
        let person = |i: usize| self.has_role(i, Role::Person) || self.has_role(i, Role::It);
        let them = person(after);
        let for_illness = (after..self.clause.to).any(|i| self.has_role(i, Role::For))
            && !(after..self.clause.to).any(|i| matches!(self.items[i].what, What::Time(_)));
        // "treated the 120 with ...".
        let sized = self.has_role(after, Role::Definite)
            && matches!(self.items.get(after + 1).map(|i| &i.what), Some(What::Amount(_)));
        if patient || them || for_illness || sized {
            let medicated = (name::EVENT, name::KIND, name::MEDICATED);
            self.mentions[index].noun = Noun::State { thing: medicated.0, attribute: medicated.1, kind: medicated.2 };
        }
    }

    /// "treated the pond | with copper a week ago": the medicine of what was told just before.
    pub fn treats_with(&self) -> bool {
        let medicated = |s: &Subject| s.kind.as_deref() == Some(self.name(name::MEDICATED));
        self.clause.joint == Some(Role::With) && self.state.event.as_ref().is_some_and(medicated)
    }
}
