//! Plausible versions of a case: every uncertain quantity drawn from its spread, always the same ones for the same case.
//! In: a case, its plain world, the book. Out: worlds, one a version. Knows no advice.

use crate::case::Case;
use crate::case::fact::FactValue;
use crate::engine::lanes::{LANES, Lanes, Vary};
use crate::engine::value::Value;
use crate::engine::world::World;
use crate::knowledge::schema::{AttributeId, Schema};
use crate::rulebook::Rulebook;
use crate::units::Spread;
use std::collections::HashMap;
use std::sync::{Arc, LazyLock, OnceLock, RwLock};

/// How many versions are tried: enough that a twentieth of them is six, and all are worked out at once.
pub const VERSIONS: usize = LANES;

/// Something uncertain: a fact of the case, or a given number of the book.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Leaf {
    Fact { attribute: AttributeId, instance: u16 },
    Given { figure: u16 },
}

/// One uncertain leaf with its range and the order in which the versions draw from it.
#[derive(Clone, Debug)]
pub struct Uncertain {
    pub leaf: Leaf,
    pub low: f64,
    pub likely: f64,
    pub high: f64,
    /// For each version, which of the equal slices of the range it draws from: a shuffle that depends on the leaf's name
    /// alone, so that another leaf more or less changes nothing.
    slices: Arc<Slices>,
}

type Slices = [u8; VERSIONS];

impl Uncertain {
    /// The value in a version. Half of the versions lie on either side of the likely value; each side is drawn with a
    /// density that falls to nothing at its end, so that the ends are rare.
    pub fn value(&self, version: usize) -> f64 {
        let slice = self.slices[version] as usize;
        match slice < VERSIONS / 2 {
            true => self.low + (self.likely - self.low) * ROOTS[slice],
            false => self.high - (self.high - self.likely) * ROOTS[VERSIONS - 1 - slice],
        }
    }

    /// Where in its range a version lies, 0 to 1.
    pub fn share(&self, version: usize) -> f64 {
        (f64::from(self.slices[version]) + 0.5) / VERSIONS as f64
    }
}

/// How far from its end towards the likely value each slice of a side lies: as the root of its share of that side.
static ROOTS: LazyLock<[f64; VERSIONS / 2]> =
    LazyLock::new(|| std::array::from_fn(|slice| (2.0 * (slice as f64 + 0.5) / VERSIONS as f64).sqrt()));

/// Everything uncertain in a case, in a fixed order.
pub fn uncertain(case: &Case, schema: &Schema, book: &Rulebook) -> Vec<Uncertain> {
    let mut leaves = Vec::new();
    for (n, figure) in book.figures.iter().enumerate() {
        if let Some(Spread { low: Some(low), likely: Some(likely), high: Some(high) }) = figure.given
            && low < high
        {
            let slices = slices(&figure.name, 0);
            leaves.push(Uncertain { leaf: Leaf::Given { figure: n as u16 }, low, likely, high, slices });
        }
    }
    for instances in &case.facts.things {
        for (instance, thing) in instances.iter().enumerate() {
            for (id, fact) in &thing.facts {
                if !matches!(fact.value, FactValue::Amount(_)) {
                    continue;
                }
                let Some((low, likely, high)) = ends(fact.spread) else { continue };
                if low < high {
                    let leaf = Leaf::Fact { attribute: *id, instance: instance as u16 };
                    let slices = slices(&schema.path_name(*id), instance as u64);
                    leaves.push(Uncertain { leaf, low, likely, high, slices });
                }
            }
        }
    }
    leaves
}

/// Both ends and the middle. A bound without another end ("under 20", "at least 5") reaches half as far again: how far it
/// really reaches was not said.
fn ends(spread: Spread) -> Option<(f64, f64, f64)> {
    match (spread.low, spread.likely, spread.high) {
        (Some(low), Some(likely), Some(high)) => Some((low, likely, high)),
        (None, _, Some(high)) => Some((high * 0.5, high * 0.8, high)),
        (Some(low), _, None) => Some((low, low * 1.2, low * 1.5)),
        _ => None,
    }
}

/// The shuffle of a name; made once, since every call has mostly the same uncertain things.
fn slices(name: &str, instance: u64) -> Arc<Slices> {
    static MADE: LazyLock<RwLock<HashMap<u64, Arc<Slices>>>> = LazyLock::new(RwLock::default);
    let mut seed = 0xcbf2_9ce4_8422_2325_u64 ^ instance.wrapping_mul(0x9e37_79b9_7f4a_7c15);
    for byte in name.bytes() {
        seed = (seed ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
    }
    if let Some(made) = MADE.read().unwrap_or_else(|poisoned| poisoned.into_inner()).get(&seed) {
        return made.clone();
    }
    let slices = Arc::new(shuffled(seed));
    MADE.write().unwrap_or_else(|poisoned| poisoned.into_inner()).insert(seed, slices.clone());
    slices
}

fn shuffled(mut seed: u64) -> Slices {
    let mut next = || {
        seed = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = seed;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    };
    let mut slices: Slices = std::array::from_fn(|n| n as u8);
    for n in (1..VERSIONS).rev() {
        slices.swap(n, (next() % (n as u64 + 1)) as usize);
    }
    slices
}

/// Puts version number `version` into `world`.
pub fn put(world: &mut World, leaves: &[Uncertain], version: usize) {
    for leaf in leaves {
        let value = leaf.value(version);
        match leaf.leaf {
            Leaf::Fact { attribute, instance } => world.set(attribute, instance, Value::Number(value)),
            Leaf::Given { figure } => world.set_given(figure, value),
        }
    }
}

/// All versions of a case side by side, each drawn when it is first asked for.
#[derive(Clone, Debug, Default)]
pub struct Versions {
    pub leaves: Vec<Uncertain>,
    /// Leaves by the place of the fact in the world, and by the number of the figure.
    facts: HashMap<usize, usize>,
    givens: HashMap<u16, usize>,
    drawn: Vec<OnceLock<Lanes>>,
    held: HashMap<(u16, u16), Lanes>,
}

impl Versions {
    pub fn of(leaves: Vec<Uncertain>, world: &World) -> Self {
        let mut versions = Self { drawn: vec![OnceLock::new(); leaves.len()], ..Self::default() };
        for (n, leaf) in leaves.iter().enumerate() {
            match leaf.leaf {
                Leaf::Fact { attribute, instance } => drop(versions.facts.insert(world.place(attribute, instance), n)),
                Leaf::Given { figure } => drop(versions.givens.insert(figure, n)),
            }
        }
        Self { leaves, ..versions }
    }

    /// Keeps a figure's values.
    pub fn hold(&mut self, figure: u16, instance: u16, lanes: Lanes) {
        self.held.insert((figure, instance), lanes);
    }

    fn drawn(&self, n: usize) -> &Lanes {
        let leaf = &self.leaves[n];
        self.drawn[n].get_or_init(|| Lanes::numbers(std::array::from_fn(|version| leaf.value(version))))
    }
}

impl Vary for Versions {
    fn fact(&self, place: usize) -> Option<&Lanes> {
        self.facts.get(&place).map(|n| self.drawn(*n))
    }

    fn given(&self, figure: u16) -> Option<&Lanes> {
        self.givens.get(&figure).map(|n| self.drawn(*n))
    }

    fn held(&self, figure: u16, instance: u16) -> Option<&Lanes> {
        self.held.get(&(figure, instance))
    }
}
