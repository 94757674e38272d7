//! Writing down: a figure or a word as a finding on a thing, in the right unit. In: a target and a measure. Out: findings,
//! or a doubt when the figure is not plausible. Decides no target.

use super::bind::Binder;
use super::found::{Found, Target};
use super::measure::Measure;
use super::mention::Noun;
use super::name::{self, Name};
use super::reading::{How, Mark, Said, Says, Subject};
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// Writes the value down, in the right unit, if it is plausible.
    pub fn value(
        &mut self,
        item: usize,
        subject: Subject,
        (thing, attribute): Target,
        measure: &Measure,
        terms: Vec<usize>,
        corrected: bool,
    ) {
        let Some((amount, mark)) = self.amount_for(thing, attribute, measure, item) else {
            let what = self.listener.attributes.get(thing, attribute).map_or("", |a| &a.called).to_string();
            let doubt = self.implausible(thing, attribute, measure, &subject, &what, terms.clone());
            self.doubts.push(doubt);
            return;
        };
        let misspelt = corrected || terms.iter().any(|t| self.terms[*t].corrected);
        let mark = if misspelt { Some(Mark::Spelling) } else { mark };
        // "gh 30 °f": French degrees, which look like Fahrenheit.
        if amount.unit.name == "fH" && measure.has_unit("F") && !self.asking {
            let said = self.said(&self.terms_of(item, item)).to_string();
            let readings = vec![("yes".to_string(), vec![self.offer(subject.clone(), attribute, amount)])];
            let ask = format!("{said}: a hardness in French degrees?");
            self.doubts.push(super::found::Doubt {
                readings,
                ..super::found::Doubt::new(super::reading::Doubtful::Taken, ask, Vec::new())
            });
        }
        // "20 ppi + 45 ppi foam": a second layer.
        let mut subject = subject;
        let second = thing == name::MEDIUM
            && attribute == name::PORES
            && !self.correcting
            && self.state.pores_told.as_ref().is_some_and(|s| super::state::same_thing(s, &subject));
        if second {
            subject.number += 1;
        }
        if thing == name::MEDIUM && attribute == name::PORES {
            self.state.pores_told = Some(subject.clone());
        }
        // "all under 2 in", "biggest is 5": a bound on the group.
        let bound = thing == name::STOCK
            && attribute == name::LENGTH
            && (amount.low.is_none() || (self.clause.from..item).any(|i| self.has_role(i, Role::Biggest)));
        let attribute = if bound { name::BIGGEST } else { attribute };
        let attribute_text = self.name(attribute).to_string();
        // Every filter of a group is told the same.
        let subjects = if thing == name::FILTER && self.state.group.len() > 1 {
            self.group_subjects(&subject, measure)
        } else {
            vec![subject]
        };
        let via = self.preposition(item);
        let definite = self.is_definite(item);
        for subject in subjects {
            let says = Says::Value { attribute: attribute_text.clone(), how: How::Set, value: Said::Amount(amount) };
            let mut found = Found::new(subject, says, terms.clone()).marked(mark);
            (found.via, found.definite, found.replaces) = (via, definite, self.correcting);
            found.vague = measure.vague;
            self.push(found);
        }
    }

    pub fn push(&mut self, found: Found) {
        if !self.asking || !found.bare {
            self.state.take(&found);
        }
        self.found.push(found);
    }

    /// A state or kind as a value.
    pub fn word(&mut self, subject: Subject, attribute: Name, kind: &str, terms: Vec<usize>, mark: Option<Mark>) {
        let says = Says::Value {
            attribute: self.name(attribute).to_string(),
            how: How::Set,
            value: Said::Word(kind.to_string()),
        };
        let mut found = Found::new(subject, says, terms).marked(mark);
        found.replaces = self.correcting;
        self.push(found);
    }

    /// A tank was named in the clause, or the clause says what it has: "55g with angels".
    pub fn note_places(&mut self) {
        let tank =
            self.found.iter().any(|f| {
                f.subject.thing == "tank" && (f.via.is_some() || f.definite && f.attribute() == Some("nominal"))
            }) || self.mentions.iter().any(|m| m.noun == Noun::Tank && !m.negated)
                || self.clause.joint == Some(Role::With)
                || self.has_role(self.clause.from, Role::With)
                || self.state.placed && self.clause.joint == Some(Role::And);
        // "canister + sponge in the 75": the first of the list stands there, too.
        let list = std::mem::take(&mut self.state.listed);
        if tank && matches!(self.clause.joint, Some(Role::And)) && !self.asking {
            self.state.places.extend(list.into_iter().filter(|s| s.tank == self.state.tank));
        } else if !tank && !self.asking {
            let named = |f: &&Found| matches!(f.subject.thing.as_str(), "stock" | "filter");
            self.state.listed = self.found.iter().filter(named).map(|f| f.subject.clone()).collect();
        }
        if !tank || self.asking {
            return;
        }
        let placed: Vec<Subject> = self
            .found
            .iter()
            .filter(|f| matches!(f.subject.thing.as_str(), "stock" | "filter"))
            .map(|f| f.subject.clone())
            .collect();
        self.state.places.extend(placed);
    }
}
