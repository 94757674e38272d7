//! What if: a call compared with the same call and something supposed on top. In: two assessments of one book. Out: what
//! would change, advice by advice and figure by figure. Knows no wording.

use super::assessment::{Assessment, TankView};
use super::next_question::changed;
use crate::engine::finding::Finding;
use crate::rulebook::Book;
use crate::units::Spread;

/// A figure with its ranges before and after; `None` where it is not known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FigureChange {
    pub tank: u16,
    pub figure: u16,
    pub instance: u16,
    pub before: Option<Spread>,
    pub after: Option<Spread>,
}

/// What would change.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Changes {
    /// Advice that would be given, and that would no longer be.
    pub starts: Vec<(u16, Finding)>,
    pub stops: Vec<(u16, Finding)>,
    pub figures: Vec<FigureChange>,
}

impl Changes {
    pub fn is_empty(&self) -> bool {
        self.starts.is_empty() && self.stops.is_empty() && self.figures.is_empty()
    }
}

/// Figures whose likely value moves by less than this share do not count as changed.
const LEAST_CHANGE: f64 = 0.005;

/// Compares tank by tank; a tank that only one side knows counts as all new or all gone.
pub fn compare(book: &Book, before: &Assessment, after: &Assessment) -> Changes {
    let mut changes = Changes::default();
    for view in &after.tanks {
        let former = before.tanks.iter().find(|t| t.tank == view.tank);
        compare_tank(book, former, view, &mut changes);
    }
    changes.figures.sort_by_key(|f| (f.tank, f.figure, f.instance));
    changes
}

fn compare_tank(book: &Book, before: Option<&TankView>, after: &TankView, changes: &mut Changes) {
    let tank = after;
    let Some(before) = before else {
        changes.starts.extend(after.findings.speaking.iter().map(|f| (after.tank, *f)));
        return;
    };
    let (starts, stops) = changed(&before.findings, &after.findings);
    changes.starts.extend(starts.into_iter().map(|f| (after.tank, f)));
    changes.stops.extend(stops.into_iter().map(|f| (after.tank, f)));
    for (n, figure) in book.rules.figures.iter().enumerate() {
        let count = |view: &TankView| figure.for_thing.map_or(1, |t| view.world.count(t));
        for instance in 0..count(before).max(count(after)) {
            let likely = |view: &TankView| match instance < count(view) {
                true => view.state.figure(n as u16, instance).number(),
                false => None,
            };
            if differs(likely(before), likely(after)) {
                let range = |view: &TankView| likely(view).and_then(|_| view.range(book, n as u16, instance));
                let (before, after) = (range(before), range(after));
                changes.figures.push(FigureChange { tank: tank.tank, figure: n as u16, instance, before, after });
            }
        }
    }
}

fn differs(a: Option<f64>, b: Option<f64>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => (a - b).abs() > LEAST_CHANGE * a.abs().max(b.abs()),
        (None, None) => false,
        _ => true,
    }
}
