//! The caller's own units: litres or gallons, inches or centimetres, pounds or kilograms, C or F. In: the facts as said, or
//! a choice made for the whole call. Out: the unit in which a quantity is shown to this caller. Knows no sentence.

use crate::case::Case;
use crate::case::fact::{Fact, FactValue};
use crate::case::facts::Gallon;
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::units::unit::{self, System};
use crate::units::{Dimension, Unit};

/// What a caller may choose for a whole call.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    Litres,
    Us,
    Imperial,
}

impl Choice {
    /// "litres", "us", "imperial", and what people write for them.
    pub fn by_word(word: &str) -> Option<Self> {
        match word.to_lowercase().as_str() {
            "litres" | "litre" | "liters" | "liter" | "l" | "metric" => Some(Self::Litres),
            "us" | "us gallons" | "american" | "american gallons" | "gallons" => Some(Self::Us),
            "imperial" | "imperial gallons" | "uk" | "uk gallons" | "british" => Some(Self::Imperial),
            _ => None,
        }
    }

    pub fn word(self) -> &'static str {
        match self {
            Self::Litres => "litres",
            Self::Us => "US gallons",
            Self::Imperial => "imperial gallons",
        }
    }
}

/// In which units this caller counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OwnUnits {
    pub volume: Choice,
    /// Volumes of baskets and media, which many who count tanks in gallons count in litres.
    pub small_volume: Choice,
    pub inches: bool,
    pub pounds: bool,
    pub fahrenheit: bool,
    /// Everything is converted, even what was said in other units.
    pub chosen: bool,
}

impl OwnUnits {
    pub fn chosen(choice: Choice) -> Self {
        let customary = choice != Choice::Litres;
        Self {
            volume: choice,
            small_volume: choice,
            inches: customary,
            pounds: customary,
            fahrenheit: choice == Choice::Us,
            chosen: true,
        }
    }

    /// From what the caller said; what was not said follows the unit of the tank.
    pub fn of(case: &Case, schema: &Schema, choice: Option<Choice>) -> Self {
        if let Some(choice) = choice {
            return Self::chosen(choice);
        }
        let said = Said::gather(case, schema);
        let gallon = match case.facts.gallon {
            Gallon::Us => Choice::Us,
            Gallon::Imperial => Choice::Imperial,
        };
        let by_system = |system: System| match system {
            System::Metric => Choice::Litres,
            System::Imperial => Choice::Imperial,
            System::UsCustomary => Choice::Us,
            System::Customary | System::Any => gallon,
        };
        let volume = said.tank.or(said.flow).or(said.small).map(by_system);
        // Without any volume, a caller who counts in inches counts in gallons, too.
        let volume = volume.unwrap_or(match said.length {
            Some(System::Metric) | None => Choice::Litres,
            Some(_) => gallon,
        });
        let customary = volume != Choice::Litres;
        let is_customary = |system: Option<System>, or: bool| system.map_or(or, |s| s != System::Metric);
        Self {
            volume,
            small_volume: said.small.map_or(volume, by_system),
            inches: is_customary(said.length, customary),
            pounds: is_customary(said.mass, customary),
            fahrenheit: said.temperature.map_or(volume == Choice::Us, |s| s == System::UsCustomary),
            chosen: false,
        }
    }

    /// The unit for a value in base units. `shown_in` is what the book shows to callers who count in metric units.
    pub fn unit(&self, value: f64, dimension: Dimension, shown_in: Option<&'static Unit>) -> &'static Unit {
        // A plain number is a share only where the book says so.
        if dimension == Dimension::NUMBER {
            return shown_in.unwrap_or_else(unit::plain);
        }
        let name = self.name(value.abs(), dimension, shown_in.map(|u| u.name));
        let found = name.and_then(unit::by_name).filter(|u| u.dimension == dimension);
        found.or(shown_in).or_else(|| unit::usual(dimension)).unwrap_or_else(unit::plain)
    }

    fn name(&self, value: f64, dimension: Dimension, shown_in: Option<&'static str>) -> Option<&'static str> {
        Some(match dimension {
            Dimension::VOLUME => self.volume_name(value),
            Dimension::FLOW => match self.volume {
                Choice::Us => "usgal/h",
                Choice::Imperial => "impgal/h",
                Choice::Litres => shown_in.unwrap_or("L/h"),
            },
            // Fry, slots and pores are told in millimetres by those, too, who count everything else in inches.
            Dimension::LENGTH if self.inches => step(value, &[(0.0, "mm"), (0.006, "in"), (2.2, "ft")]),
            Dimension::LENGTH => step(value, &[(0.0, "mm"), (0.01, "cm"), (2.5, "m")]),
            Dimension::AREA if self.inches => step(value, &[(0.0, "in2"), (0.2, "ft2")]),
            Dimension::AREA => step(value, &[(0.0, "cm2"), (0.2, "m2")]),
            // Below an ounce kitchen scales count grams everywhere.
            Dimension::MASS if self.pounds => step(value, &[(0.0, "mg"), (1e-4, "g"), (0.028, "oz"), (0.45, "lb")]),
            Dimension::MASS => step(value, &[(0.0, "mg"), (1e-4, "g"), (1.0, "kg")]),
            Dimension::TIME => step(
                value,
                &[
                    (0.0, "s"),
                    (120.0, "min"),
                    (2.0 * 3600.0, "h"),
                    (3.0 * 86400.0, "d"),
                    (21.0 * 86400.0, "wk"),
                    (100.0 * 86400.0, "mo"),
                    (730.0 * 86400.0, "yr"),
                ],
            ),
            Dimension::TEMPERATURE => match self.fahrenheit {
                true => "F",
                false => "C",
            },
            Dimension::SPEED => match shown_in {
                Some(slow @ ("m/day" | "m/h" | "cm/min")) => slow,
                _ if self.inches => "in/s",
                _ => step(value, &[(0.0, "mm/s"), (0.01, "cm/s")]),
            },
            Dimension::MASS_PER_TIME => match shown_in {
                Some("mg/day") if value < 1e-2 / 86400.0 => "mg/day",
                _ => step(value, &[(0.0, "mg/day"), (1e-4 / 86400.0, "g/day")]),
            },
            Dimension::CONCENTRATION => match shown_in {
                Some("kg/L" | "kg/m3") if self.volume == Choice::Us => "lb/gal",
                Some(other) => other,
                // Nothing is dissolved so thickly: this is the weight of a medium.
                None if value >= 5.0 && self.volume == Choice::Us => "lb/gal",
                None if value >= 5.0 => step(value, &[(0.0, "g/L"), (1000.0, "kg/L")]),
                None => "mg/L",
            },
            Dimension::PER_LENGTH if self.inches && shown_in.is_none_or(|name| name == "m2/m3") => "ft2/ft3",
            Dimension::PRESSURE if self.pounds && shown_in == Some("kN/m2") => "psf",
            _ => return shown_in,
        })
    }

    fn volume_name(&self, value: f64) -> &'static str {
        let choice = if value < 0.012 { self.small_volume } else { self.volume };
        match choice {
            Choice::Litres => step(value, &[(0.0, "mL"), (1e-4, "L")]),
            Choice::Us => step(value, &[(0.0, "floz"), (0.0003, "quart"), (0.0037, "usgal")]),
            Choice::Imperial => step(value, &[(0.0, "impfloz"), (0.00025, "pint"), (0.0045, "impgal")]),
        }
    }
}

/// The last unit of the ladder whose step the value reaches.
fn step(value: f64, ladder: &[(f64, &'static str)]) -> &'static str {
    ladder.iter().rev().find(|(from, _)| value >= *from * 0.999).map_or(ladder[0].1, |(_, name)| name)
}

/// The system of the first unit said of each sort.
#[derive(Default)]
struct Said {
    tank: Option<System>,
    small: Option<System>,
    flow: Option<System>,
    length: Option<System>,
    mass: Option<System>,
    temperature: Option<System>,
}

impl Said {
    fn gather(case: &Case, schema: &Schema) -> Self {
        let mut said = Self::default();
        for (n, instances) in case.facts.things.iter().enumerate() {
            let thing = schema.thing_of(ThingId(n as u8)).name.as_str();
            for (id, fact) in instances.iter().flat_map(|i| &i.facts) {
                said.note(thing, *id, fact, schema);
            }
        }
        said
    }

    fn note(&mut self, thing: &str, id: AttributeId, fact: &Fact, schema: &Schema) {
        let FactValue::Amount(amount) = &fact.value else { return };
        if !fact.is_said() || amount.unit.system == System::Any {
            return;
        }
        let slot = match schema.dimension(id) {
            Some(Dimension::VOLUME) if matches!(thing, "tank" | "change") => &mut self.tank,
            // A tank size printed on a box is a claim in the maker's units.
            Some(Dimension::VOLUME) if schema.of(id).name == "claim" => return,
            Some(Dimension::VOLUME) => &mut self.small,
            Some(Dimension::FLOW) => &mut self.flow,
            // Foam and slots are told in millimetres by people who count everything else in inches.
            Some(Dimension::LENGTH) if thing == "tank" || thing == "stock" => &mut self.length,
            Some(Dimension::MASS) => &mut self.mass,
            Some(Dimension::TEMPERATURE) => &mut self.temperature,
            _ => return,
        };
        slot.get_or_insert(amount.unit.system);
    }
}
