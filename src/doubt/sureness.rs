//! How sure advice is and how far figures reach: the plausible versions of one tank, side by side. In: a book, an assessed
//! tank. Out: the range of a figure, the share of versions in which each finding speaks, and the fact that decides it. Knows
//! no wording.

use super::assessment::TankView;
use super::versions::{Leaf, Uncertain, VERSIONS};
use crate::engine::finding::Finding;
use crate::engine::lanes::{Cells, LANES, LanePass, Lanes, Varied};
use crate::engine::{Engine, Value};
use crate::knowledge::schema::AttributeId;
use crate::rulebook::Book;
use crate::units::Spread;
use std::collections::{BTreeSet, HashMap};

/// What the versions of one tank say of its advice.
#[derive(Default)]
pub struct Doubts {
    pub sure: HashMap<Finding, f64>,
    pub hangs_on: HashMap<Finding, (AttributeId, u16)>,
}

/// How sure each finding is, and what it hangs on.
pub fn doubts(book: &Book, view: &TankView) -> Doubts {
    let mut doubts = Doubts::default();
    let pass = view.versions_of(book);
    let spoken: Vec<(Finding, u128)> = view.findings.speaking.iter().map(|f| (*f, pass.speaks(*f))).collect();
    let always = spoken.iter().filter(|(_, versions)| *versions == u128::MAX).map(|(finding, _)| *finding);
    let certain = certain(&pass.engine, view, always.collect());
    for (finding, versions) in spoken {
        let mut share = f64::from(versions.count_ones()) / VERSIONS as f64;
        if share == 1.0 && !certain.contains(&finding) {
            share = NEARLY_CERTAIN;
        }
        doubts.sure.insert(finding, share);
        if share < 0.95 {
            // What the rule never read cannot decide it, however the versions fall.
            let evaluation = pass.engine.evaluation(&view.world, &view.state);
            let read = &evaluation.leaves_of_rule(finding.rule, finding.instance, &view.grounds).facts;
            if let Some(leaf) = deciding(book, &view.versions.leaves, versions, read) {
                doubts.hangs_on.insert(finding, leaf);
            }
        }
    }
    doubts
}

/// Low (5th percentile), plain value and high (95th) of a figure; `None` where it is not known.
pub fn range(book: &Book, view: &TankView, figure: u16, instance: u16) -> Option<Spread> {
    let plain = view.state.figure(figure, instance).number()?;
    match view.versions_of(book).figure(figure, instance) {
        Lanes::One(_) => Some(Spread::exact(plain)),
        lanes => Some(percentiles(&mut lanes.known_numbers(), plain)),
    }
}

/// The share of advice that held in every version and yet hangs on one fact at the end of its range.
const NEARLY_CERTAIN: f64 = 1.0 - 1.0 / VERSIONS as f64;

/// Of the findings that hold in every version those that hold also at both ends of each fact that the caller could still
/// tell: what is called certain is not taken back by one answer.
fn certain(engine: &Engine, view: &TankView, mut always: Vec<Finding>) -> Vec<Finding> {
    let facts = view.versions.leaves.iter().filter_map(|leaf| match leaf.leaf {
        Leaf::Fact { attribute, instance } => Some((attribute, instance, [leaf.low, leaf.high])),
        Leaf::Given { .. } => None,
    });
    let facts: Vec<_> = facts.collect();
    // Two lanes a fact, everything else as it is.
    for facts in facts.chunks(LANES / 2) {
        let mut ends = Varied::default();
        for (n, (attribute, instance, both)) in facts.iter().enumerate() {
            let mut lanes = [view.world.value(*attribute, *instance); LANES];
            (lanes[2 * n], lanes[2 * n + 1]) = (Value::Number(both[0]), Value::Number(both[1]));
            ends.set(&view.world, *attribute, *instance, Lanes::of(&lanes));
        }
        let cells = Cells::of(engine, &view.state);
        let pass = LanePass { engine: *engine, world: &view.world, plain: &view.state, vary: &ends, cells: &cells };
        always.retain(|finding| pass.speaks(*finding) == u128::MAX);
    }
    always
}

/// 5th and 95th percentile around the plain value.
fn percentiles(values: &mut [f64], plain: f64) -> Spread {
    if values.is_empty() {
        return Spread::exact(plain);
    }
    let last = (values.len() - 1) as f64;
    let mut at = |share: f64| *values.select_nth_unstable_by((last * share).round() as usize, f64::total_cmp).1;
    Spread::between(at(0.05).min(plain), plain, at(0.95).max(plain))
}

/// The fact that best separates the versions in which a finding speaks from those in which it does not, among the facts a
/// caller can be asked for.
fn deciding(
    book: &Book,
    leaves: &[Uncertain],
    speaks: u128,
    read: &BTreeSet<(AttributeId, u16)>,
) -> Option<(AttributeId, u16)> {
    if speaks == 0 || speaks == u128::MAX {
        return None;
    }
    let mut best: Option<(f64, (AttributeId, u16))> = None;
    for leaf in leaves {
        let Leaf::Fact { attribute, instance } = leaf.leaf else { continue };
        if !read.contains(&(attribute, instance)) {
            continue;
        }
        let schema = book.schema.of(attribute);
        let thing = &book.schema.thing_of(schema.thing).name;
        if book.knowledge.vocabulary.attribute(thing, &schema.name).is_none_or(|a| a.ask.is_none()) {
            continue;
        }
        let mean = |want: bool| {
            let versions = (0..VERSIONS).filter(|v| (speaks >> v & 1 == 1) == want);
            let shares = versions.map(|v| leaf.share(v));
            let (sum, count) = shares.fold((0.0, 0.0), |(s, n), share| (s + share, n + 1.0));
            sum / f64::max(count, 1.0)
        };
        let apart = (mean(true) - mean(false)).abs();
        if best.is_none_or(|(most, _)| apart > most + 1e-12) {
            best = Some((apart, (attribute, instance)));
        }
    }
    best.filter(|(apart, _)| *apart > 0.15).map(|(_, leaf)| leaf)
}
