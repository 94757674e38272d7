//! Terms as an input of the grammar. In: a slice of terms. Out: what nom's combinators need, and a few parsers of one
//! term. Knows nothing of meaning.

use super::lexicon::Sense;
use super::term::Term;
use crate::knowledge::language::Role;
use nom::{Err, IResult, Input, Needed};

/// Terms not yet read.
#[derive(Clone, Copy, Debug)]
pub struct Terms<'t, 'l> {
    pub rest: &'t [Term<'l>],
    /// Index of the first of them in the whole line.
    pub at: usize,
}

/// What a parser of terms gives back.
pub type Read<'t, 'l, T> = IResult<Terms<'t, 'l>, T, ()>;

impl<'t, 'l> Terms<'t, 'l> {
    pub fn first(&self) -> Option<&'t Term<'l>> {
        self.rest.first()
    }

    pub fn second(&self) -> Option<&'t Term<'l>> {
        self.rest.get(1)
    }

    pub fn skip(&self, count: usize) -> Self {
        let count = count.min(self.rest.len());
        Self { rest: &self.rest[count..], at: self.at + count }
    }
}

/// Fails at the place given, which lets the next alternative try.
pub fn fail<'t, 'l, T>(_: Terms<'t, 'l>) -> Read<'t, 'l, T> {
    Err(Err::Error(()))
}

/// One term that `test` accepts.
pub fn one<'t, 'l, T>(test: impl Fn(&'t Term<'l>) -> Option<T>) -> impl Fn(Terms<'t, 'l>) -> Read<'t, 'l, T>
where
    'l: 't,
{
    move |input| match input.first().and_then(&test) {
        Some(value) => Ok((input.skip(1), value)),
        None => Err(Err::Error(())),
    }
}

/// One word of a role.
pub fn role<'t, 'l: 't>(role: Role) -> impl Fn(Terms<'t, 'l>) -> Read<'t, 'l, ()> {
    one(move |t| t.is(role).then_some(()))
}

/// One mark.
pub fn mark<'t, 'l: 't>(mark: char) -> impl Fn(Terms<'t, 'l>) -> Read<'t, 'l, ()> {
    one(move |t| t.is_mark(mark).then_some(()))
}

/// One sense, as `pick` takes it.
pub fn sense<'t, 'l: 't, T>(pick: impl Fn(&Sense) -> Option<T>) -> impl Fn(Terms<'t, 'l>) -> Read<'t, 'l, T> {
    one(move |t| t.senses.iter().find_map(&pick))
}

impl<'t, 'l: 't> Input for Terms<'t, 'l> {
    type Item = &'t Term<'l>;
    type Iter = std::slice::Iter<'t, Term<'l>>;
    type IterIndices = std::iter::Enumerate<std::slice::Iter<'t, Term<'l>>>;

    fn input_len(&self) -> usize {
        self.rest.len()
    }

    fn take(&self, index: usize) -> Self {
        Self { rest: &self.rest[..index], at: self.at }
    }

    fn take_from(&self, index: usize) -> Self {
        self.skip(index)
    }

    fn take_split(&self, index: usize) -> (Self, Self) {
        (self.take_from(index), self.take(index))
    }

    fn position<P: Fn(Self::Item) -> bool>(&self, predicate: P) -> Option<usize> {
        self.rest.iter().position(predicate)
    }

    fn iter_elements(&self) -> Self::Iter {
        self.rest.iter()
    }

    fn iter_indices(&self) -> Self::IterIndices {
        self.rest.iter().enumerate()
    }

    fn slice_index(&self, count: usize) -> Result<usize, Needed> {
        if count <= self.rest.len() { Ok(count) } else { Err(Needed::new(count - self.rest.len())) }
    }
}
