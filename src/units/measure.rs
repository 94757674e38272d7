//! Typed measures: a number whose type says what it measures, so that a flow cannot be passed for a volume.
//! In: a number and the unit it is in. Out: the same in another unit. Knows no text.

use super::dimension::Dimension;

/// What every measure can do: go to and from the base unit of its dimension (SI; degrees Celsius).
pub trait Measure: Copy {
    const DIMENSION: Dimension;
    fn from_base(value: f64) -> Self;
    fn to_base(self) -> f64;
}

/// Makes a measure type: the value is held in the base unit of its dimension; each unit gives a constructor and a reader.
macro_rules! measures {
    ($($(#[$doc:meta])* $name:ident, $dimension:expr, { $($unit:ident / $read:ident = $factor:expr),+ $(,)? };)+) => {
        $(
            $(#[$doc])*
            #[derive(Clone, Copy, PartialEq, PartialOrd, Debug, Default)]
            pub struct $name(f64);

            impl $name {
                pub const DIMENSION: Dimension = $dimension;
                /// From the base unit of the dimension (SI; degrees Celsius for temperatures).
                pub const fn base(value: f64) -> Self { Self(value) }
                /// In the base unit of the dimension.
                pub const fn in_base(self) -> f64 { self.0 }
                $(
                    pub const fn $unit(value: f64) -> Self { Self(value * $factor) }
                    pub const fn $read(self) -> f64 { self.0 / $factor }
                )+
            }

            impl Measure for $name {
                const DIMENSION: Dimension = $dimension;
                fn from_base(value: f64) -> Self { Self(value) }
                fn to_base(self) -> f64 { self.0 }
            }
        )+
    };
}

/// A dimension that no rule names but a formula needs: powers of length, mass, time, temperature, money.
const fn powers(length: i8, mass: i8, time: i8, temperature: i8, money: i8) -> Dimension {
    Dimension { length, mass, time, temperature, money, acidity: 0 }
}

// Exact by definition: NIST SP 811 (2008), appendix B.
const US_GALLON: f64 = 3.785411784e-3;
const IMPERIAL_GALLON: f64 = 4.54609e-3;
const POUND: f64 = 0.45359237;
const FOOT: f64 = 0.3048;
/// One German degree is 10 mg/L of CaO, 17.848 mg/L as CaCO3 (DIN 38409-6, quoted from memory).
const GERMAN_DEGREE: f64 = 17.848e-3;
/// A grain is 64.79891 mg.
const GRAIN: f64 = 64.79891e-6;
/// Half a mole of CaCO3, 50.0436 g, is one equivalent of alkalinity.
pub const CACO3_PER_EQUIVALENT: f64 = 50.0436;

measures! {
    /// A share, a ratio or a count.
    Share, Dimension::NUMBER, { ratio / in_ratio = 1.0, percent / in_percent = 0.01 };
    Length, Dimension::LENGTH, {
        metres / in_metres = 1.0, centimetres / in_centimetres = 0.01, millimetres / in_millimetres = 0.001,
        micrometres / in_micrometres = 1e-6, inches / in_inches = 0.0254, feet / in_feet = FOOT,
    };
    Area, Dimension::AREA, {
        square_metres / in_square_metres = 1.0, square_centimetres / in_square_centimetres = 1e-4,
        square_feet / in_square_feet = FOOT * FOOT,
    };
    Volume, Dimension::VOLUME, {
        cubic_metres / in_cubic_metres = 1.0, litres / in_litres = 1e-3, millilitres / in_millilitres = 1e-6,
        us_gallons / in_us_gallons = US_GALLON, imperial_gallons / in_imperial_gallons = IMPERIAL_GALLON,
        us_quarts / in_us_quarts = US_GALLON / 4.0, imperial_pints / in_imperial_pints = IMPERIAL_GALLON / 8.0,
        us_fluid_ounces / in_us_fluid_ounces = US_GALLON / 128.0,
        imperial_fluid_ounces / in_imperial_fluid_ounces = IMPERIAL_GALLON / 160.0,
        cubic_feet / in_cubic_feet = FOOT * FOOT * FOOT, cubic_inches / in_cubic_inches = US_GALLON / 231.0,
    };
    Mass, Dimension::MASS, {
        kilograms / in_kilograms = 1.0, grams / in_grams = 1e-3, milligrams / in_milligrams = 1e-6,
        pounds / in_pounds = POUND, ounces / in_ounces = POUND / 16.0,
    };
    Time, Dimension::TIME, {
        seconds / in_seconds = 1.0, minutes / in_minutes = 60.0, hours / in_hours = 3600.0, days / in_days = 86400.0,
        years / in_years = 31557600.0,
    };
    Flow, Dimension::FLOW, {
        cubic_metres_per_second / in_cubic_metres_per_second = 1.0, litres_per_hour / in_litres_per_hour = 1e-3 / 3600.0,
        litres_per_minute / in_litres_per_minute = 1e-3 / 60.0, cubic_metres_per_day / in_cubic_metres_per_day = 1.0 / 86400.0,
        us_gallons_per_hour / in_us_gallons_per_hour = US_GALLON / 3600.0,
        imperial_gallons_per_hour / in_imperial_gallons_per_hour = IMPERIAL_GALLON / 3600.0,
        us_gallons_per_minute / in_us_gallons_per_minute = US_GALLON / 60.0,
    };
    Speed, Dimension::SPEED, {
        metres_per_second / in_metres_per_second = 1.0, millimetres_per_second / in_millimetres_per_second = 1e-3,
        centimetres_per_second / in_centimetres_per_second = 1e-2, metres_per_hour / in_metres_per_hour = 1.0 / 3600.0,
        metres_per_day / in_metres_per_day = 1.0 / 86400.0, feet_per_second / in_feet_per_second = FOOT,
    };
    /// Something per time: turnover, a growth rate, a feed share per day, body lengths per second.
    Rate, Dimension::PER_TIME, { per_second / in_per_second = 1.0, per_hour / in_per_hour = 1.0 / 3600.0, per_day / in_per_day = 1.0 / 86400.0 };
    /// Mass in a volume of water; hardness and alkalinity as CaCO3; the density of water or of a medium.
    Concentration, Dimension::CONCENTRATION, {
        kilograms_per_cubic_metre / in_kilograms_per_cubic_metre = 1.0, milligrams_per_litre / in_milligrams_per_litre = 1e-3,
        grams_per_litre / in_grams_per_litre = 1.0, kilograms_per_litre / in_kilograms_per_litre = 1e3,
        german_degrees / in_german_degrees = GERMAN_DEGREE, french_degrees / in_french_degrees = 10e-3,
        clark_degrees / in_clark_degrees = GRAIN / IMPERIAL_GALLON, grains_per_us_gallon / in_grains_per_us_gallon = GRAIN / US_GALLON,
        milliequivalents_per_litre / in_milliequivalents_per_litre = CACO3_PER_EQUIVALENT * 1e-3,
        millimoles_caco3_per_litre / in_millimoles_caco3_per_litre = CACO3_PER_EQUIVALENT * 2e-3,
    };
    /// A rise of a concentration; the oxygen that a volume of medium takes up.
    ConcentrationRate, Dimension::CONCENTRATION_PER_TIME, {
        milligrams_per_litre_day / in_milligrams_per_litre_day = 1e-3 / 86400.0,
        milligrams_per_litre_hour / in_milligrams_per_litre_hour = 1e-3 / 3600.0,
        grams_per_cubic_metre_hour / in_grams_per_cubic_metre_hour = 1e-3 / 3600.0,
    };
    MassRate, Dimension::MASS_PER_TIME, {
        grams_per_day / in_grams_per_day = 1e-3 / 86400.0, milligrams_per_day / in_milligrams_per_day = 1e-6 / 86400.0,
        milligrams_per_hour / in_milligrams_per_hour = 1e-6 / 3600.0, kilograms_per_day / in_kilograms_per_day = 1.0 / 86400.0,
    };
    ArealRate, Dimension::AREAL_RATE, { grams_per_square_metre_day / in_grams_per_square_metre_day = 1e-3 / 86400.0 };
    /// Area of surface per volume of medium.
    SpecificSurface, Dimension::PER_LENGTH, {
        square_metres_per_cubic_metre / in_square_metres_per_cubic_metre = 1.0,
        square_feet_per_cubic_foot / in_square_feet_per_cubic_foot = 1.0 / FOOT,
    };
    /// Area of surface per mass of medium.
    SurfacePerMass, powers(2, -1, 0, 0, 0), { square_metres_per_kilogram / in_square_metres_per_kilogram = 1.0 };
    /// Pores counted along a line.
    PoreCount, Dimension::PER_LENGTH, { per_metre / in_per_metre = 1.0, per_inch / in_per_inch = 1.0 / 0.0254 };
    Power, Dimension::POWER, { watts / in_watts = 1.0, btu_per_hour / in_btu_per_hour = 1055.05585262 / 3600.0 };
    Energy, Dimension::ENERGY, { joules / in_joules = 1.0, kilowatt_hours / in_kilowatt_hours = 3.6e6 };
    Pressure, Dimension::PRESSURE, {
        pascals / in_pascals = 1.0, hectopascals / in_hectopascals = 100.0, kilopascals / in_kilopascals = 1e3, atmospheres / in_atmospheres = 101325.0,
        microatmospheres / in_microatmospheres = 0.101325, millimetres_of_mercury / in_millimetres_of_mercury = 133.322387415,
        inches_of_mercury / in_inches_of_mercury = 3386.38864034,
        pounds_per_square_inch / in_pounds_per_square_inch = POUND * 9.80665 / (0.0254 * 0.0254),
        pounds_per_square_foot / in_pounds_per_square_foot = POUND * 9.80665 / (FOOT * FOOT),
    };
    /// Pressure lost along each metre of a bed.
    PressureGradient, powers(-2, 1, -2, 0, 0), { pascals_per_metre / in_pascals_per_metre = 1.0 };
    Temperature, Dimension::TEMPERATURE, { celsius / in_celsius = 1.0 };
    /// A step between two temperatures: it has no offset, so 5 F warmer is 2.78 C warmer.
    Warming, Dimension::TEMPERATURE, { celsius / in_celsius = 1.0, fahrenheit / in_fahrenheit = 1.0 / 1.8 };
    Acidity, Dimension::ACIDITY, { ph / in_ph = 1.0 };
    Money, Dimension::MONEY, { coins / in_coins = 1.0 };
    MoneyRate, powers(0, 0, -1, 0, 1), { coins_per_year / in_coins_per_year = 1.0 / 31557600.0 };
    EnergyPrice, powers(-2, -1, 2, 0, 1), { coins_per_kilowatt_hour / in_coins_per_kilowatt_hour = 1.0 / 3.6e6 };
    /// Volume of a parcel that a carrier counts as one kilogram.
    ParcelDivisor, powers(3, -1, 0, 0, 0), { cubic_centimetres_per_kilogram / in_cubic_centimetres_per_kilogram = 1e-6 };
    Viscosity, powers(-1, 1, -1, 0, 0), { pascal_seconds / in_pascal_seconds = 1.0 };
    Diffusivity, powers(2, 0, -1, 0, 0), { square_metres_per_second / in_square_metres_per_second = 1.0 };
    /// Head lost per flow, and per flow squared: the two coefficients of a filter's loss curve.
    LinearLoss, powers(-2, 0, 1, 0, 0), { metres_per_litre_hour / in_metres_per_litre_hour = 3.6e6 };
    SquareLoss, powers(-5, 0, 2, 0, 0), { metres_per_litre_hour_squared / in_metres_per_litre_hour_squared = 3.6e6 * 3.6e6 };
    /// Heat passing through an area for each degree.
    HeatTransfer, powers(0, 1, -3, -1, 0), { watts_per_square_metre_kelvin / in_watts_per_square_metre_kelvin = 1.0 };
    /// Dissolved salt by mass: g per kg of water, "ppt"; a plain number.
    Salinity, Dimension::NUMBER, { grams_per_kilogram / in_grams_per_kilogram = 1e-3 };
    /// Ionic strength; a plain number, in mol per litre.
    IonicStrength, Dimension::NUMBER, { moles_per_litre / in_moles_per_litre = 1.0 };
    /// A sound level; a plain number, in decibels.
    SoundLevel, Dimension::NUMBER, { decibels / in_decibels = 1.0 };
}

impl Temperature {
    pub const fn fahrenheit(value: f64) -> Self {
        Self((value - 32.0) / 1.8)
    }
    pub const fn in_fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }
    pub const fn kelvin(value: f64) -> Self {
        Self(value - 273.15)
    }
    pub const fn in_kelvin(self) -> f64 {
        self.0 + 273.15
    }
}
