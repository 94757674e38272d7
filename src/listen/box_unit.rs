//! The unit of a box told without one: "6x2x2". In: three figures. Out: the only unit in which such a tank is built, or the
//! question which. Gives no figure.

use super::bind::Binder;
use super::found::Doubt;
use super::measure::Measure;
use super::name;
use super::reading::{Doubtful, Statement};
use crate::units::{Unit, unit};

/// Units that boxes are told in: what they are called, the smallest and the largest tank told in them (litres; settled choice:
/// nobody counts a bowl in feet, nor a pond in inches).
const TOLD_IN: [(&str, &str, f64, f64); 3] =
    [("cm", "centimetres", 3.0, 3000.0), ("in", "inches", 3.0, 3000.0), ("ft", "feet", 30.0, 6000.0)];
/// The same for ponds.
const PONDS_TOLD_IN: [(&str, &str, f64, f64); 4] = [
    ("cm", "centimetres", 100.0, 100_000.0),
    ("in", "inches", 100.0, 20_000.0),
    ("ft", "feet", 100.0, 100_000.0),
    ("m", "metres", 500.0, 500_000.0),
];
/// Litres in a cubic metre.
const LITRES: f64 = 1000.0;

impl Binder<'_, '_> {
    /// The unit in which the box is plausible; where it is in two, the one that the call counts in, and asked.
    pub fn unit_of_box(&mut self, item: usize, sizes: &[Measure], terms: &[usize]) -> Option<&'static Unit> {
        let values: Vec<f64> = sizes.iter().filter_map(|s| s.likely).collect();
        let [a, b, c] = values[..] else { return None };
        let told_in: &[(&str, &str, f64, f64)] = if self.is_pond() { &PONDS_TOLD_IN } else { &TOLD_IN };
        let litres = |u: &Unit| u.to_base(a) * u.to_base(b) * u.to_base(c) * LITRES;
        let known =
            told_in.iter().filter_map(|(name, word, low, high)| Some((unit::by_name(name)?, *word, *low..=*high)));
        let mut fits: Vec<(&'static Unit, &str)> =
            known.filter(|(u, _, held)| held.contains(&litres(u))).map(|(u, word, _)| (u, word)).collect();
        match fits[..] {
            [(only, _)] => return Some(only),
            // A box that nobody builds: the two usual units are offered all the same.
            [] => fits.extend(
                [("cm", "centimetres"), ("in", "inches")].iter().filter_map(|(n, w)| Some((unit::by_name(n)?, *w))),
            ),
            _ => {}
        }
        let said = self.said(&self.terms_of(item, item));
        let choices: Vec<String> =
            fits.iter().map(|(u, word)| format!("{word} (about {} litres)", litres(u).round())).collect();
        let choices: Vec<&str> = choices.iter().map(String::as_str).collect();
        let ask = format!("Is {said} in {}?", crate::source::words::or_list(&choices));
        let of = self.tank(self.state.tank);
        let statements = |u: &'static Unit| -> Vec<Statement> {
            let targets = [name::LENGTH, name::WIDTH, name::HEIGHT];
            sizes.iter().zip(targets).map(|(s, t)| self.offer(of.clone(), t, s.amount(u))).collect()
        };
        let readings = fits.iter().map(|(u, word)| (word.to_string(), statements(u))).collect();
        let metric = self.state.volume_unit.map(|u| u == "L");
        let counts = |u: &Unit| metric == Some(matches!(u.name, "cm" | "m"));
        let taken = fits.iter().map(|(u, _)| *u).find(|u| counts(u));
        let of_doubt = if taken.is_some() { Vec::new() } else { terms.to_vec() };
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, of_doubt) });
        taken
    }
}
