//! Energy, money, noise and parcels.
//! In: powers, prices, intervals, levels, sizes. Out: energy, money, levels, masses. Knows no currency.

use super::range::{OutOfRange, not_negative, positive, result, within};
use crate::units::measure::{
    Energy, EnergyPrice, Length, Mass, Measure, Money, MoneyRate, ParcelDivisor, Power, Share, SoundLevel, Time,
};

/// Energy that something uses which runs all the time: power x time. A watt is 8.766 kWh in a year of 365.25 days.
///
/// Both 0 or more; else `OutOfRange`. Source: by definition. Check: 8 W for a year: 70.1 kWh.
pub fn energy(power: Power, time: Time) -> Result<Energy, OutOfRange> {
    let power = not_negative("power", power)?;
    result("energy", power * not_negative("time", time)?)
}

/// What that costs: energy x price.
///
/// Both 0 or more; else `OutOfRange`. Source: by definition. Check: 70.128 kWh at 0.30: 21.04.
pub fn energy_cost(energy: Energy, price: EnergyPrice) -> Result<Money, OutOfRange> {
    let energy = not_negative("energy", energy)?;
    result("cost", energy * not_negative("price", price)?)
}

/// Running cost of something bought again and again: price x number / interval.
///
/// Price and number 0 or more, interval more than 0; else `OutOfRange`. Source: arithmetic. Check: one at 4.00 every 4 weeks: 52.2 a year; foam of
/// 8.00 every 4 years: 2.0 a year.
pub fn running_cost(price: Money, number: Share, interval: Time) -> Result<MoneyRate, OutOfRange> {
    let spent = not_negative("price", price)? * not_negative("number", number)?;
    result("running cost", spent / positive("interval", interval)?)
}

/// Time until a purchase has paid for what it replaces: price / running cost saved.
///
/// Price 0 or more, saving more than 0 (else it never pays); else `OutOfRange`. Source: arithmetic. Check: 8.00 against 52.2 a year: 56 days.
pub fn payback(price: Money, saved: MoneyRate) -> Result<Time, OutOfRange> {
    let price = not_negative("price", price)?;
    result("time", price / positive("cost saved", saved)?)
}

/// Level of several independent sounds together: 10 log10(sum of 10^(level / 10)) dB.
///
/// At least one level, each -20 to 200 dB; else `OutOfRange`. Source: addition of powers. Check: 40 and 40 dB: 43 dB.
pub fn noise(levels: &[SoundLevel]) -> Result<SoundLevel, OutOfRange> {
    let mut sum = 0.0;
    for level in levels {
        let level = within("sound level", *level, SoundLevel::decibels(-20.0), SoundLevel::decibels(200.0))?;
        sum += 10f64.powf(level / 10.0);
    }
    let sum = positive("sum of sounds", Share::ratio(sum))?;
    Ok(SoundLevel::decibels(10.0 * sum.log10()))
}

/// Weight that a carrier counts for a parcel's size: length x width x height / divisor.
///
/// All more than 0; divisor mostly 5000 cm3/kg, 4000 and 6000 are met (common practice); else `OutOfRange`. Source: arithmetic. Check: 40 x 30 x 30
/// cm at 5000: 7.2 kg.
pub fn volumetric_weight(
    length: Length,
    width: Length,
    height: Length,
    divisor: ParcelDivisor,
) -> Result<Mass, OutOfRange> {
    let size =
        positive("parcel length", length)? * positive("parcel width", width)? * positive("parcel height", height)?;
    result("volumetric weight", size / positive("parcel divisor", divisor)?)
}

/// Weight that a carrier charges: the greater of the scale's and the volumetric.
///
/// Both 0 or more; else `OutOfRange`. Basis: common practice. Check: 4 kg in a parcel counted 7.2 kg: 7.2 kg.
pub fn charged_weight(gross: Mass, volumetric: Mass) -> Result<Mass, OutOfRange> {
    let gross = not_negative("gross weight", gross)?;
    Ok(Mass::from_base(gross.max(not_negative("volumetric weight", volumetric)?)))
}
