//! The sheet as plain text. In: the parts of a sheet. Out: a page. Computes nothing.

use super::page::{Page, Paragraph, Row, Tone};
use super::sheet::{Sheet, Work};

/// What every sheet ends with.
pub const CLOSING: &str = "Rules of thumb, not a guarantee. Pull the plugs before hands go into the water; leave wiring to licensed people and \
your local code. Follow the label of every chemical and medicine, and ask a vet about sick fish.";

/// The page.
pub fn page(sheet: &Sheet) -> Page {
    let mut page = Page::default();
    let head = [Some(sheet.name.clone()), sheet.date.clone()].into_iter().flatten().filter(|t| !t.is_empty());
    page.push(Row::new("Filter of", Tone::Say, head.collect::<Vec<_>>().join(", ")));
    let listed =
        |texts: &[String], lead: &str| texts.iter().map(|t| Paragraph::led(lead, t.clone())).collect::<Vec<_>>();
    page.push(Row::list("Danger", Tone::Danger, listed(&sheet.dangers, "!  ")));
    for filter in &sheet.filters {
        let layers = filter.layers.iter().enumerate();
        let lines = layers.map(|(n, layer)| {
            let text = [layer.called.as_str(), layer.amount.as_str()];
            let text: Vec<&str> = text.into_iter().filter(|t| !t.is_empty()).collect();
            Paragraph::led(format!("{:<3}", n + 1), text.join(": "))
        });
        let label = if sheet.filters.len() > 1 { filter.called.clone() } else { "What is in".to_string() };
        page.push(Row::list(label, Tone::Plain, lines.collect()));
        let facts = filter.facts.iter().map(|(k, v)| Paragraph::new(format!("{k}: {v}"))).collect();
        page.push(Row::list("Filter", Tone::Plain, facts));
    }
    let works = |works: &[Work]| -> Vec<Paragraph> {
        let one = |work: &Work| {
            let head = Paragraph::new(format!("{}: {}", work.when, work.say));
            std::iter::once(head)
                .chain(work.steps.iter().map(|s| Paragraph::led("[ ] ", s.clone())))
                .collect::<Vec<_>>()
        };
        works.iter().flat_map(one).collect()
    };
    page.push(Row::list("To do", Tone::Plain, works(&sheet.work)));
    page.push(Row::list("Cleaning", Tone::Plain, works(&sheet.cleaning)));
    page.push(Row::list("Mind", Tone::Plain, listed(&sheet.cautions, "-  ")));
    let kept = sheet.kept.iter().map(|(k, v)| Paragraph::new(format!("{k}: {v}"))).collect();
    page.push(Row::list("For", Tone::Plain, kept));
    let figures = sheet.figures.iter().map(|f| {
        let text = [&f.called, &f.worked, &f.result].into_iter().filter(|t| !t.is_empty());
        Paragraph::led("-  ", text.cloned().collect::<Vec<_>>().join(" = "))
    });
    page.push(Row::list("Figures", Tone::Plain, figures.collect()));
    if !sheet.assumed.is_empty() {
        page.push(Row::new("Assumed", Tone::Quiet, format!("{}.", sheet.assumed.join("; "))));
    }
    page.push(Row::new("", Tone::Quiet, CLOSING));
    page
}
