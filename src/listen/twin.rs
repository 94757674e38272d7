//! Figures told again without their name: "they've been at 30 for months" after a temperature of 30. In: a bare figure and what is
//! held. Out: the value it repeats, confirmed. Knows no new figure.

use super::bind::Binder;
use super::found::Found;
use super::measure::Measure;
use super::name::{self, Name};
use super::reading::{Said, Says, Statement};
use crate::knowledge::language::Role;
use crate::units::Dimension;

impl Binder<'_, '_> {
    /// The figure repeats what another attribute was told to be, or stands behind "at" and can only be a temperature: it is not
    /// given to the reading named last.
    pub fn told_of_another(&mut self, item: usize, label: Name, measure: &Measure) -> bool {
        let (Some(value), true) = (measure.value(), measure.bare) else { return false };
        let label = self.name(label).to_string();
        let amount = |s: &Statement| match &s.says {
            Says::Value { attribute, value: Said::Amount(a), .. } => Some((attribute.clone(), *a)),
            _ => None,
        };
        let of_water = |s: &Statement| {
            s.subject.thing == "reading" || amount(s).is_some_and(|(_, a)| a.unit.dimension == Dimension::TEMPERATURE)
        };
        let here = |s: &&Statement| of_water(s) && s.subject.tank == self.state.tank;
        let held: Vec<&Statement> = self.state.held.iter().filter(here).collect();
        let is = |s: &&&Statement| amount(s).is_some_and(|(_, a)| a.likely == Some(value));
        let own = held.iter().filter(|s| amount(s).is_some_and(|(a, _)| a == label)).any(|s| is(&s));
        let twin = held.iter().find(|s| is(s) && amount(s).is_some_and(|(a, _)| a != label)).map(|s| (*s).clone());
        if own {
            return false;
        }
        if let Some(twin) = twin {
            self.push(Found::new(twin.subject, twin.says, self.terms_of(item, item)).marked(twin.mark));
            return true;
        }
        // "it's at 28": nobody has so much ammonia.
        let at = item > self.clause.from && self.has_role(item - 1, Role::At);
        let poison = matches!(label.as_str(), "ammonia" | "nitrite");
        if !(at && poison && self.can_be(name::TANK, name::TEMPERATURE, measure)) {
            return false;
        }
        let of = self.tank(self.state.tank);
        let terms = self.terms_of(item, item);
        self.value(item, of, (name::TANK, name::TEMPERATURE), measure, terms, false);
        true
    }
}
