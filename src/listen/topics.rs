//! Topics: what a question is about, by the cues of the topic list. In: the cues heard in a clause, its form, the things
//! named. Out: one topic, sometimes two. Knows no answer.

use super::cues::TopicCues;
use super::reading::Form;
use super::supposed::Hearing;
use super::term::{Heard, within};

/// The topics of a question: the one whose cues ask for the most and fit, and a second one that the same breath names
/// besides.
pub fn topics_of<'h>(hearing: &Hearing<'h>, form: Form, things: &[&str]) -> Vec<(String, Option<Form>)> {
    let ((first, last), heard, listener, before) = (hearing.words, hearing.heard, hearing.listener, hearing.before);
    let clause = within(heard, first, last);
    // The unit of a figure names no matter: "250 gallon".
    let measured = |h: &Heard| hearing.figures.iter().any(|(from, to)| *from <= h.first && h.last <= *to);
    let in_line = |cues: &[u16]| cues.is_empty() || heard.iter().any(|h| cues.contains(&h.cue));
    let reached = within(heard, first, hearing.reach);
    let in_reach = |cues: &Vec<u16>| reached.iter().any(|h| h.last <= hearing.reach && cues.contains(&h.cue));
    let fits_in = |t: &&TopicCues, heard: &[Heard], last: usize| {
        let here = |cues: &[u16]| heard.iter().any(|h| h.last <= last && cues.contains(&h.cue) && !measured(h));
        (t.words.is_empty() || here(&t.words))
            && t.all.iter().all(in_reach)
            && !in_reach(&t.not)
            && in_line(&t.line)
            && (t.form.is_empty() || t.form.contains(&form))
            && (t.with.is_empty() || t.with.iter().any(|w| things.contains(&w.as_str())))
            && (form != Form::WhatIf || t.answers_what_if)
    };
    let fits = |t: &&TopicCues| fits_in(t, clause, last);
    let topics = &listener.cues.topics;
    // Of those that fit, the one that asks for the most; the first of these.
    let most = |best: Option<&'h TopicCues>, t: &'h TopicCues| match best {
        Some(b) if b.all.len() >= t.all.len() => best,
        _ => Some(t),
    };
    let alone = || topics.iter().filter(|t| !t.beside_others);
    // Words behind "with" count where the clause itself gives nothing away.
    let wide = |t: &&TopicCues| fits_in(t, reached, hearing.reach);
    let main = alone().filter(fits).fold(None, most).or_else(|| alone().filter(wide).fold(None, most));
    // A bare yes or no to something that has no name of ours is a question that was not understood.
    let main = main.filter(|m| !(hearing.strange && things.is_empty() && m.all.is_empty() && is_weak(&m.topic)));
    if matches!(form, Form::Why | Form::HowSure) && things.is_empty() && main.is_none_or(|m| m.all.is_empty()) {
        return if hearing.strange && main.is_none() { Vec::new() } else { vec![("last".to_string(), None)] };
    }
    let besides = topics.iter().filter(|t| t.beside_others).find(fits);
    // "sump or canister?": a choice of filters or of media, unless more is asked of them.
    let chosen = match hearing.alternatives.first().map(|a| a.thing.as_str()) {
        Some("medium") => Some("media"),
        Some("filter") => Some("filter choice"),
        _ => None,
    };
    let more = main.is_some_and(|m| !m.all.is_empty() || !of_choice(&m.topic));
    if let Some(topic) = chosen.filter(|_| !more) {
        return vec![(topic.to_string(), Some(Form::Which))];
    }
    // What asks for more than a phrase is not turned by what is asked besides.
    let besides = besides.filter(|_| main.is_none_or(|m| m.all.len() < 2));
    match (main, besides) {
        (Some(main), Some(also)) if matches!(form, Form::HowMuch | Form::HowMany | Form::HowBig) => {
            let second = if form == Form::HowBig { form } else { Form::Whether };
            vec![(main.topic.clone(), main.form_given), (also.topic.clone(), Some(second))]
        }
        (_, Some(also)) => vec![(also.topic.clone(), also.form_given)],
        (Some(main), None) => vec![(main.topic.clone(), main.form_given)],
        (None, None) if matches!(form, Form::WhatIf | Form::Why | Form::HowSure) => vec![("last".to_string(), None)],
        (None, None) if things.is_empty() && !hearing.strange => {
            // "Should I clean it? When?": how often, where the list has a topic for that.
            let often = matches!(form, Form::When | Form::HowOften);
            let interval = before.map(|a| format!("{} interval", a.topic)).filter(|_| often);
            // "And how?" behind it: how the thing itself is done.
            let plain = before.and_then(|a| a.topic.strip_suffix(" interval")).filter(|_| form == Form::How);
            if let Some(topic) = plain.filter(|p| topics.iter().any(|t| t.topic == *p)) {
                return vec![(topic.to_string(), None)];
            }
            let listed = interval.filter(|i| topics.iter().any(|t| t.topic == *i));
            listed.or(before.map(|a| a.topic.clone())).map(|topic| vec![(topic, None)]).unwrap_or_default()
        }
        (None, None) => Vec::new(),
    }
}

/// Topics that ask no more of two things than which of them to take.
fn of_choice(topic: &str) -> bool {
    matches!(topic, "need" | "add" | "media" | "filter choice" | "enough" | "buy" | "first step")
}

/// Topics whose cues alone name no matter: "need", "any good".
fn is_weak(topic: &str) -> bool {
    matches!(topic, "need" | "add" | "remove" | "replace" | "enough" | "compatible" | "buy")
}
