//! The line that `opposite-advice` shows makes both rules speak, whatever their conditions are about, though neither has an
//! example of its own: it is pasted as a caller's line and read in the ordinary way.

use weirline::archive::trial;
use weirline::archive::trial::Runner;

/// What each pair is about, with the thing and the condition of the one and the other.
const PAIRS: [(&str, &str, &str, &str); 6] = [
    ("figures", "", "load in a hundred litres > 5 mg/day", "nitrate now > 40 mg/L"),
    ("kinds", "filter", "filter.kind = canister", "filter.looks = leaking"),
    ("counts", "", "count of filter >= 2", "any stock with count >= 12"),
    ("events", "", "any event with kind = power cut and lasted > 3 h", "tank.fry = yes"),
    ("conclusions", "", "calm stock", "tank.shape = bowl"),
    ("spans", "", "tank.set up < 3 wk", "changed share >= 60 %"),
];

fn rule(name: &str, thing: &str, condition: &str, act: &str) -> String {
    let thing = if thing.is_empty() { String::new() } else { format!("  for: {thing}\n") };
    format!(
        "- rule: {name}\n  topic: enough\n{thing}  when:\n  - {condition}\n  advise:\n    urgency: this week\n    \
         act: \"{act}\"\n    say: Do it.\n    because: It is made up.\n  basis: [common practice]\n"
    )
}

#[test]
fn the_line_that_is_shown_makes_both_speak() {
    let mut texts = crate::rules::book::texts();
    let mut made = "about: made up\nrules:\n".to_string();
    for (about, thing, one, other) in PAIRS {
        made += &rule(&format!("one-of-{about}"), thing, one, &format!("paint the {about}"));
        made += &rule(&format!("other-of-{about}"), thing, other, &format!("not: paint the {about}"));
    }
    texts.push(("rules/made-up.yaml".into(), made));
    let report = trial::check(texts, vec![], "test", None);
    let book = report.book.expect("a warning or a contradiction does not keep a book from being used");
    let runner = Runner::new(&book);
    let found: Vec<_> = report.faults.iter().filter(|f| f.name == "opposite-advice").collect();
    for (about, ..) in PAIRS {
        let fault = found.iter().find(|f| f.what.contains(&format!("`one-of-{about}`")));
        let fault = fault.unwrap_or_else(|| panic!("{about}: no contradiction is told"));
        let line = fault.line.as_deref().unwrap_or_else(|| panic!("{about}: no line is shown"));
        let call = runner.run(line);
        for name in [format!("one-of-{about}"), format!("other-of-{about}")] {
            let (n, _) = book.rules.rule(&name).expect("it was written");
            assert!(call.speaks(n), "`{name}` is silent on \"{line}\"");
        }
        assert!(call.unread.is_empty(), "\"{line}\": {:?}", call.unread);
    }
    assert_eq!(found.len(), PAIRS.len());
}
