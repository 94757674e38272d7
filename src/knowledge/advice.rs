//! Symptoms, the questions that decide them, cautions, terms and jobs: what is read out to a caller.
//! In: YAML. Out: entries. Knows no case; which of them apply is for the rules to say.

use super::basis::Basis;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How soon something must be done.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize, JsonSchema)]
pub enum Urgency {
    #[serde(rename = "now")]
    Now,
    #[serde(rename = "today")]
    Today,
    #[serde(rename = "this week")]
    ThisWeek,
    #[serde(rename = "in time")]
    InTime,
    #[serde(rename = "good to know")]
    GoodToKnow,
}

/// Whom or what a danger threatens, in the order it is said.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Danger {
    People,
    Fish,
    Property,
    Law,
    None,
}

/// The worst credible outcome.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Outcome {
    Kill,
    Injure,
    Harm,
    Nuisance,
}

/// How often a caution is shown.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Show {
    /// With every advice that names it.
    Always,
    /// Once in a call, unless asked for.
    Once,
    /// Only when asked for.
    Asked,
}

/// One thing that a symptom may come from.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Cause {
    pub is: String,
    /// What tells it from the others.
    pub test: String,
    #[serde(rename = "do")]
    pub act: String,
}

/// What a caller reports of a tank. Causes are likeliest first.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Symptom {
    pub symptom: String,
    #[serde(default)]
    pub also: Vec<String>,
    pub urgency: Urgency,
    pub danger: Danger,
    /// What to do before the cause is known.
    pub first: String,
    /// Names of `Question`, in the order to ask them.
    #[serde(default)]
    pub questions: Vec<String>,
    pub causes: Vec<Cause>,
    /// Names of `Caution`.
    #[serde(default)]
    pub cautions: Vec<String>,
    pub basis: Basis,
}

/// A question that decides between causes, and how a beginner finds the answer out.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Question {
    pub question: String,
    pub asks: String,
    pub how: String,
    pub basis: Basis,
}

/// A danger, with the sentence to say.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    pub caution: String,
    /// Words that callers use when it is near; not a trigger by themselves.
    #[serde(default)]
    pub also: Vec<String>,
    pub danger: Danger,
    pub severity: Outcome,
    pub show: Show,
    /// When it must be shown, in words that a rule writer can turn into conditions.
    pub when: String,
    pub says: String,
    /// Who decides instead; "nobody" where it is plain advice.
    #[serde(rename = "defer to")]
    pub defer_to: String,
    #[serde(default)]
    pub note: String,
    pub basis: Basis,
}

/// A word of the trade, explained.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Term {
    pub term: String,
    #[serde(default)]
    pub also: Vec<String>,
    pub says: String,
    pub example: String,
    /// Other `Term`s worth reading.
    #[serde(default)]
    pub see: Vec<String>,
    pub basis: Basis,
}

/// One act of a job.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// One act; begins with its verb.
    #[serde(rename = "do")]
    pub act: String,
    #[serde(default)]
    pub why: String,
    /// Names of `Caution` to be said before this step.
    #[serde(default)]
    pub cautions: Vec<String>,
}

/// A piece of work, step by step.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Job {
    pub job: String,
    #[serde(default)]
    pub also: Vec<String>,
    pub says: String,
    /// Names of `Filter` it is for; empty: any.
    #[serde(default)]
    pub filters: Vec<String>,
    #[serde(default)]
    pub tools: Vec<String>,
    pub steps: Vec<Step>,
    /// When to stop, and whom to ask.
    #[serde(default, rename = "stop and ask")]
    pub stop_and_ask: String,
    pub basis: Basis,
}
