//! Water over lips and down standpipes, and what falls back into a sump. At a filter's small heads +-30 %.
//! In: widths, bores, heads, areas. Out: flows, heads, volumes. Knows no filter.

use super::packing::GRAVITY;
use super::range::{OutOfRange, not_negative, positive, result};
use crate::units::measure::{Area, Flow, Length, Volume};
use std::f64::consts::PI;

/// m^0.5/s: 2/3 x 0.62 x sqrt(2g).
fn lip_coefficient() -> f64 {
    2.0 / 3.0 * 0.62 * (2.0 * GRAVITY).sqrt()
}

/// Flow over a level lip: 2/3 x 0.62 sqrt(2g) x width x head^1.5.
///
/// Width and head 0 or more; else `OutOfRange`. Published ranges start at heads of 25 to 30 mm; at the 3 to 15 mm of a filter's lip surface tension
/// makes it +-30 %. Source: sharp crest, textbook (from memory); within 4 % of Rehbock at 50 mm (fluids library). Check: 15 cm, 10 mm: about 990 L/h.
pub fn lip_flow(width: Length, head: Length) -> Result<Flow, OutOfRange> {
    let width = not_negative("lip width", width)?;
    let h = not_negative("head", head)?;
    result("flow", lip_coefficient() * width * h * h.sqrt())
}

/// The same for a notch with two ends: 1.84 (width - 0.2 head) head^1.5; nothing when the head is five widths or more.
///
/// Width and head 0 or more; else `OutOfRange`. Source: Francis (quoted from memory). Check: 30 cm, 20 mm: 5546 L/h.
pub fn notch_flow(width: Length, head: Length) -> Result<Flow, OutOfRange> {
    let width = not_negative("lip width", width)?;
    let h = not_negative("head", head)?;
    result("flow", 1.84 * (width - 0.2 * h).max(0.0) * h * h.sqrt())
}

/// Head at which a level lip passes a flow: (flow / (1.83 width))^(2/3).
///
/// Flow 0 or more, width more than 0; else `OutOfRange`. Source: `lip_flow` turned round. Check: 1000 L/h over 15 cm: 10 mm.
pub fn lip_head(flow: Flow, width: Length) -> Result<Length, OutOfRange> {
    let flow = not_negative("flow", flow)?;
    let root = (flow / (lip_coefficient() * positive("lip width", width)?)).cbrt();
    result("head", root * root)
}

/// What sets the flow down a standpipe.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Governs {
    Weir,
    Orifice,
}

/// Flow down an open standpipe, as its rim and as its bore would pass it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Standpipe {
    pub weir: Flow,
    pub orifice: Flow,
    /// The lesser of the two.
    pub flow: Flow,
    pub governs: Governs,
}

/// Flow down an open standpipe: the lesser of a round weir 2/3 x 0.55 sqrt(2g) pi D h^1.5 and an orifice 0.60 pi D^2/4 sqrt(2 g h).
///
/// Bore and head 0 or more; else `OutOfRange`. Coefficients from memory; air drawn down and gurgling make it +-30 %. Have twice the flow and a
/// second, dry pipe. No outside check. Check: 25 mm, 30 mm head: 813 L/h, orifice.
pub fn standpipe(bore: Length, head: Length) -> Result<Standpipe, OutOfRange> {
    let d = not_negative("standpipe bore", bore)?;
    let h = not_negative("head", head)?;
    let weir = 2.0 / 3.0 * 0.55 * (2.0 * GRAVITY).sqrt() * PI * d * h * h.sqrt();
    let orifice = 0.60 * PI * d * d / 4.0 * (2.0 * GRAVITY * h).sqrt();
    Ok(Standpipe {
        weir: result("flow", weir)?,
        orifice: result("flow", orifice)?,
        flow: result("flow", weir.min(orifice))?,
        governs: if weir <= orifice { Governs::Weir } else { Governs::Orifice },
    })
}

/// Water that falls into a sump when the pump stops: surface x depth down to where the siphon breaks, and what hangs in the pipes.
///
/// All 0 or more; else `OutOfRange`. It must fit into the free room. Source: geometry. Check: 3000 cm2, 1.5 cm: 4.5 L.
pub fn drain_back(surface: Area, depth: Length, pipes: Volume) -> Result<Volume, OutOfRange> {
    let layer = not_negative("tank surface", surface)? * not_negative("depth to the siphon break", depth)?;
    result("drained back", layer + not_negative("water in the pipes", pipes)?)
}

/// Room left in a sump after the water has fallen back: free room - drained back; below nothing it runs over.
///
/// Free room and drained back 0 or more; else `OutOfRange`. Source: geometry. Check: 15 L free, 20 L back: -5 L.
pub fn room_left(free: Volume, back: Volume) -> Result<Volume, OutOfRange> {
    let free = not_negative("free room", free)?;
    result("room left", free - not_negative("drained back", back)?)
}
