//! How often to clean, and what washing does to the nitrifiers.
//! In: dirt loads, flows, times, losses. Out: times, rates, shares. Knows no filter.

use super::range::{OutOfRange, not_negative, positive, result, share, some_share};
use crate::units::measure::{Concentration, Flow, MassRate, Rate, Share, Time, Volume};

/// Dirt that reaches mechanical media: feed x solids x caught.
///
/// Feed 0 or more; solids per feed 0 to 1, likely 0.25 (0.20 to 0.35); caught share 0 to 1, likely 0.6 (0.4 to 0.7, an estimate); else `OutOfRange`.
/// No outside check. Check: 1 g a day: 0.15 g a day.
pub fn dirt_load(feed: MassRate, solids: Share, caught: Share) -> Result<MassRate, OutOfRange> {
    let made = super::waste::solids_from_feed(feed, solids)?.in_base();
    result("dirt load", made * share("caught share", caught)?)
}

/// Time between washes: held dirt x media x share let fill / dirt load.
///
/// Holding 0 or more, likely 20 g of dry dirt per litre of mechanical foam (10 to 40, an estimate); media 0 or more; share let fill 0 to 1, likely
/// 0.5; load more than 0; else `OutOfRange`. Weak: replace it by `time_to_flow` at once when two flows are known. No outside check. Check: 20 g/L,
/// 1 L, half, 0.15 g a day: 67 days.
pub fn cleaning_interval(
    holding: Concentration,
    media: Volume,
    filled: Share,
    load: MassRate,
) -> Result<Time, OutOfRange> {
    let held = not_negative("dirt holding", holding)? * not_negative("media", media)?;
    result("time between washes", held * share("share let fill", filled)? / positive("dirt load", load)?)
}

/// How fast the flow falls, from a flow after a wash and a later one: ln(clean / later) / time. Nothing when it has not fallen.
///
/// Flows and time more than 0; else `OutOfRange`. Assumes an even fall; in truth flat, then steep: check a week before. Source: algebra. Check:
/// 600 to 480 L/h in 14 days: 0.0159 a day.
pub fn flow_decline(clean: Flow, later: Flow, time: Time) -> Result<Rate, OutOfRange> {
    let ratio = positive("clean flow", clean)? / positive("later flow", later)?;
    let ratio = positive("ratio of flows", Share::ratio(ratio))?;
    result("fall of the flow", ratio.ln().max(0.0) / positive("time", time)?)
}

/// Time from a wash until the flow is down to a share of clean: ln(1 / share) / fall.
///
/// Fall more than 0, share more than 0, up to 1, likely 0.7; else `OutOfRange`. Source: `flow_decline` turned round. Check: 0.0159 a day, 0.7: 22.4
/// days.
pub fn time_to_flow(fall: Rate, limit: Share) -> Result<Time, OutOfRange> {
    let fall = positive("fall of the flow", fall)?;
    result("time", -some_share("share of the clean flow", limit)?.ln() / fall)
}

/// What a wash leaves of the capacity needed: (1 - lost) x margin; 1 or more is enough.
///
/// Lost share 0 to 1; margin (capacity before / daily need) 0 or more; else `OutOfRange`. No outside check: losses are estimates. Check: 0.1 lost of
/// 2: 1.8.
pub fn capacity_after_wash(lost: Share, margin: Share) -> Result<Share, OutOfRange> {
    let left = 1.0 - share("share lost", lost)?;
    result("capacity over need", left * not_negative("margin", margin)?)
}

/// Time until nitrifiers keep up again after a wash: doubling time x log2(1 / left); nothing when enough is left.
///
/// `left` (capacity over need) more than 0: with none left a filter starts anew; doubling time 0 or more, likely 2 days in a film at 25 degC (1 to
/// 4, from memory); else `OutOfRange`. Source: growth by doubling, worked out. Check: 0.9 left, 1 day: 0.15 days.
pub fn recovery_time(left: Share, doubling: Time) -> Result<Time, OutOfRange> {
    let left = positive("capacity over need", left)?;
    let doubling = not_negative("doubling time", doubling)?;
    result("time", doubling * (-left.log2()).max(0.0))
}
