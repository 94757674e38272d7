//! Forms in which nitrogen is quoted: as N, as the ion, as the molecule.
//! In: a concentration in one form. Out: the same in another. Knows no limit.

use super::range::{OutOfRange, not_negative, result};
use crate::units::measure::Concentration;

// Molar masses in g/mol from the IUPAC 2021 abridged atomic weights (quoted from memory): H 1.0080, N 14.007, O 15.999.
pub const NITROGEN: f64 = 14.007;
const AMMONIA: f64 = 17.031;
const AMMONIUM: f64 = 18.039;
const NITRITE: f64 = 46.005;
const NITRATE: f64 = 62.004;

/// mg of nitrate for each mg of nitrogen in it: 4.4266.
pub const NITRATE_PER_NITROGEN: f64 = NITRATE / NITROGEN;

/// The form in which a reading of nitrogen is given.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Form {
    Nitrogen,
    Ammonia,
    Ammonium,
    Nitrite,
    Nitrate,
}

impl Form {
    const fn per_nitrogen(self) -> f64 {
        match self {
            Self::Nitrogen => 1.0,
            Self::Ammonia => AMMONIA / NITROGEN,
            Self::Ammonium => AMMONIUM / NITROGEN,
            Self::Nitrite => NITRITE / NITROGEN,
            Self::Nitrate => NITRATE / NITROGEN,
        }
    }
}

/// A concentration quoted in one form of nitrogen, in another: N 1, NH3 1.2159, NH4 1.2879, NO2 3.2844, NO3 4.4266 per N.
///
/// 0 or more; else `OutOfRange`. Source: IUPAC 2021 abridged atomic weights (quoted from memory). Check: 50 mg/L NO3 is 11.295 mg/L as N.
pub fn nitrogen_form(value: Concentration, from: Form, to: Form) -> Result<Concentration, OutOfRange> {
    let value = not_negative("concentration", value)?;
    result("concentration", value * (to.per_nitrogen() / from.per_nitrogen()))
}
