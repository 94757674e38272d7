//! Topics: the questions that rules answer. In: nothing. Out: the words a rule's `topic` may be. Knows no rule.

/// Every topic with what is asked, as it is explained to whoever writes a rule.
pub const TOPICS: &[(&str, &str)] = &[
    ("first step", "what to do first"),
    ("media", "what to put in the filter"),
    ("media order", "in which order the water should meet the media"),
    ("media amount", "how much of which medium"),
    ("placement", "where the filter, its intake or its outlet goes"),
    ("capacity", "how large a tank or stock the filter carries, for ammonia and nitrite"),
    ("capacity nitrate", "the same for nitrate"),
    ("filter choice", "which kind of filter"),
    ("enough", "whether the filter is enough"),
    ("fry intake", "whether fry or shrimp will be drawn in"),
    ("cleaning", "how to clean"),
    ("cleaning interval", "how often to clean"),
    ("buy", "what to buy"),
    ("parcel weight", "what the parcel weighs"),
    ("cost", "what it costs to buy"),
    ("running cost", "what it costs to run"),
    ("flow", "how fast the water goes round"),
    ("stock room", "how many more animals fit"),
    ("cycle", "how a new filter ripens"),
    ("water change", "how much water to change, and how often"),
    ("reading", "what a test result means"),
    ("safety", "what is dangerous to people"),
    ("need", "whether something is needed at all"),
    ("add", "whether something may be added"),
    ("remove", "whether something may be taken out"),
    ("replace", "whether something must be replaced"),
    ("volume", "how much water there is"),
    ("stop", "whether the filter may stand still"),
    ("power cut", "what to do when the power is off"),
    ("medicate", "what medicine does to the filter"),
    ("noise", "why the filter is loud"),
    ("oxygen", "whether there is enough air in the water"),
    ("plants", "what plants change"),
    ("fix", "how to repair"),
    ("compatible", "whether things or animals go together"),
    ("weight", "what the tank or the filter weighs"),
    ("feed", "how much to feed"),
    ("cloudy", "why the water is not clear"),
    ("mature", "whether the filter has ripened"),
    ("keep media", "how media and their bacteria are kept alive out of the filter"),
    ("put back", "when media or carbon may go back"),
    ("cause", "what brought a trouble about, and whether something told did"),
    ("packing", "how to pack and post a filter"),
    ("order", "what became of a parcel, an order or a repair"),
    ("fish back", "when fish may go back to their tank"),
    ("ready", "when a refit is ready"),
    ("refitted", "which filters are refitted"),
    ("spares", "which parts are fitted with a refit"),
    ("send back", "what comes back with a refit"),
    ("scope", "what this advice does not cover"),
];

/// Topics that are one worry to whoever calls: the state of the water.
pub const OF_THE_WATER: &[&str] =
    &["reading", "oxygen", "cloudy", "cycle", "mature", "water change", "medicate", "stock room", "enough"];

/// Topics that speak only to somebody who asks: what nobody asked is no news.
pub const ONLY_ASKED: &[&str] =
    &["keep media", "put back", "fish back", "cause", "packing", "order", "ready", "refitted", "spares", "send back"];

/// Topics of a filter on the bench: what is said of it holds though it is away from its tank.
pub const ON_THE_BENCH: &[&str] = &[
    "media",
    "media order",
    "media amount",
    "replace",
    "buy",
    "cost",
    "parcel weight",
    "packing",
    "order",
    "ready",
    "refitted",
    "spares",
    "send back",
    "cause",
];

pub fn is_topic(name: &str) -> bool {
    TOPICS.iter().any(|(t, _)| *t == name)
}

pub fn names() -> impl Iterator<Item = &'static str> {
    TOPICS.iter().map(|(t, _)| *t)
}
