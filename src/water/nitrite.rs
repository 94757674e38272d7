//! Nitrite and the chloride that keeps it out of the blood of many fish.
//! In: nitrite as N, the ratio wanted, chloride present, water. Out: chloride, salt. Knows no species: not all are protected.

use super::range::{OutOfRange, not_negative, result, within};
use crate::units::measure::{Concentration, Mass, Share, Volume};

/// g of NaCl for each g of chloride in it: 58.44 / 35.45.
const SALT_PER_CHLORIDE: f64 = 58.44 / 35.45;

/// Chloride to aim at: ratio x nitrite as N.
///
/// Nitrite 0 or more; ratio (by mass, Cl to N) 0 to 100: low 10, likely 33, high 40.5; else `OutOfRange`. Source: 10 to 1 "to nitrite" in
/// extension advice for catfish ponds (Southern Regional Aquaculture Center 462, read), counted as the ion; complete suppression at 16 ions to
/// one, 40.5 by mass to N (Tomasso, Simco & Davis 1979, abstract read); none for largemouth bass (Tomasso 1986, abstract read).
/// Check: 1 mg/L N at 33: 33 mg/L.
pub fn chloride_wanted(nitrite: Concentration, ratio: Share) -> Result<Concentration, OutOfRange> {
    let nitrite = not_negative("nitrite as N", nitrite)?;
    let ratio = within("chloride to nitrite ratio", ratio, Share::ratio(0.0), Share::ratio(100.0))?;
    result("chloride", nitrite * ratio)
}

/// Plain salt (NaCl) to reach that chloride: (wanted - present) x 1.6485 x water, nothing when there is enough.
///
/// As `chloride_wanted`; present and water 0 or more. Dissolve it first; plants, snails and some scaleless fish suffer. It buys time: the
/// water change comes first. Check: 1 mg/L N, ratio 10, none present, 100 L: 1.6485 g.
pub fn salt_for_nitrite(
    nitrite: Concentration,
    ratio: Share,
    present: Concentration,
    water: Volume,
) -> Result<Mass, OutOfRange> {
    let wanted = chloride_wanted(nitrite, ratio)?.in_base();
    let missing = (wanted - not_negative("chloride present", present)?).max(0.0);
    result("salt", missing * SALT_PER_CHLORIDE * not_negative("water", water)?)
}
