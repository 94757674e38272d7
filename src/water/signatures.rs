//! The calculations that a rule may call by name: words, dimensions, source, and the call itself.
//! In: a name and numbers in base units (SI, degrees Celsius, pH). Out: a number in base units. Knows no rule.

use super::basis::Basis;
use super::range::OutOfRange;
use crate::units::dimension::Dimension;
use std::collections::HashMap;
use std::sync::LazyLock;

mod ammonia;
mod biofilter;
mod carbonate;
mod changes;
mod flow;
mod heat;
mod hydraulics;
mod intake;
mod media;
mod nitrate;
mod oxygen;
mod stock;
mod tank;
mod upkeep;
mod weight;

/// One calculation a rule may call.
#[derive(Debug)]
pub struct Signature {
    pub name: &'static str,
    /// Name and dimension of each input, in order.
    pub inputs: &'static [(&'static str, Dimension)],
    pub output: Dimension,
    /// Takes the inputs in base units; gives the result in base units.
    pub call: fn(&[f64]) -> Result<f64, OutOfRange>,
    pub basis: Basis,
    pub source: &'static str,
    /// The formula, short.
    pub formula: &'static str,
    /// What it gives, one line.
    pub says: &'static str,
}

/// Makes a table of signatures. Each names its inputs with their measures, its output, and an expression that calls the typed function.
macro_rules! signatures {
    ($(
        $name:literal ( $($label:literal $input:ident : $measure:ty),* $(,)? ) -> $output:ty = $call:expr;
        $basis:expr, $source:expr, $formula:literal, $says:literal;
    )+) => {
        pub(super) static TABLE: &[super::Signature] = &[$(super::Signature {
            name: $name,
            inputs: &[$(($label, <$measure as $crate::units::measure::Measure>::DIMENSION)),*],
            output: <$output as $crate::units::measure::Measure>::DIMENSION,
            call: |given| {
                let &[$($input),*] = given else {
                    return Err($crate::water::OutOfRange::inputs(given.len(), [$($label),*].len()));
                };
                $(let $input = <$measure>::base($input);)*
                let found: $output = $call?;
                Ok(found.in_base())
            },
            basis: $basis,
            source: $source,
            formula: $formula,
            says: $says,
        }),+];
    };
}
use signatures;

static TABLES: &[&[Signature]] = &[
    tank::TABLE,
    weight::TABLE,
    stock::TABLE,
    ammonia::TABLE,
    carbonate::TABLE,
    oxygen::TABLE,
    biofilter::TABLE,
    media::TABLE,
    nitrate::TABLE,
    changes::TABLE,
    flow::TABLE,
    intake::TABLE,
    hydraulics::TABLE,
    heat::TABLE,
    upkeep::TABLE,
];

static NAMED: LazyLock<HashMap<&'static str, &'static Signature>> =
    LazyLock::new(|| all().map(|s| (s.name, s)).collect());

/// Every signature, in a steady order.
pub fn all() -> impl Iterator<Item = &'static Signature> {
    TABLES.iter().flat_map(|table| table.iter())
}

/// The signature of a name, written exactly as in the table.
pub fn by_name(name: &str) -> Option<&'static Signature> {
    NAMED.get(name).copied()
}
