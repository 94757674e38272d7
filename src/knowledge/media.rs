//! Filter media, kinds of filter, and what is put in the water. In: YAML. Out: entries. Knows no advice.

use super::basis::Basis;
use super::facts::Facts;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A kind of filter medium, generic: no maker's name.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Medium {
    pub medium: String,
    #[serde(default)]
    pub also: Vec<String>,
    #[serde(default)]
    pub like: Vec<String>,
    pub facts: Facts,
    /// What it does: one line that can be read out.
    pub says: String,
    /// How long before it is replaced.
    pub life: String,
    pub clean: String,
    /// What it must not meet.
    #[serde(default)]
    pub never: Vec<String>,
    /// Names of `Filter` in which it should not go.
    #[serde(default, rename = "unsuited filters")]
    pub unsuited_filters: Vec<String>,
    #[serde(default, rename = "unsuited tanks")]
    pub unsuited_tanks: Vec<String>,
    #[serde(default)]
    pub note: String,
    pub basis: Basis,
}

/// One layer of a filter's usual order.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Layer {
    /// Name of a `Medium`.
    pub medium: String,
    /// Share of the media space, low / likely / high.
    pub share: String,
}

/// A kind of filter that people own.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Filter {
    pub filter: String,
    #[serde(default)]
    pub also: Vec<String>,
    #[serde(default)]
    pub like: Vec<String>,
    pub facts: Facts,
    #[serde(default)]
    pub says: String,
    /// Where water meets the first medium: the point to count layers from.
    pub enters: String,
    /// Where water slips past the media, and what makes it.
    pub bypass: String,
    /// Form of the intake.
    pub intake: String,
    #[serde(rename = "when it stops")]
    pub when_it_stops: String,
    /// Signs, and what they mean.
    pub fails: Vec<String>,
    /// Steps, after the plug is pulled.
    pub refit: Vec<String>,
    /// Media in the order the water should meet them.
    #[serde(default)]
    pub order: Vec<Layer>,
    /// What to look at on a second-hand one.
    #[serde(default, rename = "used check")]
    pub used_check: Vec<String>,
    #[serde(default, rename = "good for")]
    pub good_for: Vec<String>,
    #[serde(default, rename = "poor for")]
    pub poor_for: Vec<String>,
    #[serde(default)]
    pub note: String,
    pub basis: Basis,
}

/// A remedy or an additive: its effect on the filter and the animals. Never a dose.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Treatment {
    pub treatment: String,
    #[serde(default)]
    pub also: Vec<String>,
    #[serde(default)]
    pub like: Vec<String>,
    pub facts: Facts,
    pub says: String,
    /// How it disturbs home tests.
    pub reads: String,
    /// What takes it out again.
    pub after: String,
    /// Findings that were measured; never instructions.
    #[serde(default)]
    pub figures: String,
    /// Names of `Caution`.
    #[serde(default)]
    pub cautions: Vec<String>,
    pub basis: Basis,
}
