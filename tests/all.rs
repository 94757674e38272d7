//! The one test binary: a module a stage.

mod archive;
mod check;
mod cli;
mod docs;
mod doubt;
pub mod engine;
mod knowledge;
mod layers;
mod listen;
mod reference;
mod reply;
mod rules;
mod vocabulary;
mod water;

/// How property tests try: so many cases, the same ones on every run and machine.
pub fn tries(cases: u32) -> proptest::test_runner::Config {
    let rng_seed = proptest::test_runner::RngSeed::Fixed(0x7765_6972);
    proptest::test_runner::Config { cases, rng_seed, failure_persistence: None, ..Default::default() }
}
