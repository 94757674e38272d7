//! Figures asked for by name ("turnover?", "un-ionised ammonia at 1.2 ppm, pH 8.2, 26 C?"). In: the words of a question, one
//! assessed tank. Out: the figures meant with their values, or what is missing to work them out. Knows no wording.

use super::assessment::TankView;
use crate::engine::waiting::{Waits, missing};
use crate::knowledge::index::normal;
use crate::rulebook::Book;
use crate::units::Spread;

/// A figure that was asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Asked {
    Known {
        figure: u16,
        instance: u16,
        range: Spread,
    },
    /// Cannot be worked out yet.
    Missing {
        figure: u16,
        waits: Waits,
    },
}

/// The figures that the words of a question name: those whose name, call or words stand in it, the longest first; a
/// figure named by a part of a longer name ("flow" in "delivered flow") is not meant.
pub fn named(book: &Book, question: &str) -> Vec<u16> {
    let question = format!(" {} ", normal(&question.replace(['?', ',', '.', ';', ':'], " ")));
    let mut found: Vec<(&str, u16)> = Vec::new();
    for (n, figure) in book.rules.figures.iter().enumerate() {
        if figure.given.is_some() {
            continue;
        }
        let longest = figure.spoken().iter().filter(|w| question.contains(w.as_str())).max_by_key(|w| w.len());
        found.extend(longest.map(|w| (w.trim(), n as u16)));
    }
    found.sort_by(|a, b| b.0.len().cmp(&a.0.len()).then(a.1.cmp(&b.1)));
    let mut out: Vec<(&str, u16)> = Vec::new();
    for (word, figure) in found {
        // Two figures of the same words are both meant; a shorter name inside a longer one is not.
        if !out.iter().any(|(longer, _)| longer.len() > word.len() && longer.contains(word)) {
            out.push((word, figure));
        }
    }
    out.into_iter().map(|(_, n)| n).collect()
}

/// Each named figure for each of its instances, with its range, or what it lacks.
pub fn asked(book: &Book, view: &TankView, figures: &[u16]) -> Vec<Asked> {
    let mut out = Vec::new();
    for figure in figures {
        let count = book.rules.figures[*figure as usize].for_thing.map_or(1, |t| view.world.count(t));
        let known: Vec<Asked> = (0..count)
            .filter_map(|instance| {
                let range = view.range(book, *figure, instance)?;
                Some(Asked::Known { figure: *figure, instance, range })
            })
            .collect();
        if known.is_empty() {
            let waits = missing(&book.schema, &book.rules, &view.world, &view.state, *figure);
            out.push(Asked::Missing { figure: *figure, waits });
        }
        out.extend(known);
    }
    out
}
