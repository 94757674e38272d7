//! The first screen: what fits into few lines, the most urgent first. In: an answer, a width. Out: which parts to show.
//! Emergencies show nothing that can wait. Computes nothing.

use super::answer::Answer;
use super::lines::height;
use super::page::Page;
use super::text::{Part, rows};
use crate::rulebook::raw::Urgency;

/// Lines of the first screen.
pub const LINES: usize = 16;
/// Figures shown on it.
const MOST_FIGURES: usize = 3;

/// The page of an answer's first screen.
pub fn brief(answer: &Answer, width: usize) -> Page {
    let part = part(answer, width);
    rows(answer, &part)
}

fn part(answer: &Answer, width: usize) -> Part {
    let at_once = answer.advice.iter().filter(|a| a.urgency <= Urgency::Now).count();
    let worth_showing = match (at_once, answer.asked_only) {
        (0, true) => answer.advice.iter().filter(|a| a.asked).count(),
        (0, false) => answer.advice.len(),
        (n, _) => n,
    };
    let figures = if at_once > 0 { 1 } else { MOST_FIGURES };
    let mut part = Part { more: true, advice: worth_showing.min(1), ..Part::default() };
    let fits = |part: &Part| lines(answer, part, width) <= LINES;
    // Each wish in turn, kept if the screen bears it.
    let mut wishes: Vec<Box<dyn Fn(&mut Part)>> = vec![
        Box::new(|p| p.with_steps = p.advice.min(1)),
        Box::new(|p| p.reasons = p.advice.min(1)),
        Box::new(|p| p.advice = (p.advice + 1).min(2)),
        Box::new(|p| p.figures = 1),
    ];
    for n in 3..=worth_showing {
        wishes.push(Box::new(move |p| p.advice = n));
    }
    for n in 2..=figures {
        wishes.push(Box::new(move |p| p.figures = n));
    }
    for n in 2..=worth_showing {
        wishes.push(Box::new(move |p| p.with_steps = n));
    }
    for wish in wishes {
        let mut wished = part.clone();
        wish(&mut wished);
        wished.advice = wished.advice.min(worth_showing);
        wished.with_steps = wished.with_steps.min(wished.advice);
        wished.figures = wished.figures.min(figures).min(answer.figures.len());
        if fits(&wished) {
            part = wished;
        }
    }
    part.more = is_cut(answer, &part);
    part
}

fn lines(answer: &Answer, part: &Part, width: usize) -> usize {
    rows(answer, part).rows.iter().map(|row| height(row, width)).sum()
}

/// Whether `more` would show anything else.
fn is_cut(answer: &Answer, part: &Part) -> bool {
    part.advice < answer.advice.len()
        || part.figures < answer.figures.len()
        || part.reasons < answer.advice.len()
        || answer.advice.iter().skip(part.with_steps).any(|a| !a.steps.is_empty())
        || !answer.pictures.is_empty()
}
