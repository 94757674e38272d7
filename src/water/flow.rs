//! Flow through tank and filter: turnover, contact times, speed, the bucket test.
//! In: flows, volumes, areas. Out: rates, times, speeds. Knows no head loss and no fish.

use super::range::{OutOfRange, not_negative, positive, result, some_share, within};
use crate::units::measure::{Area, Flow, Measure, Rate, Share, Speed, Time, Volume};

/// How often a filter passes the water of a tank: flow / water.
///
/// Flow 0 or more, water more than 0; else `OutOfRange`. Source: by definition. Check: 1000 L/h in 200 L: 5 an hour.
pub fn turnover(flow: Flow, water: Volume) -> Result<Rate, OutOfRange> {
    let flow = not_negative("flow", flow)?;
    result("turnover", flow / positive("water", water)?)
}

/// Flow that gives a turnover: turnover x water.
///
/// Both 0 or more; else `OutOfRange`. Source: `turnover` turned round. Check: 5 an hour in 200 L: 1000 L/h.
pub fn flow_for_turnover(turnover: Rate, water: Volume) -> Result<Flow, OutOfRange> {
    let turnover = not_negative("turnover", turnover)?;
    result("flow", turnover * not_negative("water", water)?)
}

/// Flow a filter really delivers, from the one printed on it: rated x `real` share.
///
/// Rated flow 0 or more; share more than 0, up to 1; else `OutOfRange`. Shares by kind of filter are from memory: measure.
/// No outside check: a ratio.
pub fn real_flow(rated: Flow, real: Share) -> Result<Flow, OutOfRange> {
    let rated = not_negative("rated flow", rated)?;
    result("flow", rated * some_share("real share of the rated flow", real)?)
}

/// Empty-bed contact time: volume of media / flow, as if the media filled nothing.
///
/// Media 0 or more, flow more than 0 (with none the water stays for ever); else `OutOfRange`. Source: by definition.
/// Check: 3 L at 600 L/h: 18 s.
pub fn empty_bed_contact(media: Volume, flow: Flow) -> Result<Time, OutOfRange> {
    let media = not_negative("media", media)?;
    result("contact time", media / positive("flow", flow)?)
}

/// Contact time in the pores: void x volume of media / flow.
///
/// Void more than 0, up to 1; else as `empty_bed_contact`. Source: by definition. Check: 3 L, void 0.45, 600 L/h: 8.1 s.
pub fn pore_contact(media: Volume, void: Share, flow: Flow) -> Result<Time, OutOfRange> {
    let void = some_share("void share", void)?;
    result("contact time", void * empty_bed_contact(media, flow)?.in_base())
}

/// Speed of the water on the whole cross-section of a chamber, as if it were empty: flow / area.
///
/// Flow 0 or more, area more than 0; else `OutOfRange`. Source: continuity. Check: 600 L/h on 200 cm2: 8.33 mm/s.
pub fn superficial_speed(flow: Flow, area: Area) -> Result<Speed, OutOfRange> {
    let flow = not_negative("flow", flow)?;
    result("speed", flow / positive("cross-section", area)?)
}

/// A flow taken with bucket and stopwatch, and how wrong it may be.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct BucketFlow {
    pub flow: Flow,
    /// Likely error, when volume and time are wrong independently.
    pub likely_error: Flow,
    /// Error when both are wrong the same way, to first order.
    pub worst_error: Flow,
    /// Least and greatest flow that the readings allow.
    pub low: Flow,
    pub high: Flow,
}

/// Flow by bucket and stopwatch: volume / time, with the errors that follow from those of the readings.
///
/// Volume and time more than 0, their errors 0 or more and less than the reading; else `OutOfRange`. Hold the hose at the tank's
/// water level: lower reads high. Source: Gauss' law of errors. Check: 10 +- 0.5 L in 36 +- 1 s: 1000 +- 57 L/h.
pub fn bucket_flow(
    volume: Volume,
    time: Time,
    volume_error: Volume,
    time_error: Time,
) -> Result<BucketFlow, OutOfRange> {
    let v = positive("bucket volume", volume)?;
    let t = positive("bucket time", time)?;
    let dv = within("error of the bucket volume", volume_error, Volume::litres(0.0), Volume::from_base(v))?;
    let dt = within("error of the bucket time", time_error, Time::seconds(0.0), Time::from_base(t))?;
    let shortest = positive("shortest bucket time", Time::seconds(t - dt))?;
    let q = v / t;
    let (part_v, part_t) = (dv / v, dt / t);
    Ok(BucketFlow {
        flow: result("flow", q)?,
        likely_error: result("error of the flow", q * part_v.hypot(part_t))?,
        worst_error: result("error of the flow", q * (part_v + part_t))?,
        low: result("least flow", (v - dv) / (t + dt))?,
        high: result("greatest flow", (v + dv) / shortest)?,
    })
}

/// Share of the flow that goes past the media: 1 - through / whole flow, nothing when the media takes it all.
///
/// Whole flow more than 0, through 0 to the whole; else `OutOfRange`. No outside check: continuity.
pub fn bypass_share(through: Flow, whole: Flow) -> Result<Share, OutOfRange> {
    let all = positive("flow", whole)?;
    let through = within("flow through the media", through, Flow::from_base(0.0), whole)?;
    Ok(Share::ratio(1.0 - through / all))
}
