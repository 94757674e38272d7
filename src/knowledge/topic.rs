//! Topics of questions as the words of speech give them, and families of words that they name. In: `knowledge/language.yaml`.
//! Out: typed lists. Knows no grammar and no rule.

use super::language::Language;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A topic of a question with what gives it away. Of several topics that fit, the one that asks for the most is taken: the
/// one of more lists under `all`; of those alike the first.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Topic {
    pub topic: String,
    /// Any of these in the clause; empty: `form` and `with` decide.
    #[serde(default)]
    pub words: Vec<String>,
    /// One of each of these lists in the clause, wherever they stand: the matter and what is asked of it.
    #[serde(default)]
    pub all: Vec<Vec<String>>,
    /// None of these in the clause.
    #[serde(default)]
    pub not: Vec<String>,
    /// Only under these openers ("how much"); empty: any.
    #[serde(default)]
    pub form: Vec<String>,
    /// Only when one of these things is named in the clause.
    #[serde(default)]
    pub with: Vec<String>,
    /// The form the ask is given, whatever the opener.
    #[serde(default, rename = "as")]
    pub form_given: Option<String>,
    /// It can be the topic of a what-if.
    #[serde(default, rename = "what if")]
    pub what_if: bool,
    /// Fits only when one of these is heard anywhere in the line.
    #[serde(default)]
    pub line: Vec<String>,
    /// Asked besides another topic of the same breath ("... and nitrate too").
    #[serde(default)]
    pub besides: bool,
    /// Asked even where a clause is no question ("power is out" asks what to do).
    #[serde(default)]
    pub along: Vec<String>,
}

impl Language {
    /// A list of words with every family it names written out.
    pub fn written_out(&self, words: &[String]) -> Vec<String> {
        let of = |word: &String| match word.strip_prefix('=').and_then(|name| self.families.get(name)) {
            Some(family) => family.clone(),
            None => vec![word.clone()],
        };
        words.iter().flat_map(of).collect()
    }
}
