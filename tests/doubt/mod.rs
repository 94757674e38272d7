//! Doubt: ranges, sureness and the next question are the same on every run, whatever the order of the book's files, and
//! telling a fact never makes a figure vaguer.

mod callers;

use proptest::prelude::*;
use std::path::Path;
use std::sync::LazyLock;
use weirline::case::Ledger;
use weirline::doubt::assessment::{self, statements};
use weirline::doubt::{Assessment, assess, assess_supposing, next_question, versions};
use weirline::engine::Engine;
use weirline::engine::finding::findings;
use weirline::listen::Listener;
use weirline::listen::reading::{How, Said, Says, Statement, Subject};
use weirline::rulebook::{Book, library};
use weirline::source::Span;
use weirline::units::{Amount, unit};

pub static BOOK: LazyLock<Book> = LazyLock::new(|| Book::built_in().unwrap_or_else(|f| panic!("{f:?}")));
pub static LISTENER: LazyLock<Listener> = LazyLock::new(|| Listener::new(&BOOK.knowledge));

/// A call of these turns, listened to with the shipped lexicon.
pub fn call(turns: &[&str]) -> Ledger {
    let mut ledger = Ledger::default();
    for turn in turns {
        let reading = LISTENER.read(turn, &ledger.context());
        ledger.take(reading);
    }
    ledger
}

/// Everything an assessment says, in a fixed order, numbers to the last digit.
fn print(book: &Book, assessment: &Assessment) -> String {
    let mut out = String::new();
    for view in &assessment.tanks {
        for finding in &view.findings.speaking {
            let rule = &book.rules.rules[finding.rule as usize].name;
            out.push_str(&format!(
                "{rule} {} {:?} {:?}\n",
                finding.instance,
                view.sure.get(finding),
                view.hangs_on.get(finding)
            ));
        }
        let figures = book.rules.figures.iter().enumerate();
        let each = figures.flat_map(|(n, figure)| {
            let count = figure.for_thing.map_or(1, |t| view.world.count(t));
            (0..count).filter_map(move |i| Some((figure.name.clone(), i, view.range(book, n as u16, i)?)))
        });
        let mut ranges: Vec<_> = each.collect();
        ranges.sort_by(|a, b| (&a.0, a.1).cmp(&(&b.0, b.1)));
        ranges.iter().for_each(|r| out.push_str(&format!("{r:?}\n")));
    }
    out.push_str(&format!("{:?}", assessment.next));
    out
}

const LINE: &str = "about 55 gallons, 30 small tetras, fry, hang-on filter 400 gph, basket 2 litres, nitrate 40";

#[test]
fn the_same_call_gives_the_same_bytes_a_hundred_times() {
    let first = print(&BOOK, &assess(&BOOK, &call(&[LINE])));
    for _ in 0..100 {
        assert_eq!(print(&BOOK, &assess(&BOOK, &call(&[LINE]))), first);
    }
}

#[test]
fn the_order_of_the_books_files_never_matters() {
    let mut files = library::built_in_texts();
    assert!(!files.is_empty(), "the built-in texts are there");
    let first = print(&BOOK, &assess(&BOOK, &call(&[LINE])));
    for turn in [7, 23, 41] {
        let at = turn % files.len();
        files.rotate_left(at);
        files.reverse();
        let (book, _) = Book::from_texts(files.clone(), "shuffled").unwrap_or_else(|f| panic!("{f:?}"));
        let listener = Listener::new(&book.knowledge);
        let mut ledger = Ledger::default();
        ledger.take(listener.read(LINE, &ledger.context()));
        assert_eq!(print(&book, &assess(&book, &ledger)), first);
    }
}

#[test]
fn the_books_on_disk_and_built_in_are_the_same() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    for (path, text) in library::built_in_texts() {
        let on_disk = std::fs::read_to_string(folder.join(&path)).unwrap_or_default();
        assert_eq!(on_disk, text, "{path}");
    }
}

/// The range of a figure of the first tank, by name.
pub fn range(assessment: &Assessment, figure: &str) -> Option<(f64, f64, f64)> {
    let (n, _) = BOOK.rules.figure(figure)?;
    let range = assessment.tanks.first()?.range(&BOOK, n, 0)?;
    Some((range.low?, range.likely?, range.high?))
}

proptest! {
    #![proptest_config(crate::tries(24))]

    /// `water` depends on the tank's size alone when that is all that was said of it; real water told exactly leaves no
    /// doubt, and a hedge is never narrower than the exact word.
    #[test]
    fn telling_a_fact_never_widens_a_figure_that_depends_on_it_alone(litres in 20u32..900) {
        let width = |turns: &[&str]| {
            let (low, _, high) = range(&assess(&BOOK, &call(turns)), "water").unwrap_or_else(|| panic!("{turns:?}"));
            high - low
        };
        let hedged = width(&[&format!("about {litres} litre tank")]);
        let said = width(&[&format!("{litres} litre tank")]);
        let told = width(&[&format!("{litres} litre tank"), &format!("it holds {} litres of water once the sand is in", litres * 85 / 100)]);
        prop_assert!(said <= hedged, "{said} {hedged}");
        prop_assert!(told <= said, "{told} {said}");
    }
}

/// Calls over several kinds of tank, for laying the short ways beside the long one.
const CALLS: [&[&str]; 6] = [
    &[LINE],
    &["200 l, 40 guppies, canister 1000 l/h, nitrate 80, nitrite 0, ammonia 0.5, ph 8.2, 27C"],
    &["pond 8000 litres, 6 koi 40 cm, pressure filter 4000 l/h, ammonia 0.5, ph 8, 12C"],
    &["power was off 5 hours, 240 litre tank, canister, 20 neon tetras"],
    &["two filters: a canister 900 l/h and a hob 600 l/h on 180 litres", "12 corys, discus, about 30 C"],
    &["60 litres, 10 cherry shrimp, sponge filter"],
];

#[test]
fn versions_side_by_side_are_what_each_is_alone() {
    for turns in CALLS {
        let ledger = call(turns);
        for view in assess(&BOOK, &ledger).tanks {
            let engine = Engine { schema: &BOOK.schema, book: &BOOK.rules };
            let (leaves, all) = (&view.versions.leaves, view.versions_of(&BOOK));
            let (mut world, mut state) = (view.world.clone(), view.state.clone());
            for version in 0..versions::VERSIONS {
                versions::put(&mut world, leaves, version);
                engine.run_steps(&BOOK.rules.order, &world, &mut state);
                let alone = findings(&BOOK.rules, &state).speaking;
                for finding in view.findings.speaking.iter().chain(&alone) {
                    let speaks = all.speaks(*finding) >> version & 1 == 1;
                    assert_eq!(speaks, alone.contains(finding), "{turns:?}, version {version}: {finding:?}");
                }
                for n in 0..BOOK.rules.figures.len() as u16 {
                    let (a, b) = (all.figure(n, 0).at(version), state.figure(n, 0));
                    assert_eq!(a, b, "{turns:?}, version {version}: {}", BOOK.rules.figures[n as usize].name);
                }
            }
        }
    }
}

#[test]
fn an_answer_worked_out_from_before_equals_one_worked_out_afresh() {
    for turns in CALLS {
        let ledger = call(turns);
        let said = statements(&ledger, &[]);
        let view = &assess(&BOOK, &ledger).tanks[0];
        let (mut tried, mut there) = (0, vec![]);
        there.extend(view.case.facts.things.iter().flatten().map(|i| Subject { tank: 1, ..i.subject.clone() }));
        for thing in &BOOK.knowledge.vocabulary.things {
            for attribute in &thing.attributes {
                let own = there.iter().find(|s| s.thing == thing.thing).cloned();
                let new = || Subject { thing: thing.thing.clone(), number: 1, tank: 1, ..Subject::default() };
                let subject = own.unwrap_or_else(new);
                let texts = attribute.answers.iter().filter_map(|a| a.split(" (").next());
                for answer in texts.filter_map(|text| next_question::statement(&subject, attribute, text)) {
                    let with: Vec<_> = said.iter().copied().chain([(9, &answer)]).collect();
                    let case = assessment::case_of(&BOOK, 1, &with);
                    let short = assessment::plain_from(&BOOK, &case, &view.world, &view.state);
                    let long = assessment::plain(&BOOK, &case).2;
                    assert_eq!(short, long, "{turns:?}: {answer:?}");
                    let shortest = next_question::answered(&BOOK, view, &said, &answer);
                    assert_eq!(shortest, long, "{turns:?}: {answer:?}");
                    tried += 1;
                }
            }
        }
        assert!(tried > 40, "{tried} answers");
    }
}

#[test]
fn what_a_reading_shows_stays_while_another_share_is_supposed() {
    let ledger = call(&["240 l, canister 1200 l/h, 20 rainbowfish 8 cm, nitrate 60, I change a quarter a week"]);
    let figure = |assessment: &Assessment, name: &str| {
        let (n, _) = BOOK.rules.figure(name).unwrap_or_else(|| panic!("{name}"));
        assessment.tanks[0].range(&BOOK, n, 0).and_then(|r| r.likely).unwrap_or(f64::NAN)
    };
    let half = call(&["I change half a week"]);
    let suppose: Vec<_> = half.statements().map(|(_, s)| s.clone()).collect();
    let (now, then) = (assess(&BOOK, &ledger), assess_supposing(&BOOK, &ledger, &suppose));
    let rise = "rise the reading shows";
    assert_eq!(figure(&now, rise), figure(&then, rise));
    // A quarter a week settles at tap + rise / 0.25, which is the reading; half at tap + rise / 0.5: mass balance.
    let tap = 10.0e-3;
    let reading = figure(&now, "settled by the reading");
    assert!((reading - 60.0e-3).abs() < 1e-6, "{reading}");
    let settled = figure(&then, "settled by the reading");
    assert!((settled - (tap + (reading - tap) / 2.0)).abs() < 1e-6, "{settled}");
    // Another reading shows another rise.
    let other = call(&["nitrate 80"]);
    let suppose: Vec<_> = other.statements().map(|(_, s)| s.clone()).collect();
    assert!(figure(&assess_supposing(&BOOK, &ledger, &suppose), rise) > figure(&now, rise));
}

proptest! {
    #![proptest_config(crate::tries(48))]

    /// Advice that is called certain is not taken back by one answer inside the range that was plausible before.
    #[test]
    fn what_is_certain_is_not_taken_back_by_an_answer_within_the_range(which in 0usize..6, leaf in 0usize..400, share in 0.0f64..=1.0) {
        let ledger = call(CALLS[which]);
        let view = &assess(&BOOK, &ledger).tanks[0];
        let leaves = versions::uncertain(&view.case, &BOOK.schema, &BOOK.rules);
        let facts: Vec<_> = leaves.iter().filter(|l| matches!(l.leaf, versions::Leaf::Fact { .. })).collect();
        let leaf = facts[leaf % facts.len()];
        let versions::Leaf::Fact { attribute, instance } = leaf.leaf else { unreachable!("only facts are kept") };
        let entry = BOOK.schema.of(attribute);
        let subject = view.case.facts.instances(entry.thing)[instance as usize].subject.clone();
        let value = leaf.low + (leaf.high - leaf.low) * share;
        let unit = unit::usual(BOOK.schema.dimension(attribute).expect("a quantity")).expect("a unit");
        let amount = Amount::exact(unit.from_base(value), unit);
        let says = Says::Value { attribute: entry.name.clone(), how: How::Replace, value: Said::Amount(amount) };
        let answer = Statement { span: Span::default(), subject, says, mark: None };
        let said = statements(&ledger, &[]);
        let with: Vec<_> = said.iter().copied().chain([(9, &answer)]).collect();
        let after = assessment::plain(&BOOK, &assessment::case_of(&BOOK, 1, &with)).2;
        for (finding, sure) in &view.sure {
            if *sure >= 1.0 {
                let rule = &BOOK.rules.rules[finding.rule as usize].name;
                prop_assert!(after.speaking.contains(finding), "{:?}: {rule} by {} = {value}", CALLS[which], BOOK.schema.path_name(attribute));
            }
        }
    }
}
