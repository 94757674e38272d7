//! Readings written on one line: `stock(guppy/fry).count = about 30`, `tank#2.nominal := 45 gal`,
//! `drop stock(angelfish)`, `whether need medium(carbon) if filter.rated flow = 300 gal/h`.

use weirline::listen::reading::{Ask, How, Level, Mark, Said, Says, Statement, Subject, TimeRelation};
use weirline::units::Amount;

pub fn subject(s: &Subject) -> String {
    let mut text = s.thing.clone();
    let one_a_tank = matches!(s.thing.as_str(), "reading" | "plant" | "feed" | "change");
    let number = if one_a_tank { s.tank } else { s.number };
    if number > 1 {
        text += &format!("#{number}");
    }
    match (&s.kind, &s.stage) {
        (Some(k), Some(g)) => text += &format!("({k}/{g})"),
        (Some(k), None) => text += &format!("({k})"),
        (None, Some(g)) => text += &format!("(any/{g})"),
        (None, None) if s.thing == "stock" => text += "(any)",
        _ => {}
    }
    text
}

/// How a value meets what was held, as it is written.
pub fn sign(how: &How) -> &'static str {
    match how {
        How::Set => "=",
        How::Replace => ":=",
        How::Add => "+=",
        How::Take => "-=",
    }
}

/// A mark as it is written; nothing where there is none.
pub fn mark(mark: Option<Mark>) -> &'static str {
    match mark {
        None => "",
        Some(Mark::Derived) => "derived",
        Some(Mark::Hint) => "hint",
        Some(Mark::Presumed) => "presumed",
        Some(Mark::Spelling) => "spelling",
    }
}

pub fn statement(s: &Statement) -> String {
    let of = subject(&s.subject);
    let text = match &s.says {
        Says::Present => format!("{of} present"),
        Says::Absent => format!("{of} absent"),
        Says::Unsure => format!("{of} unsure"),
        Says::Dropped => format!("drop {of}"),
        Says::DroppedValue { attribute } => format!("drop {of}.{attribute}"),
        Says::Value { attribute, how, value } => {
            let how = sign(how);
            format!("{of}.{attribute} {how} {}", said(value))
        }
    };
    match mark(s.mark) {
        "" => text,
        mark => format!("{text} ({mark})"),
    }
}

pub fn said(value: &Said) -> String {
    match value {
        Said::Amount(a) => amount(a),
        Said::Word(word) => word.clone(),
        Said::Time { relation, amount: a } => format!("{} {}", related(*relation), amount(a)),
        Said::Moment { relation, name } => format!("{} {name}", related(*relation)),
        Said::Thing(s) => subject(s),
        Said::Level(level) => match level {
            Level::Unknown => "unknown",
            Level::Untested => "untested",
            Level::High => "high",
            Level::Low => "low",
            Level::Fine => "fine",
            Level::OffChart => "off chart",
            Level::Never => "never",
        }
        .to_string(),
    }
}

fn related(relation: TimeRelation) -> &'static str {
    match relation {
        TimeRelation::Ago => "ago",
        TimeRelation::For => "for",
        TimeRelation::Every => "every",
        TimeRelation::Since => "since",
        TimeRelation::Old => "old",
        TimeRelation::In => "in",
    }
}

pub fn number(value: f64) -> String {
    let text = format!("{value:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

pub fn amount(a: &Amount) -> String {
    let figure = match (a.low, a.likely, a.high) {
        (Some(l), Some(m), Some(h)) if l == m && m == h => number(m),
        (Some(l), Some(m), Some(h)) => format!("{}..{}..{}", number(l), number(m), number(h)),
        (Some(l), None, Some(h)) => format!("{}..{}", number(l), number(h)),
        (None, _, Some(h)) => format!("{}{}", if a.strict { "<" } else { "<=" }, number(h)),
        (Some(l), _, None) => format!("{}{}", if a.strict { ">" } else { ">=" }, number(l)),
        _ => "?".to_string(),
    };
    format!("{figure} {}", a.unit.name).trim().to_string()
}

pub fn ask(a: &Ask) -> String {
    let mut text = format!("{} {}", a.form.name(), a.topic);
    for s in &a.about {
        text += &format!(" {}", subject(s));
    }
    if !a.suppose.is_empty() {
        text += &format!(" if {}", a.suppose.iter().map(statement).collect::<Vec<_>>().join(" and "));
    }
    text
}
