//! Made-up worlds in `worlds/*.yaml`: a vocabulary, rules, and cases with what must come of them, a construct a file.

use super::made::{Facts, Made, Outcome};
use super::oracle;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::Path;
use weirline::engine::Truth;
use weirline::engine::waiting::waiting;
use weirline::knowledge::vocabulary::Vocabulary;
use weirline::rulebook::raw::RuleFile;
use weirline::units::parse;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WorldFile {
    about: String,
    things: serde_yaml::Value,
    #[serde(default)]
    figures: serde_yaml::Value,
    #[serde(default)]
    rules: serde_yaml::Value,
    cases: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    /// What it shows.
    shows: String,
    #[serde(default)]
    facts: Vec<String>,
    /// Rules (with their instance, from 1, as `name 2`) that speak; no others may.
    #[serde(default)]
    speaks: Vec<String>,
    /// Rules that neither hold nor are excluded.
    #[serde(default)]
    undecided: Vec<String>,
    #[serde(default)]
    outranked: Vec<String>,
    /// Figures and their values; `unknown` where they are.
    #[serde(default)]
    figures: BTreeMap<String, String>,
    /// What the undecided rules wait for.
    #[serde(default)]
    waits: Vec<String>,
}

/// One entry as it would stand in a file of its own.
fn filled(list: &serde_yaml::Value, fill: &[(&str, serde_yaml::Value)]) -> serde_yaml::Value {
    let mut list = list.clone();
    for entry in list.as_sequence_mut().into_iter().flatten() {
        let Some(map) = entry.as_mapping_mut() else { continue };
        for (key, value) in fill {
            map.entry((*key).into()).or_insert(value.clone());
        }
    }
    list
}

#[test]
fn worlds() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/engine/worlds");
    let mut files: Vec<_> = std::fs::read_dir(folder).expect("the folder").flatten().map(|e| e.path()).collect();
    files.sort();
    assert!(files.len() >= 8, "worlds are missing");
    for file in files {
        let text = std::fs::read_to_string(&file).expect("a text");
        let world: WorldFile = serde_yaml::from_str(&text).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
        assert!(!world.about.is_empty());
        try_world(&file, &world);
    }
}

fn try_world(file: &Path, world: &WorldFile) {
    // What every entry must have and these worlds are not about.
    let basis = serde_yaml::from_str("[worked out]").expect("a list");
    let things = serde_yaml::to_string(&BTreeMap::from([("things", &world.things)])).expect("text");
    let figures = filled(&world.figures, &[("basis", basis)]);
    let basis = serde_yaml::from_str("[worked out]").expect("a list");
    let rules = filled(&world.rules, &[("basis", basis), ("topic", "flow".into())]);
    let mut parts: BTreeMap<&str, serde_yaml::Value> = BTreeMap::from([("about", "made up".into())]);
    parts.extend([("figures", figures), ("rules", rules)].into_iter().filter(|(_, list)| list.is_sequence()));
    let text = serde_yaml::to_string(&parts).expect("text");
    let made = Made::new(&things, &[("rules/a.yaml", &text)]);
    let vocabulary: Vocabulary = serde_yaml::from_str(&things).expect("a vocabulary");
    let raw: RuleFile = serde_yaml::from_str(&text).expect("rules");
    for case in &world.cases {
        let at = format!("{}: {}", file.display(), case.shows);
        let facts = Facts::of(&case.facts);
        let plain = facts.world(&made);
        let state = made.engine().run(&plain);
        let outcome = Outcome::of(&made, &plain, &state);
        assert_eq!(
            outcome,
            oracle::outcome(&vocabulary, std::slice::from_ref(&raw), &facts),
            "{at}: the oracle differs"
        );
        let shown = |list: &[(String, u16)]| -> Vec<String> {
            let several = |rule: &str| made.book.rule(rule).is_some_and(|(_, r)| r.for_thing.is_some());
            list.iter().map(|(r, n)| if several(r) { format!("{r} {}", n + 1) } else { r.clone() }).collect()
        };
        assert_eq!(shown(&outcome.speaking), case.speaks, "{at}: speaks");
        assert_eq!(shown(&outcome.outranked), case.outranked, "{at}: outranked");
        let undecided: Vec<_> =
            outcome.rules.iter().filter(|(_, t)| **t == Truth::Unknown).map(|(key, _)| key.clone()).collect();
        assert_eq!(shown(&undecided), case.undecided, "{at}: undecided");
        for (name, expected) in &case.figures {
            let (name, instance) = match name.rsplit_once(' ') {
                Some((name, n)) if n.parse::<u16>().is_ok() => (name, n.parse::<u16>().expect("a number") - 1),
                _ => (name.as_str(), 0),
            };
            let found = outcome.figures[&(name.to_string(), instance)];
            let expected = match expected.as_str() {
                "unknown" => None,
                text => parse::quantity(text).expect("a quantity").base().likely,
            };
            let near = |a: f64, b: f64| (a - b).abs() <= 1e-9 * b.abs().max(1e-12);
            let same = match (found, expected) {
                (Some(a), Some(b)) => near(a, b),
                (None, None) => true,
                _ => false,
            };
            assert!(same, "{at}: {name} is {found:?}, not {expected:?}");
        }
        if !case.waits.is_empty() {
            let waits: Vec<String> = waiting(&made.schema, &made.book, &plain, &state)
                .into_iter()
                .map(|(id, n)| match made.schema.thing_of(made.schema.of(id).thing).several {
                    true => format!("{} {}", made.schema.path_name(id), n + 1),
                    false => made.schema.path_name(id),
                })
                .collect();
            assert_eq!(waits, case.waits, "{at}: waits");
        }
    }
}
