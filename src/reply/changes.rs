//! What would change: advice by advice and figure by figure. In: the comparison of two assessments of one book. Out: a page.
//! Computes nothing.

use super::amounts::{Quantity, Voice};
use super::answer::Answer;
use super::compose::{labelled, wording};
use super::own_units::Choice;
use super::page::{Page, Paragraph, Row, Tone};
use super::wording::Wording;
use crate::doubt::what_if::{Changes, FigureChange};
use crate::doubt::{Assessment, TankView};
use crate::engine::finding::Finding;
use crate::rulebook::Book;
use crate::rulebook::raw::Urgency;
use crate::source::words::capital;

/// How many figures, and pieces of advice that begin or end, are shown: beyond them nobody listens.
const MOST: usize = 5;

/// The page of a what-if. `supposed` is what was supposed, in words.
pub fn changes(
    book: &Book,
    before: &Assessment,
    after: &Assessment,
    changes: &Changes,
    supposed: &[String],
    units: Option<Choice>,
) -> Page {
    let mut page = Page::default();
    if !supposed.is_empty() {
        page.push(Row::new("If", Tone::Plain, format!("{}:", supposed.join("; "))));
    }
    let several = after.tanks.len() > 1;
    let sentence = |assessment: &Assessment, (tank, finding): (u16, Finding)| -> Option<String> {
        let view = view_of(assessment, tank)?;
        let wording = wording(book, view, several, units);
        Some(labelled(&wording.advice(finding, &[], None)?))
    };
    let list = |assessment: &Assessment, found: &[(u16, Finding)]| -> Vec<Paragraph> {
        // What is only good to know in general says nothing about a change.
        let matters = |f: &Finding| {
            let advice = book.rules.rules[f.rule as usize].advice.as_ref();
            advice.is_some_and(|a| a.urgency < Urgency::GoodToKnow || !a.figures.is_empty())
        };
        let mut found: Vec<(u16, Finding)> = found.iter().copied().filter(|(_, f)| matters(f)).collect();
        found.sort_by_key(|(tank, f)| (urgency(book, *f), *tank, *f));
        let mut lines: Vec<String> = found.into_iter().filter_map(|f| sentence(assessment, f)).collect();
        lines.dedup();
        let more = lines.len().saturating_sub(MOST);
        lines.truncate(MOST);
        if more > 0 {
            lines.push(format!("and {more} more"));
        }
        lines.into_iter().map(|line| Paragraph::led("- ", line)).collect()
    };
    page.push(Row::list("Then", Tone::Say, list(after, &changes.starts)));
    page.push(Row::list("No longer", Tone::Plain, list(before, &changes.stops)));
    page.push(Row::list("Figures", Tone::Plain, figures(book, before, after, changes, units)));
    if page.rows.iter().all(|r| r.label == "If") {
        page.push(Row::new("", Tone::Plain, "Nothing would change: the same advice, the same figures."));
    } else if page.rows.iter().all(|r| r.label != "Then" && r.label != "No longer") {
        page.push(Row::new("", Tone::Plain, "The advice stays the same."));
    }
    page
}

/// What another book changes for one call: rules are known by name, since their numbers are not the same.
pub fn between_books(before: &Answer, after: &Answer) -> Page {
    let only = |a: &Answer, b: &Answer| -> Vec<Paragraph> {
        let gone = a.advice.iter().filter(|x| !b.advice.iter().any(|y| y.rule == x.rule));
        gone.map(|x| Paragraph::led("- ", format!("{} ({})", labelled(x), x.rule))).collect()
    };
    let mut page = Page::default();
    page.push(Row::list("New", Tone::Plain, only(after, before)));
    page.push(Row::list("Gone", Tone::Plain, only(before, after)));
    let reworded = after.advice.iter().filter(|x| before.advice.iter().any(|y| y.rule == x.rule && y != *x));
    let reworded = reworded.map(|x| Paragraph::led("- ", format!("{} ({})", labelled(x), x.rule)));
    page.push(Row::list("Changed", Tone::Plain, reworded.collect()));
    if page.rows.is_empty() {
        return Page::line("Nothing changes for this call.");
    }
    page
}

fn urgency(book: &Book, finding: Finding) -> Urgency {
    book.rules.rules[finding.rule as usize].advice.as_ref().map(|a| a.urgency).unwrap_or_default()
}

fn view_of(assessment: &Assessment, tank: u16) -> Option<&TankView> {
    assessment.tanks.iter().find(|t| t.tank == tank)
}

/// Changed figures that some advice before or after names or that callers ask for, the most changed first.
fn figures(
    book: &Book,
    before: &Assessment,
    after: &Assessment,
    changes: &Changes,
    units: Option<Choice>,
) -> Vec<Paragraph> {
    let named: Vec<u16> = [before, after]
        .iter()
        .flat_map(|a| &a.tanks)
        .flat_map(|t| &t.findings.speaking)
        .filter_map(|f| book.rules.rules[f.rule as usize].advice.as_ref())
        .flat_map(super::advise::figures_of)
        .collect();
    let matters = |n: u16| named.contains(&n) || !book.rules.figures[n as usize].words.is_empty();
    let mut shown: Vec<(f64, String)> = Vec::new();
    // What is no longer worked out says nothing of how much.
    for change in changes.figures.iter().filter(|c| matters(c.figure) && c.after.is_some()) {
        let Some(view) = view_of(after, change.tank).or_else(|| view_of(before, change.tank)) else { continue };
        let wording = wording(book, view, after.tanks.len() > 1, units);
        shown.push((moved(change), line(&wording, change)));
    }
    // A stable order: by how far it moved, then as the book numbers them.
    shown.sort_by(|a, b| b.0.total_cmp(&a.0));
    shown.truncate(MOST);
    shown.into_iter().map(|(_, line)| Paragraph::led("- ", line)).collect()
}

fn line(wording: &Wording, change: &FigureChange) -> String {
    let called = wording.figure_called(change.figure, change.instance);
    let show = |range: Option<crate::units::Spread>| -> String {
        let quantity: Option<Quantity> = range.map(|r| wording.quantity_of(change.figure, change.instance, r));
        quantity.map_or("not known".to_string(), |q| q.about(Voice::Written))
    };
    format!("{}: {} instead of {}", capital(&called), show(change.after), show(change.before))
}

/// How far a figure moved, as a share of the larger value: only for the order in which they are shown.
fn moved(change: &FigureChange) -> f64 {
    match (change.before.and_then(|s| s.likely), change.after.and_then(|s| s.likely)) {
        (Some(a), Some(b)) if a.abs().max(b.abs()) > 0.0 => (a - b).abs() / a.abs().max(b.abs()),
        _ => 1.0,
    }
}
