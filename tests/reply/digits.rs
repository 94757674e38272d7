//! Digits: what a range bears, and laws that hold for every range.

use proptest::prelude::*;
use weirline::reply::digits::{at, carried, range, significant};

#[test]
fn a_value_shows_what_its_range_bears() {
    // low, likely, high, digits of the inputs -> shown, ends. The first five ranges are worked by hand from the rule in the
    // module's head: two digits where the range is wider than a twelfth of the value, else three.
    let cases = [
        (176.0, 184.0, 190.0, 3, "184", Some(("176", "190"))),
        (8.2, 17.3, 31.4, 3, "17", Some(("8", "31"))),
        (3.1, 7.04, 18.2, 3, "7", Some(("3.1", "18"))),
        (34.4, 65.2, 116.0, 3, "65", Some(("34", "120"))),
        (0.47, 1.23, 3.04, 3, "1.2", Some(("0.5", "3"))),
        (0.004, 0.9, 2.0, 3, "0.9", Some(("0.004", "2"))),
        (55.0, 55.0, 55.0, 3, "55", None),
        (7.272727, 7.272727, 7.272727, 2, "7.3", None),
        (1514.2, 1514.2, 1514.2, 2, "1500", None),
        (0.0, 10.0, 40.0, 3, "10", Some(("0", "40"))),
        (99.4, 99.6, 99.9, 2, "100", Some(("99", "100"))),
    ];
    for (low, likely, high, most, value, ends) in cases {
        let shown = range(low, likely, high, most);
        let ends = ends.map(|(a, b): (&str, &str)| (a.to_string(), b.to_string()));
        assert_eq!((shown.likely.as_str(), shown.ends), (value, ends), "{low} {likely} {high}");
    }
}

#[test]
fn numbers_keep_no_idle_zeros() {
    assert_eq!(at(2.50, 2), "2.5");
    assert_eq!(at(2.0, 3), "2");
    assert_eq!(at(-0.0001, 2), "0");
    assert_eq!(at(1234.0, -2), "1200");
    assert_eq!(significant(0.00234567, 3), "0.00235");
    assert_eq!(significant(0.0, 3), "0");
}

#[test]
fn digits_carried_are_counted_as_written() {
    for (value, decimals, digits) in
        [(55.0, 0, 2), (0.25, 2, 2), (1000.0, 0, 2), (7.4, 2, 3), (5.0, 0, 2), (1234.0, 0, 4)]
    {
        assert_eq!(carried(value, decimals), digits, "{value}");
    }
}

proptest! {
    #![proptest_config(crate::tries(256))]

    /// Whatever the range, the shown value is near the likely one, the ends lie on their sides, and no more than three
    /// digits are shown.
    #[test]
    fn shown_ranges_hold_their_value(likely in 1e-4f64..1e6, down in 0.0f64..1.0, up in 0.0f64..5.0) {
        let (low, high) = (likely * (1.0 - down), likely * (1.0 + up));
        let shown = range(low, likely, high, 3);
        let value: f64 = shown.likely.parse().unwrap();
        prop_assert!((value - likely).abs() <= 0.06 * likely, "{value} for {likely}");
        let digits = shown.likely.trim_start_matches(['0', '.']).replace('.', "");
        prop_assert!(digits.trim_end_matches('0').len() <= 3, "{}", shown.likely);
        if let Some((a, b)) = shown.ends {
            let (a, b): (f64, f64) = (a.parse().unwrap(), b.parse().unwrap());
            // Rounding may move an end by one of its own last digits, never past the value.
            prop_assert!(a <= value * 1.06 && b >= value * 0.94, "{a} {value} {b}");
        }
    }
}
