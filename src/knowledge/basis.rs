//! Basis: what an entry, a rule or a figure rests on. In: YAML. Out: four kinds of ground, sources and workings.
//! Knows no table that uses it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a statement rests on; more than one where its parts rest on different ground.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Basis {
    /// Keys of `Source`.
    #[serde(default)]
    pub published: Vec<String>,
    /// Names of `Working`: arithmetic or geometry that anyone can repeat.
    #[serde(default, rename = "worked out")]
    pub worked_out: Vec<String>,
    #[serde(default, rename = "common practice")]
    pub common_practice: bool,
    #[serde(default, rename = "from memory")]
    pub from_memory: bool,
}

impl Basis {
    /// True when nothing is said: no entry may have such a basis.
    pub fn is_empty(&self) -> bool {
        self.published.is_empty() && self.worked_out.is_empty() && !self.common_practice && !self.from_memory
    }

    /// The words of the basis in fixed order: "published", "worked out", "common practice", "from memory".
    pub fn words(&self) -> Vec<&'static str> {
        let all = [
            ("published", !self.published.is_empty()),
            ("worked out", !self.worked_out.is_empty()),
            ("common practice", self.common_practice),
            ("from memory", self.from_memory),
        ];
        all.into_iter().filter(|(_, there)| *there).map(|(word, _)| word).collect()
    }
}

/// How the figures taken from a source were seen. Only `Read` may be shown to a caller as a reference.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize, JsonSchema)]
pub enum Seen {
    #[serde(rename = "read")]
    Read,
    #[serde(rename = "second-hand")]
    SecondHand,
    #[serde(rename = "memory")]
    Memory,
}

/// A document, cited once.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Source {
    pub source: String,
    pub cite: String,
    pub seen: Seen,
}

/// Arithmetic or geometry behind figures, in words.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Working {
    pub working: String,
    pub says: String,
}
