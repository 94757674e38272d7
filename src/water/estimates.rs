//! Coefficients that are not known but estimated: low, likely, high, and what they rest on.
//! In: a name. Out: three numbers in base units (SI, degrees Celsius, pH). Knows no formula.

use super::basis::Basis;
use crate::units::dimension::Dimension;

mod chemistry;
mod flow;
mod media;
mod stock;
mod tank;
mod upkeep;

/// One coefficient with its range. Where only one figure is known, all three are it.
pub struct Estimate {
    pub name: &'static str,
    pub low: f64,
    pub likely: f64,
    pub high: f64,
    pub dimension: Dimension,
    pub basis: Basis,
    pub source: &'static str,
    pub note: &'static str,
}

/// Makes a table of estimates, each in the unit it is usually told in.
macro_rules! estimates {
    ($(
        $name:literal = $measure:ident :: $unit:ident ($low:expr, $likely:expr, $high:expr),
        $basis:expr, $source:expr, $note:literal;
    )+) => {
        pub(super) static TABLE: &[super::Estimate] = &[$(super::Estimate {
            name: $name,
            low: $measure::$unit($low).in_base(),
            likely: $measure::$unit($likely).in_base(),
            high: $measure::$unit($high).in_base(),
            dimension: $measure::DIMENSION,
            basis: $basis,
            source: $source,
            note: $note,
        }),+];
    };
}
use estimates;

static TABLES: &[&[Estimate]] =
    &[stock::TABLE, media::TABLE, flow::TABLE, upkeep::TABLE, tank::TABLE, chemistry::TABLE];

/// Every estimate, in a steady order.
pub fn all() -> impl Iterator<Item = &'static Estimate> {
    TABLES.iter().flat_map(|table| table.iter())
}

/// The estimate of a name, written exactly as in the table.
pub fn by_name(name: &str) -> Option<&'static Estimate> {
    all().find(|estimate| estimate.name == name)
}
