//! What a name in an expression means: a fact, a figure, a conclusion. In: the name, what is bound. Out: its meaning, or
//! a fault with the nearest name. Knows no file.

use super::expr::parse::KEYWORDS;
use super::expr::token::ExprFault;
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::source::Span;
use crate::source::suggest::nearest;
use crate::units::Dimension;
use std::collections::HashMap;

/// The figures and conclusions of a book, by name.
#[derive(Default)]
pub struct Names {
    pub(super) figures: HashMap<String, (u16, Option<ThingId>, Option<Dimension>)>,
    pub(super) conclusions: HashMap<String, (u16, Option<ThingId>)>,
    /// Other words for an attribute's path, or for one of its kinds, for suggestions: ("guard", "filter.intake guard"),
    /// ("neon", "stock.kind = neon-tetra").
    pub synonyms: Vec<(String, String)>,
    /// Names of attributes that hold a word of the conditions ("cleaned with").
    pub phrases: Vec<String>,
}

#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Meaning {
    Fact(AttributeId),
    /// With its dimension, unless the figure itself is at fault.
    Figure(u16, Option<Dimension>),
    Conclusion(u16),
}

impl Names {
    pub fn new(schema: &Schema, synonyms: Vec<(String, String)>) -> Self {
        let odd = |name: &&String| name.split(' ').any(|word| KEYWORDS.contains(&word));
        let mut phrases: Vec<String> = schema.attributes.iter().map(|a| &a.name).filter(odd).cloned().collect();
        phrases.sort();
        phrases.dedup();
        Self { synonyms, phrases, ..Self::default() }
    }

    pub fn add_figure(&mut self, name: &str, n: u16, for_thing: Option<ThingId>) {
        self.figures.insert(name.to_string(), (n, for_thing, None));
    }

    /// The dimension of a figure; none while its formula is at fault.
    pub fn dimension(&self, figure: &str) -> Option<Dimension> {
        self.figures.get(figure).and_then(|(_, _, dimension)| *dimension)
    }

    pub fn set_dimension(&mut self, name: &str, dimension: Dimension) {
        if let Some(entry) = self.figures.get_mut(name) {
            entry.2 = Some(dimension);
        }
    }

    pub fn add_conclusion(&mut self, name: &str, n: u16, for_thing: Option<ThingId>) {
        self.conclusions.insert(name.to_string(), (n, for_thing));
    }

    pub fn figure(&self, name: &str) -> Option<u16> {
        self.figures.get(name).map(|f| f.0)
    }

    pub fn conclusion(&self, name: &str) -> Option<u16> {
        self.conclusions.get(name).map(|c| c.0)
    }

    /// The meaning of `name` where `bound` things are bound, the innermost last. The fault's span is left to the caller.
    pub fn find(&self, schema: &Schema, name: &str, bound: &[ThingId]) -> Result<Meaning, Box<ExprFault>> {
        if let Some((thing, attribute)) = name.split_once('.') {
            return self.path(schema, thing, attribute, name, bound);
        }
        let owned = |thing: Option<ThingId>| thing.is_none_or(|t| !schema.thing_of(t).several || bound.contains(&t));
        if let Some((n, thing, dimension)) = self.figures.get(name) {
            return match owned(*thing) {
                true => Ok(Meaning::Figure(*n, *dimension)),
                false => Err(which_one(schema, name, *thing)),
            };
        }
        if let Some((n, thing)) = self.conclusions.get(name) {
            return match owned(*thing) {
                true => Ok(Meaning::Conclusion(*n)),
                false => Err(which_one(schema, name, *thing)),
            };
        }
        for thing in bound.iter().rev() {
            if let Some(id) = schema.attribute(*thing, name) {
                return Ok(Meaning::Fact(id));
            }
        }
        Err(Box::new(self.unknown(schema, name)))
    }

    fn path(
        &self,
        schema: &Schema,
        thing: &str,
        attribute: &str,
        name: &str,
        bound: &[ThingId],
    ) -> Result<Meaning, Box<ExprFault>> {
        let Some(id) = schema.thing(thing) else { return Err(Box::new(self.unknown(schema, name))) };
        let Some(found) = schema.attribute(id, attribute) else { return Err(Box::new(self.unknown(schema, name))) };
        if schema.thing_of(id).several && !bound.contains(&id) {
            return Err(which_one(schema, name, Some(id)));
        }
        Ok(Meaning::Fact(found))
    }

    fn unknown(&self, schema: &Schema, name: &str) -> ExprFault {
        let mut fault = ExprFault::new("unknown-name", Span::default(), format!("nothing is called `{name}`"));
        let paths: Vec<String> =
            (0..schema.attributes.len()).map(|n| schema.path_name(AttributeId(n as u16))).collect();
        let candidates = paths
            .iter()
            .map(String::as_str)
            .chain(self.figures.keys().map(String::as_str))
            .chain(self.conclusions.keys().map(String::as_str));
        // Ties are broken by the alphabet, so that the same book always gives the same words.
        let mut candidates: Vec<&str> = candidates.collect();
        candidates.sort_unstable();
        let (thing, word) = name.split_once('.').map_or((None, name), |(t, w)| (Some(t), w));
        // "filter.flow" may be any of several flows.
        let holding: Vec<&str> = paths.iter().map(String::as_str).filter(|p| holds(p, thing, word)).collect();
        if holding.len() > 1 {
            fault.notes.push(format!("it may be: {}", holding.join(", ")));
            return fault;
        }
        // What callers call it is meant rather than a name that is spelt alike.
        fault.cure = self
            .called(thing, word)
            .or(holding.first().copied())
            .or_else(|| nearest(name, candidates))
            .or_else(|| self.called(thing, word.rsplit(' ').next().unwrap_or(word)))
            .map(String::from);
        fault
    }

    /// The path that callers have this word for, of one thing if it is said which.
    fn called(&self, thing: Option<&str>, word: &str) -> Option<&str> {
        let of_thing = |path: &str| thing.is_none_or(|t| path.split('.').next() == Some(t));
        let found = self.synonyms.iter().find(|(synonym, path)| synonym == word && of_thing(path));
        found.map(|(_, path)| path.as_str())
    }

    /// The kind of an attribute that callers have this word for.
    pub fn kind_called(&self, path: &str, word: &str) -> Option<&str> {
        let kind = |known: &'_ String| known.strip_prefix(path).is_some_and(|rest| rest.starts_with(" = "));
        let found = self.synonyms.iter().find(|(synonym, known)| synonym == word && kind(known));
        found.and_then(|(_, known)| known.split_once(" = ")).map(|(_, kind)| kind)
    }
}

/// Whether an attribute of that thing has this word among those of its name.
fn holds(path: &str, thing: Option<&str>, word: &str) -> bool {
    let Some((of, attribute)) = path.split_once('.') else { return false };
    Some(of) == thing && attribute.split(' ').any(|w| w == word)
}

fn which_one(schema: &Schema, name: &str, thing: Option<ThingId>) -> Box<ExprFault> {
    let thing = thing.map_or("tank", |t| schema.thing_of(t).name.as_str());
    let what = format!("`{name}` belongs to one {thing}, and it is not said which");
    let cure = format!("write `for: {thing}` above, or `any {thing} with ...`");
    Box::new(ExprFault::new("which-one", Span::default(), what).cure(cure))
}
