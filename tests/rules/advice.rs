//! Which rules speak in worked calls, and in which order of urgency.

use super::call::{call, line};

#[test]
fn calm_and_wasteful_stock_set_the_turnover() {
    // Common practice, tank volumes an hour: community 3-7, fry 1-4, goldfish 5-10.
    for (facts, least, greatest, calm) in [
        ("tank.nominal = 200 L\nstock(tiger barb).count = 10", 3.0, 7.0, false),
        ("tank.nominal = 200 L\nstock(tiger barb).count = 10\nstock(any/fry) present", 1.0, 4.0, true),
        ("tank.nominal = 200 L\nstock(oscar).count = 2", 5.0, 10.0, false),
        ("tank.nominal = 200 L", 3.0, 7.0, false),
    ] {
        let call = call(facts);
        assert_eq!(call.speaks("stock-is-calm"), calm, "{facts}");
        assert!((call.figure("least turnover wanted", "per hour") - least).abs() < 1e-9, "{facts}");
        assert!((call.figure("greatest turnover wanted", "per hour") - greatest).abs() < 1e-9, "{facts}");
    }
}

/// The advice of a line down to "this week", most urgent first.
fn pressing(text: &str) -> Vec<(&'static str, &'static str)> {
    let mut out = line(text).advice();
    out.retain(|(urgency, _)| !matches!(*urgency, "in time" | "good to know"));
    out
}

#[test]
fn fry_and_no_filter_named() {
    let call = line("55 gallon, 30 small tetras, fry present");
    assert_eq!(call.advice()[0], ("today", "fry-and-unknown-filter"));
    assert!(call.speaks("load-before-the-filter-is-known"));
    assert!(!call.speaks("which-kind-of-filter"));
}

#[test]
fn fry_and_a_hang_on_filter() {
    let text = "55 gallon, 30 small tetras, fry present, hang-on filter 400 gph, basket 2 litres";
    let expected = [
        ("today", "look-at-the-intake-by-speed"),
        ("this week", "guard-alone-is-too-small"),
        ("this week", "jet-and-fry"),
    ];
    assert_eq!(pressing(text), expected);
    let call = line(text);
    for rule in ["fill-the-baskets", "flow-and-media-suffice", "tank-it-carries", "nitrate-is-carried-by-changes"] {
        assert!(call.speaks(rule), "{rule}");
    }
}

#[test]
fn poisonous_ammonia_comes_before_nitrate() {
    let text = "200 l, 40 guppies, canister 1000 l/h, nitrate 80, nitrite 0, ammonia 0.5, ph 8.2, 27C";
    let expected = [
        ("today", "ammonia-today"),
        ("today", "wash-nothing-while-it-shows"),
        ("this week", "nitrate-far-over-the-aim"),
    ];
    assert_eq!(pressing(text), expected);
    // Emerson 1975 at 27 C and pH 8.2: pKa 9.185, a tenth of it.
    let toxic = 0.5 / (1.0 + 10f64.powf(0.09018 + 2729.92 / 300.15 - 8.2));
    assert!((line(text).figure("toxic ammonia", "mg/L") - toxic).abs() < 1e-6);
}

#[test]
fn no_fry_no_guard() {
    let pressing = pressing("55 gallon, 30 small tetras, no fry, hang-on filter 400 gph, basket 2 litres");
    assert!(pressing.iter().all(|(_, rule)| !rule.contains("intake") && !rule.contains("fry")), "{pressing:?}");
}

/// Where two rules meet, one of them wins: (line, wins, gives way).
#[test]
fn conflicts_are_settled() {
    for (text, wins, gives_way) in [
        (
            "canister, 200 litres, floss in it, I clean the canister every 6 months",
            "no-floss-where-nobody-opens",
            "floss-last-for-polish",
        ),
        ("55 US gallon, 4 goldfish, fry, canister 400 gph", "heavy-waste-and-calm-stock", "turnover-for-heavy-waste"),
        (
            "100 litres, 10 guppies, fly spray in the room, canister with carbon",
            "carbon-after-poison",
            "carbon-without-a-purpose",
        ),
        (
            "200 litres, canister with carbon, dosed medicine yesterday, fly spray in the room",
            "carbon-out-for-medicine",
            "carbon-after-poison",
        ),
        (
            "100 litres, 10 guppies, ammonia 2, pH 8, zeolite in the filter",
            "zeolite-in-an-emergency",
            "zeolite-starves-bacteria",
        ),
        (
            "100 litres, ammonia 2, pH 8, zeolite in the filter, added 100 g of salt",
            "zeolite-out-before-salt",
            "zeolite-in-an-emergency",
        ),
        ("old tank 100 litres, pH 6, ammonia 4", "ammonia-in-acid-water", "ammonia-shows"),
        ("60 litres, hang-on filter gurgling, 10 guppies gasping at the top", "gasping", "noise-of-falling-water"),
        ("power was off five hours, canister, 200 litres", "power-cut-closed-filter", "power-cut-short"),
        (
            "200 litres, canister was cleaned 12 months ago, 10 guppies, ammonia 0.5",
            "wash-nothing-while-it-shows",
            "open-the-filter",
        ),
        (
            "200 litres, 20 guppies, boiled the media, rinsed the sponge under the tap",
            "washed-hot",
            "washed-under-the-tap",
        ),
    ] {
        let call = line(text);
        assert!(call.speaks(wins), "`{wins}` must speak on {text}");
        assert!(!call.speaks(gives_way), "`{gives_way}` must give way on {text}");
    }
}

#[test]
fn danger_to_people_first() {
    for text in [
        "canister leaking onto the strip, 10 guppies gasping, ammonia 2, ph 8",
        "fish gasping, I got a tingle from the water",
        "the filter keeps tripping the breaker, 200 litres, nitrite 2",
    ] {
        assert_eq!(line(text).advice()[0].0, "danger", "{text}");
    }
}
