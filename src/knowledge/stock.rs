//! Livestock and plants: kinds, groups, stages of life, and the classes that kinds are like.
//! In: YAML. Out: entries. Knows no caller and no calculation.

use super::basis::Basis;
use super::facts::Facts;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A kind of animal, or a generic entry that stands for a group ("small tetra").
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Stock {
    pub stock: String,
    #[serde(default)]
    pub also: Vec<String>,
    #[serde(default)]
    pub scientific: Option<String>,
    /// Name of a `Group`.
    pub group: String,
    /// Stands for a group when the kind is unknown.
    #[serde(default)]
    pub generic: bool,
    /// Too wide to compute with before the caller was asked (see `Ambiguous`).
    #[serde(default, rename = "ask first")]
    pub ask_first: bool,
    #[serde(default)]
    pub like: Vec<String>,
    pub facts: Facts,
    #[serde(default)]
    pub says: String,
    pub basis: Basis,
}

/// A plant, or plants that go by one name.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Plant {
    pub plant: String,
    #[serde(default)]
    pub also: Vec<String>,
    #[serde(default)]
    pub like: Vec<String>,
    #[serde(default)]
    pub facts: Facts,
    #[serde(default)]
    pub says: String,
    pub basis: Basis,
}

/// Facts that many entries share: a body shape, a way of feeding, a place along the water's way.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Class {
    pub class: String,
    #[serde(default)]
    pub like: Vec<String>,
    #[serde(default)]
    pub facts: Facts,
    #[serde(default)]
    pub says: String,
    #[serde(default)]
    pub note: String,
    pub basis: Basis,
}

/// A trade group of animals. Its facts say what size words mean in it ("small length").
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Group {
    pub group: String,
    #[serde(default)]
    pub also: Vec<String>,
    /// The `Stock` used when only the group is known.
    pub generic: String,
    #[serde(default)]
    pub like: Vec<String>,
    #[serde(default)]
    pub facts: Facts,
    pub basis: Basis,
}

/// A stage of life, as a share of the grown length.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Stage {
    pub stage: String,
    #[serde(default)]
    pub also: Vec<String>,
    /// Size words that mean this stage when said of one kind ("small oscars").
    #[serde(default, rename = "size words")]
    pub size_words: Vec<String>,
    #[serde(default)]
    pub like: Vec<String>,
    pub facts: Facts,
    #[serde(default)]
    pub note: String,
    pub basis: Basis,
}

/// A word that means several things: what it could be, what to assume until told, the question.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Ambiguous {
    pub ambiguous: String,
    /// Names of entries, in any table that callers name.
    #[serde(rename = "could be")]
    pub could_be: Vec<String>,
    #[serde(default, rename = "until told")]
    pub until_told: Option<String>,
    /// What it could be differs so much that the caller is asked at once.
    #[serde(default, rename = "ask first")]
    pub ask_first: bool,
    pub ask: String,
    pub basis: Basis,
}

/// A plural that the rule of `plural.rs` would not make.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Plural {
    /// The last word of a name, singular.
    pub word: String,
    pub plural: Vec<String>,
}
