//! Facts with those of their classes, and what they rest on.

use super::book;
use weirline::knowledge::facts::{Facts, Value, value};
use weirline::knowledge::table::Table;

#[test]
fn a_kind_has_its_own_facts_and_those_of_its_classes() {
    let facts = book().facts_of(Table::Stock, "neon tetra");
    let of = |attribute: &str| facts.iter().find(|f| f.attribute == attribute).unwrap_or_else(|| panic!("{attribute}"));
    assert_eq!(of("grown length").from, "neon tetra");
    assert_eq!(of("mass coefficient").from, "body general");
    assert_eq!(of("mass coefficient").basis.published, ["lwr"]);
    assert_eq!(of("swims").value, Value::Kinds(vec!["still"]));
    assert_eq!(of("group").value, Value::Kinds(vec!["tetra"]));
    let Value::Amount(temperature) = &of("highest temperature").value else { panic!("a quantity") };
    assert_eq!(temperature.base().likely, Some(26.0));
}

#[test]
fn a_medium_knows_its_place_in_the_way_of_the_water() {
    let likely = |medium, attribute| book().amount(Table::Medium, medium, attribute).and_then(|s| s.likely);
    assert_eq!(likely("foam-coarse", "path"), Some(10.0));
    assert_eq!(likely("sintered-glass", "path"), Some(40.0));
    assert_eq!(likely("foam-fine", "specific surface"), Some(1150.0));
    assert_eq!(likely("foam-coarse", "bulk density"), Some(28.0), "kg/m3");
    assert_eq!(likely("floss", "specific surface"), None, "thrown away with its surface, so none is claimed");
}

#[test]
fn what_is_not_there_gives_nothing() {
    assert!(book().facts_of(Table::Stock, "unicorn").is_empty());
    assert!(book().fact(Table::Stock, "neon tetra", "specific surface").is_none());
}

#[test]
fn values_are_quantities_or_kinds() {
    assert!(matches!(value("210 / 400 / 900 m2/m3"), Ok(Value::Amount(_))));
    assert_eq!(value("fresh, pond"), Ok(Value::Kinds(vec!["fresh", "pond"])));
    for wrong in ["1,5 kg/L", "5 furlongs", "3 / 2 / 1 cm", "fresh,, pond"] {
        assert!(value(wrong).is_err(), "{wrong}");
    }
    let facts: Facts = serde_json::from_str(r#"{"void": "95 %", "clogs": "slow"}"#).expect("facts");
    assert_eq!(facts.iter().collect::<Vec<_>>(), [("void", "95 %"), ("clogs", "slow")]);
}
