//! Pumps: the flow where pump and filter agree, and the power in the water.
//! In: heads, flows, loss coefficients, powers. Out: flows, heads, powers, shares. Knows no pump by name.

use super::packing::{GRAVITY, WATER_DENSITY};
use super::range::{OutOfRange, not_negative, positive, result, within};
use crate::units::measure::{Flow, Length, LinearLoss, Power, Share, SquareLoss};

/// A pump's curve, head = shut-off head x (1 - (flow / free flow)^2), and what it works against.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct System {
    pub shutoff: Length,
    pub free_flow: Flow,
    /// Height the water is lifted; 0 in a closed circuit, whatever the height of the cabinet.
    pub lift: Length,
    pub linear: LinearLoss,
    pub square: SquareLoss,
}

/// Flow at which a pump's curve meets lift + a Q + b Q^2; none when the lift is the shut-off head or more.
///
/// Shut-off head and free flow more than 0, the others 0 or more; else `OutOfRange`. Printed values are 5 to 20 % too good (common practice).
/// Source: algebra; checked by root finding (scipy). Check: 1.2 m, 1000 L/h, a 0.0002, b 4e-7 (m, L/h): 806 L/h.
pub fn operating_flow(system: System) -> Result<Flow, OutOfRange> {
    let h0 = positive("shut-off head", system.shutoff)?;
    let most = positive("free flow", system.free_flow)?;
    let spare = h0 - not_negative("lift", system.lift)?;
    let a = not_negative("linear loss", system.linear)?;
    let square = h0 / (most * most) + not_negative("square loss", system.square)?;
    if spare <= 0.0 {
        return Ok(Flow::base(0.0));
    }
    // The usual root, turned so that two near numbers are not subtracted.
    result("flow", 2.0 * spare / (a + (a * a + 4.0 * square * spare).sqrt()))
}

/// Head of a pump at a flow: shut-off head x (1 - (flow / free flow)^2), nothing beyond the free flow.
///
/// Shut-off head and free flow more than 0, flow 0 or more; else `OutOfRange`. Source: a parabola through both ends, common practice. Check: 1.2 m,
/// 1000 L/h, at 806 L/h: 0.421 m.
pub fn pump_head(shutoff: Length, free_flow: Flow, flow: Flow) -> Result<Length, OutOfRange> {
    let h0 = positive("shut-off head", shutoff)?;
    let part = not_negative("flow", flow)? / positive("free flow", free_flow)?;
    result("head", (h0 * (1.0 - part * part)).max(0.0))
}

/// Power that a flow lifted by a head carries: density x g x flow x head.
///
/// Both 0 or more; else `OutOfRange`. Source: by definition. Check: 1000 L/h by 0.8 m: 2.17 W.
pub fn water_power(flow: Flow, head: Length) -> Result<Power, OutOfRange> {
    let flow = not_negative("flow", flow)?;
    result("power", WATER_DENSITY * GRAVITY * flow * not_negative("head", head)?)
}

/// Share of the mains power that reaches the water as flow: water power / mains power. The rest is heat, in the water if the pump is in it.
///
/// Flow and head 0 or more, mains more than 0; else `OutOfRange`. Source: by definition. Check: 1000 L/h by 0.8 m from 15 W: 0.145.
pub fn efficiency(flow: Flow, head: Length, mains: Power) -> Result<Share, OutOfRange> {
    let useful = water_power(flow, head)?.in_base();
    result("efficiency", useful / positive("mains power", mains)?)
}

/// Flow, head and power at another speed of the same pump: in proportion to the speed, its square and its cube.
///
/// Flow, head and power 0 or more; speed ratio 0 to 10; else `OutOfRange`. Source: affinity laws. No outside check: algebra.
pub fn at_speed(flow: Flow, head: Length, power: Power, speed: Share) -> Result<(Flow, Length, Power), OutOfRange> {
    let n = within("speed ratio", speed, Share::ratio(0.0), Share::ratio(10.0))?;
    Ok((
        result("flow", not_negative("flow", flow)? * n)?,
        result("head", not_negative("head", head)? * n * n)?,
        result("power", not_negative("power", power)? * n * n * n)?,
    ))
}
