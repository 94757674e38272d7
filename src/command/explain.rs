//! Explains one name of the book: a rule, a figure, a source, or any word of its tables. In: a name. Out: a page.

use super::book::open_or_tell;
use super::grounds;
use super::outcome::{Outcome, show, tell};
use super::settings::Settings;
use crate::reply::lines::set;
use crate::reply::page::{Page, Paragraph, Row, Tone};
use crate::reply::paint::paint;
use crate::reply::terms;
use crate::rulebook::contents::{by_topic, figures_of, line_of, named, readers, search};
use crate::rulebook::plain::Plain;
use crate::rulebook::{Book, check};
use crate::source::suggest::nearest;
use crate::source::words::{and_list, capital};

/// Explains and ends; a name the book does not have is wrong use.
pub fn explain(name: &str, settings: &Settings) -> Outcome {
    let book = match open_or_tell(settings) {
        Ok(book) => book,
        Err(outcome) => return outcome,
    };
    let book = &book;
    let name = name.trim();
    let page = grounds::page(book, name)
        .or_else(|| rule(book, name))
        .or_else(|| figure(book, name))
        .or_else(|| source(book, name))
        .or_else(|| fault(name))
        .or_else(|| topic(book, name))
        .or_else(|| terms::meant(book, name).and_then(|(table, name)| terms::explain(book, table, &name)))
        .or_else(|| found(book, name));
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

/// The rules of a topic.
fn topic(book: &Book, name: &str) -> Option<Page> {
    let (topic, asks, rules) = by_topic(&book.rules).into_iter().find(|(topic, ..)| *topic == name)?;
    let mut page = Page::default();
    page.push(Row::new("Topic", Tone::Say, format!("{topic}: {asks}")));
    page.push(Row::list("Rules", Tone::Plain, lines(book, &rules)));
    Some(page)
}

/// Rules that hold the words, when nothing is called so.
fn found(book: &Book, words: &str) -> Option<Page> {
    let rules = search(book, words);
    if rules.is_empty() {
        return None;
    }
    let mut page = Page::default();
    page.push(Row::new("Found", Tone::Say, format!("Nothing is called {words}; these rules speak of it.")));
    page.push(Row::list("Rules", Tone::Plain, lines(book, &rules)));
    Some(page)
}

/// A line a rule: its name and what it says.
fn lines(book: &Book, rules: &[u16]) -> Vec<Paragraph> {
    let line = |n: &u16| {
        let rule = &book.rules.rules[*n as usize];
        match &rule.advice {
            Some(advice) => format!("{}: {}", rule.name, named(book, &advice.say)),
            None => rule.name.clone(),
        }
    };
    list(rules.iter().map(line))
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
    let plain = Plain::new(&book.schema, &book.rules);
    let conditions = rule.conditions.iter().map(|c| plain.words(&c.text, rule.for_thing));
    page.push(Row::list("When", Tone::Plain, list(conditions)));
    if let Some(advice) = &rule.advice {
        let steps = advice.steps.iter().enumerate();
        let steps = steps.map(|(n, s)| Paragraph::led(format!("{:<2} ", n + 1), named(book, s)));
        page.push(Row::list("Steps", Tone::Plain, steps.collect()));
        page.push(Row::new("Because", Tone::Plain, named(book, &advice.because)));
    }
    let concludes: Vec<&str> =
        rule.concludes.iter().map(|c| book.rules.conclusions[*c as usize].name.as_str()).collect();
    page.push(Row::new("Concludes", Tone::Plain, concludes.join(", ")));
    let (rules, figures) = readers(&book.rules, n);
    let rules = rules.iter().map(|n| book.rules.rules[*n as usize].name.clone());
    let figures = figures.iter().map(|n| book.rules.figures[*n as usize].name.clone());
    page.push(Row::new("Read by", Tone::Plain, rules.chain(figures).collect::<Vec<_>>().join(", ")));
    let figures = figures_of(&book.rules, n).into_iter().map(|n| book.rules.figures[n as usize].name.clone());
    page.push(Row::new("Figures", Tone::Plain, figures.collect::<Vec<_>>().join(", ")));
    let cautions = book.knowledge.cautions.iter().filter(|c| rule.cautions.contains(&c.caution));
    page.push(Row::list("Cautions", Tone::Danger, list(cautions.map(|c| c.says.clone()))));
    let over = rule.outranks.iter().map(|(n, because)| format!("{}: {because}", book.rules.rules[*n as usize].name));
    page.push(Row::list("Outranks", Tone::Plain, list(over)));
    let under = book.rules.rules.iter().filter(|r| r.outranks.iter().any(|(m, _)| *m == n)).map(|r| r.name.clone());
    page.push(Row::list("Outranked by", Tone::Plain, list(under)));
    let basis: Vec<String> = rule.basis.iter().map(|b| b.to_string()).collect();
    page.push(Row::new("Rests on", Tone::Plain, format!("{}.", capital(&and_list(&basis)))));
    page.push(Row::list("Sources", Tone::Plain, list(rule.source.iter().filter_map(|s| cited(book, s)))));
    let examples = book.examples(rule);
    page.push(Row::list("Speaks on", Tone::Plain, list(examples.speaks.iter().cloned())));
    page.push(Row::list("Silent on", Tone::Plain, list(examples.silent.iter().cloned())));
    page.push(Row::new("Stands at", Tone::Quiet, line_of(book, &rule.place)));
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
    page.push(Row::new("Stands at", Tone::Quiet, line_of(book, &figure.place)));
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
    Some(format!("{} [{}]", source.cite, grounds::seen(source.seen)))
}
