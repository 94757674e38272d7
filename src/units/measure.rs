//! Typed measures: a number whose type says what it measures, so that a flow cannot be passed for a volume.
//! In: a number and the unit it is in. Out: the same in another unit. Knows no text.

use super::dimension::Dimension;

/// Makes a measure type: the value is held in the base unit of its dimension; each unit gives a constructor and a reader.
macro_rules! measures {
    ($($(#[$doc:meta])* $name:ident, $dimension:ident, { $($unit:ident / $read:ident = $factor:expr),+ $(,)? };)+) => {
        $(
            $(#[$doc])*
            #[derive(Clone, Copy, PartialEq, PartialOrd, Debug, Default)]
            pub struct $name(f64);

            impl $name {
                pub const DIMENSION: Dimension = Dimension::$dimension;
                /// From the base unit of the dimension (SI; degrees Celsius for temperatures).
                pub const fn base(value: f64) -> Self { Self(value) }
                /// In the base unit of the dimension.
                pub const fn in_base(self) -> f64 { self.0 }
                $(
                    pub const fn $unit(value: f64) -> Self { Self(value * $factor) }
                    pub const fn $read(self) -> f64 { self.0 / $factor }
                )+
            }
        )+
    };
}

measures! {
    /// A share, a ratio or a count.
    Share, NUMBER, { ratio / in_ratio = 1.0, percent / in_percent = 0.01 };
    Length, LENGTH, { metres / in_metres = 1.0, centimetres / in_centimetres = 0.01, millimetres / in_millimetres = 0.001, micrometres / in_micrometres = 1e-6, inches / in_inches = 0.0254 };
    Area, AREA, { square_metres / in_square_metres = 1.0, square_centimetres / in_square_centimetres = 1e-4 };
    Volume, VOLUME, { cubic_metres / in_cubic_metres = 1.0, litres / in_litres = 1e-3, millilitres / in_millilitres = 1e-6 };
    Mass, MASS, { kilograms / in_kilograms = 1.0, grams / in_grams = 1e-3, milligrams / in_milligrams = 1e-6 };
    Time, TIME, { seconds / in_seconds = 1.0, minutes / in_minutes = 60.0, hours / in_hours = 3600.0, days / in_days = 86400.0, years / in_years = 31557600.0 };
    Flow, FLOW, { cubic_metres_per_second / in_cubic_metres_per_second = 1.0, litres_per_hour / in_litres_per_hour = 1e-3 / 3600.0, cubic_metres_per_day / in_cubic_metres_per_day = 1.0 / 86400.0 };
    Speed, SPEED, { metres_per_second / in_metres_per_second = 1.0, millimetres_per_second / in_millimetres_per_second = 1e-3, centimetres_per_second / in_centimetres_per_second = 1e-2, metres_per_hour / in_metres_per_hour = 1.0 / 3600.0, metres_per_day / in_metres_per_day = 1.0 / 86400.0 };
    /// Something per time: turnover, a growth rate.
    Rate, PER_TIME, { per_second / in_per_second = 1.0, per_hour / in_per_hour = 1.0 / 3600.0, per_day / in_per_day = 1.0 / 86400.0 };
    /// Mass in a volume of water; hardness as CaCO3.
    Concentration, CONCENTRATION, { kilograms_per_cubic_metre / in_kilograms_per_cubic_metre = 1.0, milligrams_per_litre / in_milligrams_per_litre = 1e-3, kilograms_per_litre / in_kilograms_per_litre = 1e3 };
    ConcentrationRate, CONCENTRATION_PER_TIME, { milligrams_per_litre_day / in_milligrams_per_litre_day = 1e-3 / 86400.0, milligrams_per_litre_hour / in_milligrams_per_litre_hour = 1e-3 / 3600.0 };
    MassRate, MASS_PER_TIME, { grams_per_day / in_grams_per_day = 1e-3 / 86400.0, milligrams_per_day / in_milligrams_per_day = 1e-6 / 86400.0, milligrams_per_hour / in_milligrams_per_hour = 1e-6 / 3600.0, kilograms_per_day / in_kilograms_per_day = 1.0 / 86400.0 };
    ArealRate, AREAL_RATE, { grams_per_square_metre_day / in_grams_per_square_metre_day = 1e-3 / 86400.0 };
    /// Area of surface per volume of medium.
    SpecificSurface, PER_LENGTH, { square_metres_per_cubic_metre / in_square_metres_per_cubic_metre = 1.0 };
    /// Pores counted along a line.
    PoreCount, PER_LENGTH, { per_metre / in_per_metre = 1.0, per_inch / in_per_inch = 1.0 / 0.0254 };
    Power, POWER, { watts / in_watts = 1.0 };
    Energy, ENERGY, { joules / in_joules = 1.0, kilowatt_hours / in_kilowatt_hours = 3.6e6 };
    Pressure, PRESSURE, { pascals / in_pascals = 1.0, kilopascals / in_kilopascals = 1e3, atmospheres / in_atmospheres = 101325.0 };
    Temperature, TEMPERATURE, { celsius / in_celsius = 1.0 };
    Acidity, ACIDITY, { ph / in_ph = 1.0 };
    Money, MONEY, { coins / in_coins = 1.0 };
}
