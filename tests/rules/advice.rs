//! Which rules speak in worked calls, and in which order of urgency.

use super::call::call;

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
