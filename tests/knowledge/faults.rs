//! A slip of the hand in any table is reported at its line, with the nearest name that would do.

use super::read_with;

/// Replaces `from` by `to` in one file, and gives what reading the tables then complains of.
fn fault(file: &str, from: &str, to: &str) -> String {
    let hurt = |path: &str, text: &str| {
        (path == format!("knowledge/{file}")).then(|| {
            assert!(text.contains(from), "{file} does not hold `{from}`");
            text.replacen(from, to, 1)
        })
    };
    match read_with(hurt) {
        Ok(_) => panic!("no fault from `{to}` in {file}"),
        Err(faults) => faults,
    }
}

/// What stands between `start` and the end of the file: the line number is worked out from the shipped text.
fn line_of(file: &str, text: &str) -> usize {
    let (_, whole) = super::texts().iter().find(|(p, _)| *p == format!("knowledge/{file}")).expect("shipped");
    whole[..whole.find(text).expect("there")].lines().count() + usize::from(whole.find(text) == Some(0))
}

#[test]
fn a_class_that_does_not_exist() {
    let line = line_of("livestock/tetras.yaml", "body general");
    let said = fault("livestock/tetras.yaml", "body general", "body genral");
    assert!(said.starts_with(&format!("knowledge/livestock/tetras.yaml:{line}:10: error[unknown-name]")), "{said}");
    assert!(said.contains("nothing is called `body genral` (class)") && said.contains("try:  body general"), "{said}");
}

#[test]
fn names_that_lead_nowhere() {
    for (file, from, to, name) in [
        ("livestock/tetras.yaml", "group: tetra", "group: tetras", "`tetras` (group)"),
        ("filters/tank.yaml", "medium: foam-coarse", "medium: foam-course", "`foam-course` (medium)"),
        ("symptoms/water.yaml", "cautions: [detergent]", "cautions: [detergents]", "`detergents` (caution)"),
        ("symptoms/water.yaml", "[tank-age,", "[tank-aged,", "`tank-aged` (question)"),
        ("media/mechanical.yaml", "[ret-foam-void,", "[ret-foam-viod,", "`ret-foam-viod` (source)"),
        ("media/mechanical.yaml", "[strut-geometry]", "[strut-geometri]", "`strut-geometri` (working)"),
        ("media/mechanical.yaml", "unsuited filters: [pond-pressure]", "unsuited filters: [pondpressure]", "(filter)"),
        ("livestock/ambiguous.yaml", "until told: shark", "until told: sharkk", "`sharkk`"),
        ("livestock/groups.yaml", "generic: tetra", "generic: tettra", "`tettra` (stock)"),
    ] {
        let said = fault(file, from, to);
        assert!(said.contains("error[unknown-name]") && said.contains(name), "{said}");
        assert_eq!(said.matches("error[").count(), 1, "one cause, one message: {said}");
    }
}

#[test]
fn values_and_keys_of_the_wrong_form() {
    for (file, from, to, name) in [
        ("media/mechanical.yaml", "0.02 / 0.028 / 0.035 kg/L", "0,02 kg/L", "bad-quantity"),
        ("media/mechanical.yaml", "0.02 / 0.028 / 0.035 kg/L", "0.02 kg", "wrong-dimension"),
        ("livestock/bodies.yaml", "mass exponent: 3.06", "mass exponent: 3.06 cm", "wrong-dimension"),
        ("livestock/tetras.yaml", "  basis: {common practice: true, from memory: true}", "  basis: {}", "no-basis"),
        ("livestock/tetras.yaml", "  group: tetra\n", "  group: tetra\n  colour: red\n", "unknown-key"),
        ("livestock/tetras.yaml", "  group: tetra\n", "", "missing-key"),
        ("livestock/tetras.yaml", "- stock: tetra\n", "- fish: tetra\n", "unknown-table"),
        ("symptoms/water.yaml", "urgency: today", "urgency: tomorrow", "unknown-word"),
        ("livestock/tetras.yaml", "    grown length: 2.5 / 4 / 8 cm\n", "", "missing-fact"),
        ("filters/tank.yaml", "share: 30 / 40 / 60 %", "share: 60 / 40 / 30 %", "bad-quantity"),
    ] {
        let said = fault(file, from, to);
        let first = said.split('\n').next().unwrap_or("");
        assert!(first.contains(&format!("error[{name}]")) && first.contains(file), "wanted {name}: {said}");
    }
}

#[test]
fn two_entries_of_one_name_and_two_claims_to_one_word() {
    let said = fault("livestock/tetras.yaml", "- stock: cardinal tetra", "- stock: neon tetra");
    assert!(said.contains("error[name-twice]") && said.contains("note:"), "{said}");
    let said = fault("livestock/tetras.yaml", "also: [cardinals,", "also: [cardinals, neons,");
    assert!(said.contains("error[word-twice]: two entries claim the word `neons`"), "{said}");
    let said = fault("plants/kinds.yaml", "also: [anubias nana]", "also: [anubias nana, neons]");
    assert!(said.contains("error[word-twice]"), "a word of another table: {said}");
}

#[test]
fn classes_in_a_circle() {
    let said = fault("livestock/bodies.yaml", "- class: body eel\n", "- class: body eel\n  like: [body eel]\n");
    assert!(said.contains("error[circle]"), "{said}");
}

#[test]
fn a_misspelt_fact_and_a_class_that_lost_one() {
    let said = fault("livestock/tetras.yaml", "grown length: 2.5", "grown lenght: 2.5");
    assert!(said.contains("error[unknown-name]: no fact is called `grown lenght`"), "{said}");
    assert!(said.contains("try:  grown length") && said.matches("error[").count() == 1, "{said}");
    // Two hundred kinds feed as usual: one fault, not two hundred.
    let said = fault("livestock/habits.yaml", "    feed share: 1 / 2 / 3 %\n", "");
    assert!(said.contains("error[missing-fact]") && said.contains("more lack it as well"), "{said}");
    assert_eq!(said.matches("error[").count(), 1, "{said}");
    // The first entry that has an attribute is not the measure of all others.
    let said = fault("livestock/african-cichlids.yaml", "smallest tank: ", "smallest tank: 3 cm # ");
    assert!(said.starts_with("knowledge/livestock/african-cichlids.yaml:") && said.contains("a length"), "{said}");
}
