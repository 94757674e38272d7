//! Signatures that no check table tries: worked by hand, inputs and result in base units.

use weirline::rulebook::expr::parse::parse;
use weirline::rulebook::expr::tree::Node;
use weirline::water::OutOfRange;
use weirline::water::signatures::{self, Signature};

/// Name, inputs, result. Plain ratios and balances: they check the wiring, not a formula.
pub const EXAMPLES: &[(&str, &[f64], f64)] = &[
    // 0.85 of 208.2 L.
    ("water from nominal size", &[0.2082, 0.85], 0.17697),
    // 50 mm without the tail, times 1.2.
    ("total length", &[0.05, 1.2], 0.06),
    // 12 % of 2 g a day, in kg/s.
    ("dry feed", &[2e-3 / 86400.0, 0.12], 0.24e-3 / 86400.0),
    // 37 mg N a day for each 100 L: a capacity of 74 mg carries 200 L.
    ("tank carried", &[74e-6 / 86400.0, 37e-5 / 86400.0], 0.2),
    // 400 m2/m3 at 500 kg/m3.
    ("surface per mass", &[400.0, 500.0], 0.8),
    // 0.6 of a rated 1000 L/h.
    ("real flow", &[1.0 / 3600.0, 0.6], 0.6 / 3600.0),
    // 300 of 400 L/h go through the media.
    ("bypass share", &[0.3 / 3600.0, 0.4 / 3600.0], 0.25),
    // A block of 10 x 8 x 12 cm.
    ("block guard area", &[0.10, 0.08, 0.12], 2.0 * 0.18 * 0.12 + 0.008),
    // A 4 mm larva.
    ("body width", &[0.004, 0.16], 0.00064),
    // Two readings, 20 and 27 mg/L, a week apart.
    ("measured nitrate rise", &[0.020, 0.027, 7.0 * 86400.0], 0.001 / 86400.0),
    // 20 mg/L and 2 a day: 34 after a week; a quarter of tap water of 10 makes 28; three days on it is 34 again.
    ("stepped nitrate", &[0.020, 0.010, 0.002 / 86400.0, 7.0 * 86400.0, 0.25, 10.0 * 86400.0], 0.034),
    // Without a change 2 a day for 10 days.
    ("stepped nitrate", &[0.020, 0.010, 0.002 / 86400.0, 7.0 * 86400.0, 0.0, 10.0 * 86400.0], 0.040),
    // A tenth evaporated from 90 mg/L.
    ("level before topping up", &[0.09, 0.1], 0.1),
    // pH 7, 20 degC: the bracket 1.0182 (0.0278 / 5.875 + 1.1994 / 1.2051) x 0.9405 x 7.547, in g/L.
    ("chronic ammonia criterion without fry", &[7.0, 20.0], 7.0979e-3),
    // One gram of nitrogen without growth of cells takes 2.8555 g.
    ("denitrification demand", &[1.0, 0.0], 2.855536517),
    // 3 L at 450 kg/m3 with 55 % of water between the grains: 3 x (0.450 + 0.55 x 0.99705) kg.
    ("flooded media mass", &[0.003, 450.0, 0.55], 2.99513),
    // 1 L, 45 % of it grain with 55 % of pores: 0.450 + 0.45 x 0.55 x 0.99705 kg.
    ("drained media mass", &[0.001, 450.0, 0.55, 0.55], 0.69677),
    // 45 cm of water.
    ("likely glass", &[0.45], 0.008),
    // Two waters of 4 dKH and pH 7.2 are one water.
    ("mixed pH", &[0.1, 0.071392, 7.2, 0.05, 0.071392, 7.2, 25.0], 7.2),
    // 8 mg/L in, 4 out, 300 L/h: 1.2 g of oxygen an hour, 0.2626 g of nitrogen.
    ("nitrified at most", &[0.008, 0.004, 0.3 / 3600.0, 4.57], 0.26258e-3 / 3600.0),
    // 6.2 of 8.26 mg/L.
    ("saturated share", &[0.0062, 0.00826], 0.75061),
    // Broken grain of 3 mm.
    ("effective grain", &[0.003, 0.7], 0.0021),
    // A pump at half speed: half the flow, a quarter of the head, an eighth of the power.
    ("flow at speed", &[1.0 / 3600.0, 0.5], 0.5 / 3600.0),
    ("head at speed", &[1.2, 0.5], 0.3),
    ("power at speed", &[16.0, 0.5], 2.0),
    // 0.18 m2, 25 in 20 degC, half humid: (3.1685 - 2.3383 / 2) kPa x 44.5 W/m2 kPa x 0.18 m2 / 2.44 MJ/kg.
    ("evaporation", &[0.18, 25.0, 20.0, 0.5], 6.5635e-6),
    // A kilogram a day is 28 W.
    ("cooling by evaporation", &[1.0 / 86400.0], 28.2407),
    // A third more than 60 W.
    ("heater", &[60.0, 1.0 / 3.0], 80.0),
    // 37 mg N a day in 100 L.
    ("capacity needed", &[37e-6 / 86400.0, 0.1], 37e-5 / 86400.0),
    // 0.1 m2 of floating plants at 0.12 g/m2 a day.
    ("floating plant uptake", &[0.1, 0.12e-3 / 86400.0], 0.012e-3 / 86400.0),
    // 200 L at 0.5 mg/L a day.
    ("planted tank uptake", &[0.2, 0.5e-3 / 86400.0], 0.1e-3 / 86400.0),
];

/// Name, inputs in base units, the input that must be refused: each just outside the range of its formula.
const REFUSED: &[(&str, &[f64], &str)] = &[
    ("ammonia fraction", &[50.1, 7.0], "temperature"),
    ("ammonia fraction", &[25.0, 10.1], "pH"),
    ("ammonia fraction in salt water", &[25.0, 0.0049, 8.0], "salinity"),
    ("ammonia fraction at ionic strength", &[25.0, 8.0, 0.11], "ionic strength"),
    ("bearable ammonia", &[0.0, 25.0, 7.0], "limit of un-ionised ammonia"),
    ("temperature factor", &[1.06, 4.9, 20.0], "temperature"),
    ("fish mass", &[0.0049, 0.0112, 3.0], "fish length"),
    ("ammonia from feed", &[1e-8, 0.4, 0.161], "ammonia made per protein"),
    ("ammonia from feed", &[1e-8, 1.1, 0.092], "protein share of the feed"),
    ("water from nominal size", &[0.1, 1.01], "share of the nominal volume"),
    ("box volume", &[0.6, 0.3, 0.3, 0.005, 0.3], "water height"),
    ("bow-front volume", &[0.9, 0.35, 0.45, 0.46, 0.0, 0.0], "bow of the front"),
    ("water left", &[0.01, 1.0, 0.1, 0.4, 0.0, 2650.0], "water left"),
    ("specific gravity", &[0.0421, 25.0, 25.0], "salinity"),
    ("salinity", &[0.9, 25.0, 25.0], "specific gravity"),
    ("share for target", &[0.08, 0.01, 0.02, 1.0], "target level"),
    ("share that holds", &[0.02, 0.02, 0.01], "ceiling"),
    ("settled level", &[0.0, 0.01, 0.0], "share changed"),
    ("safe daily change", &[2e-3, 0.25e-3, 0.0, 0.3e-3], "ceiling"),
    ("dissolved carbon dioxide", &[0.07, 25.0, 8.6], "pH"),
    ("dissolved carbon dioxide", &[0.008, 25.0, 7.0], "KH"),
    ("aired pH", &[0.07, 36.0, 42.0], "temperature"),
    ("air pressure at altitude", &[5001.0], "altitude"),
    ("grain bed loss", &[0.004, 0.49, 0.01, 0.1], "void share"),
    ("friction factor", &[2e6], "Reynolds number"),
    ("warming time", &[0.1, 5.0, 20.0, 20.0], "heater"),
    ("ice", &[0.1, 25.0, 26.0], "temperature wanted"),
    ("vapour pressure", &[51.0], "temperature"),
    ("guard area needed", &[1e-4, 0.01, 1.0], "blocked share"),
    ("recovery time", &[0.0, 86400.0], "capacity over need"),
    ("time to nitrate", &[0.01, 0.04, 0.0], "nitrate rise"),
    ("time to oxygen", &[0.1, 1.0, 1e-5, 1e-12, 0.008, 0.0075, 0.003], "oxygen limit"),
    ("time to capacity", &[1e-9, 1e-8, 20.0, 0.05], "net growth"),
    ("starting ammonia", &[25.0, 0.011, 1e-9, 10.0], "ammonia dose"),
    ("foam cell", &[201.0 / 0.0254], "pores per inch"),
    ("turnover", &[1e-4], "number of inputs"),
];

fn call(name: &str, inputs: &[f64]) -> (&'static Signature, Result<f64, OutOfRange>) {
    let signature = signatures::by_name(name).unwrap_or_else(|| panic!("no signature {name}"));
    (signature, (signature.call)(inputs))
}

#[test]
fn outside_its_range_a_calculation_refuses() {
    for (name, inputs, input) in REFUSED {
        match call(name, inputs).1 {
            Err(refused) => assert_eq!(&refused.input, input, "{name} {inputs:?}: {refused}"),
            Ok(given) => panic!("{name} of {inputs:?} gives {given}"),
        }
    }
}

#[test]
fn a_signature_tells_what_it_is() {
    let mut names = std::collections::BTreeSet::new();
    for signature in signatures::all() {
        assert!(names.insert(signature.name), "`{}` stands twice", signature.name);
        for text in [signature.source, signature.formula, signature.says] {
            assert!(!text.is_empty() && text.trim() == text, "{}: {text:?}", signature.name);
        }
        assert!(!signature.inputs.is_empty(), "{}", signature.name);
        // A rule must be able to write the name.
        let call = parse(&format!("{}(1)", signature.name)).map(|expr| expr.node);
        assert!(
            matches!(&call, Ok(Node::Call { name, .. }) if name == signature.name),
            "a rule cannot call `{}`",
            signature.name
        );
        let found = signatures::by_name(signature.name).unwrap();
        assert!(std::ptr::eq(found, signature));
    }
    assert!(signatures::by_name("turn over").is_none());
}

#[test]
fn worked_examples_hold() {
    for (name, inputs, expected) in EXAMPLES {
        let got = call(name, inputs).1.unwrap_or_else(|refused| panic!("{name}: {refused}"));
        assert!((got - expected).abs() <= 1e-4 * expected.abs(), "{name} gives {got}, expected {expected}");
    }
}
