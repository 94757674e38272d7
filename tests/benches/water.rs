//! How long each calculation takes: prints nanoseconds a call, and which take a microsecond or more.
//! In: the signatures. Out: a line each, and a count. Run with `cargo bench --bench water`.

use std::hint::black_box;
use std::time::{Duration, Instant};
use weirline::units::dimension::Dimension;
use weirline::water::signatures::{self, Signature};

/// Numbers that differ but are the same on every run.
struct Numbers(u64);

impl Numbers {
    /// 0 to 1.
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A value such as a tank has, in base units of its dimension.
    fn usual(&mut self, dimension: Dimension) -> f64 {
        let (low, high) = match dimension {
            Dimension::TEMPERATURE => return 10.0 + 20.0 * self.next(),
            Dimension::ACIDITY => return 6.0 + 2.5 * self.next(),
            Dimension::LENGTH => (1e-3, 1.0),
            Dimension::AREA => (1e-3, 1.0),
            Dimension::VOLUME => (1e-4, 0.5),
            Dimension::MASS => (1e-4, 10.0),
            Dimension::TIME => (60.0, 3e6),
            Dimension::FLOW => (1e-5, 1e-3),
            Dimension::SPEED => (1e-6, 1e-2),
            Dimension::PER_TIME => (1e-7, 1e-6),
            Dimension::CONCENTRATION => (1e-4, 1.0),
            Dimension::PER_LENGTH => (300.0, 3000.0),
            _ => (1e-9, 10.0),
        };
        low * f64::powf(high / low, self.next())
    }
}

/// Inputs that a signature takes without refusing.
fn inputs_for(signature: &Signature, numbers: &mut Numbers) -> Option<Vec<f64>> {
    (0..1_000_000).find_map(|_| {
        let inputs: Vec<f64> = signature
            .inputs
            .iter()
            .map(|(name, dimension)| match *name {
                // Narrow ranges.
                "day" => 30.0,
                "CO2 of the air" => 60.0,
                "specific gravity" => 1.02,
                "reynolds number" => 5000.0,
                _ => numbers.usual(*dimension),
            })
            .collect();
        (signature.call)(&inputs).is_ok().then_some(inputs)
    })
}

fn nanoseconds(signature: &Signature, inputs: &[f64]) -> f64 {
    let mut calls = 1u32;
    loop {
        let start = Instant::now();
        for _ in 0..calls {
            black_box((signature.call)(black_box(inputs))).ok();
        }
        let spent = start.elapsed();
        if spent > Duration::from_millis(4) {
            return spent.as_nanos() as f64 / f64::from(calls);
        }
        calls = calls.saturating_mul(4);
    }
}

fn main() {
    let mut numbers = Numbers(1);
    let (mut slow, mut untried) = (Vec::new(), Vec::new());
    let mut count = 0;
    for signature in signatures::all() {
        let Some(inputs) = inputs_for(signature, &mut numbers) else {
            untried.push(signature.name);
            continue;
        };
        // The best of three: what else runs on the machine only adds.
        let spent = (0..3).map(|_| nanoseconds(signature, &inputs)).fold(f64::INFINITY, f64::min);
        println!("{spent:>12.1} ns  {}", signature.name);
        count += 1;
        if spent >= 1000.0 {
            slow.push(signature.name);
        }
    }
    // The table of names is made at the first look.
    signatures::by_name("");
    let start = Instant::now();
    for signature in signatures::all() {
        black_box(signatures::by_name(black_box(signature.name)));
    }
    println!("{:>12.1} ns  finding a name", start.elapsed().as_nanos() as f64 / f64::from(count));
    println!("{count} calculations; a microsecond or more: {}", list(&slow));
    println!("no inputs found for: {}", list(&untried));
}

fn list(names: &[&str]) -> String {
    if names.is_empty() { "none".into() } else { names.join(", ") }
}
