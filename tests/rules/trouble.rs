//! Figures of the rules on trouble, salt, sumps and ripening against arithmetic done here again, and which rule gives way to which.

use super::call::{Call, call, line};

fn near(call: &Call, figure: &str, unit: &str, expected: f64) {
    let found = call.figure(figure, unit);
    assert!((found - expected).abs() <= 1e-3 * expected.abs(), "{figure}: {found} {unit}, expected {expected}");
}

#[test]
fn what_runs_back_from_a_box_of_120_by_50() {
    // 120 x 50 cm x 3 cm of depth is 18 L; a litre stands in the pipes.
    let call = call("tank.length = 120 cm\ntank.width = 50 cm\nfilter.kind = sump\nfilter.outlet depth = 3 cm");
    near(&call, "runs back", "L", 19.0);
}

#[test]
fn zeolite_by_the_ammonia_there_is() {
    // 2 mg/L in 85 of 100 L: 170 mg of nitrogen, at 1 mg a gram 170 g.
    let call = call("tank.nominal = 100 L\nreading.ammonia = 2 mg/L\nmedium(zeolite) present");
    near(&call, "zeolite wanted", "g", 170.0);
}

#[test]
fn nitrate_of_a_tankful_of_tap_water() {
    // 44.266 mg/L as NO3 is 10 mg/L of nitrogen: 0.85 g in 85 L, at 6 g a litre of resin 0.1417 L.
    let call = call("tank.nominal = 100 L\nsource.nitrate = 44.266 mg/L");
    near(&call, "resin for a tankful", "L", 0.85 / 6.0);
}

#[test]
fn soft_water_thins_hardness_by_shares() {
    // 16 dKH down to 4: three quarters of the mix hold none.
    near(&call("tank.nominal = 100 L\nsource.kh = 16 dKH"), "share of soft water", "%", 75.0);
}

#[test]
fn a_change_takes_its_share_of_the_salt() {
    // 170 g in 85 L is 2 g/L; a quarter of the water holds 42.5 g of it.
    let call = call("tank.nominal = 100 L\nmedium(salt).mass = 170 g\nchange.amount = 25 %");
    near(&call, "salt in the tank", "g/L", 2.0);
    near(&call, "salt for a change", "g", 42.5);
}

#[test]
fn ripening_takes_twice_as_long_ten_degrees_colder() {
    let weeks = |t: &str| call(&format!("tank.nominal = 100 L\ntank.temperature = {t}")).figure("weeks to ripen", "wk");
    assert!((weeks("25 C") - 4.5).abs() < 1e-9);
    assert!((weeks("15 C") - 9.0).abs() < 1e-9);
}

#[test]
fn ammonium_chloride_for_a_start() {
    // NH4Cl 53.491 g/mol over N 14.007 g/mol; 1.5 mg/L in 85 L.
    let call = call("tank.nominal = 100 L\ntank.cycled = no");
    near(&call, "salt of ammonia", "g", 1.5e-3 * 85.0 * 53.491 / 14.007);
}

/// Lines on which two rules pull different ways: the first speaks, the second is silent.
#[test]
fn the_stronger_reason_wins() {
    for (said, wins, gives_way) in [
        (
            "my mate lost two fish last week, can I have his sponge? | 60 litres set up 1 week ago, 5 guppies",
            "seed-from-a-sick-tank",
            "seed-with-half-a-sponge",
        ),
        (
            "60 litres, guppies, fry, hang-on filter, sponge on the intake, slowed down",
            "guard-chokes-the-flow",
            "flow-has-dropped",
        ),
        ("300 litres, 6 discus, 30C", "warm-fish-stay-warm", "warm-water-holds-less"),
        ("hob drips, 20 gallon", "hang-on-drips", "filter-leaks"),
        ("sponge filter, 40 litres, slowed down", "air-lift-has-dropped", "flow-has-dropped"),
        ("canister stopped, 200 litres, cleaned yesterday", "canister-holds-air", "slow-just-after-a-wash"),
        ("foam on the surface, 40 litres, 1 betta", "nest-of-bubbles", "foam-on-the-surface"),
        (
            "100 litres set up 9 weeks ago, 10 guppies, ammonia 2, pH 8, zeolite in the filter",
            "zeolite-in-an-emergency",
            "stalled-by-a-binder",
        ),
        ("bad eggs, 100 litres, filter was off 6 hours", "smell-of-a-filter-that-stood", "foul-smell"),
    ] {
        let call = line(said);
        assert!(call.speaks(wins), "`{wins}` is silent on \"{said}\"");
        assert!(!call.speaks(gives_way), "`{gives_way}` speaks on \"{said}\"");
    }
}
