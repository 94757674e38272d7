//! Chlorine and chloramine of tap water: what removes them, what they leave.
//! In: chlorine as Cl2, volumes, shares. Out: masses, concentrations. Knows no bought conditioner: its own label rules.

use super::nitrogen_forms::NITROGEN;
use super::range::{OutOfRange, not_negative, result, share, within};
use crate::units::measure::{Concentration, Mass, Share, Volume};

/// g of Cl2 in a mol.
const CHLORINE: f64 = 70.90;

/// What sodium thiosulfate is sold as.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Thiosulfate {
    /// The crystals, Na2S2O3.5H2O.
    Pentahydrate,
    /// The powder without water, Na2S2O3.
    Anhydrous,
}

/// Sodium thiosulfate to remove chlorine: chlorine x water / 70.90 x `moles` x molar mass (248.17 or 158.10).
///
/// Chlorine (as Cl2) and water 0 or more; `moles` of thiosulfate for each of chlorine 0 to 4: 2 to tetrathionate covers every path and is the dose;
/// 1 to sulfur, 1/4 to sulfate; else `OutOfRange`. Source: the three reactions; 7.0 mg of crystals per mg in laboratory advice (read), field figure
/// 1.9 at pH 7 in a pipeline disinfection field guide (read). Check: 1 mg/L in 1 L, 2 mol: 7.00 mg of crystals.
pub fn thiosulfate(
    chlorine: Concentration,
    water: Volume,
    moles: Share,
    form: Thiosulfate,
) -> Result<Mass, OutOfRange> {
    let molar = match form {
        Thiosulfate::Pentahydrate => 248.17,
        Thiosulfate::Anhydrous => 158.10,
    };
    let chlorine = not_negative("chlorine", chlorine)? * not_negative("water", water)?;
    let moles = within("thiosulfate per chlorine", moles, Share::ratio(0.0), Share::ratio(4.0))?;
    result("thiosulfate", chlorine / CHLORINE * moles * molar)
}

/// Total ammonia (as N) that a change with chloraminated water leaves in the tank once the chloramine is destroyed: (chlorine x 0.1976 + free
/// ammonia of the tap) x share changed.
///
/// Chlorine (chloramine read as Cl2) and free ammonia (as N) 0 or more, share 0 to 1; else `OutOfRange`. Source: NH2Cl, one N for each Cl2. Check:
/// 4 mg/L, 30 % changed: 0.237 mg/L.
pub fn chloramine_ammonia(
    chlorine: Concentration,
    free: Concentration,
    changed: Share,
) -> Result<Concentration, OutOfRange> {
    let bound = not_negative("chloramine", chlorine)? * NITROGEN / CHLORINE;
    let free = not_negative("free ammonia of the tap", free)?;
    result("total ammonia", (bound + free) * share("share changed", changed)?)
}
