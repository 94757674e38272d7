//! The estimates: ordered, named once, and in agreement with the formulae that use them.

use std::collections::BTreeSet;
use weirline::units::measure::*;
use weirline::water::basis::Basis;
use weirline::water::estimates::{self, Estimate};
use weirline::water::{nitrification, waste};

fn estimate(name: &str) -> &'static Estimate {
    estimates::by_name(name).unwrap_or_else(|| panic!("no estimate {name}"))
}

#[test]
fn each_is_ordered_and_named_once() {
    let mut names = BTreeSet::new();
    for e in estimates::all() {
        assert!(e.low.is_finite() && e.high.is_finite(), "{}", e.name);
        assert!(e.low <= e.likely && e.likely <= e.high, "{}: {} {} {}", e.name, e.low, e.likely, e.high);
        assert!(!e.source.is_empty() && names.insert(e.name), "{}", e.name);
        assert_eq!(e.basis.seen().is_some(), matches!(e.basis, Basis::Published(_)), "{}", e.name);
    }
    assert!(names.len() > 150);
}

/// Low, likely and high of a rate at home follow from those of its parts: a high ceiling comes from a thin layer.
#[test]
fn rates_follow_from_their_parts() {
    let (r1, layer) = (estimate("rate constant r1"), estimate("stagnant layer"));
    let d = Diffusivity::base(estimate("diffusivity of ammonium").likely);
    let theta = Share::base(estimate("theta of a grown filter").likely);
    for (name, tan) in [("areal rate at 0.1 mg/L, 25 degC", 0.1), ("areal rate at 0.25 mg/L, 25 degC", 0.25)] {
        let said = estimate(name);
        for (r1, expected) in [(r1.low, said.low), (r1.likely, said.likely), (r1.high, said.high)] {
            let got = nitrification::areal_rate(
                Speed::base(r1),
                Concentration::milligrams_per_litre(tan),
                theta,
                Temperature::celsius(25.0),
                d,
                Length::base(layer.likely),
            )
            .unwrap();
            assert!((got.in_base() / expected - 1.0).abs() < 0.03, "{name}: {got:?} {expected}");
        }
    }
}

/// 20, 50 and 150 g of fish in 100 L at 0.5, 1 and 2 % and 40 % of protein.
#[test]
fn loads_follow_from_their_parts() {
    let said = estimate("ammonia made per water");
    let (protein, made) = (estimate("protein of feed"), estimate("ammonia made per protein"));
    for (fish, fed, expected) in [(20.0, 0.005, said.low), (50.0, 0.01, said.likely), (150.0, 0.02, said.high)] {
        let feed = waste::feed(Mass::grams(fish), Rate::per_day(fed)).unwrap();
        let tan = waste::ammonia_from_feed(feed, Share::base(protein.likely), Share::base(made.likely)).unwrap();
        assert!((tan.in_base() / 0.1 / expected - 1.0).abs() < 0.03, "{tan:?} {expected}");
    }
}
