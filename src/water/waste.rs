//! What the stock puts into the water: body mass, feed, ammonia, solids, oxygen demand.
//! In: lengths, feed shares, protein. Out: masses, and masses per time. Knows no species and no filter.

use super::range::{OutOfRange, not_negative, result, share, within};
use crate::units::measure::{Length, Mass, MassRate, Rate, Share};

/// Body mass of one fish from its total length (snout to tip of tail): a L^b, g and cm.
///
/// Length 0.5 to 100 cm, `a` (g/cm^b) 0.0001 to 0.2, `b` 2 to 4, likely 3.03 (2.5 to 3.5); else `OutOfRange`. Not for larvae
/// with yolk; a factor 2 either way when the species is unknown. Source: form and b from Froese 2006, J. Appl. Ichthyol.
/// 22:241-253 (abstract read); `a` goes with the body's shape. No outside check of single
/// fish. Check: 4 cm, a 0.0112, b 3.04: 0.76 g.
pub fn fish_mass(length: Length, a: Share, b: Share) -> Result<Mass, OutOfRange> {
    within("fish length", length, Length::centimetres(0.5), Length::centimetres(100.0))?;
    let a = within("shape factor a", a, Share::ratio(1e-4), Share::ratio(0.2))?;
    let b = within("shape exponent b", b, Share::ratio(2.0), Share::ratio(4.0))?;
    result("fish mass", Mass::grams(a * length.in_centimetres().powf(b)).in_base())
}

/// Total length of a fish measured without its tail (standard length): length times `factor`.
///
/// Factor 1 to 1.5, likely 1.2 (1.1 to 1.3, from memory); length more than 0; else `OutOfRange`. No outside check: a ratio.
pub fn total_length(standard: Length, factor: Share) -> Result<Length, OutOfRange> {
    let length = super::range::positive("fish length", standard)?;
    let factor = within("tail factor", factor, Share::ratio(1.0), Share::ratio(1.5))?;
    result("fish length", length * factor)
}

/// Dry feed a day: fish mass times the share of body mass fed a day.
///
/// Mass 0 or more (no fish, no feed); share 0 to 0.5 a day; else `OutOfRange`. Source: by definition; the shares are estimates.
/// Check: 60 g at 1 % a day: 0.6 g.
pub fn feed(fish: Mass, fed: Rate) -> Result<MassRate, OutOfRange> {
    let mass = not_negative("fish mass", fish)?;
    let fed = within("feed share per day", fed, Rate::per_day(0.0), Rate::per_day(0.5))?;
    result("feed", mass * fed)
}

/// Dry feed in wet (frozen, live) food: wet mass times its dry share.
///
/// Dry share 0 to 1, likely 0.12 (0.08 to 0.25, from memory); else `OutOfRange`. No outside check: a ratio.
pub fn dry_feed(wet: MassRate, dry_share: Share) -> Result<MassRate, OutOfRange> {
    let wet = not_negative("wet feed", wet)?;
    result("dry feed", wet * share("dry share of the food", dry_share)?)
}

/// Total ammonia nitrogen made from feed, as N: feed x protein x `made`, where `made` is g N per g of protein fed.
///
/// Feed 0 or more; protein 0 to 1, likely 0.40 (0.32 to 0.50); `made` 0 to 0.16, likely 0.092 (0.060 to 0.128); else
/// `OutOfRange`. Source: Timmons & Ebeling, Recirculating Aquaculture (quoted from memory); 0.16, the nitrogen in protein, is the
/// most there can be. Check: 0.6 g/day, 40 %: 22.08 mg N/day; within 5 % of FAO Technical Paper 589 counted as N.
pub fn ammonia_from_feed(feed: MassRate, protein: Share, made: Share) -> Result<MassRate, OutOfRange> {
    let feed = not_negative("feed", feed)?;
    let protein = share("protein share of the feed", protein)?;
    let made = within("ammonia made per protein", made, Share::ratio(0.0), Share::ratio(0.16))?;
    result("ammonia made", feed * protein * made)
}

/// The factor that `ammonia_from_feed` takes, from its parts: nitrogen in protein x assimilated x excreted x excreted as ammonia.
///
/// Each 0 to 1; else `OutOfRange`. Source: Timmons & Ebeling (quoted from memory). Check: 0.16, 0.80, 0.80, 0.90: 0.09216.
pub fn ammonia_per_protein(
    nitrogen: Share,
    assimilated: Share,
    excreted: Share,
    as_ammonia: Share,
) -> Result<Share, OutOfRange> {
    let parts = share("nitrogen share of protein", nitrogen)?
        * share("assimilated share", assimilated)?
        * share("excreted share", excreted)?
        * share("share excreted as ammonia", as_ammonia)?;
    Ok(Share::ratio(parts))
}

/// Ammonia (NH3, not N) made from feed by the factors of a design manual: feed x protein x 0.16 x 0.61 x 1.2.
///
/// Feed 0 or more, protein 0 to 1; else `OutOfRange`. Source: Somerville et al. 2014, FAO Fisheries and Aquaculture Technical Paper
/// 589, appendix 4 (quoted from memory). As N it is 5 % above `ammonia_from_feed`. Check: 200 g/day, 32 %: 7.496 g/day.
pub fn ammonia_molecule_from_feed(feed: MassRate, protein: Share) -> Result<MassRate, OutOfRange> {
    let nitrogen = nitrogen_in_feed(feed, protein)?;
    result("ammonia made", nitrogen.in_base() * 0.61 * 1.2)
}

/// Nitrogen in feed: feed x protein x 0.16.
///
/// Feed 0 or more, protein 0 to 1; else `OutOfRange`. Source: 16 % N in protein, the usual figure (from memory). It is also what
/// uneaten feed gives in the end. Check: 200 g/day, 32 %: 10.24 g N/day.
pub fn nitrogen_in_feed(feed: MassRate, protein: Share) -> Result<MassRate, OutOfRange> {
    let feed = not_negative("feed", feed)?;
    result("nitrogen fed", feed * share("protein share of the feed", protein)? * 0.16)
}

/// Dry solids from feed: feed x `solids`.
///
/// Feed 0 or more; `solids` 0 to 1, likely 0.25 (0.20 to 0.35, Timmons & Ebeling quoted from memory); else `OutOfRange`.
/// No outside check: a ratio. Wet dirt is 10 to 20 times that.
pub fn solids_from_feed(feed: MassRate, solids: Share) -> Result<MassRate, OutOfRange> {
    let feed = not_negative("feed", feed)?;
    result("solids made", feed * share("solids share of the feed", solids)?)
}

/// Oxygen used over days, from feed: feed x `oxygen` per feed.
///
/// Feed 0 or more; `oxygen` 0 to 2: fish alone 0.25 (0.2 to 0.5), with the bacteria 0.4 (0.3 to 1.0) (Timmons & Ebeling quoted
/// from memory); else `OutOfRange`. No outside check: a ratio. For hours, not days, use the oxygen use of the fish.
pub fn oxygen_from_feed(feed: MassRate, oxygen: Share) -> Result<MassRate, OutOfRange> {
    let feed = not_negative("feed", feed)?;
    let oxygen = within("oxygen per feed", oxygen, Share::ratio(0.0), Share::ratio(2.0))?;
    result("oxygen used", feed * oxygen)
}
