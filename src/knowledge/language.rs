//! The words of everyday speech that carry a call: numbers, hedges, units, negation, questions, acts and noise.
//! In: `knowledge/language.yaml`. Out: typed lists. Knows no fish, no medium and no grammar.

pub use super::role::Role;
use super::topic::Topic;
use crate::source::Fault;
use crate::source::yaml::Document;
use crate::units::{parse, unit};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The file as it stands.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Language {
    /// Words for numbers: "seven", "forty".
    pub numbers: BTreeMap<String, f64>,
    /// Words that multiply what stands before them: "hundred", "dozen".
    pub multipliers: BTreeMap<String, f64>,
    /// Parts of one: "half", "three quarters".
    pub fractions: BTreeMap<String, f64>,
    /// Words that are a number of something: "a pair", "a trio".
    pub groups: BTreeMap<String, f64>,
    pub hedges: Vec<Hedge>,
    pub bounds: Vec<BoundWords>,
    pub vague: Vec<Vague>,
    /// Many, without any figure.
    pub uncounted: Vec<String>,
    pub units: Vec<UnitWords>,
    /// Words of weekdays and named moments.
    pub moments: BTreeMap<String, Vec<String>>,
    /// Times said as one word: "fortnightly" is every 14 d.
    pub times: Vec<TimeWords>,
    pub levels: BTreeMap<LevelWord, Vec<String>>,
    pub roles: BTreeMap<Role, Vec<String>>,
    /// Openers of a question with the form they give it.
    pub asks: BTreeMap<String, Vec<String>>,
    pub acts: BTreeMap<String, Vec<String>>,
    /// Words of one sort, which topics name as `=sort`: "=post" is every word of the family `post`.
    #[serde(default)]
    pub families: BTreeMap<String, Vec<String>>,
    pub topics: Vec<Topic>,
    /// What an amount measures when it stands beside a thing.
    pub beside: Vec<Beside>,
    /// What an amount measures when nothing beside it takes it.
    pub alone: Vec<Alone>,
    /// Attributes that stand before any other of their words when a word names several.
    pub first: Vec<String>,
    pub dangers: Vec<Danger>,
    /// What happens in a few words that may stand apart: "rinsed ... under the tap".
    pub happenings: Vec<Happening>,
    /// Spoken short forms with what they stand for: "s glass" is sintered glass.
    pub short: BTreeMap<String, String>,
    /// Words misheard or mistyped as other words, with what is meant: shown as corrections.
    pub slips: BTreeMap<String, String>,
    /// Everyday words that stand in the place of a noun of ours: asked about, never taken for it.
    pub mistaken: BTreeMap<String, String>,
    /// Filters that run beside another one and are never taken for it.
    #[serde(rename = "beside filters")]
    pub beside_filters: Vec<String>,
    /// Words that tell one tank of the keeper's from another ("the frag tank"), under the name that they come to.
    #[serde(rename = "tank names")]
    pub tank_names: BTreeMap<String, Vec<String>>,
    /// Those of them that need no noun behind them: "the display".
    #[serde(rename = "tank nouns")]
    pub tank_nouns: Vec<String>,
    /// Names that are the same for one and for many.
    pub alike: Vec<String>,
    /// Gallons leaned on by words of one country.
    pub leans: Vec<Lean>,
    /// Words and signs that put the same measure in another unit: "that's", "=".
    pub equating: Vec<String>,
    /// Ordinary words that must never be taken for a misspelt name of ours.
    pub common: Vec<String>,
    /// Everyday English in its plain form, sorted, a blank between two words: neither a word of it nor an inflection of one
    /// is a slip for a name of ours.
    #[serde(default)]
    pub ordinary: String,
}

/// Words that widen a figure: low, likely and high are factors.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Hedge {
    pub hedge: String,
    pub low: f64,
    pub likely: f64,
    pub high: f64,
    /// Words that stand before the figure.
    #[serde(default)]
    pub before: Vec<String>,
    /// Words that stand behind it.
    #[serde(default)]
    pub after: Vec<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Bound {
    Below,
    #[serde(rename = "at most")]
    AtMost,
    #[serde(rename = "at least")]
    AtLeast,
    Above,
}

#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BoundWords {
    pub bound: Bound,
    #[serde(default)]
    pub before: Vec<String>,
    #[serde(default)]
    pub after: Vec<String>,
}

/// A number left vague: "a few" is 3, 4, 5.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Vague {
    pub low: f64,
    pub likely: f64,
    pub high: f64,
    pub words: Vec<String>,
}

#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UnitWords {
    /// A name of `units::unit`.
    pub unit: String,
    pub words: Vec<String>,
}

/// A span of time in one word.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TimeWords {
    /// `ago`, `every`.
    pub how: String,
    pub time: String,
    /// As wide as it is meant, in words of `hedges`; none: as said.
    #[serde(default)]
    pub words: Vec<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LevelWord {
    Unknown,
    Untested,
    High,
    Low,
    Fine,
    #[serde(rename = "off chart")]
    OffChart,
    Never,
}

/// An amount beside a thing: `of` a thing, or an attribute of it ("filter.baskets"); `is` a dimension, or `time ago`,
/// `time every`, `time old`, `time for`.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Beside {
    pub of: String,
    pub is: String,
    /// "length", or of another thing: "filter.media volume".
    pub gives: String,
}

#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Alone {
    pub is: String,
    pub gives: String,
}

/// A danger to people: one word of each list within one sentence.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Danger {
    /// A kind of `event`.
    pub event: String,
    pub all: Vec<Vec<String>>,
    /// Words that show it is no danger ("culture shock").
    #[serde(default)]
    pub not: Vec<String>,
}

/// What happened, from words that stand apart in one clause.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Happening {
    /// A kind of `event`, or an attribute with its value: "filter.cleaned with: tank water".
    pub gives: Vec<String>,
    pub all: Vec<Vec<String>>,
    #[serde(default)]
    pub not: Vec<String>,
}

/// Words that show which gallon a caller means.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Lean {
    pub gallon: String,
    #[serde(default)]
    pub words: Vec<String>,
    /// Sizes in gallons that tanks are sold in there.
    #[serde(default)]
    pub sizes: Vec<f64>,
    /// Units of `units::unit` used there.
    #[serde(default)]
    pub units: Vec<String>,
    /// Spellings of that country: they lean only where no size of a tank says otherwise.
    #[serde(default)]
    pub spellings: Vec<String>,
}

impl Language {
    /// Faults of the file: units, things and dimensions that nothing is called by.
    pub fn faults(document: &Document<Language>) -> Vec<Fault> {
        let mut faults = Vec::new();
        let mut unknown = |list: &str, n: usize, key: &str, what: String| {
            let node = document.tree.get(list).and_then(|l| l.item(n)).and_then(|e| e.get(key));
            faults.push(Fault::error("unknown-name", document.place(node.map(|x| x.span).unwrap_or_default()), what));
        };
        for (n, entry) in document.value.units.iter().enumerate() {
            if unit::by_name(&entry.unit).is_none() {
                unknown("units", n, "unit", format!("nothing is measured in `{}`", entry.unit));
            }
        }
        for (n, entry) in document.value.times.iter().enumerate() {
            if parse::quantity(&entry.time).is_err() {
                unknown("times", n, "time", format!("`{}` is no span of time", entry.time));
            }
        }
        for (n, topic) in document.value.topics.iter().enumerate() {
            let lists = topic.all.iter().chain([&topic.words, &topic.not]);
            let family = lists.flatten().filter_map(|w| w.strip_prefix('='));
            for name in family.filter(|name| !document.value.families.contains_key(*name)) {
                unknown("topics", n, "topic", format!("there is no family of words `{name}`"));
            }
        }
        faults
    }
}
