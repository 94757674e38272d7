//! The form of a saved call: text and back, what is no call, lines that differ.

use proptest::prelude::*;
use weirline::archive::call::{Exchange, Head, NotACall, SavedCall, Stamp};
use weirline::archive::replay::{Difference, differences};
use weirline::archive::told::{Told, ToldAdvice, ToldFigure};
use weirline::reply::own_units::Choice;
use weirline::reply::text::Length;
use weirline::rulebook::raw::Urgency;

#[test]
fn what_is_no_call_says_where() {
    let read = |text: &str| SavedCall::read(text).unwrap_err();
    assert_eq!(read(""), NotACall::First(String::new()));
    assert_eq!(read("call> hello"), NotACall::First("call> hello".to_string()));
    assert_eq!(read("weirline call 9\n"), NotACall::Version("weirline call 9".to_string()));
    assert!(read("weirline call 9\n").to_string().contains("use a newer program"));
    assert_eq!(read("weirline call 0\n"), NotACall::First("weirline call 0".to_string()));
    assert_eq!(read("weirline call 1\ncolour: red\n"), NotACall::Head(2, "colour: red".to_string()));
    assert_eq!(read("weirline call 1\n\nSay hello\n"), NotACall::Before(3));
    let told = |lines: &str| read(&format!("weirline call 2\nbook: built in\n\ncall> a\nb\n\ntold>\n{lines}"));
    let wrong = |line: &str| NotACall::Told(8, line.to_string());
    for line in
        ["hello", "  say: nobody", "advice 2 now: rule", "advice 1 soon: rule", "figure 1: x", "advice 0 now: x"]
    {
        assert_eq!(told(line), wrong(line));
    }
    assert_eq!(read("weirline call 2\n<<<<<<< mine\nbook: x\n"), NotACall::Conflict(2));
}

#[test]
fn line_ends_and_marks_of_other_systems_are_read() {
    let plain = "weirline call 2\nbook: built in\n\ncall> a\nb\n\ntold>\nadvice 1 today: rule\n  say: Do it.\n";
    let other = format!("\u{feff}{}", plain.replace('\n', "\r\n"));
    assert_eq!(SavedCall::read(&other), SavedCall::read(plain));
    assert_eq!(SavedCall::read(plain).unwrap().write(), plain);
}

/// A call of the first form, as it was written then, is read as ever; written again it is of the newest form.
#[test]
fn the_first_form_stays_readable() {
    let old = "weirline call 1\nbook: my-book\nunits: US gallons\nlength: full\n\ncall> 55 gallon\n  ..> fry\nSay hello.\n\ncall> why?\nWhy\n";
    let call = SavedCall::read(old).unwrap();
    let stamp = Stamp { book: Some("my-book".to_string()), ..Stamp::default() };
    assert_eq!(call.head, Head { stamp, units: Some(Choice::Us), length: Length::Full });
    assert_eq!(call.exchanges[0].typed, "55 gallon\nfry");
    assert!(call.exchanges.iter().all(|e| e.told.is_none()));
    assert_eq!(call.write(), old.replace("call 1\n", "call 2\n"));
}

fn told() -> impl Strategy<Value = Told> {
    let text = "[A-Z][a-z =:]{0,20}[a-z.]";
    let urgency = proptest::sample::select(Urgency::ALL.to_vec());
    let about = proptest::option::of("(tank|filter) [1-9]");
    let pieces = (urgency, "[a-z]{1,5}(-[a-z]{1,5}){0,2}", about, text, proptest::collection::vec(text, 0..3), text);
    let advice = pieces.prop_map(|(urgency, rule, about, say, steps, because)| ToldAdvice {
        urgency,
        rule,
        about,
        say,
        steps,
        because,
        cautions: vec!["unplug-first".to_string()],
    });
    let figure = ("[a-z]{1,9}", "about [0-9]{1,3} L").prop_map(|(called, result)| ToldFigure { called, result });
    let sets = (proptest::collection::btree_set(advice, 0..3), proptest::collection::btree_set(figure, 0..3));
    sets.prop_map(|(advice, figures)| Told { advice, figures })
}

fn exchanges() -> impl Strategy<Value = Vec<Exchange>> {
    let typed = "[a-z][a-z0-9 ,]{0,20}(\n[a-z][a-z ]{0,9}){0,2}";
    let shown = "([A-Z][a-z ]{0,30}\n){1,4}";
    let stamp = proptest::option::of(stamp());
    let exchange = (typed, shown, told(), stamp).prop_map(|(typed, shown, told, stamp)| Exchange {
        typed,
        shown,
        told: Some(told),
        stamp,
    });
    proptest::collection::vec(exchange, 1..5)
}

fn stamp() -> impl Strategy<Value = Stamp> {
    let of = |text: &'static str| proptest::option::of(text);
    (of("[a-z]{1,5}/my, book"), of("[0-9a-f]{12}"), of("20[0-9]{2}-[01][0-9]-[0-3][0-9]"))
        .prop_map(|(book, version, date)| Stamp { book, version, date })
}

proptest! {
    /// A call written and read is the same call.
    #[test]
    fn written_and_read_is_the_same(exchanges in exchanges(), stamp in stamp(), full in any::<bool>(), us in any::<bool>()) {
        let length = if full { Length::Full } else { Length::Brief };
        let head = Head { stamp, units: us.then_some(Choice::Us), length };
        let call = SavedCall { head, exchanges };
        prop_assert_eq!(SavedCall::read(&call.write()), Ok(call));
    }

    /// What is the same and gone makes the former text, what is the same and new the latter.
    #[test]
    fn differences_hold_both_texts(a in proptest::collection::vec("[ab]", 0..12), b in proptest::collection::vec("[ab]", 0..12)) {
        let found = differences(&a.join("\n"), &b.join("\n"));
        let side = |gone: bool| found.iter().filter_map(|d| match d {
            Difference::Same(line) => Some(line.clone()),
            Difference::Gone(line) => gone.then(|| line.clone()),
            Difference::New(line) => (!gone).then(|| line.clone()),
        }).collect::<Vec<_>>();
        prop_assert_eq!(side(true), a);
        prop_assert_eq!(side(false), b);
    }
}
