//! What a formula or an estimate rests on. In: nothing. Out: words. Knows no value.

/// How much of a published source was seen when its figure was taken over.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Seen {
    Read,
    SecondHand,
    Memory,
}

/// Where a figure comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Basis {
    Published(Seen),
    WorkedOut,
    CommonPractice,
    FromMemory,
}

impl Basis {
    /// The word that the book uses: `published`, `worked out`, `common practice`, `from memory`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Published(_) => "published",
            Self::WorkedOut => "worked out",
            Self::CommonPractice => "common practice",
            Self::FromMemory => "from memory",
        }
    }

    /// How a published source was seen: `read`, `second-hand`, `memory`; nothing for the other kinds.
    pub const fn seen(self) -> Option<&'static str> {
        match self {
            Self::Published(Seen::Read) => Some("read"),
            Self::Published(Seen::SecondHand) => Some("second-hand"),
            Self::Published(Seen::Memory) => Some("memory"),
            _ => None,
        }
    }
}

/// Short words for the tables of signatures and estimates.
pub(super) mod grounds {
    use super::{Basis, Seen};
    pub const READ: Basis = Basis::Published(Seen::Read);
    pub const SECOND_HAND: Basis = Basis::Published(Seen::SecondHand);
    pub const MEMORY: Basis = Basis::Published(Seen::Memory);
    pub const WORKED_OUT: Basis = Basis::WorkedOut;
    pub const PRACTICE: Basis = Basis::CommonPractice;
    pub const FROM_MEMORY: Basis = Basis::FromMemory;
}
