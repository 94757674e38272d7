//! The vocabulary: every thing a caller can speak of and every attribute of it. In: `knowledge/vocabulary.yaml`.
//! Out: typed entries, found by name. Knows no table of animals and no rule.

use crate::source::yaml::Document;
use crate::source::{Fault, Place};
use crate::units::{Amount, Dimension, parse};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The file as it stands.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Vocabulary {
    pub things: Vec<Thing>,
}

/// A thing: tank, filter, stock, medium, ...
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Thing {
    pub thing: String,
    pub called: String,
    pub many: Many,
    pub unsaid: Unsaid,
    #[serde(default)]
    pub words: Vec<String>,
    #[serde(default)]
    pub ask: Option<String>,
    pub attributes: Vec<Attribute>,
}

/// One in a case, or any number.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize, JsonSchema)]
pub enum Many {
    #[serde(rename = "no")]
    One,
    #[serde(rename = "yes")]
    Several,
}

/// What silence about a thing means.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Unsaid {
    Unknown,
    None,
}

/// What is assumed of a quantity in one kind of tank.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KindAssumption {
    /// A kind of tank.
    pub kind: String,
    pub assume: String,
    pub because: Option<String>,
}

/// An attribute of a thing. Quantities are texts in the form `units::parse::quantity` reads.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Attribute {
    pub attribute: String,
    pub called: String,
    pub is: String,
    #[serde(default)]
    pub words: Vec<String>,
    #[serde(default)]
    pub kinds: Vec<KindWord>,
    #[serde(default, rename = "kinds from")]
    pub kinds_from: Option<String>,
    #[serde(default)]
    pub present: Option<String>,
    #[serde(default)]
    pub plausible: Option<String>,
    #[serde(default)]
    pub assume: Option<String>,
    #[serde(default)]
    pub because: Option<String>,
    /// What is assumed in tanks of a kind instead: a pond is not heated.
    #[serde(default, rename = "assume by kind")]
    pub assume_by_kind: Vec<KindAssumption>,
    #[serde(default)]
    pub answers: Vec<String>,
    #[serde(default)]
    pub ask: Option<String>,
    #[serde(default)]
    pub measure: Option<String>,
    #[serde(default)]
    pub trouble: Option<u8>,
    /// The same while rules conclude `trouble likely`.
    #[serde(default, rename = "in trouble")]
    pub in_trouble: Vec<String>,
    /// The thing that is asked for before it: nobody tests the water for a tank of unknown animals first.
    #[serde(default)]
    pub after: Option<String>,
    /// Callers speak of it because it worries them: advice that rests on it comes before what holds of any tank.
    #[serde(default)]
    pub worry: bool,
    #[serde(default, rename = "looked up")]
    pub looked_up: Option<String>,
    #[serde(default)]
    pub basis: Option<BTreeMap<String, String>>,
}

/// One kind of an attribute's list, with what callers say for it.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KindWord {
    pub kind: String,
    #[serde(default)]
    pub words: Vec<String>,
    #[serde(default)]
    pub called: Option<String>,
}

/// What sort of value an attribute holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sort {
    Quantity(Dimension),
    /// One of a list of kinds; `yes or no` is the list of these two.
    Kind,
    Text,
    Thing,
}

impl Attribute {
    pub fn sort(&self) -> Sort {
        match self.is.as_str() {
            "kind" | "yes or no" => Sort::Kind,
            "text" => Sort::Text,
            "thing" => Sort::Thing,
            dimension => Sort::Quantity(Dimension::by_name(dimension).unwrap_or(Dimension::NUMBER)),
        }
    }

    pub fn is_looked_up(&self) -> bool {
        self.looked_up.as_deref() == Some("yes")
    }

    /// The plausible range in base units, if one is given.
    pub fn plausible_range(&self) -> Option<(f64, f64)> {
        let amount = parse::quantity(self.plausible.as_deref()?).ok()?;
        let base = amount.base();
        Some((base.low?, base.high?))
    }

    /// Plausible answers with how likely each is against the others: "0.5 mg/L (2)" counts twice, without a number once.
    pub fn plausible_answers(&self) -> Vec<(&str, f64)> {
        weighed(&self.answers)
    }

    /// The same where something is likely to be wrong.
    pub fn answers_in_trouble(&self) -> Vec<(&str, f64)> {
        weighed(if self.in_trouble.is_empty() { &self.answers } else { &self.in_trouble })
    }

    /// What is assumed when it is unsaid, as a quantity.
    pub fn assumed_amount(&self) -> Option<Amount> {
        parse::quantity(self.assume.as_deref()?).ok()
    }
}

fn weighed(answers: &[String]) -> Vec<(&str, f64)> {
    let weight = |text: &String| -> Option<(usize, f64)> {
        let open = text.strip_suffix(')')?.rfind('(')?;
        let weight = text[open + 1..text.len() - 1].trim().parse::<f64>().ok().filter(|w| *w > 0.0)?;
        Some((open, weight))
    };
    let split = |text| weight(text).map_or((text.as_str(), 1.0), |(open, weight)| (text[..open].trim(), weight));
    answers.iter().map(split).collect()
}

impl Vocabulary {
    pub fn thing(&self, name: &str) -> Option<&Thing> {
        self.things.iter().find(|t| t.thing == name)
    }

    pub fn attribute(&self, thing: &str, attribute: &str) -> Option<&Attribute> {
        self.thing(thing)?.attribute(attribute)
    }

    /// Faults of the file: unknown dimensions, quantities that cannot be read, names said twice, kinds that are not in
    /// their list. Table names in `kinds from` are checked where the tables are known.
    pub fn faults(document: &Document<Vocabulary>) -> Vec<Fault> {
        let mut faults = Vec::new();
        let mut seen_things: Vec<&str> = Vec::new();
        let things = document.tree.get("things");
        let kinds_of_tank: Vec<&str> = document
            .value
            .attribute("tank", "kind")
            .map_or(vec![], |a| a.kinds.iter().map(|k| k.kind.as_str()).collect());
        for (n, thing) in document.value.things.iter().enumerate() {
            let node = things.and_then(|t| t.item(n));
            let span_of = |key: &str| node.and_then(|x| x.get(key)).map(|x| x.span).unwrap_or_default();
            if seen_things.contains(&thing.thing.as_str()) {
                faults.push(Fault::error(
                    "name-twice",
                    document.place(span_of("thing")),
                    format!("the thing `{}` is declared twice", thing.thing),
                ));
            }
            seen_things.push(&thing.thing);
            let mut seen: Vec<&str> = Vec::new();
            for (m, attribute) in thing.attributes.iter().enumerate() {
                let node = node.and_then(|x| x.get("attributes")).and_then(|x| x.item(m));
                let place = |key: &str| {
                    Place::new(
                        document.file.clone(),
                        node.and_then(|x| x.get(key).or(Some(x))).map(|x| x.span).unwrap_or_default(),
                    )
                };
                if seen.contains(&attribute.attribute.as_str()) {
                    faults.push(Fault::error(
                        "name-twice",
                        place("attribute"),
                        format!("`{}.{}` is declared twice", thing.thing, attribute.attribute),
                    ));
                }
                seen.push(&attribute.attribute);
                faults.extend(attribute.faults(&place));
                for by in attribute.assume_by_kind.iter().filter(|by| !kinds_of_tank.contains(&by.kind.as_str())) {
                    let what = format!("no tank is of the kind `{}`", by.kind);
                    let near = crate::source::suggest::nearest(&by.kind, kinds_of_tank.iter().copied());
                    let mut fault = Fault::error("unknown-kind", place("assume by kind"), what);
                    fault.cure = near.map(String::from);
                    faults.push(fault);
                }
            }
        }
        faults
    }
}

impl Thing {
    pub fn attribute(&self, name: &str) -> Option<&Attribute> {
        self.attributes.iter().find(|a| a.attribute == name)
    }

    pub fn is_several(&self) -> bool {
        self.many == Many::Several
    }
}

impl Attribute {
    fn faults(&self, place: &dyn Fn(&str) -> Place) -> Vec<Fault> {
        let mut faults = Vec::new();
        let words = ["kind", "yes or no", "text", "thing"];
        if !words.contains(&self.is.as_str()) && Dimension::by_name(&self.is).is_none() {
            let names: Vec<&str> = Dimension::NAMED.iter().map(|(n, _)| *n).chain(words).collect();
            let mut fault =
                Fault::error("unknown-dimension", place("is"), format!("nothing is measured as `{}`", self.is));
            if let Some(near) = crate::source::suggest::nearest(&self.is, names.iter().copied()) {
                fault = fault.cure(near);
            }
            faults.push(fault);
            return faults;
        }
        let Sort::Quantity(dimension) = self.sort() else {
            if let Some(assume) = &self.assume
                && self.is == "kind"
                && self.kinds_from.is_none()
                && !self.kinds.iter().any(|k| k.kind == *assume)
            {
                faults.push(Fault::error(
                    "unknown-kind",
                    place("assume"),
                    format!("`{assume}` is not one of the kinds of `{}`", self.attribute),
                ));
            }
            return faults;
        };
        let texts = self
            .plausible
            .iter()
            .map(|t| ("plausible", t.as_str()))
            .chain(self.assume.iter().map(|t| ("assume", t.as_str())))
            .chain(self.assume_by_kind.iter().map(|by| ("assume by kind", by.assume.as_str())))
            .chain(self.answers_in_trouble().into_iter().map(|(t, _)| ("in trouble", t)))
            .chain(self.plausible_answers().into_iter().map(|(t, _)| ("answers", t)));
        for (key, text) in texts {
            match parse::quantity(text) {
                Err(why) => faults.push(Fault::error("bad-quantity", place(key), why.to_string())),
                Ok(amount) if amount.unit.dimension != dimension => faults.push(Fault::error(
                    "wrong-dimension",
                    place(key),
                    format!(
                        "`{text}` is {}, but `{}` is {}",
                        amount.unit.dimension.words(),
                        self.attribute,
                        dimension.words()
                    ),
                )),
                Ok(_) => {}
            }
        }
        faults
    }
}
