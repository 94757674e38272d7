//! How sure, and says who. In: shown advice. Out: pages. Computes nothing: shares were counted before.

use super::answer::{Answer, FigureLine};
use super::compose::labelled;
use super::page::{Page, Paragraph, Row, Tone};
use crate::source::words::and_list;

/// Pieces of advice these pages speak of, the most urgent first: beyond them nobody listens.
const MOST: usize = 6;

/// In how many of a hundred plausible tanks each advice holds, and what it hangs on.
pub fn how_sure(answer: &Answer) -> Page {
    let mut page = Page::default();
    let always = |sure: f64| (sure * 100.0).round() >= 100.0;
    let shown = &answer.advice[..answer.advice.len().min(MOST)];
    for advice in shown.iter().filter(|a| !always(a.sure)) {
        let label = format!("{:.0} in 100", advice.sure * 100.0);
        let mut paragraphs = vec![Paragraph::new(labelled(advice))];
        if let Some(line) = super::text::doubtful(advice) {
            paragraphs.push(Paragraph::led("?  ", line));
        }
        page.push(Row::list(label, Tone::Plain, paragraphs));
    }
    let sure = shown.iter().filter(|a| always(a.sure)).map(|a| Paragraph::led("-  ", labelled(a)));
    page.push(Row::list("Always", Tone::Plain, sure.collect()));
    if shown.iter().any(|a| !always(a.sure)) {
        let what = "That is how many of a hundred plausible versions of your tank each holds in.";
        page.push(Row::new("", Tone::Quiet, what));
    }
    if page.rows.is_empty() {
        return Page::line("Nothing is advised yet, so there is nothing to be sure of.");
    }
    page
}

/// What each advice and figure rests on.
pub fn says_who(answer: &Answer) -> Page {
    let mut page = Page::default();
    let advice = answer.advice.iter().take(MOST).map(|a| {
        let sources = if a.sources.is_empty() { String::new() } else { format!(" {}", a.sources.join(" ")) };
        Paragraph::led("- ", format!("{} ({}){sources}", labelled(a), and_list(&a.basis)))
    });
    page.push(Row::list("Advice", Tone::Plain, advice.collect()));
    let named = |f: &&FigureLine| answer.advice.iter().take(MOST).any(|a| a.figures.contains(&f.figure));
    let figures = answer.figures.iter().filter(named).take(MOST);
    let figures = figures.map(|f| Paragraph::led("- ", format!("{}: {}.", f.called, and_list(&f.basis))));
    page.push(Row::list("Figures", Tone::Plain, figures.collect()));
    if page.rows.is_empty() {
        return Page::line("Nothing is advised yet.");
    }
    page
}
