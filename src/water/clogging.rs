//! What dirt does to media: permeability left, and when water goes over the lip past it.
//! In: void, share filled, heads. Out: shares. Knows no cleaning.

use super::range::{OutOfRange, not_negative, positive, share};
use crate::units::measure::{Length, Share};

/// Permeability left in a bed of grains whose voids are filled to a share: (1-s)^3 ((1-e0) / (1 - e0 (1-s)))^2.
///
/// Void more than 0, less than 1, share filled 0 to 1; else `OutOfRange`. Source: scaling of Kozeny & Carman (textbook, from memory). No outside
/// check. Check: void 0.40, a tenth filled: 0.641.
pub fn grain_permeability_left(void: Share, filled: Share) -> Result<Share, OutOfRange> {
    let open = void.in_base();
    if !(open > 0.0 && open < 1.0) {
        return Err(OutOfRange::between("void share", void, 0.0, 1.0));
    }
    let left = 1.0 - share("share filled", filled)?;
    let solid = (1.0 - open) / (1.0 - open * left);
    Ok(Share::ratio(left.powi(3) * solid * solid))
}

/// The same for foam: (1-s)^3; its struts are so thin that the second factor would overstate the loss.
///
/// Share filled 0 to 1; else `OutOfRange`. No outside check: an estimate. Check: half filled: 0.125.
pub fn foam_permeability_left(filled: Share) -> Result<Share, OutOfRange> {
    Ok(Share::ratio((1.0 - share("share filled", filled)?).powi(3)))
}

/// Share of a foam's void that dirt may fill before water goes over the lip: 1 - (clean loss / lip)^(1/3); nothing when it does so clean.
///
/// Clean loss 0 or more, lip height more than 0, 5 to 30 mm in hang-on filters (an estimate); else `OutOfRange`. Steady flow, loss in proportion to
/// 1/permeability. Once it bypasses, flow looks fine while nothing is filtered. No outside check. Check: 10 mm, lip 20 mm: 0.206.
pub fn share_at_bypass(clean_loss: Length, lip: Length) -> Result<Share, OutOfRange> {
    let loss = not_negative("clean head loss", clean_loss)?;
    let lip = positive("lip height", lip)?;
    Ok(Share::ratio((1.0 - (loss / lip).cbrt()).clamp(0.0, 1.0)))
}

/// Head lost over foam whose void is filled to a share, at the same flow: clean loss / permeability left.
///
/// Clean loss 0 or more, share filled 0 or more and less than 1; else `OutOfRange`. No outside check: as `foam_permeability_left`.
pub fn dirty_foam_loss(clean_loss: Length, filled: Share) -> Result<Length, OutOfRange> {
    let loss = not_negative("clean head loss", clean_loss)?;
    let left = foam_permeability_left(filled)?;
    if left.in_base() <= 0.0 {
        return Err(OutOfRange::between("share filled", filled, 0.0, 1.0));
    }
    super::range::result("head", loss / left.in_base())
}
