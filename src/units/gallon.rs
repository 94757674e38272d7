//! Gallons of which nobody said whose they are. In: units, two measures of one thing. Out: what a unit may mean, which
//! gallon makes the two agree. Knows no words.

use super::amount::Amount;
use super::unit::{self, Unit};

/// Two figures for one measure agree when they differ by no more: both are rounded.
const AGREES: f64 = 0.025;

/// What a unit may mean: a gallon may be either; every other unit is itself.
pub fn meanings(unit: &'static Unit) -> Vec<&'static Unit> {
    let both = match unit.name {
        "gal" => ["usgal", "impgal"],
        "gal/h" => ["usgal/h", "impgal/h"],
        _ => return vec![unit],
    };
    both.into_iter().filter_map(unit::by_name).collect()
}

/// Whether two numbers with their units are the same measure.
pub fn agree((a, of_a): (f64, &Unit), (b, of_b): (f64, &Unit)) -> bool {
    let exact = of_b.from_base(of_a.to_base(a));
    (exact - b).abs() <= AGREES * exact.abs()
}

/// The meanings of two units under which two measures are the same; none where no meaning or more than one makes them so.
pub fn between(a: &Amount, b: &Amount) -> Option<(&'static Unit, &'static Unit)> {
    let (x, y) = (a.middle()?, b.middle()?);
    let pairs = meanings(a.unit).into_iter().flat_map(|u| meanings(b.unit).into_iter().map(move |v| (u, v)));
    let mut fitting = pairs.filter(|(u, v)| agree((x, u), (y, v)));
    let found = fitting.next()?;
    fitting.next().is_none().then_some(found)
}
