//! What listening makes of a turn: statements, questions, acts, and every word with what it became.
//! In: nothing; this is the shape of the result. Knows no rule and no case.

pub use super::{called::Called, open_question::Wanted};
use crate::source::Span;
use crate::units::{Amount, Unit};

/// One turn, read. Spans are byte offsets in `text`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reading {
    pub text: String,
    /// In the order said; dangers to people stand among them as events and are found first by the rules.
    pub statements: Vec<Statement>,
    pub asks: Vec<Ask>,
    /// Questions that were heard and have no topic of ours.
    pub lost: Vec<Span>,
    pub acts: Vec<(Act, Span)>,
    /// Words that nothing used and that are no noise.
    pub unread: Vec<Span>,
    /// What was understood but says nothing of the caller's tank as it is now, and why.
    pub aside: Vec<(Span, Aside)>,
    /// What has to be asked back before it can be used.
    pub back: Vec<AskBack>,
    /// What the caller calls his tanks and filters, to tell them apart.
    pub called: Vec<Called>,
    /// Measures said or asked for in a second unit.
    pub conversions: Vec<Conversion>,
    /// Every word of the text with what it became, in order.
    pub words: Vec<WordUse>,
}

/// A measure in a second unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Conversion {
    pub span: Span,
    pub from: Amount,
    pub says: Converted,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Converted {
    /// "900 l/h in gallons?"
    Asked(&'static Unit),
    /// "1200 litres an hour, that's 290 gallons"
    Told(Amount),
}

/// Something said of a thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Statement {
    pub span: Span,
    pub subject: Subject,
    pub says: Says,
    pub mark: Option<Mark>,
}

/// What a statement is about: `stock(guppy/fry)`, `filter 2`, `event(power cut)`.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Subject {
    /// Name of a thing in the vocabulary.
    pub thing: String,
    /// The kind, as the tables name it; `None` for things without kinds or when any is meant.
    pub kind: Option<String>,
    /// Stage of a stock group ("fry").
    pub stage: Option<String>,
    /// Which of several, from 1: the second filter, the tank's number. Things that belong to a tank carry the number
    /// of their tank in `tank`.
    pub number: u16,
    /// The tank it belongs to, from 1.
    pub tank: u16,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Says {
    Present,
    Absent,
    /// Said not to be known.
    Unsure,
    /// Withdrawn: as if never said.
    Dropped,
    /// The value of an attribute.
    Value {
        attribute: String,
        how: How,
        value: Said,
    },
    /// One attribute withdrawn.
    DroppedValue {
        attribute: String,
    },
}

/// How a value meets what was held before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// Said plainly: a different value held before is a contradiction.
    Set,
    /// Marked as a correction: takes the place of the former.
    Replace,
    Add,
    Take,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    Amount(Amount),
    /// A kind of the attribute's list, or a text.
    Word(String),
    /// A span of time, and how it lies to now.
    Time {
        relation: TimeRelation,
        amount: Amount,
    },
    /// A weekday or a named moment ("since Tuesday"); needs the date of the call.
    Moment {
        relation: TimeRelation,
        name: String,
    },
    /// Another thing: `filter.serves`, `stock.in`, `medium.in`.
    Thing(Subject),
    /// Words in place of a figure.
    Level(Level),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TimeRelation {
    Ago,
    For,
    Every,
    Since,
    Old,
    In,
}

/// Said in words, without a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    Unknown,
    Untested,
    High,
    Low,
    Fine,
    OffChart,
    /// Never so far.
    Never,
}

/// What the caller must be shown about how a statement was come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Worked out of what was said.
    Derived,
    /// Leaned on a hint: a unit carried on, a gallon leaned.
    Hint,
    /// Taken from a definite noun in a question.
    Presumed,
    /// Read through a spelling correction.
    Spelling,
}

/// A question or request.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    pub span: Span,
    pub form: Form,
    /// A topic of the topic list ("first step", "media order").
    pub topic: String,
    /// Things named in it.
    pub about: Vec<Subject>,
    /// What holds for this question only.
    pub suppose: Vec<Statement>,
    /// Where the figure asked for is named ("turnover", "un-ionised ammonia").
    pub named: Vec<Span>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    What,
    Which,
    How,
    HowMuch,
    HowMany,
    HowBig,
    HowOften,
    HowLong,
    HowSure,
    Whether,
    Why,
    WhyNot,
    WhatIf,
    When,
    Who,
    Where,
    Again,
    Show,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Act {
    Greet,
    Thank,
    Bye,
    Agree,
    Deny,
    DontKnow,
    Undo,
    Restart,
    NewCall,
    Swear,
    OffTopic,
    Nothing,
    Confirm,
    Save,
    Apology,
    /// Asks for the rest of the answer.
    More,
    /// Asks for the next step of a job; `Back` for the one before.
    Next,
    Back,
    Stop,
}

impl Form {
    /// All of them with their names as the knowledge files and answers write them.
    pub const NAMED: &'static [(&'static str, Form)] = &[
        ("what", Form::What),
        ("which", Form::Which),
        ("how", Form::How),
        ("how much", Form::HowMuch),
        ("how many", Form::HowMany),
        ("how big", Form::HowBig),
        ("how often", Form::HowOften),
        ("how long", Form::HowLong),
        ("how sure", Form::HowSure),
        ("whether", Form::Whether),
        ("why", Form::Why),
        ("why not", Form::WhyNot),
        ("what if", Form::WhatIf),
        ("when", Form::When),
        ("who", Form::Who),
        ("where", Form::Where),
        ("again", Form::Again),
        ("show", Form::Show),
    ];

    pub fn by_name(name: &str) -> Option<Self> {
        Self::NAMED.iter().find(|(n, _)| *n == name).map(|(_, v)| *v)
    }

    pub fn name(self) -> &'static str {
        Self::NAMED.iter().find(|(_, v)| *v == self).map_or("", |(n, _)| n)
    }
}

impl Act {
    /// All of them with their names as the knowledge files and answers write them.
    pub const NAMED: &'static [(&'static str, Act)] = &[
        ("greet", Act::Greet),
        ("thank", Act::Thank),
        ("bye", Act::Bye),
        ("agree", Act::Agree),
        ("deny", Act::Deny),
        ("dont know", Act::DontKnow),
        ("undo", Act::Undo),
        ("restart", Act::Restart),
        ("new call", Act::NewCall),
        ("swear", Act::Swear),
        ("off topic", Act::OffTopic),
        ("nothing", Act::Nothing),
        ("confirm", Act::Confirm),
        ("save", Act::Save),
        ("apology", Act::Apology),
        ("more", Act::More),
        ("next", Act::Next),
        ("back", Act::Back),
        ("stop", Act::Stop),
    ];

    pub fn by_name(name: &str) -> Option<Self> {
        Self::NAMED.iter().find(|(n, _)| *n == name).map(|(_, v)| *v)
    }

    pub fn name(self) -> &'static str {
        Self::NAMED.iter().find(|(_, v)| *v == self).map_or("", |(n, _)| n)
    }
}

/// Something that cannot be used as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct AskBack {
    pub span: Span,
    pub ask: String,
    pub why: Doubtful,
    /// The readings it could have; a short answer picks one. Empty when none is offered.
    pub readings: Vec<(String, Vec<Statement>)>,
    /// What a bare figure would be, where one is asked for.
    pub wants: Option<Wanted>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubtful {
    /// Outside what is plausible, or no number at all: refused, the rest kept.
    Implausible,
    /// Two readings, and the advice would differ.
    Ambiguous,
    /// A unit of another dimension.
    WrongUnit,
    /// A figure is needed where a word was said.
    NoFigure,
    /// Which of several things is meant.
    Which,
    /// A figure without anything to measure.
    Loose,
    /// One reading was taken meanwhile; asked when nothing more pressing is open.
    Taken,
}

/// Why something that was understood is no fact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aside {
    /// How it was once.
    Past,
    /// Somebody else's tank.
    Others,
    /// What others say or advise.
    Told,
    /// What a figure ought to be.
    Aim,
    /// Meant, dreamt of or nearly so, and not done.
    Unreal,
    /// A figure that was denied.
    Denied,
    /// Wished for, beside what there is.
    Wished,
    /// To come: where animals are to go.
    Planned,
    /// Said not to be known for sure.
    Unsure,
}

impl Aside {
    /// In plain words, behind what was said.
    pub fn called(self) -> &'static str {
        match self {
            Aside::Past => "how it was",
            Aside::Others => "somebody else's",
            Aside::Told => "what others say",
            Aside::Aim => "what it should be",
            Aside::Unreal => "not done",
            Aside::Denied => "not so",
            Aside::Wished => "wished for",
            Aside::Planned => "planned",
            Aside::Unsure => "not sure",
        }
    }
}

/// One word of the text and what became of it.
#[derive(Clone, Debug, PartialEq)]
pub struct WordUse {
    pub span: Span,
    pub became: Became,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Became {
    /// Part of the statement with that index.
    Statement(usize),
    Ask(usize),
    Act(usize),
    /// Known to carry nothing: articles, politeness, fillers.
    Noise,
    Unread,
    /// Part of something that is asked back, by index.
    AskedBack(usize),
    /// Part of something understood that is no fact, by index.
    Aside(usize),
}

/// What the listener has to know of the call so far.
#[derive(Clone, Debug, Default)]
pub struct Context {
    /// The attribute asked for last, to which a bare number or yes/no is the answer.
    pub asked: Option<(Subject, String)>,
    /// A pending ask-back, to which a short answer may pick a reading.
    pub pending: Option<AskBack>,
    /// What was asked back beside it.
    pub waiting: Vec<AskBack>,
    /// Statements in force, latest value of each subject and attribute.
    pub held: Vec<Statement>,
    /// The last question asked of us.
    pub last_ask: Option<Ask>,
    /// Whether litres were used for volumes so far ("a 180" is then litres), and which gallon was settled.
    pub volume_unit: Option<&'static str>,
    pub gallon: Option<&'static str>,
    /// What the caller calls his tanks and filters.
    pub called: Vec<Called>,
    /// Titles of the last list offered, for "the second one".
    pub offered: Vec<String>,
}
