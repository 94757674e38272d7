//! Laws of the engine on random books and cases: it agrees with the oracle, the order of files and entries never matters,
//! a changed fact leads to what a whole pass gives, and what is taken back was never said.

use super::made::{Facts, Made, Outcome};
use super::oracle;
use super::random::{Draw, Entry, VOCABULARY, entries, facts, file};
use proptest::prelude::*;
use weirline::knowledge::vocabulary::Vocabulary;
use weirline::rulebook::code::Read;
use weirline::rulebook::raw::RuleFile;
use weirline::source::yaml;

/// One file of all entries, and two files of the same in another order.
fn whole(entries: &[Entry]) -> String {
    file(&entries.iter().collect::<Vec<_>>())
}

fn vocabulary() -> Vocabulary {
    yaml::read::<Vocabulary>("vocabulary", VOCABULARY).expect("a vocabulary").value
}

fn outcome(made: &Made, facts: &Facts) -> Outcome {
    let world = facts.world(made);
    Outcome::of(made, &world, &made.engine().run(&world))
}

fn numbers() -> impl Strategy<Value = Vec<u8>> {
    prop::collection::vec(any::<u8>(), 0..240)
}

proptest! {
    #![proptest_config(crate::tries(400))]

    #[test]
    fn the_engine_agrees_with_the_oracle(book in numbers(), case in numbers()) {
        let text = whole(&entries(&mut Draw::new(&book)));
        let facts = facts(&mut Draw::new(&case));
        let made = Made::new(VOCABULARY, &[("rules/a.yaml", &text)]);
        let files = vec![yaml::read::<RuleFile>("rules/a.yaml", &text).expect("rules").value];
        prop_assert_eq!(outcome(&made, &facts), oracle::outcome(&vocabulary(), &files, &facts), "{}\n{:?}", text, facts);
    }

    #[test]
    fn the_order_of_files_and_entries_never_matters(book in numbers(), case in numbers(), cut in any::<u64>()) {
        let entries = entries(&mut Draw::new(&book));
        let facts = facts(&mut Draw::new(&case));
        let one = whole(&entries);
        // Entries dealt to two files and turned round.
        let (mut left, mut right): (Vec<&Entry>, Vec<&Entry>) = (vec![], vec![]);
        for (n, entry) in entries.iter().enumerate() {
            if cut >> (n % 64) & 1 == 0 { left.insert(0, entry) } else { right.push(entry) }
        }
        let (left, right) = (file(&left), file(&right));
        let first = Made::new(VOCABULARY, &[("rules/a.yaml", &one)]);
        let second = Made::new(VOCABULARY, &[("rules/z.yaml", &left), ("rules/b.yaml", &right)]);
        prop_assert_eq!(outcome(&first, &facts), outcome(&second, &facts), "{}", one);
    }

    #[test]
    fn a_changed_fact_leads_where_a_whole_pass_leads(book in numbers(), case in numbers(), which in any::<u8>(), to in any::<u8>()) {
        let text = whole(&entries(&mut Draw::new(&book)));
        let before = facts(&mut Draw::new(&case));
        let made = Made::new(VOCABULARY, &[("rules/a.yaml", &text)]);
        prop_assume!(!before.values.is_empty());
        let mut after = before.clone();
        let n = which as usize % after.values.len();
        let (thing, instance, attribute, value) = after.values[n].clone();
        let value = match attribute.as_str() {
            "a" | "b" | "heat" | "weight" => format!("{}", to % 9),
            "size" | "load" => format!("{} L", to % 6),
            "kind" => ["red", "blue", "green"][to as usize % 3].into(),
            "make" => ["iron", "clay"][to as usize % 2].into(),
            _ => value,
        };
        match to % 5 {
            0 => drop(after.values.remove(n)),
            _ => after.values[n] = (thing.clone(), instance, attribute.clone(), value),
        }
        let engine = made.engine();
        let (world, changed) = (before.world(&made), after.world(&made));
        let mut state = engine.run(&world);
        let read = Read::Fact(made.schema.path(&thing, &attribute).expect("an attribute"));
        engine.update(&changed, &mut state, &[read]);
        prop_assert_eq!(&state, &engine.run(&changed), "{}", text);
        // Taken back, it was never said.
        engine.update(&world, &mut state, &[read]);
        prop_assert_eq!(state, engine.run(&world), "{}", text);
    }
}

/// The random books are worth trying: they name each other, and their rules come out in every way.
#[test]
fn random_books_are_not_all_alike() {
    let mut seed = 1u64;
    let mut next = || {
        seed = seed.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        (seed >> 56) as u8
    };
    let mut seen = std::collections::BTreeMap::new();
    for _ in 0..200 {
        let (book, case): (Vec<u8>, Vec<u8>) = ((0..200).map(|_| next()).collect(), (0..60).map(|_| next()).collect());
        let text = whole(&entries(&mut Draw::new(&book)));
        let made = Made::new(VOCABULARY, &[("rules/a.yaml", &text)]);
        let outcome = outcome(&made, &facts(&mut Draw::new(&case)));
        for truth in outcome.rules.values().chain(outcome.conclusions.values()) {
            *seen.entry(format!("{truth:?}")).or_insert(0) += 1;
        }
        for (what, n) in [("outranked", outcome.outranked.len()), ("speaking", outcome.speaking.len())] {
            *seen.entry(what.to_string()).or_insert(0) += n;
        }
        *seen.entry("known figure".into()).or_insert(0) += outcome.figures.values().flatten().count();
    }
    for what in ["True", "False", "Unknown", "outranked", "speaking", "known figure"] {
        assert!(seen.get(what).is_some_and(|n| *n > 10), "{what} hardly occurs: {seen:?}");
    }
}
