//! Filters meant by a word that names none of them alone: "the filter" of two, the box of a pond. In: mentions of a clause.
//! Out: a kind, or the question which. Gives no figure.

use super::bind::Binder;
use super::found::{Doubt, subject};
use super::items::What;
use super::lexicon::Sense;
use super::mention::{Mention, Noun};
use super::name;
use super::reading::{Doubtful, How, Said, Says, Statement, Subject};
use crate::units::Dimension;

impl Binder<'_, '_> {
    /// "3.5k l/h box" of a pond, "not pressure, box": the filter, not the shape.
    pub fn box_of_a_pond(&mut self) {
        let pond =
            |m: &super::mention::Mention| matches!(m.noun, Noun::State { attribute: name::KIND, kind: name::POND, .. });
        let known = self.state.tanks.iter().any(|t| t.kind.as_deref() == Some(self.name(name::POND)));
        if !known && !self.mentions.iter().any(pond) {
            return;
        }
        let shape =
            |s: &Sense| matches!(s, Sense::State { thing: name::TANK, attribute: name::SHAPE, kind: name::BOX });
        for item in self.clause.from..self.clause.to {
            let named = self.items[item].what == What::Term && self.term(item).senses.iter().any(shape);
            let flow =
                |i: usize| matches!(&self.items[i].what, What::Amount(m) if m.unit_of(Dimension::FLOW).is_some());
            let behind_flow = item > self.clause.from && flow(item - 1);
            let instead = self.state.not_kind.is_some() && self.clause.to == item + 1;
            if !named || !(behind_flow || instead) {
                continue;
            }
            self.mentions.retain(|m| m.item != item);
            let at = self.mentions.iter().position(|m| m.item > item).unwrap_or(self.mentions.len());
            let mention = Mention::of(item, Noun::Filter(Some(name::POND_BOX)));
            self.mentions.insert(at, mention);
        }
    }

    /// "the filter's slow", "clean the filter" with two of them: which?
    pub fn which_of_two(&mut self) {
        let generic = self.mentions.iter().position(|m| m.noun == Noun::Filter(None) && m.definite);
        let Some(generic) = generic else { return };
        let known: Vec<(u16, String)> =
            self.state.filters.iter().filter_map(|f| Some((f.number, f.kind.clone()?))).collect();
        let named = self.mentions.iter().any(|m| matches!(m.noun, Noun::Filter(Some(_))));
        if known.len() < 2 || named || self.state.filters.iter().any(|f| f.here) {
            return;
        }
        let state = self.mentions.iter().position(|m| matches!(m.noun, Noun::State { thing: name::FILTER, .. }));
        let mut readings = Vec::new();
        let mut terms = Vec::new();
        if let Some(state) = state
            && let Noun::State { attribute, kind, .. } = self.mentions[state].noun
        {
            for (number, word) in &known {
                let of = Subject { number: *number, tank: self.state.tank, ..subject("filter", None) };
                let says = Says::Value {
                    attribute: self.name(attribute).to_string(),
                    how: How::Set,
                    value: Said::Word(self.name(kind).to_string()),
                };
                readings
                    .push((word.clone(), vec![Statement { span: Default::default(), subject: of, says, mark: None }]));
            }
            self.mentions[state].taken = true;
            terms.extend(
                self.terms_of(self.mentions[state].item, self.mentions[generic].last.max(self.mentions[state].last)),
            );
            terms.extend(self.terms_of(self.mentions[generic].item, self.mentions[generic].last));
        }
        self.mentions[generic].taken = true;
        let names: Vec<&str> = known.iter().map(|(_, k)| k.as_str()).collect();
        let ask = format!("Which filter: {}?", crate::source::words::or_list(&names));
        if readings.is_empty() && !self.asking {
            return;
        }
        if readings.is_empty() {
            readings.extend(known.iter().map(|(_, word)| (word.clone(), Vec::new())));
        }
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Which, ask, terms) });
    }
}
