//! Attributes as the listener needs them: what each measures, what is plausible, what stands beside what. In: vocabulary
//! and the tables of `language.yaml`. Out: look-ups by name. Knows no words.

use super::lexicon::Lexicon;
use super::name::{Name, Quick};
use crate::knowledge::language::Language;
use crate::knowledge::vocabulary::{Sort, Vocabulary};
use crate::units::{Dimension, Unit, parse};
use std::collections::HashMap;

/// What is known of one attribute.
#[derive(Clone, Debug)]
pub struct Attribute {
    pub dimension: Option<Dimension>,
    /// In base units.
    pub plausible: Option<(f64, f64)>,
    /// The unit its plausible range is written in: taken when none is said.
    pub unit: Option<&'static Unit>,
    pub is_count: bool,
    pub is_share: bool,
    /// Its kinds are yes and no.
    pub is_yes_or_no: bool,
    pub called: Box<str>,
    pub ask: Option<Box<str>>,
}

/// How a time relates, as a key of `beside`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Is {
    Quantity(Dimension),
    Share,
    Ago,
    Every,
    Old,
    For,
}

#[derive(Default, Debug)]
pub struct Attributes {
    by_name: HashMap<(Name, Name), Attribute, Quick>,
    beside: HashMap<(Name, Option<Name>, Is), (Name, Name)>,
    alone: HashMap<Is, (Name, Name)>,
}

impl Attributes {
    pub fn build(vocabulary: &Vocabulary, language: &Language, lexicon: &mut Lexicon) -> Self {
        let mut attributes = Self::default();
        for thing in &vocabulary.things {
            let thing_name = lexicon.names.add(&thing.thing);
            for attribute in thing.attributes.iter().filter(|a| !a.is_looked_up()) {
                let name = lexicon.names.add(&attribute.attribute);
                let dimension = match attribute.sort() {
                    Sort::Quantity(dimension) => Some(dimension),
                    _ => None,
                };
                let unit = attribute.plausible.as_deref().and_then(|p| parse::quantity(p).ok()).map(|a| a.unit);
                let known = Attribute {
                    dimension,
                    plausible: attribute.plausible_range(),
                    unit,
                    is_count: attribute.is == "count",
                    is_share: attribute.is == "share",
                    is_yes_or_no: attribute.is == "yes or no"
                        || attribute.kinds.len() == 2
                            && attribute.kinds.iter().all(|k| k.kind == "yes" || k.kind == "no"),
                    called: attribute.called.as_str().into(),
                    ask: attribute.ask.as_deref().map(Into::into),
                };
                attributes.by_name.insert((thing_name, name), known);
            }
        }
        let mut split = |text: &str, of: Name| match text.split_once('.') {
            Some((thing, attribute)) => (lexicon.names.add(thing), lexicon.names.add(attribute)),
            None => (of, lexicon.names.add(text)),
        };
        for entry in &language.beside {
            let Some(is) = is_of(&entry.is) else { continue };
            let (thing, attribute) = match entry.of.split_once('.') {
                Some(_) => {
                    let (thing, attribute) = split(&entry.of, Name(0));
                    (thing, Some(attribute))
                }
                None => (split(&entry.of, Name(0)).1, None),
            };
            let gives = split(&entry.gives, thing);
            attributes.beside.insert((thing, attribute, is), gives);
        }
        for entry in &language.alone {
            if let Some(is) = is_of(&entry.is) {
                let gives = split(&entry.gives, Name(0));
                attributes.alone.insert(is, gives);
            }
        }
        attributes
    }

    pub fn get(&self, thing: Name, attribute: Name) -> Option<&Attribute> {
        self.by_name.get(&(thing, attribute))
    }

    /// What an amount beside a thing, or beside one of its attributes, measures.
    pub fn beside(&self, thing: Name, attribute: Option<Name>, is: Is) -> Option<(Name, Name)> {
        self.beside.get(&(thing, attribute, is)).copied()
    }

    /// What an amount alone measures.
    pub fn alone(&self, is: Is) -> Option<(Name, Name)> {
        self.alone.get(&is).copied()
    }
}

fn is_of(text: &str) -> Option<Is> {
    Some(match text {
        "share" => Is::Share,
        "time ago" => Is::Ago,
        "time every" => Is::Every,
        "time old" => Is::Old,
        "time for" => Is::For,
        dimension => Is::Quantity(Dimension::by_name(dimension)?),
    })
}
