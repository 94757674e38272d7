//! The figures of worked calls, computed here again with plain arithmetic from the published formulae and tables.

use super::call::{BOOK, call};
use weirline::knowledge::facts::Value;
use weirline::knowledge::table::Table;

fn close(got: f64, expected: f64, relative: f64) {
    let off = (got - expected).abs();
    assert!(off <= relative * expected.abs(), "got {got}, expected {expected}");
}

const TETRAS: &str = "
    tank.nominal = 55 usgal
    stock(small tetra).count = 30
    stock(any/fry) present
    filter.kind = hob
    filter.rated flow = 400 usgal/h
    filter.basket volume = 2 L";

#[test]
fn tetras_and_a_hang_on_filter() {
    let call = call(TETRAS);
    let water = 55.0 * 3.785411784 * 0.85;
    close(call.figure("water", "L"), water, 1e-9);
    let flow = 400.0 * 3.785411784 * 0.75;
    close(call.figure("delivered flow", "L/h"), flow, 1e-9);
    close(call.figure("turnover", "per hour"), flow / water, 1e-9);
    // Froese's W = a L^b with the general body: 30 fish of 3.5 cm.
    let mass = 30.0 * 0.0112 * 3.5f64.powf(3.04);
    close(call.figure("fish mass", "g"), mass, 1e-9);
    let feed = mass * 0.02;
    close(call.figure("feed", "g/day"), feed, 1e-9);
    let ammonia = feed * 0.40 * 0.092 * 1000.0;
    close(call.figure("ammonia made", "mg/day"), ammonia, 1e-9);
    close(call.figure("load in a hundred litres", "mg/day"), ammonia / water * 100.0, 1e-9);
    // 0.8 m/day x 0.1 g/m3 x 1.06^5.
    let rate = 0.8 * 0.1 * 1.06f64.powi(5);
    close(call.figure("rate per area", "g/m2/day"), rate, 1e-9);
    let surface = (0.5 * 400.0 + 0.5 * 800.0 + 1.0 * 320.0) / 1000.0;
    close(call.figure("media surface", "m2"), surface, 1e-9);
    let capacity = surface * 0.5 * rate * 1000.0;
    close(call.figure("capacity", "mg/day"), capacity, 1e-9);
    close(call.figure("tank carried", "L"), capacity / (ammonia / water), 1e-9);
    // Sintered glass 0.45 kg/L: a litre of it, and 0.87 of that in bags; 1 kg for 100 L.
    close(call.figure("bio loose", "kg"), 0.45, 1e-9);
    close(call.figure("bio bagged", "kg"), 0.45 * 0.87, 1e-9);
    close(call.figure("tank carried for nitrate", "L"), 45.0, 1e-9);
    close(call.figure("nitrate made", "mg/L per week"), ammonia * 0.98 * 4.4266 * 7.0 / water, 1e-4);
}

#[test]
fn speeds_at_a_bare_and_a_guarded_intake() {
    // 315 cm3/s: 53 cm/s through 6 cm2 of slots, 1.7 cm/s into a sponge of 188 cm2; larvae of 3 mm hold 0.45 cm/s.
    let call = call(TETRAS);
    let flow = 400.0 * 3785.411784 * 0.75 / 3600.0;
    close(call.figure("slot area", "cm2"), 6.0, 0.01);
    close(call.figure("bare speed", "cm/s"), flow / 6.0, 0.01);
    close(call.figure("guarded speed", "cm/s"), flow / 188.0, 1e-9);
    close(call.figure("fry length", "mm"), 3.0, 1e-9);
    close(call.figure("holding speed", "cm/s"), 0.45, 1e-9);
    close(call.figure("guard needed", "cm2"), flow / 0.45 / 0.5, 1e-9);
    close(call.figure("fry width", "mm"), 0.48, 1e-9);
    close(call.figure("foam for the fry", "ppi"), 25.4 / 0.48, 1e-9);
}

#[test]
fn nitrate_that_stays_at_ninety() {
    let call = call(
        "
        tank.nominal = 200 L
        reading.nitrate = 90 mg/L
        source.nitrate = 10 mg/L
        change.amount = 25 %
        change.every = 7 d",
    );
    close(call.figure("rise the reading shows", "mg/L per week"), 20.0, 1e-9);
    close(call.figure("settled at half", "mg/L"), 50.0, 1e-9);
    close(call.figure("change for the aim", "%"), 50.0, 1e-9);
}

#[test]
fn nitrite_and_salt() {
    // 10 mg of chloride per mg of nitrite as NO2; NaCl is 1.6485 x Cl. 208 L, read as NO2 and as N.
    let as_ion = call("tank.water = 208 L\nreading.nitrite = 1 mg/L");
    close(as_ion.figure("salt wanted", "g"), 3.4, 0.02);
    let as_nitrogen = call("tank.water = 208 L\nreading.nitrite = 1 mg/L\nreading.nitrite as = N");
    close(as_nitrogen.figure("salt wanted", "g"), 11.3, 0.02);
}

#[test]
fn poisonous_share_of_ammonia() {
    // Shares at 24 C printed by the University of Florida, FA16, after Emerson 1975: pH 8.0 0.0502, pH 7.0 0.0052.
    let alkaline = call("reading.ammonia = 2 mg/L\nreading.ph = 8 pH\ntank.temperature = 24 C");
    close(alkaline.figure("toxic ammonia", "mg/L"), 2.0 * 0.0502, 0.005);
    let neutral = call("reading.ammonia = 2 mg/L\nreading.ph = 7 pH\ntank.temperature = 24 C");
    close(neutral.figure("toxic ammonia", "mg/L"), 2.0 * 0.0052, 0.02);
}

#[test]
fn chlorine_and_thiosulfate() {
    // Two moles of thiosulfate (pentahydrate, 248.17 g) for one of chlorine (70.90 g).
    let call = call("tank.water = 50 L\nsource.chlorine = 1.5 mg/L");
    close(call.figure("thiosulfate wanted", "mg"), 525.0, 1e-9);
    close(2.0 * 248.17 / 70.90, 7.0, 0.001);
}

#[test]
fn a_tank_upstairs() {
    let call = call("tank.water = 300 L\ntank.length = 1.2 m\ntank.width = 0.5 m\ntank.stands on = upstairs");
    // Water, 60 kg glass, 40 kg gravel, 40 kg stand.
    close(call.figure("tank weight", "kg"), 440.0, 0.02);
    close(call.figure("floor pressure", "kN/m2"), 440.0 * 9.80665 / 0.6 / 1000.0, 0.02);
}

#[test]
fn a_parcel_of_media() {
    let call =
        call("medium(sintered-glass).volume = 2 L\nmedium(foam-coarse).volume = 4 L\nmedium(floss).volume = 1 L");
    close(call.figure("media weight", "kg"), 2.0 * 0.45 + 4.0 * 0.028 + 0.015, 1e-9);
    close(call.figure("media litres", "L"), 7.0, 1e-9);
}

#[test]
fn power_in_a_year() {
    let call = call("filter.kind = canister\nfilter.power = 12 W");
    close(call.figure("energy in a year", "kWh"), 12.0 * 8.766, 1e-9);
}

#[test]
fn alkalinity_used() {
    // 37 mg N a day in 100 L takes 2.6 mg/L of CaCO3 a day: 0.15 degrees, 1.04 in a week. 1 g of feed of 40 % protein.
    let call = call("tank.water = 100 L\nfeed.amount = 1 g\nreading.kh = 4 dKH");
    close(call.figure("KH used", "dKH"), 0.0368 * 7.145 * 7.0 / 100.0 * 1000.0 / 17.848, 1e-9);
}

#[test]
fn sizes_before_the_label() {
    let call = call("tank.nominal = 250 L\ntank.length = 100 cm\ntank.width = 40 cm\ntank.height = 50 cm");
    close(call.figure("water", "L"), 98.4 * 38.4 * (50.0 - 0.8 - 3.0) / 1000.0, 1e-9);
}

#[test]
fn plan_and_tables_agree() {
    for (figure, medium, fact) in [
        ("surface of coarse foam", "foam-coarse", "specific surface"),
        ("surface of medium foam", "foam-medium", "specific surface"),
        ("surface of sintered glass", "sintered-glass", "specific surface"),
        ("weight of coarse foam", "foam-coarse", "bulk density"),
        ("weight of medium foam", "foam-medium", "bulk density"),
        ("weight of sintered glass", "sintered-glass", "bulk density"),
    ] {
        let given = BOOK.rules.figures.iter().find(|f| f.name == figure).and_then(|f| f.given).unwrap();
        let table = BOOK
            .knowledge
            .facts_of(Table::Medium, medium)
            .into_iter()
            .find(|f| f.attribute == fact)
            .map(|f| match f.value {
                Value::Amount(amount) => amount.base(),
                Value::Kinds(_) => panic!("{medium} {fact} is no quantity"),
            })
            .unwrap();
        for (a, b) in [(given.low, table.low), (given.likely, table.likely), (given.high, table.high)] {
            close(a.unwrap(), b.unwrap(), 1e-9);
        }
    }
}
