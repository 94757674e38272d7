//! The caller's own units. Definitions: NIST SP 811 (2008) appendix B: US gallon 3.785411784 L, imperial gallon 4.54609 L,
//! inch 2.54 cm, pound 0.45359237 kg.

use super::{MADE_UP, book_of, shown};
use weirline::listen::Listener;
use weirline::listen::reading::{Context, Said, Says};
use weirline::reply::amounts::{Voice, quantity, with_unit};
use weirline::reply::own_units::{Choice, OwnUnits};
use weirline::reply::text::Length;
use weirline::units::{Dimension, Spread, unit};

fn written(choice: Choice, base: f64, dimension: Dimension) -> String {
    quantity(&OwnUnits::chosen(choice), Spread::exact(base), dimension, None, 3)
        .about(Voice::Written)
        .replace('\u{a0}', " ")
}

#[test]
fn a_readable_unit_is_picked() {
    let cases = [
        (Choice::Litres, 0.05e-3, Dimension::VOLUME, "50 mL"),
        (Choice::Litres, 0.5e-3, Dimension::VOLUME, "0.5 L"),
        (Choice::Us, 3.785411784e-3 * 47.0, Dimension::VOLUME, "47 US gal"),
        (Choice::Imperial, 4.54609e-3 * 12.0, Dimension::VOLUME, "12 imp gal"),
        (Choice::Us, 3.785411784e-3 * 400.0 / 3600.0, Dimension::FLOW, "400 US gal/h"),
        (Choice::Litres, 1e-3 * 900.0 / 3600.0, Dimension::FLOW, "900 L/h"),
        (Choice::Litres, 0.003, Dimension::LENGTH, "3 mm"),
        (Choice::Us, 0.0254 * 4.0, Dimension::LENGTH, "4 in"),
        (Choice::Us, 0.0254 * 12.0 * 9.0, Dimension::LENGTH, "9 ft"),
        (Choice::Litres, 0.45, Dimension::MASS, "450 g"),
        (Choice::Us, 0.45359237 * 2.0, Dimension::MASS, "2 lb"),
        (Choice::Us, 25.0, Dimension::TEMPERATURE, "77 F"),
        (Choice::Imperial, 25.0, Dimension::TEMPERATURE, "25 C"),
        (Choice::Litres, 5400.0, Dimension::TIME, "90 min"),
        (Choice::Litres, 86400.0 * 7.0, Dimension::TIME, "7 days"),
        (Choice::Litres, 86400.0 * 28.0, Dimension::TIME, "4 weeks"),
    ];
    for (choice, base, dimension, expected) in cases {
        assert_eq!(written(choice, base, dimension), expected);
    }
}

#[test]
fn units_follow_what_was_said() {
    let book = book_of(MADE_UP);
    let water = |line: &str| {
        let text = shown(&book, Length::Brief, &[line]);
        text.lines().find(|l| l.contains("It holds")).unwrap_or_default().split("It holds ").last().unwrap().to_string()
    };
    assert_eq!(water("100 litres"), "about 80 litres.");
    // 80 % of 50 US gallons, whichever gallon it is.
    assert_eq!(water("50 US gallons"), "about 40 gallons.");
    assert_eq!(water("50 imperial gallons"), "about 40 gallons.");
    let metric = shown(&book, Length::Brief, &["50 US gallons", "units litres"]);
    // 40 US gallons are 151.4 L.
    assert!(metric.contains("about 150 litres"), "{metric}");
}

#[test]
fn a_printed_volume_reads_back_to_itself() {
    let book = super::shipped();
    let listener = Listener::new(&book.knowledge);
    for (name, number) in [("L", "120"), ("usgal", "55"), ("impgal", "40"), ("gal", "30")] {
        let unit = unit::by_name(name).unwrap();
        for voice in [Voice::Written, Voice::Spoken] {
            // Read aloud a gallon does not say which it is; written it does.
            if voice == Voice::Spoken && matches!(name, "usgal" | "impgal") {
                continue;
            }
            let text = format!("tank is {}", with_unit(number, unit, voice).replace('\u{a0}', " "));
            let reading = listener.read(&text, &Context::default());
            let amount = reading.statements.iter().find_map(|s| match &s.says {
                Says::Value { value: Said::Amount(amount), attribute, .. } if attribute == "nominal" => Some(*amount),
                _ => None,
            });
            let amount = amount.unwrap_or_else(|| panic!("{text} gave {:?}", reading.statements));
            assert_eq!((amount.unit.name, amount.likely), (name, number.parse().ok()), "{text}");
        }
    }
}
