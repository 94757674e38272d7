//! The first screen: what fits into few lines, the most urgent first. In: an answer, a width. Out: which parts to show.
//! Emergencies show nothing that can wait. Computes nothing.

use super::answer::{Advice, Answer, FigureLine};
use super::lines::height;
use super::order::is_general;
use super::page::{Page, Row};
use super::text::{Part, rows};
use crate::knowledge::advice::Danger;
use crate::rulebook::raw::Urgency;
use std::borrow::Cow;

/// How much of an answer is shown at first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Screen {
    pub lines: usize,
    pub figures: usize,
}

impl Screen {
    /// In the chat, with the caller waiting: what can be read out in half a minute.
    pub const CHAT: Self = Self { lines: 16, figures: 3 };
    /// A single call: nobody can say `more`, so the figures behind the advice come with it.
    pub const ONCE: Self = Self { lines: 56, figures: 12 };
}

/// The page of an answer's first screen; `rest` tells how what is left out is had.
pub fn brief(answer: &Answer, width: usize, screen: Screen, rest: &'static str) -> Page {
    let first = match answer.asked_only && !answer.is_emergency() {
        true => Cow::Owned(asked_of(answer)),
        false => Cow::Borrowed(answer),
    };
    let mut part = part(&first, width, screen, rest);
    if first.advice.len() < answer.advice.len() {
        part.more = Some(rest);
    }
    rows(&first, &part)
}

/// What belongs to the question alone: the rest was shown before and can be had again.
fn asked_of(answer: &Answer) -> Answer {
    let advice: Vec<Advice> = answer.advice.iter().filter(|a| a.asked).cloned().collect();
    let named = |f: &FigureLine| f.asked || advice.iter().any(|a| a.figures.contains(&f.figure));
    let figures = answer.figures.iter().filter(|f| named(f)).cloned().collect();
    Answer { figures, advice, ..answer.clone() }
}

/// One thing more to show.
#[derive(Clone, Copy)]
enum Wish {
    Steps(usize),
    Reasons(usize),
    Advice(usize),
    Figures(usize),
    Cautions,
}

fn part(answer: &Answer, width: usize, screen: Screen, rest: &'static str) -> Part {
    let at_once = answer.advice.iter().filter(|a| a.urgency <= Urgency::Now).count();
    // What holds of any tank waits for `more` where the caller asked or told of something.
    let meant = answer.advice.iter().any(|a| a.asked || a.worry);
    let to_the_point = answer.advice.iter().take_while(|a| !(meant && is_general(a))).count();
    // In an emergency nothing that can wait, but what was asked is answered behind it; beside a danger to people not even that.
    let danger = answer.urgency() == Some(Urgency::Danger);
    let answered = usize::from(!danger && answer.advice.get(at_once).is_some_and(|a| a.asked));
    let worth_showing = if at_once == 0 { to_the_point } else { at_once + answered };
    let figures = figures(answer, screen, worth_showing, at_once > 0);
    let shown = || answer.advice.iter().take(worth_showing);
    // What was asked, else what the last turn brought, if it stands further down.
    let asked = shown().position(|a| a.asked).or(shown().position(|a| a.fresh)).unwrap_or(0) + 1;
    // What was asked has its place before anything is told at length.
    let mut wishes = match asked > 1 {
        true => vec![Wish::Advice(asked), Wish::Steps(1), Wish::Reasons(1), Wish::Steps(asked)],
        false => vec![Wish::Steps(1), Wish::Reasons(1), Wish::Advice(2)],
    };
    wishes.extend([Wish::Figures(1), Wish::Figures(2)]);
    wishes.extend((3..=worth_showing).map(Wish::Advice));
    // Beside what must be done at once, cautions that are not for people can wait.
    if at_once == 0 {
        wishes.push(Wish::Cautions);
    }
    wishes.extend((3..=figures).map(Wish::Figures));
    wishes.extend((2..=worth_showing).map(Wish::Steps));
    let mut part = Part { more: Some(rest), advice: worth_showing.min(1), ..Part::default() };
    let mut heights = Heights { width, known: vec![] };
    // Each wish in turn, kept if the screen bears it.
    for wish in wishes {
        let mut wished = part.clone();
        match wish {
            Wish::Steps(n) => wished.with_steps = n.min(part.advice),
            Wish::Reasons(n) => wished.reasons = n.min(part.advice),
            Wish::Advice(n) => wished.advice = n.min(worth_showing),
            Wish::Figures(n) => wished.figures = n.min(figures),
            Wish::Cautions => wished.cautions = true,
        }
        if wished != part && heights.of(&rows(answer, &wished)) <= screen.lines {
            part = wished;
        }
    }
    part.more = is_cut(answer, &part).then_some(rest);
    part
}

/// Heights of rows, each set once: from wish to wish most rows stay the same.
struct Heights {
    width: usize,
    known: Vec<(Row, usize)>,
}

impl Heights {
    fn of(&mut self, page: &Page) -> usize {
        page.rows.iter().map(|row| self.of_row(row)).sum()
    }

    fn of_row(&mut self, row: &Row) -> usize {
        if let Some((_, height)) = self.known.iter().rev().find(|(known, _)| known == row) {
            return *height;
        }
        let height = height(row, self.width);
        self.known.push((row.clone(), height));
        height
    }
}

/// How many figures may be shown: those that were asked for and those of the advice on the screen, which come first; in an
/// emergency one of the first piece's own, and none beside a danger to people.
fn figures(answer: &Answer, screen: Screen, advice: usize, emergency: bool) -> usize {
    if answer.urgency() == Some(Urgency::Danger) {
        return 0;
    }
    let (most, advice) = if emergency { (screen.figures.div_ceil(4), 1) } else { (screen.figures, advice) };
    let shown = |f: &&FigureLine| {
        f.asked || answer.advice.iter().take(advice).any(|a| a.figures.contains(&f.figure)) || answer.advice.is_empty()
    };
    answer.figures.iter().take_while(shown).count().min(most)
}

/// Whether `more` would show anything else.
fn is_cut(answer: &Answer, part: &Part) -> bool {
    part.advice < answer.advice.len()
        || part.figures < answer.figures.len()
        || part.reasons < answer.advice.len()
        || (!part.cautions && answer.advice.iter().any(|a| a.cautions.iter().any(|c| c.danger != Danger::People)))
        || answer.advice.iter().skip(part.with_steps).any(|a| !a.steps.is_empty())
        || !answer.pictures.is_empty()
}
