//! Laws that hold for any input: composition, round trips, directions, and no result that is no number.

use proptest::prelude::*;
use weirline::units::measure::*;
use weirline::water::{ammonia, dilution, flow, intake, nitrate, nitrification, signatures, waste};

/// Numbers of any size and sign, the awkward ones often.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => (-12f64..12.0).prop_map(|power| 10f64.powf(power)),
        2 => 0.0..50.0,
        2 => 0.0..1.0,
        1 => -100.0..0.0,
        1 => prop::sample::select(vec![
            0.0, -0.0, 1.0, f64::MIN_POSITIVE, f64::MAX, f64::MIN, f64::INFINITY, f64::NEG_INFINITY, f64::NAN, 1e-300, 1e300,
        ]),
    ]
}

proptest! {
    #![proptest_config(crate::tries(400))]

    #[test]
    fn a_signature_gives_a_number_or_refuses(values in prop::collection::vec(any_number(), 12)) {
        for signature in signatures::all() {
            let inputs = &values[..signature.inputs.len()];
            match (signature.call)(inputs) {
                Ok(given) => prop_assert!(given.is_finite(), "{} of {:?} is {}", signature.name, inputs, given),
                Err(refused) => prop_assert!(!refused.to_string().is_empty()),
            }
            prop_assert!((signature.call)(&values[..signature.inputs.len() + 1]).is_err());
        }
    }

    #[test]
    fn changes_compose(c in 0.0..200.0, s in 0.0..100.0, f in 0.0..1.0, n in 0u32..20, m in 0u32..20) {
        let level = Concentration::milligrams_per_litre;
        let after = |c, n: u32| dilution::after_changes(c, level(s), Share::ratio(f), Share::ratio(f64::from(n))).unwrap();
        let at_once = after(level(c), n + m).in_milligrams_per_litre();
        let in_two = after(after(level(c), n), m).in_milligrams_per_litre();
        prop_assert!((at_once - in_two).abs() < 1e-9);
        // Never beyond either water.
        prop_assert!(at_once >= c.min(s) - 1e-9 && at_once <= c.max(s) + 1e-9);
    }

    #[test]
    fn dripping_takes_less_than_draining(c in 1.0..200.0, f in 0.01..0.99) {
        let level = Concentration::milligrams_per_litre;
        let drained = dilution::after_changes(level(c), level(0.0), Share::ratio(f), Share::ratio(1.0)).unwrap();
        let dripped = dilution::after_dripping(level(c), level(0.0), Volume::litres(f), Volume::litres(1.0)).unwrap();
        prop_assert!(dripped > drained);
    }

    #[test]
    fn the_share_for_a_target_reaches_it(c in 10.0..200.0, s in 0.0..9.0, part in 0.01..0.99, n in 1u32..30) {
        let level = Concentration::milligrams_per_litre;
        let target = level(s + (c - s) * part);
        let n = Share::ratio(f64::from(n));
        let share = dilution::share_for_target(level(c), target, level(s), n).unwrap();
        let reached = dilution::after_changes(level(c), level(s), share, n).unwrap();
        prop_assert!((reached.in_milligrams_per_litre() - target.in_milligrams_per_litre()).abs() < 1e-9 * c);
        // And that share needs just so many changes.
        prop_assert_eq!(dilution::changes_for_target(level(c), target, level(s), share).unwrap(), n);
    }

    #[test]
    fn a_settled_level_stays(s in 0.0..50.0, p in 0.0..50.0, f in 0.01..1.0) {
        let level = Concentration::milligrams_per_litre;
        let before = dilution::settled_before(level(s), level(p), Share::ratio(f)).unwrap();
        let after = dilution::after_changes(before, level(s), Share::ratio(f), Share::ratio(1.0)).unwrap();
        prop_assert!((after.in_milligrams_per_litre() + p - before.in_milligrams_per_litre()).abs() < 1e-9 * (1.0 + before.in_milligrams_per_litre()));
        let settled = dilution::settled_after(level(s), level(p), Share::ratio(f)).unwrap();
        prop_assert!((after.in_milligrams_per_litre() - settled.in_milligrams_per_litre()).abs() < 1e-9 * (1.0 + before.in_milligrams_per_litre()));
    }

    #[test]
    fn warmer_and_more_alkaline_is_more_toxic(t in 0.0..49.0, ph in 5.0..9.9, dt in 0.0..1.0, dph in 0.0..0.1) {
        let fraction = |t, ph| ammonia::unionised_fraction(Temperature::celsius(t), Acidity::ph(ph)).unwrap().in_ratio();
        prop_assert!(fraction(t + dt, ph) >= fraction(t, ph));
        prop_assert!(fraction(t, ph + dph) >= fraction(t, ph));
        prop_assert!((0.0..=1.0).contains(&fraction(t, ph)));
    }

    #[test]
    fn more_media_or_flow_never_leaves_more_ammonia(p in 1.0..500.0, q in 10.0..3000.0, a in 0.1..20.0, more in 1.0..5.0) {
        let standing = |q, a| {
            nitrification::standing_ammonia(
                MassRate::milligrams_per_day(p), Flow::litres_per_hour(q), Area::square_metres(a), Speed::metres_per_day(0.8),
            ).unwrap().in_milligrams_per_litre()
        };
        prop_assert!(standing(q, a * more) <= standing(q, a) * (1.0 + 1e-12));
        prop_assert!(standing(q * more, a) <= standing(q, a) * (1.0 + 1e-12));
        // The two limits: never below what the media alone or the flow alone would leave.
        prop_assert!(standing(q, a) >= p / (0.8 * a * 1000.0) * (1.0 - 1e-9));
        prop_assert!(standing(q, a) >= p / (q * 24.0) * (1.0 - 1e-9));
    }

    #[test]
    fn the_share_that_holds_nitrate_holds_it(rise in 0.0..5.0, days in 1.0..30.0, tap in 0.0..30.0f64, room in 1.0..60.0f64) {
        let level = Concentration::milligrams_per_litre;
        let (rise, days) = (ConcentrationRate::milligrams_per_litre_day(rise), Time::days(days));
        let share = nitrate::share_that_holds(rise, days, level(tap), level(tap + room)).unwrap();
        if share.in_ratio() > 1e-6 && share.in_ratio() <= 1.0 {
            let peak = nitrate::settled_peak(level(tap), rise, days, share).unwrap();
            prop_assert!((peak.in_milligrams_per_litre() - tap - room).abs() < 1e-9 * (1.0 + tap + room));
        }
    }

    #[test]
    fn the_saw_tooth_ends_where_nitrate_settles(
        now in 0.0..200.0, rise in 0.0..5.0, days in 1.0..30.0, tap in 0.0..30.0f64, f in 0.05..1.0,
    ) {
        let level = Concentration::milligrams_per_litre;
        let (rise, f) = (ConcentrationRate::milligrams_per_litre_day(rise), Share::ratio(f));
        let at = |d: f64| nitrate::stepped_nitrate(level(now), level(tap), rise, Time::days(days), f, Time::days(d));
        let trough = nitrate::settled_trough(level(tap), rise, Time::days(days), f).unwrap();
        let peak = nitrate::settled_peak(level(tap), rise, Time::days(days), f).unwrap();
        let close = |a: Concentration, b: Concentration| {
            (a.in_milligrams_per_litre() - b.in_milligrams_per_litre()).abs() < 1e-4 * (1.0 + b.in_milligrams_per_litre())
        };
        prop_assert!(close(at(600.0 * days).unwrap(), trough));
        prop_assert!(close(at(600.9999999 * days).unwrap(), peak));
    }

    #[test]
    fn a_guard_of_the_area_needed_draws_at_the_speed(q in 1.0..5000.0, v in 0.5..200.0, x in 0.0..0.95) {
        let (q, v, x) = (Flow::litres_per_hour(q), Speed::millimetres_per_second(v), Share::ratio(x));
        let area = intake::guard_area_needed(q, v, x).unwrap();
        let drawn = intake::opening_speed(q, area, Share::ratio(1.0 - x.in_ratio())).unwrap();
        prop_assert!((drawn.in_base() / v.in_base() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn longer_fish_are_heavier(l in 0.5..90.0, more in 1.0..1.1) {
        let mass = |l| waste::fish_mass(Length::centimetres(l), Share::ratio(0.0112), Share::ratio(3.04)).unwrap();
        prop_assert!(mass(l * more) >= mass(l));
    }

    #[test]
    fn conversions_round_trip(x in 1e-6..1e6f64) {
        let near = |got: f64| (got / x - 1.0).abs() < 1e-12;
        prop_assert!(near(Volume::us_gallons(x).in_us_gallons()));
        prop_assert!(near(Volume::litres(Volume::imperial_gallons(x).in_litres()).in_imperial_gallons()));
        prop_assert!(near(Flow::us_gallons_per_hour(Flow::litres_per_hour(x).in_us_gallons_per_hour()).in_litres_per_hour()));
        prop_assert!(near(Concentration::german_degrees(Concentration::milliequivalents_per_litre(x).in_german_degrees()).in_milliequivalents_per_litre()));
        prop_assert!(near(SpecificSurface::square_feet_per_cubic_foot(SpecificSurface::base(x).in_square_feet_per_cubic_foot()).in_base()));
        let t = x % 100.0;
        prop_assert!((Temperature::fahrenheit(Temperature::celsius(t).in_fahrenheit()).in_celsius() - t).abs() < 1e-9);
        prop_assert!((Temperature::kelvin(Temperature::celsius(t).in_kelvin()).in_celsius() - t).abs() < 1e-9);
    }
}

#[test]
fn nothing_is_divided_by_nothing() {
    let none = Flow::litres_per_hour(0.0);
    assert_eq!(flow::turnover(none, Volume::litres(100.0)).unwrap(), Rate::base(0.0));
    assert!(flow::turnover(none, Volume::litres(0.0)).is_err());
    assert!(flow::empty_bed_contact(Volume::litres(1.0), none).is_err());
    assert_eq!(waste::feed(Mass::grams(0.0), Rate::per_day(0.01)).unwrap(), MassRate::base(0.0));
    assert!(intake::guard_area_needed(Flow::litres_per_hour(100.0), Speed::base(0.0), Share::ratio(0.0)).is_err());
    assert!(intake::guard_area_needed(Flow::litres_per_hour(100.0), Speed::base(0.1), Share::ratio(1.0)).is_err());
}

#[test]
fn a_refusal_says_what_must_be() {
    let text = |refused: weirline::water::OutOfRange| refused.to_string();
    let hot = ammonia::unionised_fraction(Temperature::celsius(60.0), Acidity::ph(7.0)).unwrap_err();
    assert_eq!(text(hot), "temperature is 60 degC, but must be from 0 to 50 degC");
    let dry = flow::turnover(Flow::litres_per_hour(100.0), Volume::litres(0.0)).unwrap_err();
    assert_eq!(text(dry), "water is 0 m3, but must be more than 0 m3");
    let less = flow::turnover(Flow::base(-0.5), Volume::litres(10.0)).unwrap_err();
    assert_eq!(text(less), "flow is -0.5 m3/s, but must be 0 m3/s or more");
    let odd = flow::turnover(Flow::base(f64::NAN), Volume::litres(10.0)).unwrap_err();
    assert_eq!(text(odd), "flow is no number that can be worked with");
}
