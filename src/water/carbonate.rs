//! Carbonate: how KH, pH and dissolved CO2 hang together in fresh water.
//! In: KH, temperature, pH, partial pressure. Out: concentrations, pH. Knows no other buffer: with one, CO2 comes out too high.

/// log10 of the activity of a single ion after Davies, for an ionic strength in mol/L; temperature in degrees Celsius.
pub(super) fn log_activity(t: f64, strength: f64) -> f64 {
    let permittivity = 87.740 - 0.40008 * t + 9.398e-4 * t * t - 1.410e-6 * t * t * t;
    let a = 1.82e6 * (permittivity * (t + 273.15)).powf(-1.5);
    let root = strength.sqrt();
    -a * (root / (1.0 + root) - 0.3 * strength)
}
