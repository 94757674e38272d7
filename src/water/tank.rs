//! The water space of a tank, from its outside measures or from the size printed on it.
//! In: lengths, glass, gap; or a nominal volume. Out: volumes. Knows no weight and no gravel.

use super::range::{OutOfRange, positive, result, some_share, within};
use crate::units::measure::{Length, Measure, Share, Volume};
use std::f64::consts::PI;

/// Height of the water over the bottom pane: outer height less the bottom and the gap under the rim, in metres.
fn water_height(height: Length, glass: Length, gap: Length) -> Result<f64, OutOfRange> {
    let outer = positive("tank height", height)?;
    let glass = within("glass thickness", glass, Length::metres(0.0), height)?;
    let gap = within("gap under the rim", gap, Length::metres(0.0), height)?;
    positive("water height", Length::metres(outer - glass - gap))
}

/// An outer measure less the panes at both its ends, in metres.
fn inside(name: &'static str, outer: Length, glass: Length) -> Result<f64, OutOfRange> {
    let outer = positive(name, outer)?;
    positive(name, Length::metres(outer - 2.0 * glass.in_base()))
}

/// Water in a box-shaped tank of outside measures, filled to `gap` under the rim; sides and bottom `glass` thick.
///
/// Lengths more than 0, glass and gap 0 or more, some water height must be left; else `OutOfRange`. Source: plane geometry.
/// Check: 60 x 30 x 30 cm, 5 mm glass, 2.5 cm gap: 46.17 L (counted cells).
pub fn box_volume(
    length: Length,
    width: Length,
    height: Length,
    glass: Length,
    gap: Length,
) -> Result<Volume, OutOfRange> {
    let h = water_height(height, glass, gap)?;
    let area = inside("tank length", length, glass)? * inside("tank width", width, glass)?;
    result("water volume", area * h)
}

/// Water in a tank with a straight back and a front that bulges `bow` beyond the straight sides of depth `width`.
///
/// `bow` from 0 to half the inner length (a half circle); else as `box_volume`. Source: plane geometry (circular segment).
/// Check: 90 x 35 x 45 cm, bow 10 cm, 6 mm glass, 3 cm gap: 149.0 L (counted cells, 0.4 %).
pub fn bow_front_volume(
    length: Length,
    width: Length,
    height: Length,
    bow: Length,
    glass: Length,
    gap: Length,
) -> Result<Volume, OutOfRange> {
    let h = water_height(height, glass, gap)?;
    let chord = inside("tank length", length, glass)?;
    let straight = chord * inside("tank width", width, glass)?;
    let s = within("bow of the front", bow, Length::metres(0.0), Length::metres(chord / 2.0))?;
    result("water volume", (straight + segment(chord, s)) * h)
}

/// Area between a chord and its arc of height `s`, in square metres.
fn segment(chord: f64, s: f64) -> f64 {
    // So flat an arc is a parabola to far below a thousandth; the exact form would divide by nothing at s = 0.
    if s < chord * 1e-4 {
        return 2.0 / 3.0 * chord * s;
    }
    let radius = (chord * chord / 4.0 + s * s) / (2.0 * s);
    let angle = 2.0 * (chord / (2.0 * radius)).min(1.0).asin();
    radius * radius / 2.0 * (angle - angle.sin())
}

/// Water in an upright cylinder of outer diameter `diameter`.
///
/// Ranges and errors as `box_volume`. Source: plane geometry. Check: 40 cm across, 50 cm high, 8 mm glass, 3 cm gap: 53.5 L.
pub fn cylinder_volume(diameter: Length, height: Length, glass: Length, gap: Length) -> Result<Volume, OutOfRange> {
    let h = water_height(height, glass, gap)?;
    let across = inside("tank diameter", diameter, glass)?;
    result("water volume", PI / 4.0 * across * across * h)
}

/// Water in a six-sided tank, measured across two opposite flat sides (a side of length a is a times 1.732 across flats).
///
/// Ranges and errors as `box_volume`. Source: plane geometry. Check: 50 cm across flats, 60 cm high, 6 mm glass, 3 cm gap: 116.3 L.
pub fn hexagon_volume(across_flats: Length, height: Length, glass: Length, gap: Length) -> Result<Volume, OutOfRange> {
    let h = water_height(height, glass, gap)?;
    let flats = inside("width across flats", across_flats, glass)?;
    result("water volume", 3f64.sqrt() / 2.0 * flats * flats * h)
}

/// Water in a corner tank: a quarter circle of outer radius `radius` between two straight walls.
///
/// Ranges and errors as `box_volume`. Source: plane geometry; the straight walls take `glass` on two sides.
/// Check: radius 60 cm, 55 cm high, 6 mm glass, 3 cm gap: 138.8 L (counted cells, 0.4 %).
pub fn quarter_round_volume(radius: Length, height: Length, glass: Length, gap: Length) -> Result<Volume, OutOfRange> {
    let h = water_height(height, glass, gap)?;
    let outer = positive("tank radius", radius)?;
    let g = glass.in_base();
    let r = positive("tank radius", Length::metres(outer - g))?;
    // Inside there must be a corner at (g, g) within the arc.
    positive("tank radius", Length::metres(r - g * 2f64.sqrt()))?;
    let x = (r * r - g * g).sqrt();
    let under_arc = |x: f64| (x * (r * r - x * x).sqrt() + r * r * (x / r).asin()) / 2.0;
    result("water volume", (under_arc(x) - under_arc(g) - g * (x - g)) * h)
}

/// Water in a half-round tank: half a circle of outer diameter `diameter` against one straight wall.
///
/// Ranges and errors as `box_volume`. Source: plane geometry. Check: 80 cm across, 50 cm high, 6 mm glass, 3 cm gap: 110.9 L.
pub fn half_round_volume(diameter: Length, height: Length, glass: Length, gap: Length) -> Result<Volume, OutOfRange> {
    let h = water_height(height, glass, gap)?;
    let outer = positive("tank diameter", diameter)?;
    let g = glass.in_base();
    let r = outer / 2.0 - g;
    positive("tank diameter", Length::metres(r - g))?;
    let area = r * r * (PI / 2.0 - (g / r).asin()) - g * (r * r - g * g).sqrt();
    result("water volume", area * h)
}

/// Water in an oval pond of surface `length` x `width` and mean depth.
///
/// All more than 0; else `OutOfRange`. A bowl with shelves has a mean depth of about 0.6 to 0.8 of its deepest place (from
/// memory): ask. Source: plane geometry. Check: 300 x 200 cm, 60 cm mean depth: 2827 L.
pub fn oval_pond_volume(length: Length, width: Length, mean_depth: Length) -> Result<Volume, OutOfRange> {
    let l = positive("pond length", length)?;
    let w = positive("pond width", width)?;
    let d = positive("pond depth", mean_depth)?;
    result("water volume", PI / 4.0 * l * w * d)
}

/// Water really in a tank of which only the size it is sold by is known: nominal size times `share`.
///
/// `share` more than 0, up to 1, likely 0.85 (0.75 to 0.95); nominal more than 0; else `OutOfRange`. Basis: common practice.
/// Check: a block of 122.555 x 32.385 x 53.34 cm is 211.7 L outside and holds 188 L with 6 mm glass and 3 cm gap, a share of 0.89.
pub fn water_from_nominal(nominal: Volume, share: Share) -> Result<Volume, OutOfRange> {
    let volume = positive("nominal volume", nominal)?;
    Ok(Volume::from_base(volume * some_share("share of the nominal volume", share)?))
}

/// Glass that a tank of a height likely has, when nobody has measured it: 5 mm below 30 cm, 6 below 40, 8 below 50, 11 below 60, else 15 mm.
///
/// Height of the water more than 0, up to 2 m; else `OutOfRange`. Basis: common practice. No outside check. Acrylic is a little thicker.
pub fn likely_glass(height: Length) -> Result<Length, OutOfRange> {
    positive("water height", height)?;
    let h = within("water height", height, Length::metres(0.0), Length::metres(2.0))?;
    const STEPS: &[(f64, f64)] = &[(0.30, 5.0), (0.40, 6.0), (0.50, 8.0), (0.60, 11.0)];
    let thick = STEPS.iter().find(|(below, _)| h < *below).map_or(15.0, |(_, glass)| *glass);
    Ok(Length::millimetres(thick))
}
