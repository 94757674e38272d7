//! Led: one question at a time, with the way to find the answer. In: an answer, how many questions may follow. Out: a page.
//! Computes nothing.

use super::answer::Answer;
use super::brief::{Screen, brief};
use super::page::{Page, Row, Tone};
use super::text::{Part, rows};
use crate::source::words::counted;

/// The next question, after anything that cannot wait; the whole plan when nothing is left to ask.
pub fn led(answer: &Answer, follow: usize, width: usize, rest: &'static str) -> Page {
    let Some(next) = &answer.next else {
        if !answer.asked_back.is_empty() || !answer.contradictions.is_empty() {
            return brief(answer, width, Screen::CHAT, rest);
        }
        let mut page = Page::line("That is all I need. This is the plan.");
        page.rows.extend(rows(answer, &Part::all(answer)).rows);
        return page;
    };
    let mut page = match answer.is_emergency() {
        true => {
            let mut page = brief(answer, width, Screen::CHAT, rest);
            page.rows.retain(|row| row.label != "Ask" && row.label != "More");
            page
        }
        false => Page::default(),
    };
    if !answer.is_emergency() {
        for remark in answer.remarks.iter().filter(|_| !answer.asked_only) {
            page.push(Row::new("", Tone::Plain, remark.clone()));
        }
        page.push(Row::new("Set aside", Tone::Quiet, answer.aside.join(", ")));
        page.push(Row::new("Not understood", Tone::Quiet, answer.unread.join(", ")));
    }
    page.push(Row::new("Question", Tone::Ask, next.ask.clone()));
    if let Some(measure) = &next.measure {
        page.push(Row::new("To find out", Tone::Plain, measure.clone()));
    }
    let left = match follow {
        0 => "The last question, by the look of it.".to_string(),
        n => format!("About {} more after this.", counted(n, "question", "questions")),
    };
    page.push(Row::new(
        "",
        Tone::Quiet,
        format!("{left} Say don't know to go on without, or just answer for the plan."),
    ));
    page
}
