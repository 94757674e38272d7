//! The line notation of readings, read back. In: a written statement. Out: its parts, kinds by the names of the tables.

use super::notation::{mark, number, said, sign, subject};
use weirline::listen::Listener;
use weirline::listen::reading::{Says, Statement};
use weirline::units::unit;

/// A written statement as its parts, with names of the tables in place of callers' words.
#[derive(Debug, Clone, PartialEq)]
pub struct Written {
    pub subject: String,
    pub attribute: Option<String>,
    /// `present`, `absent`, `unsure`, `drop`, `=`, `:=`, `+=`, `-=`.
    pub how: String,
    pub value: String,
    pub mark: String,
}

/// Reads one written statement. Kinds may be any word of the tables.
pub fn written(text: &str, listener: &Listener) -> Written {
    let (text, mark) = match text.rsplit_once(" (") {
        Some((head, tail)) if ["derived)", "hint)", "presumed)", "spelling)"].contains(&tail) => {
            (head.trim(), tail.trim_end_matches(')').to_string())
        }
        _ => (text.trim(), String::new()),
    };
    let mut out = Written { subject: String::new(), attribute: None, how: String::new(), value: String::new(), mark };
    if let Some(rest) = text.strip_prefix("drop ") {
        let (of, attribute) = split_attribute(rest);
        out.subject = named(of, listener);
        out.attribute = attribute.map(str::to_string);
        out.how = "drop".into();
        return out;
    }
    for how in [" := ", " += ", " -= ", " = "] {
        if let Some((left, value)) = text.split_once(how) {
            let (of, attribute) = split_attribute(left);
            out.subject = named(of, listener);
            out.attribute = attribute.map(str::to_string);
            out.how = how.trim().into();
            let thing = out.subject.split(['#', '(']).next().unwrap_or("").to_string();
            out.value = canonical(value, &thing, attribute.unwrap_or(""), listener);
            return out;
        }
    }
    let (of, how) = text.rsplit_once(' ').unwrap_or((text, ""));
    out.subject = named(of, listener);
    out.how = how.into();
    out
}

/// Events are written by their own names; all other kinds by any word of the tables.
fn kind_of(thing: &str, kind: &str, listener: &Listener) -> String {
    if thing == "event" {
        return kind.to_string();
    }
    listener.kind(thing, kind).unwrap_or_else(|| format!("?{kind}"))
}

fn split_attribute(text: &str) -> (&str, Option<&str>) {
    let close = text.find(')').unwrap_or(0);
    match text[close..].find('.') {
        Some(at) => (&text[..close + at], Some(&text[close + at + 1..])),
        None => (text, None),
    }
}

/// `stock(tetra)` with the name that the table has for it.
pub fn named(text: &str, listener: &Listener) -> String {
    let Some((head, rest)) = text.split_once('(') else { return text.trim().to_string() };
    let inner = rest.trim_end_matches(')');
    let (kind, stage) = match inner.split_once('/') {
        Some((k, s)) => (k, Some(s)),
        None => (inner, None),
    };
    let thing = head.split('#').next().unwrap_or(head);
    let kind = if kind == "any" { kind.to_string() } else { kind_of(thing, kind, listener) };
    match stage {
        Some(stage) => {
            format!("{head}({kind}/{})", listener.state(thing, "stage", stage).unwrap_or_else(|| stage.to_string()))
        }
        None if kind == "any" && thing != "stock" => head.to_string(),
        None => format!("{head}({kind})"),
    }
}

/// A value in the form that `said` prints.
fn canonical(value: &str, thing: &str, attribute: &str, listener: &Listener) -> String {
    let value = value.trim();
    for relation in ["ago", "for", "every", "since", "old", "in"] {
        if let Some(rest) = value.strip_prefix(relation).filter(|r| r.starts_with(' ')) {
            return match figure(rest.trim()) {
                Some(text) => format!("{relation} {text}"),
                None => format!("{relation} {}", rest.trim()),
            };
        }
    }
    if value.contains(" per ") && attribute.ends_with("flow") {
        let (volume, time) = value.split_once(" per ").expect("there");
        let (v, vu) = volume.split_once(' ').expect("unit");
        let (t, tu) = time.split_once(' ').expect("unit");
        let unit = format!("{vu}/h");
        let seconds = unit::by_name(tu).expect("known").to_base(t.parse().expect("number"));
        let per_hour = v.parse::<f64>().expect("number") / seconds * 3600.0;
        return format!("{} {unit}", number((per_hour * 10.0).round() / 10.0));
    }
    if let Some(text) = figure(value).filter(|_| (thing, attribute) != ("plant", "amount")) {
        return if attribute == "ph" && !text.contains(' ') { format!("{text} pH") } else { text };
    }
    if thing == "filter" && attribute == "kind" {
        return listener.kind("filter", value).unwrap_or_else(|| format!("?{value}"));
    }
    listener.state(thing, attribute, value).unwrap_or_else(|| value.to_string())
}

/// "about 55 gal", "few", "3..4 in", "<=20": low, likely and high worked out.
fn figure(text: &str) -> Option<String> {
    let vague: [(&str, [f64; 3]); 4] =
        [("couple", [2., 2., 3.]), ("few", [3., 4., 5.]), ("handful", [4., 5., 6.]), ("several", [4., 6., 8.])];
    if let Some((_, [l, m, h])) = vague.iter().find(|(w, _)| *w == text) {
        return Some(format!("{l}..{m}..{h}"));
    }
    let hedges: [(&str, [f64; 3]); 4] = [
        ("about ", [0.9, 1., 1.1]),
        ("rough ", [0.8, 1., 1.2]),
        ("nearly ", [0.9, 0.95, 1.]),
        ("bitover ", [1., 1.05, 1.1]),
    ];
    for (word, [l, m, h]) in hedges {
        if let Some(rest) = text.strip_prefix(word) {
            let (n, unit) = rest.split_once(' ').unwrap_or((rest, ""));
            let n: f64 = n.parse().ok()?;
            let mut v = [n * l, n * m, n * h];
            if unit.is_empty() {
                v = [(n * l + 1e-9).floor(), (n * m).round(), (n * h - 1e-9).ceil()];
            }
            return Some(format!("{}..{}..{} {unit}", number(v[0]), number(v[1]), number(v[2])).trim().to_string());
        }
    }
    let first = text.chars().next()?;
    if !(first.is_ascii_digit() || "<>".contains(first)) {
        return None;
    }
    let (figures, unit) = text.split_once(' ').unwrap_or((text, ""));
    let sign: String = figures.chars().take_while(|c| "<>=".contains(*c)).collect();
    let rest = &figures[sign.len()..];
    let numbers: Option<Vec<String>> = rest.split("..").map(|n| n.parse::<f64>().ok().map(number)).collect();
    Some(format!("{sign}{} {unit}", numbers?.join("..")).trim().to_string())
}

/// The same parts of a statement that was read.
pub fn parts(s: &Statement) -> Written {
    let (attribute, how, value) = match &s.says {
        Says::Present => (None, "present", String::new()),
        Says::Absent => (None, "absent", String::new()),
        Says::Unsure => (None, "unsure", String::new()),
        Says::Dropped => (None, "drop", String::new()),
        Says::DroppedValue { attribute } => (Some(attribute.clone()), "drop", String::new()),
        Says::Value { attribute, how, value } => (Some(attribute.clone()), sign(how), said(value)),
    };
    Written { subject: subject(&s.subject), attribute, how: how.into(), value, mark: mark(s.mark).into() }
}
