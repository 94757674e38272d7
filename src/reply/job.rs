//! A job walked through, one step at a time; cautions stand before the step they belong to. In: a job, the step. Out: a page.
//! Computes nothing.

use super::page::{Page, Paragraph, Row, Tone};
use super::why_not::content_words;
use super::wording::entry_called;
use crate::knowledge::advice::{Danger, Job};
use crate::knowledge::table::Table;
use crate::rulebook::Book;
use crate::source::words::capital;

/// The job whose words fit a request best; `None` when none fits.
pub fn meant(book: &Book, request: &str) -> Option<usize> {
    let words = content_words(request);
    let score = |job: &Job| {
        let names = job.also.iter().chain([&job.job, &job.says]);
        let of = |name: &String| {
            let own = content_words(&name.replace('-', " "));
            let hits = words.iter().filter(|w| own.contains(w)).count();
            // A name fits the better the less of it was left unsaid.
            (hits * 100).saturating_sub(own.len().min(99))
        };
        names.map(of).max().unwrap_or(0)
    };
    let best = book.knowledge.jobs.iter().enumerate().max_by_key(|(n, job)| (score(job), usize::MAX - n))?;
    (score(best.1) >= 100).then_some(best.0)
}

/// What the job is, what it takes, when to stop.
pub fn opening(job: &Job) -> Page {
    let mut page = Page::default();
    page.push(Row::new("Job", Tone::Say, job.says.clone()));
    page.push(Row::new("Have ready", Tone::Plain, job.tools.join("; ")));
    page.push(Row::new("Stop if", Tone::Danger, job.stop_and_ask.clone()));
    page
}

/// One step, from 0.
pub fn step(book: &Book, job: &Job, n: usize) -> Page {
    let mut page = Page::default();
    let Some(step) = job.steps.get(n) else { return page };
    let mut cautions: Vec<_> =
        step.cautions.iter().filter_map(|name| book.knowledge.cautions.iter().find(|c| c.caution == *name)).collect();
    cautions.sort_by_key(|c| c.danger);
    for caution in cautions {
        let label = if caution.danger == Danger::People { "Danger" } else { "Mind" };
        page.push(Row::new(label, Tone::Danger, caution.says.clone()));
    }
    page.push(Row::new(format!("{} of {}", n + 1, job.steps.len()), Tone::Say, step.act.clone()));
    page.push(Row::new(
        "",
        Tone::Quiet,
        match n + 1 == job.steps.len() {
            true => "The last step. Say back, why, or stop.",
            false => "Say next, back, why, or stop.",
        },
    ));
    page
}

/// Why a step is done.
pub fn why(job: &Job, n: usize) -> Page {
    match job.steps.get(n).map(|s| s.why.trim()) {
        Some(why) if !why.is_empty() => {
            Page { rows: vec![Row::new("Why", Tone::Plain, format!("{}.", capital(why.trim_end_matches('.'))))] }
        }
        _ => Page::line("The book gives no reason for this step of its own."),
    }
}

/// After the last step.
pub fn done(job: &Job) -> Page {
    let mut page = Page::line("That was the last step.");
    page.push(Row::new("Stop if", Tone::Danger, job.stop_and_ask.clone()));
    page
}

/// The jobs there are.
pub fn list(book: &Book) -> Page {
    let jobs = book.knowledge.jobs.iter();
    let lines = jobs.map(|j| Paragraph::led("- ", format!("{}: {}", entry_called(book, Table::Job, &j.job), j.says)));
    Page {
        rows: vec![
            Row::new("", Tone::Plain, "Say: walk me through, and one of these."),
            Row::list("", Tone::Plain, lines.collect()),
        ],
    }
}
