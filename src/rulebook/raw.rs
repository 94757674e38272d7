//! A rule file as it is written. In: YAML. Out: typed entries, every quantity and condition still a text.
//! Knows no meaning of a name.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;

/// One file of `rules/`.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RuleFile {
    /// What the file is about, one line.
    pub about: String,
    #[serde(default)]
    pub figures: Vec<RawFigure>,
    #[serde(default)]
    pub rules: Vec<RawRule>,
    #[serde(default)]
    pub pictures: Vec<RawPicture>,
}

/// A curve over time where one says more than a number. Its formulae may read the name `time`.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawPicture {
    pub picture: String,
    /// The question it belongs to: shown when that is asked, or with full answers.
    pub topic: String,
    /// How far it runs ("8 wk"), and the unit of its height ("mg/L").
    pub over: String,
    #[serde(rename = "shown in")]
    pub shown_in: String,
    pub lines: Vec<RawLine>,
    pub basis: Vec<BasisWord>,
    #[serde(default)]
    pub source: Vec<String>,
}

/// One line of a picture.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawLine {
    pub called: String,
    pub is: String,
}

/// A named figure: a formula, or a number with how widely it may be wrong.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawFigure {
    pub figure: String,
    /// The thing it belongs to, once for each; the tank when unsaid.
    #[serde(default, rename = "for")]
    pub for_thing: Option<String>,
    /// How it is called in answers, when the name itself would not do.
    #[serde(default)]
    pub called: Option<String>,
    /// The formula, or a number with its unit.
    pub is: String,
    /// For a number: low and high, or low, likely, high as tables write them.
    #[serde(default)]
    pub between: Option<String>,
    /// The unit it is shown in to callers who count in metric units.
    #[serde(default, rename = "shown in")]
    pub shown_in: Option<String>,
    /// The formula in words, where the formula itself would not read well.
    #[serde(default)]
    pub formula: Option<String>,
    /// What callers say when they ask for it ("un-ionised ammonia", "how heavy").
    #[serde(default)]
    pub words: Vec<String>,
    /// What it tells, one line.
    #[serde(default)]
    pub means: Option<String>,
    pub basis: Vec<BasisWord>,
    #[serde(default)]
    pub source: Vec<String>,
}

/// A rule of thumb.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawRule {
    pub rule: String,
    /// The question it answers.
    pub topic: String,
    /// The thing it is tried for, once for each; the tank when unsaid.
    #[serde(default, rename = "for")]
    pub for_thing: Option<String>,
    /// All of these must hold.
    #[serde(default)]
    pub when: Vec<String>,
    /// What holds then, for other rules to read.
    #[serde(default)]
    pub conclude: Vec<String>,
    #[serde(default)]
    pub advise: Option<RawAdvice>,
    pub basis: Vec<BasisWord>,
    #[serde(default)]
    pub source: Vec<String>,
    /// Ids of cautions, dangers to people first.
    #[serde(default)]
    pub cautions: Vec<String>,
    #[serde(default)]
    pub outranks: Vec<RawOutranks>,
    #[serde(default)]
    pub examples: RawExamples,
}

/// What a rule tells the caller.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawAdvice {
    pub urgency: Urgency,
    /// What it comes to in a few fixed words ("guard the intake"), so that the opposite ("not: guard the intake") is seen.
    #[serde(default)]
    pub act: Option<String>,
    /// One sentence that can be read out.
    pub say: String,
    #[serde(default)]
    pub steps: Vec<String>,
    pub because: String,
    /// Figures to show with it.
    #[serde(default)]
    pub figures: Vec<String>,
}

#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawOutranks {
    pub rule: String,
    pub because: String,
}

/// Callers' lines on which the rule must and must not speak. Several turns of one call are parted by ` | `.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawExamples {
    #[serde(default)]
    pub speaks: Vec<String>,
    #[serde(default)]
    pub silent: Vec<String>,
}

/// How soon.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
pub enum Urgency {
    /// People are in danger: before everything else.
    #[serde(rename = "danger")]
    Danger,
    #[serde(rename = "now")]
    Now,
    #[serde(rename = "today")]
    Today,
    #[serde(rename = "this week")]
    ThisWeek,
    #[serde(rename = "in time")]
    InTime,
    #[default]
    #[serde(rename = "good to know")]
    GoodToKnow,
}

impl Urgency {
    pub const ALL: [Urgency; 6] =
        [Self::Danger, Self::Now, Self::Today, Self::ThisWeek, Self::InTime, Self::GoodToKnow];

    pub fn word(self) -> &'static str {
        match self {
            Self::Danger => "danger",
            Self::Now => "now",
            Self::Today => "today",
            Self::ThisWeek => "this week",
            Self::InTime => "in time",
            Self::GoodToKnow => "good to know",
        }
    }
}

/// On what a rule or figure rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
pub enum BasisWord {
    #[serde(rename = "published")]
    Published,
    #[serde(rename = "worked out")]
    WorkedOut,
    #[serde(rename = "common practice")]
    CommonPractice,
    #[serde(rename = "from memory")]
    FromMemory,
}

impl fmt::Display for BasisWord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Published => "published",
            Self::WorkedOut => "worked out",
            Self::CommonPractice => "common practice",
            Self::FromMemory => "from memory",
        })
    }
}
