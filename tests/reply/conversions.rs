//! Measures in a second unit, worked out and checked. Expected values: NIST SP 811 (2008) appendix B: 1 US gallon =
//! 3.785 411 784 L, 1 imperial gallon = 4.546 09 L exactly; t(C) = (t(F) - 32) / 1.8.

use super::{shipped, shown};
use weirline::reply::text::Length;

fn answer(line: &str) -> String {
    shown(&shipped(), Length::Brief, &[line])
}

#[test]
fn a_measure_is_worked_out_in_the_unit_asked_for() {
    for (line, expected) in [
        ("900 l/h in gallons?", "900 L/h is 238 US gal/h or 198 imp gal/h."),
        ("how many litres is 55 gallons?", "55 US gal is 208 L, 55 imp gal is 250 L."),
        ("how many gallons is 200 litres", "200 L is 52.8 US gal or 44 imp gal."),
        ("what's 82 F in C", "82 F is 27.8 C."),
        ("what's 25 C in F?", "25 C is 77 F."),
        ("convert 300 gph to lph", "300 US gal/h is 1140 L/h, 300 imp gal/h is 1360 L/h."),
    ] {
        let text = answer(line);
        assert!(text.contains(expected), "{line}: {text}");
        assert!(text.contains("Figures") && !text.contains("Not understood"), "{line}: {text}");
    }
}

#[test]
fn a_conversion_said_aloud_is_checked_and_the_first_figure_kept() {
    for (line, expected) in [
        ("1200 litres an hour, that's 290 gallons", "is 317 US gal/h or 264 imp gal/h; 290 is neither."),
        ("tank is 200 litres, that's 53 gallons", "Right: 200 L is 52.8 US gal."),
        ("tank is 200 litres, that's 44 gallons", "Right: 200 L is 44 imp gal."),
        ("75 gallon (284 l) tank, 12 neon tetras", "Right: 75 US gal is 284 L."),
        ("75 gallon (341 l) tank, 12 neon tetras", "Right: 75 imp gal is 341 L."),
        ("canister 1200 lph = 317 gph", "Right: 1200 L/h is 317 US gal/h."),
        ("200 litre tank at 25 C, that's 70 F", "25 C is 77 F; 70 is not that."),
    ] {
        let text = answer(line).replace('\n', " ").split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains(expected), "{line}: {text}");
        assert!(!text.contains("Contradict"), "{line}: {text}");
    }
}

#[test]
fn whose_gallons_a_figure_in_both_says() {
    let known = |lines: &[&str]| shown(&shipped(), Length::Brief, lines);
    assert!(
        known(&["tank is 200 litres, that's 44 gallons, and the pump does 300 gph", "known"]).contains("300 imp gal/h")
    );
    assert!(known(&["75 gallon (284 l) tank", "known"]).contains("75 US gal"));
    let asked = known(&["40 imperial gallons, 6 guppies", "how many litres is 55 gallons?"]);
    assert!(asked.contains("55 imp gal is 250 L.") && !asked.contains("208"), "{asked}");
}

#[test]
fn two_measures_that_are_not_the_same_thing_are_both_facts() {
    for line in ["200 litre tank, canister 800 l/h", "tank 200 l, that's with a 20 litre sump"] {
        let text = answer(line);
        assert!(!text.contains("Right:") && !text.contains("neither"), "{line}: {text}");
    }
}
