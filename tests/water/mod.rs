//! Tests of the calculations: every row of every check table, laws that must hold for any input, and the signatures.
//! In: the tables beside this file. Out: failures by table and row.

#[macro_use]
mod table;
mod biofilter;
mod changes;
mod chemistry;
mod examples;
mod filter;
mod intakes;
mod laws;
mod runner;
mod stock;
mod tanks;
