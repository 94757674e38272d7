//! Coverage: what the examples of a book, and saved calls, try. In: lines that were run. Out: counts, and what none of them tries.

use super::limits::{limits, sides};
use super::{Call, Trial};

/// What the examples try.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Coverage {
    pub rules: usize,
    /// Rules that speak in some example of the book.
    pub speaking: usize,
    /// Rules that speak in none, by name.
    pub never: Vec<String>,
    pub limits: usize,
    /// Limits that some example of the book meets and another misses.
    pub tried: usize,
}

impl Trial<'_> {
    /// `saved`: saved calls, which count like examples.
    pub fn coverage(&self, saved: &[Call]) -> Coverage {
        let book = self.book;
        let mut coverage = Coverage { rules: book.rules.rules.len(), ..Coverage::default() };
        for (n, rule) in book.rules.rules.iter().enumerate() {
            let holds = self.calls.iter().chain(saved).any(|call| {
                call.tanks.iter().any(|(world, state, _)| {
                    (0..rule.for_thing.map_or(1, |t| world.count(t))).any(|i| state.rule(n as u16, i).is_true())
                })
            });
            match holds {
                true => coverage.speaking += 1,
                false => coverage.never.push(rule.name.clone()),
            }
            for limit in limits(book, &self.phrases, n as u16) {
                coverage.limits += 1;
                coverage.tried +=
                    usize::from(sides(book, n as u16, &limit, self.calls.iter().chain(saved)) == (true, true));
            }
        }
        coverage
    }
}
