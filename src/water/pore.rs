//! Foam by its pores per inch: cells, windows, struts, and what passes through.
//! In: pores per inch, void, body width. Out: lengths, surface, a verdict. Knows no species and no head loss.

use super::range::{OutOfRange, positive, result, some_share, within};
use crate::units::measure::{Length, Measure, PoreCount, Share, SpecificSurface};
use std::f64::consts::PI;

/// Size of a foam cell: one inch / pores per inch. Grades are sold to +-5 ppi in most grades (a design report of 1964, read).
///
/// 1 to 200 ppi; else `OutOfRange`. Source: by definition. Check: 20 ppi: 1.27 mm.
pub fn cell(ppi: PoreCount) -> Result<Length, OutOfRange> {
    let ppi = within("pores per inch", ppi, PoreCount::per_inch(1.0), PoreCount::per_inch(200.0))?;
    result("foam cell", 1.0 / ppi)
}

/// Size of the windows between cells: cell x `share`, likely 0.5 (0.4 to 0.6, from memory).
///
/// Share more than 0, up to 1; else as `cell`. No outside check: the share is an estimate. Check: 20 ppi, half: 0.635 mm.
pub fn window(ppi: PoreCount, share: Share) -> Result<Length, OutOfRange> {
    let cell = cell(ppi)?.in_base();
    result("foam window", cell * some_share("window share of the cell", share)?)
}

/// What becomes of a body of some width at a foam.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Verdict {
    /// As wide as a cell, or wider.
    KeptOut,
    /// Between a window and a cell: most are kept out.
    MostlyKeptOut,
    /// Narrower than a window.
    Passes,
}

/// Whether a foam keeps out a body of a width.
///
/// Width more than 0; else as `window`. Source: geometry on estimated windows: no outside check. Check: 20 ppi: 1.3 mm is kept out, 0.6 mm passes.
pub fn pore_verdict(ppi: PoreCount, share: Share, width: Length) -> Result<Verdict, OutOfRange> {
    let width = positive("body width", width)?;
    Ok(if width >= cell(ppi)?.to_base() {
        Verdict::KeptOut
    } else if width >= window(ppi, share)?.to_base() {
        Verdict::MostlyKeptOut
    } else {
        Verdict::Passes
    })
}

/// Body width of a fish: length x `share`, likely 0.16 (0.12 to 0.22, from memory).
///
/// Length more than 0, share more than 0, up to 1; else `OutOfRange`. No outside check: an estimate. Check: 4 mm at 0.16: 0.64 mm.
pub fn body_width(length: Length, share: Share) -> Result<Length, OutOfRange> {
    let length = positive("fish length", length)?;
    result("body width", length * some_share("width share of the length", share)?)
}

/// Coarsest foam whose cells keep out a body of a width: one inch / width.
///
/// Width 0.127 to 25.4 mm (200 to 1 ppi); else `OutOfRange`. Source: `cell` turned round. Check: 1.27 mm: 20 ppi.
pub fn coarsest_foam(width: Length) -> Result<PoreCount, OutOfRange> {
    let width = within("body width", width, Length::millimetres(0.127), Length::millimetres(25.4))?;
    result("pores per inch", 1.0 / width)
}

/// Thickness of a foam's struts: 1.18 x sqrt((1 - void)/(3 pi)) / (1 - exp(-(1 - void)/0.04)) x cell.
///
/// Void more than 0.5, less than 1; else as `cell`. Source: Calmidi 1998 for metal foam (quoted from memory). No outside check
/// for polyurethane. Check: 20 ppi, void 0.97: 0.160 mm.
pub fn strut(ppi: PoreCount, void: Share) -> Result<Length, OutOfRange> {
    let cell = cell(ppi)?.in_base();
    let open = void.in_base();
    if !(open > 0.5 && open < 1.0) {
        return Err(OutOfRange::between("void share", void, 0.5, 1.0));
    }
    let solid = 1.0 - open;
    let shape = 1.18 * (solid / (3.0 * PI)).sqrt() / -(-solid / 0.04).exp_m1();
    result("foam strut", shape * cell)
}

/// Specific surface of foam as thin round struts: 4 (1 - void) / strut. At void 0.97 it comes to 37.4 m2/m3 per ppi; count 25 to 50.
///
/// As `strut`. Source: geometry on Calmidi's struts (quoted from memory). Check: 20 ppi, void 0.97: 749 m2/m3.
pub fn foam_surface(ppi: PoreCount, void: Share) -> Result<SpecificSurface, OutOfRange> {
    let strut = strut(ppi, void)?.in_base();
    result("specific surface", 4.0 * (1.0 - void.in_base()) / strut)
}
