//! The time of some work: the median of several runs.

use std::time::{Duration, Instant};

pub fn median(times: usize, mut work: impl FnMut()) -> Duration {
    let mut took: Vec<Duration> = (0..times)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed()
        })
        .collect();
    took.sort_unstable();
    took[times / 2]
}
