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
    /// Named formulae and numbers.
    #[serde(default)]
    pub figures: Vec<RawFigure>,
    /// Rules of thumb.
    #[serde(default)]
    pub rules: Vec<RawRule>,
    /// Curves over time.
    #[serde(default)]
    pub pictures: Vec<RawPicture>,
}

/// A curve over time where one says more than a number. Its formulae may read the name `time`.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawPicture {
    /// Its name.
    pub picture: String,
    /// The question it belongs to: shown when that is asked, or with full answers.
    pub topic: String,
    /// How far it runs ("8 wk"), and the unit of its height ("mg/L").
    pub over: String,
    #[serde(rename = "shown in")]
    pub shown_in: String,
    /// Its lines, each with what it is called and its formula.
    pub lines: Vec<RawLine>,
    /// What it rests on; one or more.
    pub basis: Vec<BasisWord>,
    /// Keys of knowledge/sources.yaml, where it is published.
    #[serde(default)]
    pub source: Vec<String>,
}

/// One line of a picture.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawLine {
    /// What the line is called.
    pub called: String,
    /// Its formula, in which `time` may stand.
    pub is: String,
}

/// A named figure: a formula, or a number with how widely it may be wrong.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawFigure {
    /// Its name: words with blanks, as the trade says them.
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
    /// The fact of the tank that shows it ("reading.nitrate"): while something else is supposed ("what if I change half?")
    /// the figure stays what it is.
    #[serde(default, rename = "read off")]
    pub read_off: Option<String>,
    /// What callers say when they ask for it ("un-ionised ammonia", "how heavy").
    #[serde(default)]
    pub words: Vec<String>,
    /// What it tells, one line.
    #[serde(default)]
    pub means: Option<String>,
    /// What it rests on; one or more.
    pub basis: Vec<BasisWord>,
    /// Keys of knowledge/sources.yaml, where it is published.
    #[serde(default)]
    pub source: Vec<String>,
}

/// A rule of thumb.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawRule {
    /// Its name, words joined by hyphens: the situation, not the cure.
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
    /// What the caller is told then.
    #[serde(default)]
    pub advise: Option<RawAdvice>,
    /// What it rests on; one or more.
    pub basis: Vec<BasisWord>,
    /// Keys of knowledge/sources.yaml, where it is published.
    #[serde(default)]
    pub source: Vec<String>,
    /// Ids of cautions, dangers to people first.
    #[serde(default)]
    pub cautions: Vec<String>,
    /// Rules that give way when this one speaks.
    #[serde(default)]
    pub outranks: Vec<RawOutranks>,
    /// Callers' lines that show when it speaks and when it does not.
    #[serde(default)]
    pub examples: RawExamples,
}

/// What a rule tells the caller.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawAdvice {
    /// How soon.
    pub urgency: Urgency,
    /// What it comes to in a few fixed words ("guard the intake"), so that the opposite ("not: guard the intake") is seen.
    #[serde(default)]
    pub act: Option<String>,
    /// One sentence that can be read out.
    pub say: String,
    /// What to do, one act each, beginning with its verb.
    #[serde(default)]
    pub steps: Vec<String>,
    /// The reason, with figures in braces.
    pub because: String,
    /// Figures to show with it.
    #[serde(default)]
    pub figures: Vec<String>,
}

#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawOutranks {
    /// The rule that gives way.
    pub rule: String,
    /// Why this one wins.
    pub because: String,
}

/// Callers' lines on which the rule must and must not speak. Several turns of one call are parted by ` | `.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RawExamples {
    /// Lines on which it must speak.
    #[serde(default)]
    pub speaks: Vec<String>,
    /// Lines on which it must not.
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
