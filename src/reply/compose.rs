//! The answer put together: every tank's advice in one order, the figures it names, what was assumed, what was not used,
//! one question. In: a book, a call, its assessment. Out: an `Answer`. Computes nothing.

use super::answer::{Advice, Answer, FigureLine, Next, Picture};
use super::own_units::{Choice, OwnUnits};
use super::wording::Wording;
use super::{assumed, order, unread};
use crate::case::Ledger;
use crate::doubt::asked::{Asked, asked, named};
use crate::doubt::{Assessment, NextQuestion, TankView, course};
use crate::engine::waiting;
use crate::knowledge::advice::Show;
use crate::knowledge::vocabulary::Attribute;
use crate::listen::reading::{Form, Mark, Reading, Subject};
use crate::rulebook::Book;
use crate::rulebook::raw::Urgency;
use crate::source::words::or_list;
use std::collections::BTreeSet;

/// What shapes an answer beside the call itself.
#[derive(Clone, Debug, Default)]
pub struct Shape {
    pub units: Option<Choice>,
    /// Cautions of the sort "once a call" that were already shown.
    pub shown: BTreeSet<String>,
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
    let topics = topics(reading);
    let several = assessment.tanks.len() > 1;
    let mut answer = Answer {
        unread: unread::unread(reading),
        asked_back: unread::asked_back(reading),
        read_as: assumed::read_as(book, reading),
        asked_only: !reading.asks.is_empty() && reading.statements.iter().all(|s| s.mark == Some(Mark::Presumed)),
        ..Answer::default()
    };
    for view in &assessment.tanks {
        let wording = wording(book, view, several, shape.units);
        let found = view.findings.speaking.iter().filter_map(|f| wording.advice(*f, &topics));
        answer.advice.extend(found);
        let two = wording.contradictions().into_iter();
        answer.contradictions.extend(two.map(|line| match several {
            true => format!("tank {}, {line}", view.tank),
            false => line,
        }));
        answer.pictures.extend(pictures(book, view, &topics));
        asked_figures(&wording, reading, &mut answer);
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
    // What was asked for first, then what shows how it was worked out.
    answer.figures.sort_by_key(|f| (!f.asked, f.numbers.is_none()));
    answer.assumed = merged(answer.advice.iter().map(|a| &a.assumed).chain(answer.figures.iter().map(|f| &f.assumed)));
    answer.say = say(&answer);
    remarks(book, assessment, reading, &topics, &mut answer);
    // One question at a time: what cannot be used comes before what would be good to know.
    if !answer.asked_back.is_empty() || !answer.contradictions.is_empty() {
        answer.next = None;
    } else if answer.next.is_none() {
        answer.next = assessment.next.as_ref().map(|next| next_of(book, next, several));
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
fn say(answer: &Answer) -> Option<String> {
    let urgent = answer.advice.first().filter(|a| a.urgency <= Urgency::Now);
    if let Some(first) = urgent {
        return Some(labelled(first));
    }
    if answer.asked_only {
        if let Some(asked) = answer.advice.iter().find(|a| a.asked) {
            return Some(labelled(asked));
        }
        if let Some(figure) = answer.figures.iter().find(|f| f.asked) {
            return Some(format!("{}: {}.", crate::source::words::capital(&figure.called), figure.result));
        }
        return None;
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
    if reading.asks.iter().any(|a| a.topic == "figures") {
        figures.extend(
            wording
                .view
                .findings
                .speaking
                .iter()
                .flat_map(|f| wording.book.rules.rules[f.rule as usize].advice.iter().flat_map(|a| a.figures.clone())),
        );
    }
    for found in asked(wording.book, wording.view, &figures) {
        match found {
            Asked::Known { figure, instance, .. } => {
                push(answer, wording.figure_line(figure, instance, true));
            }
            Asked::Missing { figure, facts } => {
                let called = &wording.book.rules.figures[figure as usize].called;
                let mut lacking: Vec<String> = Vec::new();
                for (id, instance) in facts {
                    let phrase = wording.attribute(id, instance);
                    if !lacking.contains(&phrase) {
                        lacking.push(phrase);
                    }
                }
                if !lacking.is_empty() {
                    lacking.truncate(3);
                    answer.remarks.push(format!("To work out {called} I need: {}.", or_list(&lacking)));
                }
            }
        }
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

fn next_of(book: &Book, next: &NextQuestion, several_tanks: bool) -> Next {
    let what = |rules: &[u16]| -> Vec<String> {
        let mut out: Vec<String> = rules.iter().map(|n| act_of(book, *n)).collect();
        out.dedup();
        out
    };
    let why = next.answers.iter().filter(|a| !a.starts.is_empty() || !a.stops.is_empty()).map(|answer| {
        let starts = what(&answer.starts);
        let stops = what(&answer.stops);
        let mut parts = Vec::new();
        if !starts.is_empty() {
            parts.push(starts.join("; "));
        }
        if !stops.is_empty() {
            parts.push(format!("no longer: {}", stops.join("; ")));
        }
        format!("{}: {}", answer_called(book, next, &answer.said), parts.join("; "))
    });
    Next {
        subject: next.subject.clone(),
        attribute: next.attribute.clone(),
        ask: match several_tanks {
            true => format!("Tank {}: {}", next.subject.tank.max(1), next.ask),
            false => next.ask.clone(),
        },
        why: why.collect(),
        measure: next.measure.clone(),
    }
}

fn answer_called(book: &Book, next: &NextQuestion, said: &str) -> String {
    match book.schema.path(&next.subject.thing, &next.attribute) {
        Some(id) if book.schema.dimension(id).is_none() => super::wording::kind_called(book, id, said),
        _ => said.to_string(),
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

/// Plain lines where there is nothing to advise or nothing that answers a question.
fn remarks(book: &Book, assessment: &Assessment, reading: &Reading, topics: &[String], answer: &mut Answer) {
    let answered = answer.advice.iter().any(|a| a.asked) || answer.figures.iter().any(|f| f.asked);
    let general = |topic: &String| matches!(topic.as_str(), "first step" | "last" | "list" | "figures" | "");
    if !answered && !topics.is_empty() && !topics.iter().all(general) && answer.remarks.is_empty() {
        let waits = waiting_for(book, assessment, topics);
        let called: Vec<String> = waits.iter().map(|(_, attribute)| attribute.called.clone()).collect();
        answer.remarks.push(match waits.is_empty() {
            false => format!("To answer that I need: {}.", or_list(&called)),
            true if reading.asks.iter().any(|a| a.form == Form::Whether) => {
                "No rule of this book speaks for or against that in this tank.".to_string()
            }
            true => "No rule of this book answers that for this tank.".to_string(),
        });
        // What was asked decides what is asked back.
        answer.next = waits.first().map(|(subject, attribute)| Next {
            subject: subject.clone(),
            attribute: attribute.attribute.clone(),
            ask: attribute.ask.clone().unwrap_or_default(),
            why: vec!["it is what your question hangs on".to_string()],
            measure: attribute.measure.clone(),
        });
    }
    let said = assessment.tanks.iter().any(|t| !t.case.facts.things.iter().all(|i| i.iter().all(unsaid)));
    if answer.advice.is_empty() && answer.remarks.is_empty() && said && answer.asked_back.is_empty() {
        answer.remarks.push("Nothing to advise yet on what was said.".to_string());
    }
}

fn unsaid(instance: &crate::case::fact::Instance) -> bool {
    !instance.facts.values().any(crate::case::fact::Fact::is_said)
}

/// What the rules of these topics wait for and a caller can be asked, at most three.
fn waiting_for<'b>(book: &'b Book, assessment: &Assessment, topics: &[String]) -> Vec<(Subject, &'b Attribute)> {
    let mut out: Vec<(Subject, &Attribute)> = Vec::new();
    for view in &assessment.tanks {
        for (n, rule) in book.rules.rules.iter().enumerate() {
            if rule.advice.is_none() || !topics.contains(&rule.topic) {
                continue;
            }
            let waits = waiting::waiting_for(&book.schema, &book.rules, &view.world, &view.state, n as u16);
            for (id, instance) in waits {
                let entry = book.schema.of(id);
                let thing = &book.schema.thing_of(entry.thing).name;
                let Some(attribute) = book.knowledge.vocabulary.attribute(thing, &entry.name) else { continue };
                let Some(found) = view.case.facts.instances(entry.thing).get(instance as usize) else { continue };
                if attribute.ask.is_some() && !out.iter().any(|(_, a)| a.called == attribute.called) {
                    out.push((Subject { tank: view.tank, ..found.subject.clone() }, attribute));
                }
            }
        }
    }
    // Several ways may lead to the same figure: first what is asked unprompted, too, then what is the least trouble.
    out.sort_by_key(|(_, attribute)| (attribute.answers.is_empty(), attribute.trouble.unwrap_or(u8::MAX)));
    out.truncate(3);
    out
}
