//! Subjects: the thing of the call that a word stands for, with its kind, stage and tank. In: mentions and what is known.
//! Out: subjects. Knows no figure.

use super::bind::Binder;
use super::found::subject;
use super::mention::{Mention, Noun};
use super::name::{self, Name};
use super::reading::Subject;

impl Binder<'_, '_> {
    /// The subject for a thing of the tank spoken of.
    pub fn subject_for(&mut self, thing: Name, kind: Option<Name>, item: usize) -> Subject {
        let kind = kind.map(|k| self.name(k));
        match thing {
            name::FILTER => self.filter_subject(kind, item),
            name::MEDIUM if kind.is_none() => match self.state.medium.clone() {
                Some(medium) => medium,
                None => subject(self.name(thing), None),
            },
            name::STOCK if kind.is_none() => match self.state.stock.clone() {
                Some(stock) => stock,
                None => Subject { tank: self.state.tank, ..subject(self.name(thing), None) },
            },
            name::TANK => Subject { number: self.state.tank, tank: self.state.tank, ..subject("tank", None) },
            name::KEEPER => subject("keeper", None),
            _ => Subject { tank: self.state.tank, ..subject(self.name(thing), kind) },
        }
    }

    /// The subject that a mention stands for.
    pub fn mention_subject(&mut self, mention: &Mention) -> Subject {
        match mention.noun {
            // "all adult": of the fish spoken of; fry may be anybody's.
            Noun::Stock { kind: None, stage: Some(stage) }
                if !matches!(stage, name::FRY | name::EGG)
                    && self.state.stock.as_ref().is_some_and(|s| s.kind.is_some()) =>
            {
                let kind = self.state.stock.as_ref().and_then(|s| s.kind.clone());
                Subject {
                    stage: Some(self.name(stage).to_string()),
                    tank: self.state.tank,
                    ..subject("stock", kind.as_deref())
                }
            }
            Noun::Stock { kind, stage } => Subject {
                stage: stage.map(|s| self.name(s).to_string()),
                tank: self.state.tank,
                ..subject("stock", kind.map(|k| self.name(k)))
            },
            Noun::Filter(kind) => {
                let kind = kind.map(|k| self.name(k));
                self.filter_subject(kind, mention.item)
            }
            Noun::Medium(kind) => Subject { tank: self.state.tank, ..subject("medium", kind.map(|k| self.name(k))) },
            // What is dosed is a medium, too.
            Noun::Treatment(kind) => Subject { tank: self.state.tank, ..subject("medium", Some(self.name(kind))) },
            noun => self.subject_for(noun.thing(), None, mention.item),
        }
    }
}
