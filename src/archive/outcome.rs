//! What a line of a conversation led to: a page, leaving, something that needs files. In: nothing. Out: the parts.

use crate::reply::page::Page;

/// What a line led to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reply {
    pub page: Page,
    /// The caller wants to leave.
    pub leaves: bool,
    /// Something that needs files: whoever holds them does it.
    pub errand: Option<Errand>,
}

/// What a conversation cannot do itself: it knows no file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Errand {
    /// Save the call under this name; empty: where it was saved before.
    Save(String),
    /// List the saved calls that hold these words.
    List(String),
    /// Go on with the saved call of this name.
    Open(String),
}

impl Reply {
    pub(super) fn errand(errand: Errand) -> Self {
        Self { errand: Some(errand), ..Self::default() }
    }
}

impl From<Page> for Reply {
    fn from(page: Page) -> Self {
        Self { page, ..Self::default() }
    }
}
