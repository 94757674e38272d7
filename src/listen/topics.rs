//! Topics: what a question is about, by the cues of the topic list. In: the cues heard in a clause, its form, the things
//! named. Out: one topic, sometimes two. Knows no answer.

use super::cues::TopicCues;
use super::reading::Form;
use super::supposed::Hearing;
use super::term::within;

/// The topics of a question: the first of the list that fits, and a second one that the same breath names besides.
pub fn topics_of(hearing: &Hearing, form: Form, things: &[&str]) -> Vec<(String, Option<Form>)> {
    let ((first, last), heard, listener, before) = (hearing.words, hearing.heard, hearing.listener, hearing.before);
    let clause = within(heard, first, last);
    let here = |cues: &[u16]| clause.iter().any(|h| h.last <= last && cues.contains(&h.cue));
    let in_line = |cues: &[u16]| cues.is_empty() || heard.iter().any(|h| cues.contains(&h.cue));
    let fits = |t: &&TopicCues| {
        (t.words.is_empty() || here(&t.words))
            && in_line(&t.line)
            && (t.form.is_empty() || t.form.contains(&form))
            && (t.with.is_empty() || t.with.iter().any(|w| things.contains(&w.as_str())))
            && (form != Form::WhatIf || t.answers_what_if)
    };
    if matches!(form, Form::Why | Form::HowSure) && things.is_empty() {
        return vec![("last".to_string(), None)];
    }
    let topics = &listener.cues.topics;
    let main = topics.iter().filter(|t| !t.beside_others).find(fits);
    let besides = topics.iter().filter(|t| t.beside_others).find(fits);
    match (main, besides) {
        (Some(main), Some(also)) if matches!(form, Form::HowMuch | Form::HowMany | Form::HowBig) => {
            let second = if form == Form::HowBig { form } else { Form::Whether };
            vec![(main.topic.clone(), main.form_given), (also.topic.clone(), Some(second))]
        }
        (_, Some(also)) => vec![(also.topic.clone(), also.form_given)],
        (Some(main), None) => vec![(main.topic.clone(), main.form_given)],
        (None, None) if matches!(form, Form::WhatIf | Form::Why | Form::HowSure) => vec![("last".to_string(), None)],
        (None, None) if things.is_empty() => {
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
