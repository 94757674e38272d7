//! The answer put together: every tank's advice in one order, the figures it names, what was assumed, what was not used,
//! one question. In: a book, a call, its assessment. Out: an `Answer`. Computes nothing.

use super::answer::{Advice, Answer, FigureLine, Picture};
use super::own_units::{Choice, OwnUnits};
use super::wording::Wording;
use super::{asking, assumed, conversion, needs, order, unread};
use crate::case::Ledger;
use crate::doubt::asked::{Asked, asked, named};
use crate::doubt::{Assessment, NextQuestion, TankView, course};
use crate::knowledge::advice::Show;
use crate::listen::reading::{Mark, Reading};
use crate::rulebook::Book;
use crate::rulebook::raw::Urgency;
use std::collections::BTreeSet;

/// What shapes an answer beside the call itself.
#[derive(Clone, Debug, Default)]
pub struct Shape {
    pub units: Option<Choice>,
    /// Cautions of the sort "once a call" that were already shown.
    pub shown: BTreeSet<String>,
    /// The turn before, where its question was left open: what is said now may answer it.
    pub open: Option<Reading>,
    /// The caller is led: every question is put that would change anything.
    pub led: bool,
}

/// How many moments of a course are drawn.
const MOMENTS: usize = 61;

/// The wording of one tank.
pub fn wording<'w>(book: &'w Book, view: &'w TankView, several_tanks: bool, units: Option<Choice>) -> Wording<'w> {
    Wording { book, view, own: OwnUnits::of(&view.case, &book.schema, units), several_tanks }
}

/// The topics asked about in a turn, as rules name them.
pub fn topics(reading: &Reading) -> Vec<String> {
    reading.asks.iter().map(|a| a.topic.replace('_', " ")).collect()
}

/// The answer to a call as it stands.
pub fn compose(book: &Book, ledger: &Ledger, assessment: &Assessment, shape: &Shape) -> Answer {
    let nothing = Reading::default();
    let reading = ledger.turns().last().map_or(&nothing, |t| &t.reading);
    let question = shape.open.as_ref().filter(|_| reading.asks.is_empty()).unwrap_or(reading);
    let topics = topics(question);
    let speaking: Vec<u16> = assessment.tanks.iter().flat_map(|t| &t.findings.speaking).map(|f| f.rule).collect();
    let asked_rules = needs::asked_of(book, question, &topics, &speaking);
    let several = assessment.tanks.len() > 1;
    let turn = Some(ledger.turns().len() as u16).filter(|last| *last > 1);
    let mut answer = Answer {
        unread: unread::unread(reading),
        aside: unread::aside(reading),
        asked_back: unread::asked_back(reading),
        read_as: assumed::read_as(book, reading),
        asked_only: !(reading.asks.is_empty() && reading.lost.is_empty())
            && reading.statements.iter().all(|s| s.mark == Some(Mark::Presumed)),
        ..Answer::default()
    };
    for view in &assessment.tanks {
        let wording = wording(book, view, several, shape.units);
        let found = view.findings.speaking.iter().filter_map(|f| wording.advice(*f, &asked_rules, turn));
        answer.advice.extend(found);
        let two = wording.contradictions().into_iter();
        answer.contradictions.extend(two.map(|line| match several {
            true => format!("tank {}, {line}", view.tank),
            false => line,
        }));
        answer.tanks.extend(wording.tank_called().filter(|_| several));
        answer.pictures.extend(pictures(book, view, &topics));
        asked_figures(&wording, question, &mut answer);
    }
    order::order(&mut answer.advice);
    answer.advice = order::merge(std::mem::take(&mut answer.advice));
    let shows_figures = |a: &Advice| {
        book.rules.rules[a.finding.0 as usize].advice.as_ref().is_some_and(|advice| !advice.figures.is_empty())
    };
    order::leave_out_general(&mut answer.advice, shows_figures);
    cautions_once(book, shape, &topics, &mut answer.advice);
    for view in &assessment.tanks {
        advised_figures(&wording(book, view, several, shape.units), &mut answer);
    }
    // What was asked for first, then in the order of the advice, then what shows how it was worked out.
    let place = |f: &FigureLine| answer.advice.iter().position(|a| a.figures.contains(&f.figure));
    answer.figures.sort_by_cached_key(|f| (!f.asked, place(f).unwrap_or(usize::MAX), f.numbers.is_none()));
    answer.assumed = merged(answer.advice.iter().map(|a| &a.assumed).chain(answer.figures.iter().map(|f| &f.assumed)));
    let converted = conversion::answer_conversions(&reading.conversions, ledger, &mut answer);
    answer.say = match converted {
        Some(converted) if !answer.is_emergency() => Some(converted),
        _ => say(&answer, !question.asks.is_empty() && reading.asks.is_empty()),
    };
    needs::remarks(book, assessment, question, &topics, &mut answer);
    if let Some(lost) = unread::lost(reading) {
        answer.remarks.insert(0, lost);
    }
    // One question at a time: what cannot be used comes before what would be good to know.
    let only_converts = !reading.conversions.is_empty() && reading.statements.is_empty();
    if only_converts || !answer.asked_back.is_empty() || !answer.contradictions.is_empty() {
        answer.next = None;
    } else if answer.next.is_none() {
        let worth = |q: &&NextQuestion| shape.led || asking::is_to_the_point(book, q, &answer, &topics);
        let mut to_the_point = assessment.questions.iter().filter(worth);
        let first = to_the_point.clone().next();
        // With nothing pressing, what the tank holds comes before readings.
        let pressing = answer.advice.iter().any(|a| a.urgency <= Urgency::ThisWeek || a.asked || a.worry);
        let what = to_the_point.find(|q| !pressing && !shape.led && q.attribute == "kind");
        let next = what.or(first);
        answer.next = next.map(|next| asking::next(book, next, several));
        answer.taken = unread::taken(reading).filter(|_| answer.next.is_none() && !answer.is_emergency());
    }
    answer
}

/// Phrases of several lists, each once, in order.
pub fn merged<'p>(lists: impl Iterator<Item = &'p Vec<String>>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for phrase in lists.flatten() {
        if !out.contains(phrase) {
            out.push(phrase.clone());
        }
    }
    out
}

/// The first sentence: what the most urgent advice says, or the figure that was asked for.
fn say(answer: &Answer, answers_open: bool) -> Option<String> {
    let urgent = answer.advice.first().filter(|a| a.urgency <= Urgency::Now);
    if let Some(first) = urgent {
        return Some(labelled(first));
    }
    if answer.asked_only || answers_open {
        // A figure asked for by name is the answer, unless advice on the same question says it.
        let figure = answer.figures.iter().find(|f| f.asked);
        let says = |a: &&Advice| a.asked && figure.is_none_or(|f| a.figures.contains(&f.figure));
        if let Some(asked) = answer.advice.iter().find(says) {
            return Some(labelled(asked));
        }
        if let Some(figure) = figure {
            return Some(format!("{}: {}.", crate::source::words::capital(&figure.called), figure.result));
        }
        if answer.asked_only {
            return None;
        }
    }
    answer.advice.first().map(labelled)
}

/// The sentence of advice, with the thing it is for where there are several.
pub fn labelled(advice: &Advice) -> String {
    match &advice.about {
        Some(about) => format!("{}: {}", crate::source::words::capital(about), advice.say),
        None => advice.say.clone(),
    }
}

fn asked_figures(wording: &Wording, reading: &Reading, answer: &mut Answer) {
    if reading.asks.is_empty() {
        return;
    }
    let words: Vec<&str> = reading.asks.iter().map(|a| a.span.of(&reading.text)).collect();
    let mut figures = named(wording.book, &words.join(" . "));
    if figures.is_empty() && reading.asks.iter().any(|a| a.topic == "figures") {
        figures.extend(
            wording
                .view
                .findings
                .speaking
                .iter()
                .flat_map(|f| wording.book.rules.rules[f.rule as usize].advice.iter().flat_map(|a| a.figures.clone())),
        );
    }
    let found = asked(wording.book, wording.view, &figures);
    for found in &found {
        if let Asked::Known { figure, instance, .. } = found {
            push(answer, wording.figure_line(*figure, *instance, true));
        }
    }
    // What one way to it lacks does not matter where another leads there.
    if answer.figures.iter().any(|f| f.asked) || answer.advice.iter().any(|a| a.asked) {
        return;
    }
    if let Some(Asked::Missing { figure, waits }) = found.first() {
        needs::lacking(wording, *figure, waits, answer);
    }
}

fn advised_figures(wording: &Wording, answer: &mut Answer) {
    let advice: Vec<(u16, u16)> =
        answer.advice.iter().filter(|a| a.tank == wording.view.tank).map(|a| a.finding).collect();
    for (rule, instance) in advice {
        let Some(advice) = &wording.book.rules.rules[rule as usize].advice else { continue };
        for figure in &advice.figures {
            // A figure of another thing than the rule's is shown for each of those.
            let of = wording.book.rules.figures[*figure as usize].for_thing;
            let instances = match of {
                Some(thing) if of != wording.book.rules.rules[rule as usize].for_thing => {
                    (0..wording.view.world.count(thing)).collect()
                }
                Some(_) => vec![instance],
                None => vec![0],
            };
            for instance in instances {
                push(answer, wording.figure_line(*figure, instance, false));
            }
        }
    }
}

/// Each figure once.
fn push(answer: &mut Answer, line: Option<FigureLine>) {
    if let Some(line) = line
        && !answer.figures.iter().any(|f| f.called == line.called && f.tank == line.tank)
    {
        answer.figures.push(line);
    }
}

fn pictures(book: &Book, view: &TankView, topics: &[String]) -> Vec<Picture> {
    let wanted = book.rules.pictures.iter().filter(|p| topics.contains(&p.topic));
    let drawn = wanted.filter_map(|picture| {
        let course = course::course(book, picture, view, MOMENTS)?;
        let time = OwnUnits::chosen(Choice::Litres).unit(picture.over, crate::units::Dimension::TIME, None);
        Some(Picture { title: picture.name.clone(), course, unit: picture.shown_in, time })
    });
    drawn.collect()
}

/// Cautions of the sort "once" are dropped when they were shown before or stand further up; "asked" ones when not asked.
fn cautions_once(book: &Book, shape: &Shape, topics: &[String], advice: &mut [Advice]) {
    let mut seen = BTreeSet::new();
    let asked = topics.iter().any(|t| t == "safety");
    for piece in advice {
        piece.cautions.retain(|caution| {
            let show = book.knowledge.cautions.iter().find(|c| c.caution == caution.caution).map(|c| c.show);
            let first = seen.insert(caution.caution.clone());
            match show {
                Some(Show::Asked) => asked && first,
                Some(Show::Once) => first && (asked || !shape.shown.contains(&caution.caution)),
                _ => first,
            }
        });
    }
}

/// A rule's advice in few words, without figures: what is not so yet has none.
pub fn act_of(book: &Book, rule: u16) -> String {
    let rule = &book.rules.rules[rule as usize];
    let act = rule.advice.as_ref().and_then(|a| a.act.clone());
    match act {
        Some(act) => act.strip_prefix("not: ").map_or(act.clone(), |rest| format!("do not {rest}")),
        None => rule.name.replace('-', " "),
    }
}
