//! Advice by advice: gone, new, moved, another figure, other words; what needs a call back; reports of shares.

use weirline::archive::call::{Exchange, SavedCall};
use weirline::archive::compare::{Change, Subject, What, compare};
use weirline::archive::report::{ChangedCall, FORM, Found, Report, Why};
use weirline::archive::told::{Told, ToldAdvice, ToldFigure};
use weirline::rulebook::raw::Urgency;

fn advice(urgency: Urgency, rule: &str, say: &str) -> ToldAdvice {
    let (rule, say, because) = (rule.to_string(), say.to_string(), "Because.".to_string());
    ToldAdvice { urgency, rule, about: None, say, steps: vec!["Do it.".to_string()], because, cautions: vec![] }
}

fn turn(shown: &str, advice: &[ToldAdvice], figures: &[(&str, &str)]) -> Exchange {
    let figure =
        |(called, result): &(&str, &str)| ToldFigure { called: called.to_string(), result: result.to_string() };
    let told = Told { advice: advice.iter().cloned().collect(), figures: figures.iter().map(figure).collect() };
    Exchange { typed: "x".into(), shown: shown.into(), told: Some(told), stamp: None }
}

fn call(exchanges: Vec<Exchange>) -> SavedCall {
    SavedCall { exchanges, ..SavedCall::default() }
}

/// Rule or figure and what happened, in the order of the comparison.
fn found(before: Exchange, after: Exchange) -> Vec<(String, What)> {
    let name = |c: Change| match c.subject {
        Subject::Advice { rule, .. } => (rule, c.what),
        Subject::Figure { called } => (called, c.what),
        Subject::Page => ("page".to_string(), c.what),
    };
    compare(&call(vec![before]), &call(vec![after])).into_iter().map(name).collect()
}

#[test]
fn every_sort_of_difference_is_told_the_gravest_first() {
    use Urgency::*;
    let before = turn(
        "a\n",
        &[
            advice(InTime, "same", "Same."),
            advice(ThisWeek, "moved", "Moved."),
            advice(InTime, "figure", "Add 3 litres of foam."),
            advice(InTime, "words", "Rinse it."),
            advice(Danger, "gone", "Pull the plug."),
        ],
        &[("turnover", "4 per hour"), ("mass", "3 kg")],
    );
    let after = turn(
        "b\n",
        &[
            advice(InTime, "same", "Same."),
            advice(Today, "moved", "Moved."),
            advice(InTime, "figure", "Add 4 litres of foam."),
            advice(InTime, "words", "Wash it."),
            advice(Now, "new", "Stop feeding."),
        ],
        &[("turnover", "5 per hour"), ("mass", "3 kg")],
    );
    let other = |from: &str, to: &str| (from.to_string(), to.to_string());
    let figure = |(from, to)| What::Figure { from, to };
    assert_eq!(
        found(before, after),
        [
            ("gone".to_string(), What::Gone),
            ("new".to_string(), What::New),
            ("moved".to_string(), What::Moved { from: ThisWeek, to: Today }),
            ("figure".to_string(), figure(other("3 litres", "4 litres"))),
            ("words".to_string(), What::Words { from: "Rinse it.".into(), to: "Wash it.".into() }),
            ("turnover".to_string(), figure(other("4 per hour", "5 per hour"))),
        ]
    );
}

#[test]
fn the_page_counts_only_where_the_advice_is_the_same_and_lines_of_the_book_never() {
    let words = |a: &str, b: &str| found(turn(a, &[], &[]), turn(b, &[], &[]));
    assert_eq!(words("Ask  Fry?\n", "Ask  Fry?\n"), []);
    assert_eq!(words("Rule  x, rules/a.yaml:12\n", "Rule  x, rules/a.yaml:90\n"), []);
    let what = What::Words { from: "Ask  Fry?".into(), to: "Ask  Plants?".into() };
    assert_eq!(words("Ask  Fry?\n", "Ask  Plants?\n"), [("page".to_string(), what)]);
    // A call of the first form holds no advice: its page is all there is to compare.
    let first = Exchange { told: None, ..turn("a\n", &[], &[]) };
    let now = turn("b\n", &[advice(Urgency::Now, "new", "New.")], &[]);
    assert_eq!(found(first, now).len(), 1);
}

#[test]
fn a_call_back_is_for_what_the_caller_left_with() {
    let with = || turn("a\n", &[advice(Urgency::Today, "guard", "Guard it.")], &[]);
    let without = || turn("b\n", &[], &[]);
    let late = || turn("c\n", &[advice(Urgency::InTime, "guard", "Guard it.")], &[]);
    let back = |before: Vec<Exchange>, after: Vec<Exchange>| {
        compare(&call(before), &call(after)).iter().any(Change::needs_call_back)
    };
    assert!(back(vec![with()], vec![without()]), "told something that is no longer said");
    assert!(back(vec![without()], vec![with()]), "not told what is said now");
    assert!(back(vec![with()], vec![late()]), "told that it was urgent");
    assert!(!back(vec![late()], vec![without()]), "nothing urgent");
    assert!(!back(vec![with(), without()], vec![without(), without()]), "taken back later in the call");
    assert!(back(vec![with(), with()], vec![without(), without()]), "all along");
    // One difference through all turns is one, of its first turn.
    let changes = compare(&call(vec![with(), with()]), &call(vec![without(), without()]));
    assert_eq!((changes.len(), changes[0].turn, changes[0].lasts), (1, 1, true));
}

#[test]
fn shares_merge_into_one_report_whatever_their_order() {
    let changed = |name: &str, call_back: bool| {
        let change = Change {
            turn: 1,
            lasts: call_back,
            subject: Subject::Advice { rule: "guard".into(), about: None },
            what: What::Gone,
            urgency: Some(Urgency::Today),
            say: "Guard it.".into(),
        };
        let found = vec![Found { change, why: Why::NotTheBook }];
        ChangedCall { call: name.into(), call_back, accepted: false, found }
    };
    let report = |calls, same, changed: Vec<ChangedCall>, unreadable: &[&str]| {
        let unreadable = unreadable.iter().map(|n| (n.to_string(), "why".to_string())).collect();
        let mut report = Report { form: FORM, calls, same, changed, unreadable };
        report.sort();
        report
    };
    let a = report(3, 1, vec![changed("c", false)], &["z"]);
    let b = report(2, 0, vec![changed("b", true), changed("a", false)], &[]);
    let whole = report(5, 1, vec![changed("a", false), changed("b", true), changed("c", false)], &["z"]);
    assert_eq!(Report::merged(vec![a.clone(), b.clone()]), whole);
    assert_eq!(Report::merged(vec![b, a]), whole);
    assert_eq!(whole.changed.iter().map(|c| c.call.as_str()).collect::<Vec<_>>(), ["b", "a", "c"]);
    let groups = whole.groups();
    assert_eq!((groups.len(), groups[0].calls, groups[0].call_backs), (1, 3, 1));
    assert_eq!(groups[0].counts, [("gone, today".to_string(), 3)]);
    let text = serde_json::to_string(&whole).unwrap();
    assert_eq!(serde_json::from_str::<Report>(&text).unwrap(), whole);
}

#[test]
fn long_texts_show_where_they_differ() {
    use weirline::source::words::differing;
    let pair = |a: &str, b: &str| (a.to_string(), b.to_string());
    assert_eq!(differing("4 cm", "5 cm"), pair("4 cm", "5 cm"));
    let a = "Rinse the foam in old tank water every four weeks, or sooner when the flow drops by a third.";
    assert_eq!(
        differing(a, &a.replace("four", "six")),
        pair("...water every four weeks, or...", "...water every six weeks, or...")
    );
    assert_eq!(differing(a, &a.replace(" when the flow", "")).1, "...or sooner drops by...");
    assert_eq!(differing(a, a), pair("...a third.", "...a third."));
    assert_eq!(differing("", a).0, "");
}
