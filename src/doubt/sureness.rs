//! How sure advice is and how far figures reach: the plausible versions of one tank, worked out side by side. In: a book, an
//! assessed tank. Out: the range of each figure, the share of versions in which each finding speaks, and the fact that
//! decides it. Knows no wording.

use super::assessment::TankView;
use super::held::Held;
use super::varying::varying;
use super::versions::{self, Leaf, VERSIONS};
use crate::engine::finding::{self, Finding};
use crate::engine::lanes::{LaneWorld, run, speaking};
use crate::engine::{Engine, Value};
use crate::knowledge::schema::AttributeId;
use crate::rulebook::Book;
use crate::rulebook::book::Step;
use crate::rulebook::code::Read;
use crate::units::Spread;
use std::collections::{BTreeSet, HashMap};

/// What the versions of one tank say.
#[derive(Default)]
pub struct Doubts {
    pub ranges: HashMap<(u16, u16), Spread>,
    pub sure: HashMap<Finding, f64>,
    pub hangs_on: HashMap<Finding, (AttributeId, u16)>,
}

/// Works out the plausible versions and notes ranges and sureness.
pub fn try_versions(book: &Book, view: &TankView, held: Option<&Held>) -> Doubts {
    let mut doubts = Doubts::default();
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let leaves = versions::uncertain(&view.case, &book.schema, &book.rules);
    let also = held.map_or(&[][..], |h| &h.figures);
    let steps = varying(&engine, &view.world, &view.state, &leaves, also);
    let mut world = LaneWorld::new(&view.world);
    versions::put_all(&mut world, &leaves);
    if let Some(held) = held {
        held.hold_all(&engine, &mut world);
    }
    let state = run(&engine, &world, &view.state, &steps);
    let mut varies = vec![false; book.rules.figures.len()];
    for step in &steps {
        if let Step::Figure(n) = step {
            varies[*n as usize] = true;
        }
    }
    for (n, figure) in book.rules.figures.iter().enumerate() {
        for instance in 0..figure.for_thing.map_or(1, |t| view.world.count(t)) {
            if let Value::Number(value) = view.state.figure(n as u16, instance) {
                let spread = match varies[n] {
                    true => percentiles(&mut state.figure(n as u16, instance).known_numbers(), value),
                    false => Spread::exact(value),
                };
                doubts.ranges.insert((n as u16, instance), spread);
            }
        }
    }
    let found: HashMap<Finding, u128> = speaking(&book.rules, &world, &state).into_iter().collect();
    let speaks = |finding: &Finding| found.get(finding).copied().unwrap_or_default();
    let certain = certain(&engine, view, &leaves, speaks);
    for finding in &view.findings.speaking {
        let versions = speaks(finding);
        let mut share = f64::from(versions.count_ones()) / VERSIONS as f64;
        if share == 1.0 && !certain.contains(finding) {
            share = NEARLY_CERTAIN;
        }
        doubts.sure.insert(*finding, share);
        if share < 0.95 {
            // What the rule never read cannot decide it, however the versions fall.
            let evaluation = engine.evaluation(&view.world, &view.state);
            let read = &evaluation.leaves_of_rule(finding.rule, finding.instance, &view.grounds).facts;
            if let Some(leaf) = deciding(book, &leaves, versions, read) {
                doubts.hangs_on.insert(*finding, leaf);
            }
        }
    }
    doubts
}

/// The share of advice that held in every version and yet hangs on one fact at the end of its range.
const NEARLY_CERTAIN: f64 = 1.0 - 1.0 / VERSIONS as f64;

/// The findings that hold in every version, and at both ends of each fact that the caller could still tell: what is called
/// certain is not taken back by one answer.
fn certain(
    engine: &Engine,
    view: &TankView,
    leaves: &[versions::Uncertain],
    speaks: impl Fn(&Finding) -> u128,
) -> Vec<Finding> {
    let mut certain = view.findings.speaking.clone();
    certain.retain(|finding| speaks(finding) == u128::MAX);
    let (mut world, mut state) = (view.world.clone(), view.state.clone());
    for leaf in leaves {
        let Leaf::Fact { attribute, instance } = leaf.leaf else { continue };
        for end in [leaf.low, leaf.high] {
            world.set(attribute, instance, Value::Number(end));
            state.copy_from(&view.state);
            if engine.update(&world, &mut state, &[Read::Fact(attribute)]) {
                let found = finding::findings(engine.book, &world, &state);
                certain.retain(|f| found.speaking.binary_search(f).is_ok());
            }
        }
        world.set(attribute, instance, view.world.value(attribute, instance));
    }
    certain
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
    leaves: &[versions::Uncertain],
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
