//! Intakes: how fast the water draws, how fast small fish swim, how large a guard must be.
//! In: flows, sizes, lengths. Out: areas and speeds. Knows no species.

use super::range::{OutOfRange, not_negative, positive, result, some_share, within};
use crate::units::measure::{Area, Flow, Length, Rate, Share, Speed};
use std::f64::consts::PI;

/// Mean water speed at the outside of a strainer or a foam guard: flow / outside area.
///
/// Flow 0 or more, area more than 0; else `OutOfRange`. Area is the outline, not the sum of the openings: for those see `opening_speed`.
/// Source: continuity. Check: 1000 L/h on a strainer of 30 x 60 mm (56.5 cm2): 49 mm/s.
pub fn approach_speed(flow: Flow, outside: Area) -> Result<Speed, OutOfRange> {
    let flow = not_negative("flow", flow)?;
    result("approach speed", flow / positive("outside area", outside)?)
}

/// Speed through the openings: flow / (outside area x open share). Also the speed at a guard of which only a share still passes water.
///
/// Open share more than 0, up to 1; else as `approach_speed`. Source: continuity. Check: 1000 L/h, 56.5 cm2, a quarter open: 196 mm/s.
pub fn opening_speed(flow: Flow, outside: Area, open: Share) -> Result<Speed, OutOfRange> {
    let approach = approach_speed(flow, outside)?.in_base();
    result("speed through the openings", approach / some_share("open share", open)?)
}

/// Outside area of a strainer: its round wall, pi x diameter x height.
///
/// Both more than 0; else `OutOfRange`. Source: geometry. Check: 30 x 60 mm: 56.5 cm2.
pub fn strainer_area(diameter: Length, height: Length) -> Result<Area, OutOfRange> {
    let d = positive("strainer diameter", diameter)?;
    result("outside area", PI * d * positive("strainer height", height)?)
}

/// Outside area of a round foam guard: side and one end. An end stood on glass passes nothing: then take `strainer_area`.
///
/// Both more than 0; else `OutOfRange`. Source: geometry. Check: 100 x 150 mm: 549.8 cm2.
pub fn foam_guard_area(diameter: Length, height: Length) -> Result<Area, OutOfRange> {
    let d = positive("guard diameter", diameter)?;
    let side = strainer_area(diameter, height)?.in_base();
    result("outside area", side + PI / 4.0 * d * d)
}

/// Outside area of a square foam guard: four sides and one end.
///
/// All more than 0; else `OutOfRange`. No outside check: geometry.
pub fn block_guard_area(length: Length, width: Length, height: Length) -> Result<Area, OutOfRange> {
    let l = positive("guard length", length)?;
    let w = positive("guard width", width)?;
    let h = positive("guard height", height)?;
    result("outside area", 2.0 * (l + w) * h + l * w)
}

/// Speed that a small fish holds against: body lengths per second x length.
///
/// Length more than 0, up to 1 m; `lengths` 0 to 30 a second, for design 1.5 (1 to 2) for free-swimming larvae, 2 (1.5 to 3) for newborn
/// livebearers, 3 (2 to 5) at 10 to 25 mm: estimates, a factor 2 to 3 below published sustained speeds by intent; else `OutOfRange`.
/// No outside check: the design figures are our own. Check: 6 mm at 1.5: 9 mm/s.
pub fn swim_speed(length: Length, lengths: Rate) -> Result<Speed, OutOfRange> {
    positive("fish length", length)?;
    let length = within("fish length", length, Length::metres(0.0), Length::metres(1.0))?;
    let lengths = within("body lengths per second", lengths, Rate::per_second(0.0), Rate::per_second(30.0))?;
    result("swimming speed", length * lengths)
}

/// Outside area of a guard that keeps the approach speed at or below `speed` when a share of its face is blocked: flow / speed / (1 - blocked).
///
/// Flow 0 or more, speed more than 0, blocked share 0 or more and less than 1, likely 0.5 in the week before cleaning; else `OutOfRange`.
/// Source: continuity. Check: 1000 L/h, 9 mm/s: 309 cm2 clean, 617 cm2 half blocked.
pub fn guard_area_needed(flow: Flow, speed: Speed, blocked: Share) -> Result<Area, OutOfRange> {
    let flow = not_negative("flow", flow)?;
    let speed = positive("approach speed", speed)?;
    let blocked_share = super::range::share("blocked share", blocked)?;
    if blocked_share >= 1.0 {
        return Err(OutOfRange::between("blocked share", blocked, 0.0, 1.0));
    }
    result("guard area", flow / speed / (1.0 - blocked_share))
}

/// Most flow that a guard bears at an approach speed: speed x area x (1 - blocked).
///
/// Speed and area 0 or more, blocked share 0 to 1; else `OutOfRange`. Source: `guard_area_needed` turned round. Check: 9 mm/s on 309 cm2: 1000 L/h.
pub fn flow_a_guard_bears(speed: Speed, area: Area, blocked: Share) -> Result<Flow, OutOfRange> {
    let speed = not_negative("approach speed", speed)?;
    let area = not_negative("guard area", area)?;
    result("flow", speed * area * (1.0 - super::range::share("blocked share", blocked)?))
}
