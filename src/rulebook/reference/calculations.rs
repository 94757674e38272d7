//! The page of calculations that rules may call. In: their signatures. Out: Markdown.

use super::cell;
use crate::water::signatures;
use std::fmt::Write;

pub fn page() -> String {
    let mut out = String::from(
        "# Calculations\n\nCalled by name in a formula, with values in brackets: `ammonia fraction(tank.temperature, reading.ph)`. What lies\noutside the range of a calculation makes its result unknown.\n",
    );
    for signature in signatures::all() {
        let inputs: Vec<String> =
            signature.inputs.iter().map(|(name, dimension)| format!("{name} ({})", dimension.words())).collect();
        let names: Vec<&str> = signature.inputs.iter().map(|(name, _)| *name).collect();
        let _ = write!(out, "\n## {}\n\n`{}({})`\n\n", signature.name, signature.name, names.join(", "));
        let _ = writeln!(out, "Gives {}: {}.\n", signature.output.words(), cell(signature.says));
        let _ = writeln!(out, "- takes {}", inputs.join(", "));
        let _ = writeln!(out, "- formula: {}", cell(signature.formula));
        let _ = writeln!(out, "- rests on: {} ({})", signature.basis.word(), cell(signature.source));
    }
    out
}
