//! Sizes of animals: from a kind, a stage of life and a size word to a length, and from a length to a mass.
//! In: names of the tables. Out: low, likely and high in metres and kilograms. Knows no count and no caller.

use super::Knowledge;
use super::facts::Value;
use super::stock::{Stage, Stock};
use super::table::Table;
use crate::units::Spread;

/// What a length was looked up from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum From<'k> {
    /// The lengths of a group's entry, as they stand: they already span its kinds.
    Generic(&'k str),
    /// The group's own meaning of the size word.
    GroupWord(&'k str),
    /// A share of the usual length, for groups without a meaning of the size word.
    UsualShare(&'k str),
    /// A share of the kind's grown length, by stage ("unsaid" when nothing was said).
    Stage(&'k str),
}

/// A length looked up, in metres, measured as the kind's `length basis` says.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Size<'k> {
    pub length: Spread,
    pub from: From<'k>,
}

/// Mass in grams = coefficient x (length in cm) ^ exponent.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct MassFromLength {
    pub coefficient: Spread,
    pub exponent: f64,
}

impl Knowledge {
    /// The length to take for a kind when the caller gave none.
    ///
    /// A stage is a share of the kind's grown length. A size word said of one kind is a stage of it ("small oscars" are
    /// young ones); said of a group it is the group's own length for the word, else a share of the generic length.
    /// With neither, a generic entry gives its lengths as they stand, a kind the stage `unsaid`: the likely grown
    /// length, with a low end for fish not yet grown. `None`: no such kind, stage or size word. Basis: from memory.
    pub fn length_of(&self, kind: &str, stage: Option<&str>, size: Option<&str>) -> Option<Size<'_>> {
        let stock = self.stock.iter().find(|s| s.stock == kind)?;
        if let Some(stage) = stage {
            return self.share_of_grown(stock, self.stage(stage)?);
        }
        match (size, stock.generic) {
            (Some(size), true) => self.size_in_group(stock, size),
            (Some(size), false) => {
                self.share_of_grown(stock, self.stages.iter().find(|s| s.size_words.iter().any(|w| w == size))?)
            }
            (None, true) => Some(Size { length: self.grown(stock)?, from: From::Generic(&stock.stock) }),
            (None, false) => self.share_of_grown(stock, self.stage("unsaid")?),
        }
    }

    /// Coefficient and exponent of a kind; `None` where length says too little of the mass (corals, anemones).
    pub fn mass_from_length(&self, kind: &str) -> Option<MassFromLength> {
        let coefficient = self.amount(Table::Stock, kind, "mass coefficient")?;
        let exponent = self.amount(Table::Stock, kind, "mass exponent")?.likely?;
        Some(MassFromLength { coefficient, exponent })
    }

    /// Mass of one animal of that length, in kilograms; of kinds without a relation, their grown mass.
    ///
    /// `length` in metres. Low and high take the ends of both the length and the coefficient. Source of the relation:
    /// each body class. Check: a small tetra of 4 cm weighs 0.76 g (0.51 to 1.13).
    pub fn mass_of(&self, kind: &str, length: Spread) -> Option<Spread> {
        match self.mass_from_length(kind) {
            Some(relation) => Some(relation.mass(length)),
            None => self.amount(Table::Stock, kind, "grown mass"),
        }
    }

    /// A fact of a kind at a stage: the stage's own where it has one (fry feed as fry), else the kind's.
    pub fn amount_at_stage(&self, kind: &str, stage: Option<&str>, attribute: &str) -> Option<Spread> {
        stage
            .and_then(|s| self.amount(Table::Stage, s, attribute))
            .or_else(|| self.amount(Table::Stock, kind, attribute))
    }

    /// A fact that is a quantity, in base units.
    pub fn amount(&self, table: Table, name: &str, attribute: &str) -> Option<Spread> {
        match self.fact(table, name, attribute)?.value {
            Value::Amount(amount) => Some(amount.base()),
            Value::Kinds(_) => None,
        }
    }

    fn stage(&self, name: &str) -> Option<&Stage> {
        self.stages.iter().find(|s| s.stage == name || s.also.iter().any(|a| a == name))
    }

    fn grown(&self, stock: &Stock) -> Option<Spread> {
        self.amount(Table::Stock, &stock.stock, "grown length")
    }

    fn share_of_grown<'k>(&'k self, stock: &Stock, stage: &'k Stage) -> Option<Size<'k>> {
        let share = self.amount(Table::Stage, &stage.stage, "share of grown length")?;
        Some(Size { length: times(self.grown(stock)?, share), from: From::Stage(&stage.stage) })
    }

    fn size_in_group<'k>(&'k self, stock: &'k Stock, size: &str) -> Option<Size<'k>> {
        if let Some(length) = self.amount(Table::Group, &stock.group, &format!("{size} length")) {
            return Some(Size { length, from: From::GroupWord(&stock.group) });
        }
        let word = self.classes.iter().find(|c| c.class.strip_prefix("size ") == Some(size))?;
        let share = self.amount(Table::Class, &word.class, "share of usual length")?;
        let usual = self.grown(stock)?.likely?;
        Some(Size { length: times(Spread::exact(usual), share), from: From::UsualShare(&word.class) })
    }
}

impl MassFromLength {
    /// Mass in kilograms of an animal `length` metres long.
    pub fn mass(&self, length: Spread) -> Spread {
        let mass = |a: Option<f64>, l: Option<f64>| Some(a? * (l? * 100.0).powf(self.exponent) / 1000.0);
        Spread {
            low: mass(self.coefficient.low, length.low),
            likely: mass(self.coefficient.likely, length.likely),
            high: mass(self.coefficient.high, length.high),
        }
    }
}

fn times(a: Spread, b: Spread) -> Spread {
    let both = |x: Option<f64>, y: Option<f64>| Some(x? * y?);
    Spread { low: both(a.low, b.low), likely: both(a.likely, b.likely), high: both(a.high, b.high) }
}
