//! Where a function of one number crosses nothing.
//! In: a bracket and a function that changes sign in it once. Out: the place. Knows no meaning.

/// The zero of `f` between `low` and `high`, to about 1e-12 of the bracket. The ends of the bracket may be infinitely off; if `f` does not
/// change sign, the end where it is nearer to nothing is given.
pub(super) fn between(low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let (mut a, mut b) = (low, high);
    let (mut at_a, mut at_b) = (f(a), f(b));
    if at_a.signum() == at_b.signum() {
        return if at_a.abs() <= at_b.abs() { a } else { b };
    }
    let close = (high - low).abs() * 1e-12;
    // False position, halving the weight of an end that stays (the "Illinois" way), halving the bracket where that stalls.
    for step in 0..100 {
        let straight = (a * at_b - b * at_a) / (at_b - at_a);
        let middle = 0.5 * (a + b);
        let x = if straight.is_finite() && step % 8 != 7 { straight } else { middle };
        let at_x = f(x);
        if at_x == 0.0 || (b - a).abs() < close {
            return x;
        }
        if at_x.signum() == at_b.signum() {
            let moved = (b - x).abs();
            (b, at_b) = (x, at_x);
            at_a *= 0.5;
            if moved < close {
                return x;
            }
        } else {
            let moved = (x - a).abs();
            (a, at_a) = (x, at_x);
            at_b *= 0.5;
            if moved < close {
                return x;
            }
        }
    }
    0.5 * (a + b)
}
