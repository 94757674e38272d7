//! Explains one name of the book: a rule, a figure, a source, or any word of its tables. In: a name. Out: a page.

use super::outcome::{Outcome, show, tell};
use super::settings::Settings;
use super::talk::Talk;
use crate::knowledge::basis::Seen;
use crate::reply::lines::set;
use crate::reply::page::{Page, Paragraph, Row, Tone};
use crate::reply::paint::paint;
use crate::reply::terms;
use crate::rulebook::template::{Piece, Template};
use crate::rulebook::{Book, check};
use crate::source::Place;
use crate::source::span::line_and_column;
use crate::source::suggest::nearest;
use crate::source::words::{and_list, capital};

/// Explains and ends; a name the book does not have is wrong use.
pub fn explain(name: &str, settings: &Settings) -> Outcome {
    let talk = match Talk::open(settings, true) {
        Ok(talk) => talk,
        Err(outcome) => return outcome,
    };
    let book = talk.conversation.book();
    let name = name.trim();
    let page = rule(book, name)
        .or_else(|| figure(book, name))
        .or_else(|| source(book, name))
        .or_else(|| fault(name))
        .or_else(|| terms::meant(book, name).and_then(|(table, name)| terms::explain(book, table, &name)));
    match page {
        Some(page) => {
            let _ = show(&paint(&set(&page, settings.width), settings.colour));
            Outcome::Fine
        }
        None => {
            let rules = book.rules.rules.iter().map(|r| r.name.as_str());
            let names = rules.chain(book.rules.figures.iter().map(|f| f.name.as_str()));
            let near = nearest(name, names).map(|n| format!(". Did you mean {n}?")).unwrap_or_default();
            tell(&format!("the book has nothing called \"{name}\"{near}"));
            Outcome::Wrong
        }
    }
}

/// The page of a fault that `check` finds.
fn fault(name: &str) -> Option<Page> {
    let found = check::page(name)?;
    let mut page = Page::default();
    page.push(Row::new("Fault", Tone::Say, found.says));
    page.push(Row::new("Because", Tone::Plain, found.why));
    for (title, text) in [("Wrong", found.wrong), ("Right", found.right)] {
        let lines = text.lines().map(|line| Paragraph::led("  ", line.to_string()));
        page.push(Row::list(title, Tone::Plain, lines.collect()));
    }
    Some(page)
}

/// A text with its figures named instead of filled in.
fn named(book: &Book, template: &Template) -> String {
    let pieces = template.iter().map(|piece| match piece {
        Piece::Text(text) => text.split_whitespace().collect::<Vec<_>>().join(" "),
        Piece::Figure(n) => format!("[{}]", book.rules.figures[*n as usize].called),
        Piece::Fact(id) => format!("[{}]", book.schema.of(*id).called),
    });
    pieces.filter(|p| !p.is_empty()).collect::<Vec<_>>().join(" ").replace(" .", ".").replace(" ,", ",")
}

fn place(book: &Book, place: &Place) -> String {
    match book.text_of(&place.file) {
        Some(text) => format!("{}:{}", place.file, line_and_column(&text, place.span.start).0),
        None => place.file.clone(),
    }
}

fn list(items: impl Iterator<Item = String>) -> Vec<Paragraph> {
    items.map(|item| Paragraph::led("- ", item)).collect()
}

fn rule(book: &Book, name: &str) -> Option<Page> {
    let (n, rule) = book.rules.rule(name)?;
    let mut page = Page::default();
    if let Some(advice) = &rule.advice {
        page.push(Row::new("Says", Tone::Say, named(book, &advice.say)));
        page.push(Row::new("Urgency", Tone::Plain, advice.urgency.word()));
    }
    page.push(Row::list("When", Tone::Plain, list(rule.conditions.iter().map(|c| c.text.clone()))));
    if let Some(advice) = &rule.advice {
        let steps = advice.steps.iter().enumerate();
        let steps = steps.map(|(n, s)| Paragraph::led(format!("{:<2} ", n + 1), named(book, s)));
        page.push(Row::list("Steps", Tone::Plain, steps.collect()));
        page.push(Row::new("Because", Tone::Plain, named(book, &advice.because)));
    }
    let concludes: Vec<&str> =
        rule.concludes.iter().map(|c| book.rules.conclusions[*c as usize].name.as_str()).collect();
    page.push(Row::new("Concludes", Tone::Plain, concludes.join(", ")));
    let cautions = book.knowledge.cautions.iter().filter(|c| rule.cautions.contains(&c.caution));
    page.push(Row::list("Cautions", Tone::Danger, list(cautions.map(|c| c.says.clone()))));
    let over = rule.outranks.iter().map(|(n, because)| format!("{}: {because}", book.rules.rules[*n as usize].name));
    page.push(Row::list("Outranks", Tone::Plain, list(over)));
    let under = book.rules.rules.iter().filter(|r| r.outranks.iter().any(|(m, _)| *m == n)).map(|r| r.name.clone());
    page.push(Row::list("Outranked by", Tone::Plain, list(under)));
    let basis: Vec<String> = rule.basis.iter().map(|b| b.to_string()).collect();
    page.push(Row::new("Rests on", Tone::Plain, format!("{}.", capital(&and_list(&basis)))));
    page.push(Row::list("Sources", Tone::Plain, list(rule.source.iter().filter_map(|s| cited(book, s)))));
    page.push(Row::list("Speaks on", Tone::Plain, list(rule.examples.speaks.iter().cloned())));
    page.push(Row::list("Silent on", Tone::Plain, list(rule.examples.silent.iter().cloned())));
    page.push(Row::new("Stands at", Tone::Quiet, place(book, &rule.place)));
    Some(page)
}

fn figure(book: &Book, name: &str) -> Option<Page> {
    let (_, figure) =
        book.rules.figure(name).or_else(|| book.rules.figures.iter().find(|f| f.called == name).map(|f| (0, f)))?;
    let mut page = Page::default();
    page.push(Row::new("Figure", Tone::Say, figure.called.clone()));
    page.push(Row::new("Formula", Tone::Plain, figure.formula.clone()));
    if let Some((spread, unit)) = figure.given.zip(figure.shown_in.or(crate::units::unit::usual(figure.dimension))) {
        let own = crate::reply::own_units::OwnUnits::chosen(crate::reply::own_units::Choice::Litres);
        let shown = crate::reply::amounts::quantity(&own, spread, figure.dimension, Some(unit), 3);
        page.push(Row::new("Value", Tone::Plain, shown.whole()));
    }
    page.push(Row::new("Means", Tone::Plain, figure.means.clone().unwrap_or_default()));
    let basis: Vec<String> = figure.basis.iter().map(|b| b.to_string()).collect();
    page.push(Row::new("Rests on", Tone::Plain, format!("{}.", capital(&and_list(&basis)))));
    page.push(Row::list("Sources", Tone::Plain, list(figure.source.iter().filter_map(|s| cited(book, s)))));
    let users = book.rules.rules.iter().filter(|r| {
        r.advice.as_ref().is_some_and(|a| {
            crate::reply::advise::figures_of(a).iter().any(|n| book.rules.figures[*n as usize].name == figure.name)
        })
    });
    page.push(Row::new("Used by", Tone::Plain, users.map(|r| r.name.clone()).collect::<Vec<_>>().join(", ")));
    page.push(Row::new("Stands at", Tone::Quiet, place(book, &figure.place)));
    Some(page)
}

fn source(book: &Book, name: &str) -> Option<Page> {
    let cite = cited(book, name)?;
    let mut page = Page::default();
    page.push(Row::new("Source", Tone::Say, cite));
    let resting = book.rules.rules.iter().filter(|r| r.source.iter().any(|s| s == name)).map(|r| r.name.clone());
    page.push(Row::new("Rules", Tone::Plain, resting.collect::<Vec<_>>().join(", ")));
    let resting = book.rules.figures.iter().filter(|f| f.source.iter().any(|s| s == name)).map(|f| f.called.clone());
    page.push(Row::new("Figures", Tone::Plain, resting.collect::<Vec<_>>().join(", ")));
    Some(page)
}

fn cited(book: &Book, key: &str) -> Option<String> {
    let source = book.knowledge.sources.iter().find(|s| s.source == key)?;
    let seen = match source.seen {
        Seen::Read => "read",
        Seen::SecondHand => "known at second hand, not read",
        Seen::Memory => "from memory, not read",
    };
    Some(format!("{} [{seen}]", source.cite))
}
