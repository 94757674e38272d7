//! The assessment of a call: for each tank the findings with how sure they are, the range of every figure, and the next
//! question worth asking. In: a book, a ledger. Out: everything a reply shows. Knows no wording.

use super::held::{Held, held};
use super::next_question::{NextQuestion, questions};
use super::sureness::{self, doubts};
use super::versions::{self, Versions};
use crate::case::{Case, Ledger, facts::Facts};
use crate::engine::finding::{self, Finding, Findings};
use crate::engine::lanes::{Cells, LanePass};
use crate::engine::{Engine, Grounds, State, World, load};
use crate::knowledge::schema::AttributeId;
use crate::listen::reading::Statement;
use crate::rulebook::Book;
use crate::units::Spread;
use std::collections::HashMap;
use std::sync::OnceLock;

/// One tank of a call, assessed.
#[derive(Clone, Debug)]
pub struct TankView {
    pub tank: u16,
    /// What was said of it, and the same completed.
    pub said: Facts,
    pub case: Case,
    pub world: World,
    pub state: State,
    pub findings: Findings,
    /// What its figures and rules rest on.
    pub grounds: Grounds,
    /// What is uncertain of it, and what its plausible versions come to, as far as that was asked.
    pub versions: Versions,
    pub(super) cells: Cells,
    /// By place in the state.
    ranges: Vec<OnceLock<Option<Spread>>>,
    /// In which share of the plausible versions each finding speaks.
    pub sure: HashMap<Finding, f64>,
    /// The fact that decides a finding which is not sure.
    pub hangs_on: HashMap<Finding, (AttributeId, u16)>,
}

impl TankView {
    /// The plausible versions of the tank, as far as they are asked for.
    pub fn versions_of<'v>(&'v self, book: &'v Book) -> LanePass<'v> {
        let engine = Engine { schema: &book.schema, book: &book.rules };
        LanePass { engine, world: &self.world, plain: &self.state, vary: &self.versions, cells: &self.cells }
    }

    /// Low (5th percentile), plain value and high (95th) of a figure; `None` where it is not known.
    pub fn range(&self, book: &Book, figure: u16, instance: u16) -> Option<Spread> {
        let cell = &self.ranges[self.state.figure_place(figure, instance)?];
        *cell.get_or_init(|| sureness::range(book, self, figure, instance))
    }
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
    completed(book, Facts::said(&book.schema, tank, statements.iter().copied()))
}

/// The complete case of what was said.
pub fn completed(book: &Book, facts: Facts) -> Case {
    Case::complete(facts, &book.knowledge, &book.schema, &book.look_ups)
}

/// Findings of a case at its likely values: one pass of the engine.
pub fn plain(book: &Book, case: &Case) -> (World, State, Findings) {
    let world = load::world(case, &book.schema, &book.rules);
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let state = engine.run(&world);
    let findings = finding::findings(&book.rules, &state);
    (world, state, findings)
}

/// Findings of a case that differs a little from one whose world and state are there.
pub fn plain_from(book: &Book, case: &Case, world: &World, state: &State) -> Findings {
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let changed = load::world(case, &book.schema, &book.rules);
    let state = engine.run_from(&changed, world, state);
    finding::findings(&book.rules, &state)
}

/// Assesses a call.
pub fn assess(book: &Book, ledger: &Ledger) -> Assessment {
    assess_supposing(book, ledger, &[])
}

/// Assesses a call as if `suppose` had been said too.
pub fn assess_supposing(book: &Book, ledger: &Ledger, suppose: &[Statement]) -> Assessment {
    let said = statements(ledger, suppose);
    let held = held(book, ledger, suppose);
    let mut tanks: Vec<TankView> = tanks(&said).into_iter().map(|tank| view(book, tank, &said, &held)).collect();
    // Neither needs the other: the versions are tried while the questions are weighed.
    let (all_doubts, questions) = rayon::join(
        || tanks.iter().map(|tank| doubts(book, tank)).collect::<Vec<_>>(),
        || tanks.iter().map(|t| questions(book, ledger, t, &said)).find(|q| !q.is_empty()).unwrap_or_default(),
    );
    for (tank, doubts) in tanks.iter_mut().zip(all_doubts) {
        (tank.sure, tank.hangs_on) = (doubts.sure, doubts.hangs_on);
    }
    Assessment { next: questions.first().cloned(), questions, tanks }
}

fn of_tank(held: &[Held], tank: u16) -> Option<&Held> {
    held.iter().find(|h| h.tank == tank)
}

/// The plain pass of one tank; what it is unsure of is still open.
fn view(book: &Book, tank: u16, said: &[(u16, &Statement)], held: &[Held]) -> TankView {
    let said = Facts::said(&book.schema, tank, said.iter().copied());
    let case = completed(book, said.clone());
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let mut world = load::world(&case, &book.schema, &book.rules);
    let mut versions = Versions::of(versions::uncertain(&case, &book.schema, &book.rules), &world);
    if let Some(held) = of_tank(held, tank) {
        held.hold(&engine, &mut world);
        held.hold_all(&engine, &world, &mut versions);
    }
    let state = engine.run(&world);
    let findings = finding::findings(&book.rules, &state);
    TankView {
        tank,
        said,
        case,
        world,
        grounds: Grounds::of(&state),
        findings,
        ranges: vec![OnceLock::new(); state.figure_places()],
        cells: Cells::of(&engine, &state),
        versions,
        state,
        sure: HashMap::new(),
        hangs_on: HashMap::new(),
    }
}
