//! How sure, and says who. In: shown advice. Out: pages. Computes nothing: shares were counted before.

use super::answer::Answer;
use super::compose::labelled;
use super::page::{Page, Paragraph, Row, Tone};
use crate::source::words::{and_list, capital};

/// In how many of a hundred plausible tanks each advice holds, and what it hangs on.
pub fn how_sure(answer: &Answer) -> Page {
    let mut page = Page::default();
    for advice in &answer.advice {
        let hundred = (advice.sure * 100.0).round() as i64;
        let share = match hundred {
            100 => "In every plausible version of your tank that was tried.".to_string(),
            n => format!("In {n} of 100 plausible versions of your tank."),
        };
        let mut paragraphs = vec![Paragraph::new(labelled(advice)), Paragraph::led("   ", share)];
        if let Some(line) = super::text::doubtful(advice) {
            paragraphs.push(Paragraph::led("   ", line));
        }
        page.push(Row::list("", Tone::Plain, paragraphs));
    }
    if page.rows.is_empty() {
        return Page::line("Nothing is advised yet, so there is nothing to be sure of.");
    }
    page
}

/// What each advice and figure rests on.
pub fn says_who(answer: &Answer) -> Page {
    let mut page = Page::default();
    let advice = answer.advice.iter().map(|a| {
        let sources = if a.sources.is_empty() { String::new() } else { format!(" {}", a.sources.join(" ")) };
        Paragraph::led("- ", format!("{} {}.{sources}", labelled(a), capital(&and_list(&a.basis))))
    });
    page.push(Row::list("Advice", Tone::Plain, advice.collect()));
    let figures = answer.figures.iter().map(|f| Paragraph::led("- ", format!("{}: {}.", f.called, and_list(&f.basis))));
    page.push(Row::list("Figures", Tone::Plain, figures.collect()));
    if page.rows.is_empty() {
        return Page::line("Nothing is advised yet.");
    }
    page
}
