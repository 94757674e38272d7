//! Starting a filter: the course of ammonia, nitrite and nitrate while nitrifiers grow. The shape, not a forecast.
//! In: temperature, dose, starting capacities. Out: levels by day, times. Knows no advice.

use super::range::{OutOfRange, not_negative, positive, result, some_share, within};
use crate::units::measure::{Concentration, ConcentrationRate, MassRate, Share, Temperature, Time, Volume};

/// Growth and decay a day, and half-saturation in mg N/L, all at 20 degC: Ekama & Wentzel in Henze et al. 2008, Biological Wastewater Treatment
/// (read in public code, for ammonia oxidisers; used for both steps for want of better).
const GROWTH: f64 = 0.45;
const DECAY: f64 = 0.04;
const HALF: f64 = 1.0;
/// Steps a day of the integration.
const STEPS: usize = 100;

/// Temperature factors of growth (and half-saturation) and of decay.
fn factors(temperature: Temperature) -> Result<(f64, f64), OutOfRange> {
    let t = within("temperature", temperature, Temperature::celsius(5.0), Temperature::celsius(35.0))?;
    Ok((1.123f64.powf(t - 20.0), 1.029f64.powf(t - 20.0)))
}

/// A start without fish.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Start {
    pub temperature: Temperature,
    /// Total ammonia (as N) given on the first day.
    pub dose: Concentration,
    /// Capacity of each step at the start: bare 1e-4 to 1e-2 mg N/L a day, with a handful of running media 0.1 or more (guesses).
    pub capacity: ConcentrationRate,
    /// The dose is given again at the end of each day on which ammonia is below this.
    pub redose_below: Option<Concentration>,
}

/// Levels (as N) and capacities at the end of a day.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Levels {
    pub ammonia: Concentration,
    pub nitrite: Concentration,
    pub nitrate: Concentration,
    pub ammonia_capacity: ConcentrationRate,
    pub nitrite_capacity: ConcentrationRate,
}

/// Levels in mg N/L and capacities in mg N/L/day: TAN, NO2, NO3, and the capacities of the two steps.
type State = [f64; 5];

/// What changes a state, by one temperature.
struct Growth {
    k: f64,
    decay: f64,
}

impl Growth {
    fn slope(&self, y: &State) -> State {
        let half = HALF * self.k;
        let saturation = |s: f64| s.max(0.0) / (half + s.max(0.0));
        let (m1, m2) = (saturation(y[0]), saturation(y[1]));
        let (first, second) = (y[3] * m1, y[4] * m2);
        let grow = |q: f64, m: f64| q * (GROWTH * self.k * m - DECAY * self.decay);
        [-first, first - second, second, grow(y[3], m1), grow(y[4], m2)]
    }

    fn day(&self, y: &mut State) {
        let step = 1.0 / STEPS as f64;
        let ahead = |y: &State, slope: &State, by: f64| -> State { std::array::from_fn(|i| y[i] + by * slope[i]) };
        for _ in 0..STEPS {
            let a = self.slope(y);
            let b = self.slope(&ahead(y, &a, step / 2.0));
            let c = self.slope(&ahead(y, &b, step / 2.0));
            let d = self.slope(&ahead(y, &c, step));
            for i in 0..y.len() {
                y[i] += step / 6.0 * (a[i] + 2.0 * b[i] + 2.0 * c[i] + d[i]);
            }
        }
    }
}

/// Levels at the end of each of `days` days: ammonia falls first, nitrite peaks later and lasts longer, nitrate rises.
///
/// Temperature 5 to 35 degC, dose 0 to 10 mg N/L, capacity more than 0, up to 20 mg N/L a day, days 1 to 365 (rounded to whole ones); else
/// `OutOfRange`. A dose given at the end of a day is counted from the next. Source: Monod growth with the constants of Ekama & Wentzel 2008; fourth-order
/// Runge-Kutta, 100 steps a day; checked against scipy's solver. Not a forecast: the capacity at the start is never known. Laboratory growth rates
/// span 0.3 to 1.1 a day (from memory). Check: 25 degC, 2 mg/L, 0.001: on day 5 1.992 mg/L of ammonia are left.
pub fn course(start: Start, days: Share) -> Result<Vec<Levels>, OutOfRange> {
    let (k, decay) = factors(start.temperature)?;
    let (low, high) = (Concentration::base(0.0), Concentration::milligrams_per_litre(10.0));
    within("ammonia dose", start.dose, low, high)?;
    positive("capacity at the start", start.capacity)?;
    let most = ConcentrationRate::milligrams_per_litre_day(20.0);
    within("capacity at the start", start.capacity, ConcentrationRate::base(0.0), most)?;
    let days = within("days", days, Share::ratio(1.0), Share::ratio(365.0))?.round() as usize;
    if let Some(below) = start.redose_below {
        not_negative("level for a new dose", below)?;
    }

    let growth = Growth { k, decay };
    let (dose, q) = (start.dose.in_milligrams_per_litre(), start.capacity.in_milligrams_per_litre_day());
    let mut y: State = [dose, 0.0, 0.0, q, q];
    let mut levels = Vec::with_capacity(days);
    for _ in 0..days {
        growth.day(&mut y);
        levels.push(read(&y)?);
        if start.redose_below.is_some_and(|below| y[0] < below.in_milligrams_per_litre()) {
            y[0] += dose;
        }
    }
    Ok(levels)
}

fn read(y: &State) -> Result<Levels, OutOfRange> {
    let level = |x: f64| result("level", Concentration::milligrams_per_litre(x.max(0.0)).in_base());
    let capacity = |x: f64| result("capacity", ConcentrationRate::milligrams_per_litre_day(x.max(0.0)).in_base());
    Ok(Levels {
        ammonia: level(y[0])?,
        nitrite: level(y[1])?,
        nitrate: level(y[2])?,
        ammonia_capacity: capacity(y[3])?,
        nitrite_capacity: capacity(y[4])?,
    })
}

/// Levels at the end of one day of `course`.
///
/// As `course`.
pub fn levels_on(start: Start, day: Share) -> Result<Levels, OutOfRange> {
    let levels = course(start, day)?;
    levels.last().copied().ok_or(OutOfRange::of("days", day, 1.0, 365.0))
}

/// Time for one step of nitrification to grow from one capacity to another: ln(wanted / now) / (0.45 k saturation - 0.04 kb); nothing when it has it.
///
/// Capacities more than 0, 5 to 35 degC, mean saturation more than 0, up to 1; where growth does not outrun decay `OutOfRange`. Print weeks, as a
/// range. Source: as `course`; checked against scipy. Check: 0.001 to 2 mg N/L a day, 25 degC, 0.8: 12.7 days.
pub fn time_to_capacity(
    now: ConcentrationRate,
    wanted: ConcentrationRate,
    temperature: Temperature,
    saturation: Share,
) -> Result<Time, OutOfRange> {
    let ratio = positive("capacity wanted", wanted)? / positive("capacity now", now)?;
    let ratio = positive("ratio of capacities", Share::ratio(ratio))?;
    let (k, decay) = factors(temperature)?;
    let net = GROWTH * k * some_share("mean saturation", saturation)? - DECAY * decay;
    let net = positive("net growth", Share::ratio(net))?;
    result("time", Time::days(ratio.ln().max(0.0) / net).in_base())
}

/// Capacity that a stock will need: ammonia made / water.
///
/// Ammonia 0 or more, water more than 0; else `OutOfRange`. Source: by definition. Check: 37 mg N a day in 100 L: 0.37 mg N/L a day.
pub fn capacity_needed(made: MassRate, water: Volume) -> Result<ConcentrationRate, OutOfRange> {
    let made = not_negative("ammonia made", made)?;
    result("capacity", made / positive("water", water)?)
}
