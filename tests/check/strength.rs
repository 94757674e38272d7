//! What the slow mode of `check` tells: changes that nothing notices, the examples that would, and what no caller can notice.

use weirline::archive::trial;
use weirline::archive::trial::strength::{Examples, Remedy, Strength};

const RULE: &str = "about: made up for a test
rules:
- rule: small-tank
  topic: enough
  when:
  - tank.nominal < 60 L
  advise:
    urgency: this week
    say: Keep the filter running.
    because: It is small.
  basis: [common practice]
  examples:
    speaks: [\"10 litre tank\"]
    silent: [\"300 litre tank\"]
";

/// What is told of these rules, beside the shipped tables.
fn strength(rules: &str, saved: &[&str]) -> Strength {
    let mut texts = crate::rules::book::texts();
    texts.retain(|(path, _)| path.starts_with("knowledge/"));
    texts.push(("rules/rules.yaml".into(), rules.into()));
    let saved: Vec<String> = saved.iter().map(|s| s.to_string()).collect();
    let report = trial::check(texts, vec![], "test", Some(&saved));
    let errors: Vec<_> = report.faults.iter().filter(|f| f.is_error()).collect();
    assert!(errors.is_empty(), "{errors:?}");
    report.strength.expect("it was wished")
}

/// Each change that nothing notices, with the example that would.
fn told(strength: &Strength) -> Vec<(&str, String)> {
    let remedy = |remedy: &Remedy| match remedy {
        Remedy::Line { line, speaks: true } => format!("speaks: {line}"),
        Remedy::Line { line, speaks: false } => format!("silent: {line}"),
        Remedy::None(why) => format!("none: {why}"),
    };
    strength.survivors.iter().map(|s| (s.change.as_str(), remedy(&s.remedy))).collect()
}

/// The rules with the examples of a rule in the place of those they have.
fn with(rules: &str, examples: &Examples) -> String {
    let list = |lines: &[String]| lines.iter().map(|l| format!("\"{l}\"")).collect::<Vec<_>>().join(", ");
    let (head, _) = rules.split_once("  examples:\n").expect("it has examples");
    let (speaks, silent) = (list(&examples.speaks), list(&examples.silent));
    format!("{head}  examples:\n    speaks: [{speaks}]\n    silent: [{silent}]\n")
}

#[test]
fn a_limit_that_lies_far_from_its_examples_gets_nearer_ones() {
    let found = strength(RULE, &[]);
    let expected = [
        ("the limit could be a quarter higher", "silent: 60 litre tank".to_string()),
        ("the limit could be a quarter lower", "speaks: 50 litre tank".to_string()),
    ];
    assert_eq!(told(&found), expected);
    // One number is moved in each of the two examples, so that both stand in for those they came of.
    let [examples] = &found.examples[..] else { panic!("{:?}", found.examples) };
    assert_eq!(
        (examples.speaks.as_slice(), examples.silent.as_slice()),
        (&["50 litre tank".to_string()][..], &["60 litre tank".to_string()][..])
    );
    let after = strength(&with(RULE, examples), &[]);
    assert_eq!((after.tried, told(&after)), (4, vec![]));
}

#[test]
fn a_saved_call_notices_what_changes_in_it() {
    assert_eq!(told(&strength(RULE, &["70 litre tank", "50 litre tank"])), vec![]);
}

#[test]
fn a_limit_of_what_is_worked_out_is_found_by_moving_what_was_said() {
    let rules = RULE.replace("tank.nominal < 60 L", "tank.width * tank.length * tank.height < 100 L");
    let rules =
        rules.replace("10 litre tank", "tank 30 x 30 x 30 cm").replace("300 litre tank", "tank 150 x 60 x 60 cm");
    let found = strength(&rules, &[]);
    for (change, remedy) in told(&found) {
        assert!(remedy.starts_with("speaks: tank") || remedy.starts_with("silent: tank"), "{change}: {remedy}");
    }
    assert_eq!(found.survivors.len(), 2);
    assert_eq!(told(&strength(&with(&rules, &found.examples[0]), &[])), vec![]);
}

#[test]
fn an_alternative_that_no_example_says_is_said_in_words_of_the_book() {
    let rules = RULE.replace("  - tank.nominal < 60 L", "  - any filter with kind = hob or kind = canister");
    let rules = rules.replace("10 litre tank", "hang-on filter, 60 litres").replace("300 litre tank", "60 litres");
    let found = strength(&rules, &[]);
    let lines: Vec<String> = told(&found).into_iter().map(|(_, remedy)| remedy).collect();
    assert!(lines.iter().any(|l| l.starts_with("speaks: canister")), "{lines:?}");
    assert_eq!(told(&strength(&with(&rules, &found.examples[0]), &[])), vec![]);
}

#[test]
fn what_no_caller_can_notice_is_not_held_against_a_book() {
    // Twice the same limit: either alone can be moved away from the other, and the rule stays what it is.
    let twice = RULE.replace(
        "  - tank.nominal < 60 L\n",
        "  - tank.nominal < 60 L\n  - tank.nominal < 60 L or tank.nominal < 40 L\n",
    );
    let twice = twice.replace("10 litre tank", "59 litre tank").replace("300 litre tank", "61 litre tank");
    let found = strength(&twice, &[]);
    assert!(found.alike > 0, "{found:?}");
    // No medium of the tables weighs between a fifth and a third of a kilogram a litre.
    let between = RULE.replace("tank.nominal < 60 L", "any medium with bulk density > 0.25 kg/L");
    let between = between
        .replace("10 litre tank", "canister with ceramic rings")
        .replace("300 litre tank", "canister with floss");
    let found = strength(&between, &[]);
    assert_eq!((found.alike, told(&found)), (2, vec![]));
}

#[test]
fn counts_are_moved_by_one_and_a_limit_of_nought_is_not_moved() {
    let counted = RULE.replace("tank.nominal < 60 L", "count of filter >= 2");
    let counted = counted.replace("10 litre tank", "2 canisters").replace("300 litre tank", "1 canister");
    assert_eq!(told(&strength(&counted, &[])), vec![]);
    let nought = RULE.replace("tank.nominal < 60 L", "reading.ammonia > 0 mg/L");
    let nought = nought.replace("10 litre tank", "ammonia 0.5").replace("300 litre tank", "ammonia 0");
    assert_eq!(strength(&nought, &[]).tried, 2);
}
