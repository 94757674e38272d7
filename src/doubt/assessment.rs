//! The assessment of a call: for each tank the findings with how sure they are, the range of every figure, and the next
//! question worth asking. In: a book, a ledger. Out: everything a reply shows. Knows no wording.

use super::held::{Held, held};
use super::next_question::{NextQuestion, questions};
use super::varying::varying;
use super::versions::{self, Leaf, VERSIONS};
use crate::case::{Case, Ledger, facts::Facts};
use crate::engine::finding::{self, Finding, Findings};
use crate::engine::{Engine, State, Value, World, load};
use crate::knowledge::schema::AttributeId;
use crate::listen::reading::Statement;
use crate::rulebook::Book;
use crate::rulebook::book::Step;
use crate::rulebook::code::Read;
use crate::units::Spread;
use std::collections::{BTreeSet, HashMap};

/// One tank of a call, assessed.
#[derive(Clone, Debug)]
pub struct TankView {
    pub tank: u16,
    pub case: Case,
    pub world: World,
    pub state: State,
    pub findings: Findings,
    /// Low (5th percentile), plain value, high (95th) of each figure that is known, by figure and instance.
    pub ranges: HashMap<(u16, u16), Spread>,
    /// In which share of the plausible versions each finding speaks.
    pub sure: HashMap<Finding, f64>,
    /// The fact that decides a finding which is not sure.
    pub hangs_on: HashMap<Finding, (AttributeId, u16)>,
}

/// A call, assessed.
#[derive(Clone, Debug, Default)]
pub struct Assessment {
    pub tanks: Vec<TankView>,
    /// The question to put next.
    pub next: Option<NextQuestion>,
    /// Every question worth putting, of the first tank that has any, the most worth first.
    pub questions: Vec<NextQuestion>,
}

/// Statements of a call with what is supposed on top of them.
pub fn statements<'s>(ledger: &'s Ledger, suppose: &'s [Statement]) -> Vec<(u16, &'s Statement)> {
    let last = ledger.turns().len() as u16;
    ledger.statements().chain(suppose.iter().map(|s| (last, s))).collect()
}

/// The numbers of the tanks spoken of; one if none was.
pub fn tanks(statements: &[(u16, &Statement)]) -> Vec<u16> {
    let mut tanks: Vec<u16> = statements.iter().map(|(_, s)| s.subject.tank.max(1)).collect();
    tanks.push(1);
    tanks.sort_unstable();
    tanks.dedup();
    tanks
}

/// The complete case of one tank.
pub fn case_of(book: &Book, tank: u16, statements: &[(u16, &Statement)]) -> Case {
    let facts = Facts::said(&book.schema, tank, statements.iter().copied());
    Case::complete(facts, &book.knowledge, &book.schema)
}

/// Findings of a case at its likely values: one pass of the engine.
pub fn plain(book: &Book, case: &Case) -> (World, State, Findings) {
    let world = load::world(case, &book.schema, &book.rules);
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let state = engine.run(&world);
    let findings = finding::findings(&book.rules, &world, &state);
    (world, state, findings)
}

/// Findings of a case that differs a little from one whose world and state are there.
pub fn plain_from(book: &Book, case: &Case, world: &World, state: &State) -> Findings {
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let changed = load::world(case, &book.schema, &book.rules);
    let state = engine.run_from(&changed, world, state);
    finding::findings(&book.rules, &changed, &state)
}

/// Assesses a call.
pub fn assess(book: &Book, ledger: &Ledger) -> Assessment {
    assess_supposing(book, ledger, &[])
}

/// Assesses a call as if `suppose` had been said too.
pub fn assess_supposing(book: &Book, ledger: &Ledger, suppose: &[Statement]) -> Assessment {
    let said = statements(ledger, suppose);
    let mut held = held(book, ledger, suppose);
    let mut tanks: Vec<TankView> = tanks(&said).into_iter().map(|tank| view(book, tank, &said, &mut held)).collect();
    // Neither needs the other: the versions are tried while the questions are weighed.
    let (doubts, questions) = rayon::join(
        || tanks.iter().map(|tank| try_versions(book, tank, of_tank(&mut held, tank.tank))).collect::<Vec<_>>(),
        || tanks.iter().map(|t| questions(book, ledger, t, &said)).find(|q| !q.is_empty()).unwrap_or_default(),
    );
    for (tank, doubts) in tanks.iter_mut().zip(doubts) {
        (tank.ranges, tank.sure, tank.hangs_on) = (doubts.ranges, doubts.sure, doubts.hangs_on);
    }
    Assessment { next: questions.first().cloned(), questions, tanks }
}

fn of_tank(held: &mut [Held], tank: u16) -> Option<&mut Held> {
    held.iter_mut().find(|h| h.tank == tank)
}

/// The plain pass of one tank; what it is unsure of is still open.
fn view(book: &Book, tank: u16, said: &[(u16, &Statement)], held: &mut [Held]) -> TankView {
    let case = case_of(book, tank, said);
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let mut world = load::world(&case, &book.schema, &book.rules);
    if let Some(held) = of_tank(held, tank) {
        held.hold(&engine, None, &mut world);
    }
    let state = engine.run(&world);
    let findings = finding::findings(&book.rules, &world, &state);
    TankView {
        tank,
        case,
        world,
        state,
        findings,
        ranges: HashMap::new(),
        sure: HashMap::new(),
        hangs_on: HashMap::new(),
    }
}

/// What the versions of one tank say.
#[derive(Default)]
struct Doubts {
    ranges: HashMap<(u16, u16), Spread>,
    sure: HashMap<Finding, f64>,
    hangs_on: HashMap<Finding, (AttributeId, u16)>,
}

/// Runs the plausible versions and notes ranges and sureness.
fn try_versions(book: &Book, view: &TankView, mut held: Option<&mut Held>) -> Doubts {
    let mut doubts = Doubts::default();
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let leaves = versions::uncertain(&view.case, &book.schema, &book.rules);
    let also = held.as_ref().map_or(&[][..], |h| &h.figures);
    let steps = varying(&engine, &view.world, &view.state, &leaves, also);
    let mut drawn: Vec<(u16, u16, f64, Vec<f64>)> = Vec::new();
    for (n, figure) in book.rules.figures.iter().enumerate() {
        let varies = steps.contains(&Step::Figure(n as u16));
        for instance in 0..figure.for_thing.map_or(1, |t| view.world.count(t)) {
            if let Value::Number(value) = view.state.figure(n as u16, instance) {
                match varies {
                    true => drawn.push((n as u16, instance, value, Vec::with_capacity(VERSIONS))),
                    false => drop(doubts.ranges.insert((n as u16, instance), Spread::exact(value))),
                }
            }
        }
    }
    let mut speaks: Vec<Vec<bool>> = vec![Vec::with_capacity(VERSIONS); view.findings.speaking.len()];
    let mut world = view.world.clone();
    let mut state = view.state.clone();
    let mut found = view.findings.clone();
    for version in 0..VERSIONS {
        versions::put(&mut world, &leaves, version);
        if let Some(held) = &mut held {
            held.hold(&engine, Some(version), &mut world);
        }
        if engine.run_steps(&steps, &world, &mut state) {
            found = finding::findings(&book.rules, &world, &state);
        }
        for (figure, instance, _, values) in &mut drawn {
            if let Value::Number(value) = state.figure(*figure, *instance) {
                values.push(value);
            }
        }
        for (slot, finding) in speaks.iter_mut().zip(&view.findings.speaking) {
            slot.push(found.speaking.binary_search(finding).is_ok());
        }
    }
    for (figure, instance, plain, mut values) in drawn {
        doubts.ranges.insert((figure, instance), percentiles(&mut values, plain));
    }
    let certain = certain(&engine, view, &leaves, &speaks);
    for (truths, finding) in speaks.into_iter().zip(view.findings.speaking.clone()) {
        let mut share = truths.iter().filter(|t| **t).count() as f64 / VERSIONS as f64;
        if share == 1.0 && !certain.contains(&finding) {
            share = NEARLY_CERTAIN;
        }
        doubts.sure.insert(finding, share);
        // What the rule never read cannot decide it, however the versions fall.
        let read = engine.evaluation(&view.world, &view.state).leaves_of_rule(finding.rule, finding.instance).facts;
        if share < 0.95
            && let Some(leaf) = deciding(book, &leaves, &truths, &read)
        {
            doubts.hangs_on.insert(finding, leaf);
        }
    }
    doubts
}

/// The share of advice that held in every version and yet hangs on one fact at the end of its range.
const NEARLY_CERTAIN: f64 = 1.0 - 1.0 / VERSIONS as f64;

/// The findings that hold in every version, and at both ends of each fact that the caller could still tell: what is called
/// certain is not taken back by one answer.
fn certain(engine: &Engine, view: &TankView, leaves: &[versions::Uncertain], speaks: &[Vec<bool>]) -> Vec<Finding> {
    let always = view.findings.speaking.iter().zip(speaks).filter(|(_, truths)| !truths.contains(&false));
    let mut certain: Vec<Finding> = always.map(|(finding, _)| *finding).collect();
    let mut world = view.world.clone();
    for leaf in leaves {
        let Leaf::Fact { attribute, instance } = leaf.leaf else { continue };
        for end in [leaf.low, leaf.high] {
            world.set(attribute, instance, Value::Number(end));
            let mut state = view.state.clone();
            engine.update(&world, &mut state, &[Read::Fact(attribute)]);
            if state.differs_in_rules(&view.state) {
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
    values.sort_unstable_by(f64::total_cmp);
    let at = |share: f64| values[((values.len() - 1) as f64 * share).round() as usize];
    Spread::between(at(0.05).min(plain), plain, at(0.95).max(plain))
}

/// The fact that best separates the versions in which a finding speaks from those in which it does not, among the facts a
/// caller can be asked for.
fn deciding(
    book: &Book,
    leaves: &[versions::Uncertain],
    truths: &[bool],
    read: &BTreeSet<(AttributeId, u16)>,
) -> Option<(AttributeId, u16)> {
    let yes = truths.iter().filter(|t| **t).count();
    if yes == 0 || yes == truths.len() {
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
            let shares = truths.iter().enumerate().filter(|(_, t)| **t == want).map(|(v, _)| leaf.share(v));
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
