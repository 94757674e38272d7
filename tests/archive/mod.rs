//! Saved calls: text and back, what is no call, what differs, and every call of transcripts-demo answered again.

mod transcripts;

use proptest::prelude::*;
use weirline::archive::call::{Exchange, Head, NotACall, SavedCall, write_whole};
use weirline::archive::replay::{Difference, differences};
use weirline::reply::own_units::Choice;
use weirline::reply::text::Length;

#[test]
fn what_is_no_call_says_where() {
    let read = |text: &str| SavedCall::read(text).unwrap_err();
    assert_eq!(read(""), NotACall::First(String::new()));
    assert_eq!(read("call> hello"), NotACall::First("call> hello".to_string()));
    assert_eq!(read("weirline call 9\n"), NotACall::Version("weirline call 9".to_string()));
    assert_eq!(read("weirline call 1\ncolour: red\n"), NotACall::Head(2, "colour: red".to_string()));
    assert_eq!(read("weirline call 1\n\nSay hello\n"), NotACall::Before(3));
}

#[test]
fn line_ends_and_marks_of_other_systems_are_read() {
    let plain = "weirline call 1\nbook: built in\n\ncall> a\nb\n";
    let other = format!("\u{feff}{}", plain.replace('\n', "\r\n"));
    assert_eq!(SavedCall::read(&other), SavedCall::read(plain));
}

#[test]
fn a_file_is_written_whole_and_keeps_its_rights() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("call.txt");
    write_whole(&path, "one").unwrap();
    write_whole(&path, "two").unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "two");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    assert!(write_whole(&folder.path().join("nowhere/call.txt"), "x").is_err());
}

fn exchanges() -> impl Strategy<Value = Vec<Exchange>> {
    let typed = "[a-z][a-z0-9 ,]{0,20}(\n[a-z][a-z ]{0,9}){0,2}";
    let shown = "([A-Z][a-z ]{0,30}\n){1,4}";
    let exchange = (typed, shown).prop_map(|(typed, shown)| Exchange { typed, shown });
    proptest::collection::vec(exchange, 0..5)
}

proptest! {
    /// A call written and read is the same call.
    #[test]
    fn written_and_read_is_the_same(exchanges in exchanges(), full in any::<bool>(), us in any::<bool>()) {
        let head = Head {
            book: us.then(|| "my-book".to_string()),
            units: us.then_some(Choice::Us),
            length: if full { Length::Full } else { Length::Brief },
        };
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
