//! Roles: what a word of everyday speech does in a sentence. In: nothing; this is the list of which `knowledge/language.yaml` gives
//! the words. Out: names. Knows no word.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a word of everyday speech does in a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Role {
    A,
    Definite,
    Each,
    Both,
    Other,
    Another,
    All,
    Altogether,
    Only,
    Rest,
    Biggest,
    Person,
    It,
    One,
    Have,
    Be,
    Was,
    Not,
    No,
    Without,
    Lacking,
    Yet,
    Gone,
    Of,
    For,
    In,
    On,
    Under,
    Over,
    With,
    To,
    From,
    By,
    At,
    Per,
    And,
    Or,
    But,
    Then,
    Than,
    Because,
    If,
    Wonder,
    Tag,
    Suppose,
    Wish,
    Shun,
    Dislike,
    Correct,
    Drop,
    More,
    Fewer,
    Swap,
    Instead,
    Versus,
    Ago,
    Since,
    Every,
    Old,
    Future,
    Times,
    Plus,
    Minus,
    Negative,
    Direction,
    Order,
    Colour,
    Doing,
    Move,
    Vessel,
    Told,
    /// What is no more: "used to", "my old tank".
    Past,
    /// Somebody who may have a tank of their own.
    Stranger,
    /// Where animals are to go: "going back to the shop".
    Leaving,
    /// Done to something that is there, done or not: "didn't touch the rings".
    Acts,
    /// "not the fish I'm asking about".
    Speaking,
    /// "did a water change": told, where no person is asked.
    Did,
    /// Marks said aloud by whoever dictates.
    #[serde(rename = "full stop mark")]
    FullStop,
    #[serde(rename = "comma mark")]
    Comma,
    #[serde(rename = "question mark")]
    QuestionMark,
    /// "10 litres took 45 seconds".
    Took,
    /// "45 seconds to fill a 10 litre bucket".
    #[serde(rename = "to fill")]
    ToFill,
    /// "down to 14 now": what is left of more.
    #[serde(rename = "down to")]
    DownTo,
    /// "upgraded from a 20 to a 55".
    Upgraded,
    /// "did nothing".
    Nothing,
    /// Never so far.
    Never,
    /// "not sure if": what follows is not told.
    Unsure,
    /// "don't think the filter is big enough": the filter is not denied.
    Thinking,
    /// "forgot to take the carbon out": not done.
    Forgot,
    /// What a stranger does with it: "has", "keeps", "swears by".
    Keeps,
    /// What a stranger has to say of it.
    Says,
    /// Brings the talk back to the caller's own.
    Own,
    /// Meant or dreamt of, and not done.
    Unreal,
    /// What a figure ought to be.
    Aim,
    #[serde(rename = "trade size")]
    TradeSize,
    Larger,
    Smaller,
    So,
    Model,
    Device,
    Maybe,
    Put,
    Same,
    About,
    Code,
    Elsewhere,
    /// "point" in a number said aloud.
    Point,
    /// What is so today, against what was.
    Now,
    /// What is still there after a loss.
    Left,
    /// "problem" behind a thing: the trouble is denied, not the thing.
    Trouble,
    /// Says that what was understood is not so.
    Wrong,
    Please,
    /// Of a pond the height, of a tank the width or the height.
    Deep,
    /// Between two figures: one or the other.
    Perhaps,
    /// What is done to media with water, in the present tense.
    Washing,
    /// Agrees and is no filler.
    Yes,
    /// "haven't cleaned it, ever".
    Ever,
    /// Eggs that have become fry.
    Hatched,
    Fish,
    /// "nobody", "nothing": denies what the clause tells of.
    Nobody,
    /// "any more": it was so until now.
    #[serde(rename = "no more")]
    NoMore,
    /// Seeing, smelling, getting: between a negation and what it denies.
    Noticed,
    /// Parts and devices about a tank that no table knows: what is told of them is told of nothing of ours.
    Part,
    /// A part through which the filter's water runs.
    Fitting,
    /// The water as such.
    Water,
    /// Treating: new water, or a tank.
    Treat,
    /// Something went from here to there: "dropped", "crept up".
    Course,
    /// What a filter does when it runs: "working", "pumping".
    Runs,
    /// What is lost may be a fish or a receipt.
    Lose,
    As,
    /// "would", "can": turned round behind a condition they begin its question.
    Modal,
    /// Words of grammar that carry nothing even in a question that was not understood.
    Small,
    /// A filler between words that says something all the same: shown when nothing uses it.
    Said,
    Noise,
}
