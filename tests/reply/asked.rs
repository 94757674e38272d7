//! Figures asked for by name: formula, numbers put in, result; what is missing is asked for.

use super::{shipped, shown};
use weirline::reply::text::Length;

fn answers(lines: &[&str]) -> String {
    shown(&shipped(), Length::Brief, lines).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_figure_asked_for_is_shown_with_its_formula_and_numbers() {
    // Emerson and others (1975): pKa = 0.09018 + 2729.92 / 299.15 K = 9.216, so 8.79 % at pH 8.2; of 1.2 mg/L 0.105.
    let text = answers(&["un-ionised ammonia at 1.2 ppm, pH 8.2, 26 C?"]);
    assert!(text.contains("1.2 mg/L x 8.8 % = 0.11 mg/L"), "{text}");
    // 4 x 1.5 x 2 cubic feet of 28.3168 L are 339.8 L, 749 lb of water; with glass and stand 1.3 to 1.65 times that.
    let text = answers(&["what does a 4 x 1.5 x 2 ft tank weigh?"]);
    assert!(text.contains("weight of the full tank with its stand = tank size x 1 kg/L x"), "{text}");
    let text = answers(&["240 l, canister 1200 l/h measured with a bucket", "turnover?"]);
    assert!(text.contains("= flow / water ="), "{text}");
}

#[test]
fn a_goal_is_asked_for_from_where_it_starts() {
    let text = answers(&["200 l, 30 neon tetras", "how long for nitrate to reach 40 from 10?"]);
    assert!(text.contains("(nitrate to reach - now) / rise"), "{text}");
    assert!(!text.contains("Not understood"), "{text}");
}

#[test]
fn what_a_figure_lacks_is_asked_for() {
    let text = answers(&["how long for nitrate to reach 40 from 10?"]);
    assert!(text.contains("I need: tank size") && text.contains("Ask"), "{text}");
    let text = answers(&["un-ionised ammonia?"]);
    assert!(text.contains("I need: ammonia") && text.contains("What does the ammonia test show?"), "{text}");
    let text = answers(&["turnover?"]);
    assert!(text.contains("I need: tank size and which filter"), "{text}");
}
