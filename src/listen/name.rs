//! Names as small numbers, so that comparing them costs nothing. In: texts. Out: a number each, and back.
//! The names that the grammar itself speaks of have fixed numbers; all others come from the knowledge files.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// A name of a thing, an attribute or a kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Name(pub u16);

macro_rules! fixed {
    ($($name:ident = $text:literal),* $(,)?) => {
        const FIXED: &[&str] = &[$($text),*];
        #[allow(non_camel_case_types, clippy::upper_case_acronyms, dead_code)]
        #[repr(u16)]
        enum Place { $($name),* }
        $(#[allow(dead_code)] pub const $name: Name = Name(Place::$name as u16);)*
    };
}

fixed! {
    TANK = "tank", FILTER = "filter", STOCK = "stock", PLANT = "plant", MEDIUM = "medium", READING = "reading",
    SOURCE = "source", EVENT = "event", CHANGE = "change", FEED = "feed", KEEPER = "keeper", TREATMENT = "treatment",
    KIND = "kind", NOMINAL = "nominal", WATER = "water", LENGTH = "length", WIDTH = "width", HEIGHT = "height",
    FILL = "fill", TEMPERATURE = "temperature", SET_UP = "set up", SHAPE = "shape", SUBSTRATE = "substrate",
    SUBSTRATE_DEPTH = "substrate depth", LOOKS = "looks", TANK_NAME = "name", CYCLED = "cycled",
    RATED_FLOW = "rated flow", MEASURED_FLOW = "measured flow", CLAIM = "claim", BASKETS = "baskets",
    BASKET_VOLUME = "basket volume", BASKET_LENGTH = "basket length", BASKET_WIDTH = "basket width",
    BASKET_HEIGHT = "basket height", MEDIA_VOLUME = "media volume", SUMP_VOLUME = "sump volume",
    INTAKE_GUARD = "intake guard", GUARD_PORES = "guard pores", INTAKE = "intake", ENTERS = "enters", SERVES = "serves", FLOW_STATE = "flow state",
    RUNNING = "running", NOISE = "noise", USES = "uses", WANTED = "wanted", AGE = "age", CLEANED = "cleaned",
    CLEAN_EVERY = "clean every", CLEANED_WITH = "cleaned with", POWER = "power", HEAD = "head", COST = "cost",
    MASS = "mass", VOLUME = "volume", PORES = "pores", GRADE = "grade", THICKNESS = "thickness", IN = "in",
    POSITION = "position", COUNT = "count", COLOUR = "colour", STAGE = "stage", SIZE = "size", BIGGEST = "biggest",
    TOTAL_LENGTH = "total length", HEALTH = "health", AMOUNT = "amount", EVERY = "every", CHANGED = "changed", CHANGE_EVERY = "change every", LAST = "last",
    WHEN = "when", LASTED = "lasted", DOSE = "dose", AMMONIA = "ammonia", NITRITE = "nitrite", NITRATE = "nitrate",
    PH = "ph", KH = "kh", GH = "gh", SALINITY = "salinity", METHOD = "method", TREND = "trend", TAKEN = "taken",
    AMMONIA_AS = "ammonia as", NITRITE_AS = "nitrite as", NITRATE_AS = "nitrate as", TREATED = "treated",
    TIMES_PER_DAY = "times per day", SEASON = "season", GALLON = "gallon", UNITS = "units", BUDGET = "budget", FRY = "fry", EGG = "egg",
    POND = "pond", MARINE = "marine", CUBE = "cube", SUMP = "sump", YES = "yes", NO = "no", NONE = "none",
    POWER_CUT = "power cut", FISH_DIED = "fish died", FISH_ADDED = "fish added", SPAWNED = "spawned",
    MEDICATED = "medicated", MOVED = "moved", WASHED_IN_TAP = "washed in tap", SPONGE = "sponge", MESH = "mesh",
    CARTRIDGE = "cartridge", FOAM = "foam", US = "us", IMPERIAL = "imperial", FEW = "few", SAND = "sand", MORNING = "morning", BAGGED = "bagged", FILTER_OFF = "filter off", POND_BOX = "pond-flow-box", BOX = "box", LEAKING = "leaking", SMELL = "smell",
}

/// All names met, each once.
#[derive(Debug)]
pub struct Names {
    texts: Vec<Box<str>>,
    numbers: HashMap<Box<str>, Name, Quick>,
}

impl Default for Names {
    fn default() -> Self {
        let mut names = Self { texts: Vec::with_capacity(2048), numbers: HashMap::default() };
        for text in FIXED {
            names.add(text);
        }
        names
    }
}

impl Names {
    pub fn add(&mut self, text: &str) -> Name {
        if let Some(name) = self.numbers.get(text) {
            return *name;
        }
        let name = Name(self.texts.len().min(u16::MAX as usize) as u16);
        self.texts.push(text.into());
        self.numbers.insert(text.into(), name);
        name
    }

    pub fn find(&self, text: &str) -> Option<Name> {
        self.numbers.get(text).copied()
    }

    pub fn text(&self, name: Name) -> &str {
        self.texts.get(name.0 as usize).map_or("", |t| t)
    }
}

/// A quick hash for short texts of our own files: no stranger chooses the keys.
#[derive(Default, Clone, Copy)]
pub struct QuickHash(u64);
pub type Quick = BuildHasherDefault<QuickHash>;

impl Hasher for QuickHash {
    fn write(&mut self, bytes: &[u8]) {
        for chunk in bytes.chunks(8) {
            let mut word = [0u8; 8];
            word[..chunk.len()].copy_from_slice(chunk);
            self.0 = (self.0.rotate_left(5) ^ u64::from_le_bytes(word)).wrapping_mul(0x517c_c1b7_2722_0a95);
        }
    }

    fn write_u8(&mut self, n: u8) {
        self.0 = (self.0.rotate_left(5) ^ u64::from(n)).wrapping_mul(0x517c_c1b7_2722_0a95);
    }

    fn finish(&self) -> u64 {
        self.0 ^ (self.0 >> 29)
    }
}
