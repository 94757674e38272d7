//! Where a function of one number crosses nothing.
//! In: a bracket and a function that changes sign in it once. Out: the place. Knows no meaning.

/// The zero of `f` between `low` and `high`, to about 1e-11 of the bracket. An end may be infinitely off; if `f` does not change sign, the end
/// where it is nearer to nothing is given.
pub(super) fn between(low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let (mut a, mut b) = (low, high);
    let (mut at_a, mut at_b) = (f(a), f(b));
    if at_a.signum() == at_b.signum() {
        return if at_a.abs() <= at_b.abs() { a } else { b };
    }
    let close = (high - low).abs() * 1e-11;
    let (mut last, mut stayed) = (f64::NAN, 0);
    // False position; an end that stays twice has its weight halved (the "Illinois" way), and where that stalls the bracket is halved.
    for step in 1..=100 {
        let straight = (a * at_b - b * at_a) / (at_b - at_a);
        let x = if straight.is_finite() && step % 10 != 0 { straight } else { 0.5 * (a + b) };
        let at_x = f(x);
        if at_x == 0.0 || (x - last).abs() < close || (b - a).abs() < close {
            return x;
        }
        last = x;
        if at_x.signum() == at_b.signum() {
            (b, at_b) = (x, at_x);
            if stayed == 1 {
                at_a *= 0.5;
            }
            stayed = 1;
        } else {
            (a, at_a) = (x, at_x);
            if stayed == 2 {
                at_b *= 0.5;
            }
            stayed = 2;
        }
    }
    0.5 * (a + b)
}
