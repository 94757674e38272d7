//! What a question presumes and what it only supposes. In: how a clause asks, with its findings. Out: asks, and facts that
//! are taken as told. Knows no answer.

use super::ask::Asking;
use super::found::Found;
use super::line::Listener;
use super::reading::{Ask, Form, Mark, Said, Says, Statement, Subject};
use super::state::State;
use super::term::Heard;
use super::topics::topics_of;
use crate::knowledge::language::Role;
use crate::source::Span;

/// What an ask is made of besides its findings.
pub struct Hearing<'a> {
    pub listener: &'a Listener,
    pub span: Span,
    /// First and last word of the clause.
    pub words: (usize, usize),
    /// A filter was sent in.
    pub away: bool,
    /// It is opened as a question, and a word of it is none of ours.
    pub strange: bool,
    /// Last word that the question reaches, past the end of the clause.
    pub reach: usize,
    /// What it sets one against the other.
    pub alternatives: &'a [Subject],
    pub heard: &'a [Heard],
    /// First and last word of each figure of the clause.
    pub figures: &'a [(usize, usize)],
    pub state: &'a State,
    /// The question before this one.
    pub before: Option<&'a Ask>,
}

/// The ask of a clause, with the facts that it presumes.
pub fn ask_of(asking: Asking, found: &[Found], heard: &Hearing) -> (Vec<Ask>, Vec<Found>) {
    let (state, span) = (heard.state, heard.span);
    let mut presumed = Vec::new();
    let mut suppose: Vec<Statement> = Vec::new();
    let mut about: Vec<Subject> = Vec::new();
    let mut add_about = |subject: &Subject, kind: Option<String>| {
        let mut subject = subject.clone();
        if let Some(kind) = kind {
            subject.kind = Some(kind);
        }
        let second_tank = subject.thing == "tank" && subject.number > 1 && state.tanks.len() > 1;
        if !about.contains(&subject)
            && (second_tank || !matches!(subject.thing.as_str(), "tank" | "reading" | "keeper"))
        {
            about.push(subject);
        }
    };
    for (n, finding) in found.iter().enumerate() {
        let kind = match (&finding.says, finding.subject.thing.as_str()) {
            (Says::Value { attribute, value: Said::Word(word), .. }, "filter") if attribute == "kind" => {
                Some(word.clone())
            }
            _ => None,
        };
        add_about(&finding.subject, kind);
        // A wish is a wish, asked about or not.
        if finding.attribute() == Some("wanted") {
            presumed.push(finding.clone());
            continue;
        }
        let tank_volume = finding.subject.thing == "tank" && matches!(finding.attribute(), Some("nominal" | "length"));
        let placed = matches!(finding.via, Some(Role::For | Role::On | Role::In)) && tank_volume;
        // "would 2 kg of it carry 150 l": the tank that it is asked for.
        let amount = |f: &Found| f.subject.thing == "medium" && matches!(f.attribute(), Some("mass" | "volume"));
        let placed = placed || tank_volume && asking.form == Form::Whether && found[..n].iter().any(amount);
        let known = state.value(&finding.subject, finding.attribute().unwrap_or(""));
        // "so 15 guppies, guard needed?": what was told before, told again.
        let again = match &finding.says {
            Says::Value { value, .. } => known == Some(value) && !asking.supposes && finding.via.is_none(),
            _ => false,
        };
        if again && asking.opener.is_none() && !asking.part {
            let mut told = finding.clone();
            told.replaces = true;
            presumed.push(told);
            continue;
        }
        // "why is the water cloudy": asked of what is so.
        let so = asking.form == Form::Why && matches!(&finding.says, Says::Value { value: Said::Word(_), .. });
        // "20 guppies instead of 8": the second is what is there now.
        let now = finding.instead;
        let only_asked =
            matches!(asking.form, Form::WhyNot | Form::Which) && finding.subject.thing == "medium" || asking.part;
        let negated = matches!(finding.says, Says::Absent);
        if negated && finding.definite && !asking.supposes {
            // "shouldn't the foam go first?" says nothing of whether there is any.
            continue;
        }
        let lacking = negated && asking.supposes;
        if (only_asked || negated) && finding.definite && !lacking {
            continue;
        }
        if now || so || finding.definite && !lacking || placed && known.is_none() && !asking.supposes {
            let mut fact = finding.clone();
            if fact.mark != Some(Mark::Spelling) {
                fact.mark = Some(Mark::Presumed);
            }
            presumed.push(fact);
        } else if matches!(finding.says, Says::Absent) && finding.via.is_none() && !asking.supposes {
            // A negated question ("don't I need carbon?") says nothing of what is there.
        } else if !finding.bare
            || finding.attribute().is_some() && asking.supposes
            || matches!(finding.says, Says::Absent)
            || asking.supposes && n > 0
        {
            suppose.push(statement(finding, span));
        }
    }
    if asking.form != Form::WhatIf {
        about.extend(
            heard.alternatives.iter().filter(|a| !about.iter().any(|b| b.kind == a.kind)).cloned().collect::<Vec<_>>(),
        );
    }
    // "what foam": one of several of a kind.
    let names_kind = asking.kind_behind;
    let asked_form = if names_kind && asking.form == Form::What { Form::Which } else { asking.form };
    let mut things: Vec<&str> = found.iter().map(|f| f.subject.thing.as_str()).collect();
    things.dedup();
    let attributes: Vec<String> =
        found.iter().filter_map(|f| f.attribute().map(|a| format!("{}.{a}", f.subject.thing))).collect();
    things.extend(attributes.iter().map(String::as_str));
    if heard.away {
        things.push(super::by_post::AWAY);
    }
    if found.iter().any(|f| f.subject.stage.as_deref() == Some("fry")) {
        things.push("fry");
    }
    let topics = topics_of(heard, asked_form, &things);

    // "is that enough": what was spoken of last.
    if about.is_empty()
        && let Some(subject) =
            state.subject.clone().filter(|s| matches!(s.thing.as_str(), "filter" | "medium" | "stock"))
    {
        about.push(subject);
    }
    // "how many kilos": of the medium asked about before.
    if about.is_empty()
        && let Some(before) = heard.before
    {
        about.extend(before.about.iter().filter(|s| s.thing == "medium" && s.kind.is_some()).cloned());
    }
    let form = match asking.form {
        Form::What if names_kind => Form::Which,
        form => form,
    };
    let asks = topics
        .into_iter()
        .map(|(topic, given)| Ask {
            span,
            form: given.unwrap_or(form),
            topic,
            about: about.clone(),
            suppose: suppose.clone(),
            named: Vec::new(),
        })
        .collect();
    (asks, presumed)
}

/// "10 US gal vs 10 imp gal": two values for one thing are two questions.
pub fn one_value_each(ask: Ask) -> Vec<Ask> {
    if ask.form != Form::WhatIf {
        return vec![ask];
    }
    let key = |s: &Statement| match &s.says {
        Says::Value { attribute, .. } => Some((s.subject.clone(), attribute.clone())),
        _ => None,
    };
    let twice = ask.suppose.iter().enumerate().find_map(|(n, s)| {
        let other = ask.suppose[n + 1..].iter().position(|o| key(o).is_some() && key(o) == key(s))?;
        Some((n, n + 1 + other))
    });
    let Some((one, other)) = twice else { return vec![ask] };
    let without = |n: usize| {
        let mut ask = ask.clone();
        ask.suppose.remove(n);
        ask
    };
    vec![without(other), without(one)]
}

pub fn statement(found: &Found, span: Span) -> Statement {
    Statement { span, subject: found.subject.clone(), says: found.says.clone(), mark: found.mark }
}
