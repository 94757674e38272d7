//! Two answers to one call, compared advice by advice. In: a call as it was answered and as it is answered now. Out: what is
//! gone, new, moved, another figure, other words. Knows no book.

use super::call::{Exchange, SavedCall};
use super::told::{Told, ToldAdvice};
use crate::rulebook::raw::Urgency;
use serde::{Deserialize, Serialize};

/// What a difference is about; the same in every comparison of one call.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Subject {
    #[serde(rename = "advice")]
    Advice { rule: String, about: Option<String> },
    #[serde(rename = "figure")]
    Figure { called: String },
    /// What was shown beside advice and figures: a reason asked for, a question, what was assumed.
    #[serde(rename = "page")]
    Page,
}

/// How it differs, the gravest first.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum What {
    Gone,
    New,
    /// To another urgency.
    Moved {
        from: Urgency,
        to: Urgency,
    },
    /// The same sentence with other figures in it, or another value of a figure.
    Figure {
        from: String,
        to: String,
    },
    Words {
        from: String,
        to: String,
    },
}

/// One difference.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Change {
    /// The first turn in which it shows, from 1.
    pub turn: usize,
    /// It still shows in the last turn: the caller left with it.
    pub lasts: bool,
    pub subject: Subject,
    pub what: What,
    /// Of advice, the greater of before and after.
    pub urgency: Option<Urgency>,
    /// The sentence of advice.
    pub say: String,
}

impl Change {
    /// Somebody left with advice for today or sooner that is no longer given, or without one that is given now.
    pub fn needs_call_back(&self) -> bool {
        let matters = matches!(self.what, What::Gone | What::New | What::Moved { .. });
        matters && self.lasts && self.urgency.is_some_and(|u| u <= Urgency::Today)
    }

    /// The gravest first: by urgency, then by how it differs.
    pub fn gravity(&self) -> impl Ord + use<> {
        let rank = match self.what {
            What::Gone => 0,
            What::New => 1,
            What::Moved { .. } => 2,
            What::Figure { .. } => 3,
            What::Words { .. } => 4,
        };
        (!self.needs_call_back(), rank > 2, self.urgency.unwrap_or(Urgency::GoodToKnow), rank)
    }
}

/// Every difference once, in the order of the turns, the gravest of a turn first.
pub fn compare(before: &SavedCall, after: &SavedCall) -> Vec<Change> {
    let mut out: Vec<Change> = Vec::new();
    let last = before.exchanges.len();
    for (n, (was, is)) in before.exchanges.iter().zip(&after.exchanges).enumerate() {
        let mut found = compare_turn(was, is);
        found.sort_by(|a, b| a.gravity().cmp(&b.gravity()).then_with(|| a.subject.cmp(&b.subject)));
        for mut change in found {
            change.turn = n + 1;
            change.lasts = n + 1 == last;
            match out.iter_mut().find(|c| c.subject == change.subject && c.what == change.what) {
                Some(known) => known.lasts |= change.lasts,
                None => out.push(change),
            }
        }
    }
    out
}

fn compare_turn(was: &Exchange, is: &Exchange) -> Vec<Change> {
    let mut out = Vec::new();
    if let (Some(was), Some(is)) = (&was.told, &is.told) {
        compare_told(was, is, &mut out);
    }
    if out.is_empty()
        && let Some((from, to)) = other_line(&was.shown, &is.shown)
    {
        out.push(change(Subject::Page, What::Words { from, to }, None, ""));
    }
    out
}

fn change(subject: Subject, what: What, urgency: Option<Urgency>, say: &str) -> Change {
    Change { turn: 0, lasts: false, subject, what, urgency, say: say.to_string() }
}

fn compare_told(was: &Told, is: &Told, out: &mut Vec<Change>) {
    let same = |a: &&ToldAdvice, b: &ToldAdvice| a.rule == b.rule && a.about == b.about;
    let subject = |a: &ToldAdvice| Subject::Advice { rule: a.rule.clone(), about: a.about.clone() };
    for before in &was.advice {
        match is.advice.iter().find(|after| same(after, before)) {
            None => out.push(change(subject(before), What::Gone, Some(before.urgency), &before.say)),
            Some(after) if after.urgency != before.urgency => {
                let what = What::Moved { from: before.urgency, to: after.urgency };
                out.push(change(subject(before), what, Some(before.urgency.min(after.urgency)), &after.say));
            }
            Some(after) => {
                if let Some(what) = other_words(before, after) {
                    out.push(change(subject(before), what, Some(after.urgency), &after.say));
                }
            }
        }
    }
    for after in is.advice.iter().filter(|after| !was.advice.iter().any(|before| same(&before, after))) {
        out.push(change(subject(after), What::New, Some(after.urgency), &after.say));
    }
    // A figure that comes or goes does so with its advice; that one is said.
    for before in &was.figures {
        if let Some(after) = is.figures.iter().find(|f| f.called == before.called && f.result != before.result) {
            let what = What::Figure { from: before.result.clone(), to: after.result.clone() };
            out.push(change(Subject::Figure { called: before.called.clone() }, what, None, ""));
        }
    }
}

/// The first text of two pieces of advice that differs.
fn other_words(a: &ToldAdvice, b: &ToldAdvice) -> Option<What> {
    let parts = |x: &ToldAdvice| {
        let mut parts = vec![x.say.clone()];
        parts.extend(x.steps.iter().cloned());
        parts.push(x.because.clone());
        parts.extend(x.cautions.iter().map(|c| format!("caution {c}")));
        parts
    };
    let (a, b) = (parts(a), parts(b));
    if a == b {
        return None;
    }
    if a.len() == b.len() {
        let differ: Vec<(&String, &String)> = a.iter().zip(&b).filter(|(a, b)| a != b).collect();
        let figures: Option<Vec<(String, String)>> = differ.iter().map(|(a, b)| other_figures(a, b)).collect();
        if let Some((from, to)) = figures.and_then(|f| f.into_iter().next()) {
            return Some(What::Figure { from, to });
        }
    }
    let n = a.iter().zip(&b).take_while(|(a, b)| a == b).count();
    let at = |x: &[String]| x.get(n).cloned().unwrap_or_default();
    Some(What::Words { from: at(&a), to: at(&b) })
}

/// The figures that differ between two texts which are the same otherwise.
fn other_figures(a: &str, b: &str) -> Option<(String, String)> {
    let (a, b): (Vec<&str>, Vec<&str>) = (a.split(' ').collect(), b.split(' ').collect());
    if a.len() != b.len() {
        return None;
    }
    let differ: Vec<usize> = (0..a.len()).filter(|n| a[*n] != b[*n]).collect();
    let is_figure = |word: &str| word.contains(|c: char| c.is_ascii_digit());
    if differ.is_empty() || !differ.iter().all(|n| is_figure(a[*n]) && is_figure(b[*n])) {
        return None;
    }
    // With the word behind it, which is its unit.
    let at = |words: &[&str]| {
        let n = differ[0];
        words[n..words.len().min(n + 2)].join(" ").trim_end_matches([',', ';', '.']).to_string()
    };
    Some((at(&a), at(&b)))
}

/// The first line that differs. Where a rule stands in its file is no difference.
fn other_line(was: &str, is: &str) -> Option<(String, String)> {
    let (mut was_lines, mut is_lines) = (was.lines(), is.lines());
    loop {
        match (was_lines.next(), is_lines.next()) {
            (None, None) => return None,
            (a, b) => {
                let (a, b) = (a.unwrap_or(""), b.unwrap_or(""));
                if without_places(a) != without_places(b) {
                    return Some((a.trim().to_string(), b.trim().to_string()));
                }
            }
        }
    }
}

/// A line without the number behind the name of a file of the book.
fn without_places(line: &str) -> String {
    match line.split_once(".yaml:") {
        Some((front, rest)) => format!("{front}.yaml{}", rest.trim_start_matches(|c: char| c.is_ascii_digit())),
        None => line.to_string(),
    }
}
