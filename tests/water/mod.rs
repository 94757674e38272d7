//! Tests of the calculations: every row of every check table, laws that must hold for any input, and the signatures.
//! In: the tables beside this file. Out: failures by table and row.

#[macro_use]
mod table;
mod biofilter;
mod carbonate;
mod changes;
mod chemistry;
mod estimates;
mod examples;
mod filter;
mod heats;
mod hydraulics;
mod intakes;
mod laws;
mod nature;
mod oxygen;
mod runner;
mod stock;
mod tanks;
mod units;
mod upkeep;
