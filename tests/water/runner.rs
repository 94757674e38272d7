//! Runs every check table against its check, and demands that each table has one and each signature was tried.

use super::table::{Check, Table, Tally};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::Path;
use weirline::water::signatures;

#[test]
fn every_row_of_every_table_holds() {
    let checks: Vec<Check> = [
        super::biofilter::CHECKS,
        super::carbonate::CHECKS,
        super::changes::CHECKS,
        super::chemistry::CHECKS,
        super::filter::CHECKS,
        super::heats::CHECKS,
        super::hydraulics::CHECKS,
        super::intakes::CHECKS,
        super::oxygen::CHECKS,
        super::stock::CHECKS,
        super::tanks::CHECKS,
        super::units::CHECKS,
        super::upkeep::CHECKS,
    ]
    .concat();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/water/tables");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();

    let tally = RefCell::new(Tally::default());
    let mut met = BTreeSet::new();
    for path in &paths {
        let table = Table::read(path);
        match checks.iter().find(|(name, _)| *name == table.name) {
            Some((name, check)) => {
                table.try_with(*check, &tally);
                met.insert(*name);
            }
            None => tally.borrow_mut().failures.push(format!("{} has no check", table.name)),
        }
    }
    let mut tally = tally.into_inner();
    for (name, _) in &checks {
        if !met.contains(name) {
            tally.failures.push(format!("the check {name} has no table"));
        }
    }
    let in_tables = tally.signatures.clone();
    for (name, ..) in super::examples::EXAMPLES {
        tally.signatures.insert(name);
    }
    for signature in signatures::all() {
        if !tally.signatures.contains(signature.name) {
            tally.failures.push(format!("the signature `{}` is tried nowhere", signature.name));
        }
    }
    println!(
        "{} tables, {} rows, {} functions, {} signatures of {}",
        met.len(),
        tally.rows,
        tally.functions.len(),
        in_tables.len(),
        signatures::all().count()
    );
    assert!(tally.failures.is_empty(), "{}", tally.failures.join("\n"));
}
