//! What a reading shows stays as it is while something else is supposed: who asks what half a change would do asks it of the
//! tank whose nitrate rises as it does now. In: a call, what is supposed. Out: figures kept, version by version. Knows no
//! answer.

use super::assessment::{case_of, statements, tanks};
use super::versions::{self, Uncertain, Versions};
use crate::case::Ledger;
use crate::engine::lanes::{Cells, LanePass};
use crate::engine::{Engine, World, load};
use crate::knowledge::schema::AttributeId;
use crate::listen::reading::{Says, Statement};
use crate::rulebook::Book;
use crate::rulebook::book::Figure;

/// What readings show of a tank as it is, version by version: the tank's number, and its plain pass with what is held.
pub struct Held {
    pub tank: u16,
    world: World,
    leaves: Vec<Uncertain>,
    pub figures: Vec<u16>,
}

/// The figures that readings show and that nothing supposed would show otherwise.
pub fn held(book: &Book, ledger: &Ledger, suppose: &[Statement]) -> Vec<Held> {
    let supposed = |id: AttributeId| {
        let path = book.schema.path_name(id);
        suppose.iter().any(|s| match &s.says {
            Says::Value { attribute, .. } => format!("{}.{attribute}", s.subject.thing) == path,
            _ => s.subject.thing == book.schema.thing_of(book.schema.of(id).thing).name,
        })
    };
    let read_off = |(n, figure): (usize, &Figure)| figure.read_off.filter(|id| !supposed(*id)).map(|_| n as u16);
    let figures: Vec<u16> = book.rules.figures.iter().enumerate().filter_map(read_off).collect();
    if suppose.is_empty() || figures.is_empty() {
        return vec![];
    }
    let said = statements(ledger, &[]);
    let each = tanks(&said).into_iter().map(|tank| {
        let case = case_of(book, tank, &said);
        let world = load::world(&case, &book.schema, &book.rules);
        let leaves = versions::uncertain(&case, &book.schema, &book.rules);
        Held { tank, world, leaves, figures: figures.clone() }
    });
    each.collect()
}

impl Held {
    /// Keeps in `world` what the tank as it is shows.
    pub fn hold(&self, engine: &Engine, world: &mut World) {
        let state = engine.run(&self.world);
        for (figure, instance) in self.each(engine, world) {
            let value = state.figure(figure, instance);
            if value.is_known() {
                world.hold(figure, instance, value);
            }
        }
    }

    /// Keeps in `versions`, version by version, what the tank as it is shows.
    pub fn hold_all(&self, engine: &Engine, world: &World, versions: &mut Versions) {
        let plain = engine.run(&self.world);
        let own = Versions::of(self.leaves.clone(), &self.world);
        let cells = Cells::of(engine, &plain);
        let pass = LanePass { engine: *engine, world: &self.world, plain: &plain, vary: &own, cells: &cells };
        for (figure, instance) in self.each(engine, world) {
            let lanes = pass.figure(figure, instance);
            if lanes.known() != 0 {
                versions.hold(figure, instance, lanes);
            }
        }
    }

    /// The figures that are kept, each with the instances that both worlds have.
    fn each(&self, engine: &Engine, world: &World) -> Vec<(u16, u16)> {
        let count = |figure: u16| {
            let of = engine.book.figures[figure as usize].for_thing;
            of.map_or(1, |t| self.world.count(t).min(world.count(t)))
        };
        self.figures.iter().flat_map(|figure| (0..count(*figure)).map(|instance| (*figure, instance))).collect()
    }
}
