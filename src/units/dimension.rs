//! Dimensions: what kind of quantity a number is, as whole-number powers of a few base kinds.
//! In: powers. Out: products, quotients, and words a fishkeeper uses. Knows no unit and no value.

use std::ops::{Div, Mul};

/// Powers of the base kinds. Numbers of a `Dimension` are always held in the base units named beside the fields.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, PartialOrd, Ord)]
pub struct Dimension {
    /// metre
    pub length: i8,
    /// kilogram
    pub mass: i8,
    /// second
    pub time: i8,
    /// degree Celsius (a difference and a reading share it; see `unit.rs` for the offset of Fahrenheit)
    pub temperature: i8,
    /// one unit of whatever currency the caller uses
    pub money: i8,
    /// pH, a scale of its own: never added to a plain number by mistake
    pub acidity: i8,
}

impl Dimension {
    const fn of(length: i8, mass: i8, time: i8) -> Self {
        Self { length, mass, time, temperature: 0, money: 0, acidity: 0 }
    }

    /// A count, a share, a ratio.
    pub const NUMBER: Self = Self::of(0, 0, 0);
    pub const LENGTH: Self = Self::of(1, 0, 0);
    pub const AREA: Self = Self::of(2, 0, 0);
    pub const VOLUME: Self = Self::of(3, 0, 0);
    pub const MASS: Self = Self::of(0, 1, 0);
    pub const TIME: Self = Self::of(0, 0, 1);
    pub const FLOW: Self = Self::of(3, 0, -1);
    pub const SPEED: Self = Self::of(1, 0, -1);
    /// Turnover, a decay rate: something per time.
    pub const PER_TIME: Self = Self::of(0, 0, -1);
    /// Mass in a volume: mg/L, and hardness as CaCO3; also the density of a medium.
    pub const CONCENTRATION: Self = Self::of(-3, 1, 0);
    /// Mass per volume and time: a nitrate rise.
    pub const CONCENTRATION_PER_TIME: Self = Self::of(-3, 1, -1);
    /// Mass per time: feed, ammonia made.
    pub const MASS_PER_TIME: Self = Self::of(0, 1, -1);
    /// Mass per area and time: a nitrifying rate.
    pub const AREAL_RATE: Self = Self::of(-2, 1, -1);
    /// Area per volume (specific surface), and pores per length (`ppi`).
    pub const PER_LENGTH: Self = Self::of(-1, 0, 0);
    pub const POWER: Self = Self::of(2, 1, -3);
    pub const ENERGY: Self = Self::of(2, 1, -2);
    pub const PRESSURE: Self = Self::of(-1, 1, -2);
    pub const FORCE: Self = Self::of(1, 1, -2);
    pub const TEMPERATURE: Self = Self { temperature: 1, ..Self::NUMBER };
    pub const MONEY: Self = Self { money: 1, ..Self::NUMBER };
    pub const ACIDITY: Self = Self { acidity: 1, ..Self::NUMBER };

    /// The names that vocabulary and rules may give a dimension, with the dimension.
    pub const NAMED: &'static [(&'static str, Self)] = &[
        ("number", Self::NUMBER),
        ("count", Self::NUMBER),
        ("share", Self::NUMBER),
        ("length", Self::LENGTH),
        ("area", Self::AREA),
        ("volume", Self::VOLUME),
        ("mass", Self::MASS),
        ("time", Self::TIME),
        ("flow", Self::FLOW),
        ("speed", Self::SPEED),
        ("number per time", Self::PER_TIME),
        ("concentration", Self::CONCENTRATION),
        ("concentration per time", Self::CONCENTRATION_PER_TIME),
        ("mass per time", Self::MASS_PER_TIME),
        ("mass per area and time", Self::AREAL_RATE),
        ("pores per length", Self::PER_LENGTH),
        ("area per volume", Self::PER_LENGTH),
        ("power", Self::POWER),
        ("energy", Self::ENERGY),
        ("pressure", Self::PRESSURE),
        ("force", Self::FORCE),
        ("temperature", Self::TEMPERATURE),
        ("money", Self::MONEY),
        ("pH", Self::ACIDITY),
    ];

    /// The dimension a vocabulary entry names, if it is one of `NAMED`.
    pub fn by_name(name: &str) -> Option<Self> {
        Self::NAMED.iter().find(|(n, _)| *n == name).map(|(_, d)| *d)
    }

    /// Raised to a whole power.
    pub fn power(self, n: i8) -> Self {
        Self {
            length: self.length * n,
            mass: self.mass * n,
            time: self.time * n,
            temperature: self.temperature * n,
            money: self.money * n,
            acidity: self.acidity * n,
        }
    }

    /// In words: a name where there is one ("a flow", "a number per time"), else factors ("length^2 / time").
    pub fn words(self) -> String {
        if self == Self::NUMBER {
            return "a plain number".into();
        }
        if let Some((name, _)) = Self::NAMED.iter().find(|(_, d)| *d == self) {
            let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
            return format!("{article} {name}");
        }
        let factors = |sign: i8| {
            [
                ("length", self.length),
                ("mass", self.mass),
                ("time", self.time),
                ("temperature", self.temperature),
                ("money", self.money),
                ("pH", self.acidity),
            ]
            .into_iter()
            .filter(|(_, n)| n.signum() == sign)
            .map(|(w, n)| if n.abs() == 1 { w.to_string() } else { format!("{w}^{}", n.abs()) })
            .collect::<Vec<_>>()
            .join(" x ")
        };
        let (over, under) = (factors(1), factors(-1));
        match (over.is_empty(), under.is_empty()) {
            (false, true) => over,
            (true, _) => format!("1 / ({under})"),
            (false, false) => format!("{over} / ({under})"),
        }
    }
}

impl Mul for Dimension {
    type Output = Self;
    fn mul(self, o: Self) -> Self {
        Self {
            length: self.length + o.length,
            mass: self.mass + o.mass,
            time: self.time + o.time,
            temperature: self.temperature + o.temperature,
            money: self.money + o.money,
            acidity: self.acidity + o.acidity,
        }
    }
}

impl Div for Dimension {
    type Output = Self;
    fn div(self, o: Self) -> Self {
        self * o.power(-1)
    }
}
