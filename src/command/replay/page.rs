//! The report of a replay as text: read in ten seconds, whatever the number of calls. In: a report. Out: text. Computes nothing.

use crate::archive::compare::{Change, Subject, What};
use crate::archive::report::{ChangedCall, Found, Group, NamedEdit, Report, Why, label};
use crate::command::arguments::ReplayFlags;
use crate::command::settings::Settings;
use crate::reply::text::Length;
use crate::source::words::{counted, differing};

/// Up to so many changed calls are shown one by one unasked.
const FEW: usize = 6;
/// Calls to call back, and causes, that are listed; `--full` lists all.
const MOST: usize = 5;
const MOST_CAUSES: usize = 8;
/// Letters of a sentence.
const SHOWN: usize = 90;

pub fn page(report: &Report, flags: &ReplayFlags, settings: &Settings) -> String {
    let full = settings.length == Length::Full;
    let mut out = String::new();
    let backs = report.call_backs().count();
    if backs > 0 {
        out.push_str(
            "Call back: told something for today or sooner that is no longer said, or not told what is said now\n",
        );
        let most = if full { usize::MAX } else { MOST };
        for call in report.call_backs().take(most) {
            out.push_str(&format!("  {}\n", call.call));
            let grave = call.found.iter().filter(|f| f.change.needs_call_back());
            for found in grave.take(if full { usize::MAX } else { 2 }) {
                out.push_str(&format!("     {} ({})\n", told(&found.change), places(&found.why)));
            }
        }
        out.push_str(&rest(backs, most, "more call"));
        out.push('\n');
    }
    let groups = report.groups();
    if !groups.is_empty() {
        out.push_str("Why, the gravest first\n");
        let most = if full { usize::MAX } else { MOST_CAUSES };
        groups.iter().enumerate().take(most).for_each(|(n, group)| out.push_str(&of_group(n + 1, group)));
        out.push_str(&rest(groups.len(), most, "more cause"));
        out.push('\n');
    }
    if full || report.changed.len() <= FEW {
        report.changed.iter().for_each(|call| out.push_str(&of_call(call)));
        if !report.changed.is_empty() {
            out.push('\n');
        }
    }
    out.push_str(&last_lines(report, backs, flags));
    out
}

fn rest(all: usize, shown: usize, what: &str) -> String {
    match all.saturating_sub(shown) {
        0 => String::new(),
        n => format!("  and {}: --full lists all\n", counted(n, what, &format!("{what}s"))),
    }
}

fn last_lines(report: &Report, backs: usize, flags: &ReplayFlags) -> String {
    let all = counted(report.calls, "call", "calls");
    let accepted = report.changed.iter().filter(|c| c.accepted).count();
    let open = report.changed.len() - accepted;
    let mut parts = Vec::new();
    if report.changed.is_empty() {
        parts.push("nothing changed".to_string());
    }
    if open > 0 {
        parts.push(format!("{open} would be answered differently"));
    }
    if accepted > 0 {
        parts.push(format!("{accepted} taken as right"));
    }
    if backs > 0 {
        parts.push(format!("{backs} to call back"));
    }
    if !report.unreadable.is_empty() {
        parts.push(format!("{} could not be read", report.unreadable.len()));
    }
    let mut out = format!("{all}: {}.\n", parts.join(", "));
    if open > 0 && !flags.accept && !flags.watch && !flags.merge {
        out.push_str(
            "Nothing was written. --accept takes it as right; with --only NAME what one rule, entry or call changed.\n",
        );
    }
    if open > 0 && flags.accept {
        out.push_str(
            "Calls that another edit changes too were left; take that one as well, or the call by its name.\n",
        );
    }
    out
}

fn of_group(number: usize, group: &Group) -> String {
    let mut out = match group.why {
        Why::Edits(edits) => {
            let lines: Vec<String> = edits.iter().map(edit).collect();
            format!("  {number:<2} {}\n", lines.join("\n     and "))
        }
        Why::NotTheBook => {
            format!("  {number:<2} not the book: the program answers it differently, or the transcript was changed\n")
        }
        Why::NoBook(why) => format!("  {number:<2} not known: {why}\n"),
    };
    let counts: Vec<String> = group.counts.iter().map(|(what, n)| format!("{n} {what}")).collect();
    out.push_str(&format!("     {}: {}", counted(group.calls, "call", "calls"), counts.join("; ")));
    if group.call_backs > 0 {
        out.push_str(&format!("; {} to call back", group.call_backs));
    }
    let (call, change) = group.example;
    out.push_str(&format!("\n     as in {call}, turn {}: {}\n", change.turn, told(change)));
    out
}

/// "rules/intake.yaml:131 rule look-at-the-intake: 20 in/s -> 30 in/s".
fn edit(edit: &NamedEdit) -> String {
    let head = format!("{} {} {}", edit.place(), edit.sort, edit.name);
    match edit.how.as_str() {
        "changed" if edit.from.is_empty() && edit.to.is_empty() => format!("{head} changed"),
        "changed" => format!("{head}: {} -> {}", edit.from, edit.to),
        how => format!("{head} {how}"),
    }
}

fn places(why: &Why) -> String {
    match why {
        Why::Edits(edits) => {
            edits.iter().map(|e| format!("{} {}", e.place(), e.name)).collect::<Vec<_>>().join(" and ")
        }
        Why::NotTheBook => "not the book".to_string(),
        Why::NoBook(_) => "cause not known".to_string(),
    }
}

/// One call: for each cause what it did, the gravest first.
fn of_call(call: &ChangedCall) -> String {
    let mut out = format!("{}{}\n", call.call, if call.accepted { ": taken as right" } else { "" });
    let mut told_of: Vec<&Why> = Vec::new();
    for Found { why, .. } in &call.found {
        if told_of.contains(&why) {
            continue;
        }
        told_of.push(why);
        out.push_str(&format!("  because of {}\n", places(why)));
        for found in call.found.iter().filter(|f| f.why == *why) {
            out.push_str(&format!("     turn {}, {}\n", found.change.turn, told(&found.change)));
        }
    }
    out
}

/// What happened, to what: `gone, today: "Cover the intake."`.
fn told(change: &Change) -> String {
    let (_, what) = label(change);
    let of = match &change.subject {
        Subject::Advice { rule, about } => match about {
            Some(about) => format!("{rule} ({about})"),
            None => rule.clone(),
        },
        Subject::Figure { called } => called.clone(),
        Subject::Page => "what is shown".to_string(),
    };
    match &change.what {
        What::Figure { from, to } | What::Words { from, to } => {
            let (from, to) = differing(from, to);
            format!("{what}: {of}: \"{from}\" -> \"{to}\"")
        }
        _ => format!("{what}: {of}: \"{}\"", cut(&change.say)),
    }
}

fn cut(text: &str) -> String {
    match text.chars().count() > SHOWN {
        true => format!("{}...", text.chars().take(SHOWN).collect::<String>().trim_end()),
        false => text.to_string(),
    }
}
