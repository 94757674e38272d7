//! The shipped vocabulary reads clean.

use weirline::knowledge::vocabulary::Vocabulary;
use weirline::source::{draw::draw, yaml};

#[test]
fn the_shipped_vocabulary_has_no_fault() {
    let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/knowledge/vocabulary.yaml"))
        .expect("the file is shipped");
    let show = |f: &weirline::source::Fault| draw(f, &|_| Some(text.clone()));
    let document = yaml::read::<Vocabulary>("knowledge/vocabulary.yaml", &text)
        .unwrap_or_else(|f| panic!("{}", f.iter().map(show).collect::<String>()));
    let faults = Vocabulary::faults(&document);
    assert!(faults.is_empty(), "{}", faults.iter().map(show).collect::<String>());
}
