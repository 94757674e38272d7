//! Facts: the attributes of a thing as a table writes them, in the order written, and their values.
//! In: YAML keys with texts. Out: quantities or kind words. Knows no table.

use crate::units::Amount;
use crate::units::parse::{NotAQuantity, quantity};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Deserializer, MapAccess, Visitor};
use serde::ser::{SerializeMap, Serializer};
use serde::{Deserialize, Serialize};

/// Attribute and text pairs in the order written. No attribute twice: the YAML reader refuses a doubled key.
///
/// Held as one text, a line a fact with a tab after the attribute: a book has thousands of facts, and a text for each
/// would make opening it slow.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Facts(String);

/// The value of one fact.
#[derive(Clone, PartialEq, Debug)]
pub enum Value<'k> {
    Amount(Amount),
    /// One or more kind words ("slow"; "fresh", "pond").
    Kinds(Vec<&'k str>),
}

impl Facts {
    pub fn get(&self, attribute: &str) -> Option<&str> {
        self.iter().find(|(a, _)| *a == attribute).map(|(_, text)| text)
    }

    pub fn iter(&self) -> impl Iterator<Item = (&str, &str)> {
        self.0.lines().filter_map(|line| line.split_once('\t'))
    }

    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    fn push(&mut self, attribute: &str, text: &str) {
        let blank = |c: char| if c.is_control() { ' ' } else { c };
        self.0.extend(attribute.chars().map(blank));
        self.0.push('\t');
        self.0.extend(text.chars().map(blank));
        self.0.push('\n');
    }
}

/// Whether the text of a fact is a quantity: it begins with a figure.
fn is_quantity(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '-' | '+' | '.'))
}

/// The kind words of a fact's text; none of a quantity.
pub fn kinds(text: &str) -> impl Iterator<Item = &str> {
    let words = (!is_quantity(text.trim())).then(|| text.split(',').map(str::trim).filter(|k| !k.is_empty()));
    words.into_iter().flatten()
}

/// Reads the text of a fact: a quantity when it begins with a figure, else kind words parted by commas.
///
/// Errors: the text begins with a figure and is no quantity, or a kind word is empty.
pub fn value(text: &str) -> Result<Value<'_>, NotAQuantity> {
    let text = text.trim();
    if is_quantity(text) {
        return quantity(text).map(Value::Amount);
    }
    let kinds: Vec<&str> = text.split(',').map(str::trim).collect();
    match kinds.iter().any(|k| k.is_empty()) {
        true => Err(NotAQuantity::Number(text.to_string())),
        false => Ok(Value::Kinds(kinds)),
    }
}

impl Serialize for Facts {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if !serializer.is_human_readable() {
            return serializer.serialize_str(&self.0);
        }
        let mut map = serializer.serialize_map(None)?;
        for (attribute, text) in self.iter() {
            map.serialize_entry(attribute, text)?;
        }
        map.end()
    }
}

impl<'de> Deserialize<'de> for Facts {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Pairs;
        impl<'de> Visitor<'de> for Pairs {
            type Value = Facts;

            fn expecting(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
                f.write_str("facts: attributes with values")
            }

            fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Facts, M::Error> {
                let mut facts = Facts::default();
                while let Some((attribute, text)) = map.next_entry::<String, String>()? {
                    facts.push(&attribute, &text);
                }
                Ok(facts)
            }
        }
        if deserializer.is_human_readable() {
            deserializer.deserialize_map(Pairs)
        } else {
            String::deserialize(deserializer).map(Facts)
        }
    }
}

impl JsonSchema for Facts {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Facts".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({"type": "object", "additionalProperties": {"type": "string"}})
    }
}
