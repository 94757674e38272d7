//! The page of units. In: the units table. Out: Markdown.

use crate::units::Dimension;
use crate::units::unit::{System, UNITS};
use std::fmt::Write;

pub fn page() -> String {
    let mut out = String::from(
        "# Units\n\nA number in a condition or formula carries one of these, with a blank before it: `40 L`, `4 per hour`, `7.5 pH`.\nQuantities of one sort may be compared and added whatever their units. A gallon of which it was not said which is the\ncaller's.\n\n",
    );
    out.push_str("| sort | write | shown as | counted by |\n| --- | --- | --- | --- |\n");
    let mut done: Vec<Dimension> = Vec::new();
    for unit in UNITS.iter().filter(|u| !u.name.is_empty()) {
        if done.contains(&unit.dimension) {
            continue;
        }
        done.push(unit.dimension);
        for unit in UNITS.iter().filter(|u| u.dimension == unit.dimension && !u.name.is_empty()) {
            let who = match unit.system {
                System::Any => "everyone",
                System::Metric => "metric callers",
                System::UsCustomary => "US callers",
                System::Imperial => "imperial callers",
                System::Customary => "US and imperial callers",
            };
            let sort = unit.dimension.words();
            let sort = sort.strip_prefix("a ").or(sort.strip_prefix("an ")).unwrap_or(&sort);
            let _ = writeln!(out, "| {sort} | `{}` | {} | {who} |", unit.name, unit.shown);
        }
    }
    out
}
