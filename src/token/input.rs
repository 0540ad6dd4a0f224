//! nom's `Input` for tokens, the error of the grammar, and its result type.

use super::Token;
use nom::error::{ErrorKind, ParseError};
use nom::{IResult, Input, Needed};

/// A row of tokens, the input of every production.
#[derive(Clone, Copy, Debug)]
pub struct Tokens<'t>(pub &'t [Token]);

impl<'t> Tokens<'t> {
    /// The next token.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn first(self) -> Option<&'t Token> {
        self.0.first()
    }

    /// The token after `n` others.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn get(self, n: usize) -> Option<&'t Token> {
        self.0.get(n)
    }

    /// What is left after `n` tokens.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn skip(self, n: usize) -> Tokens<'t> {
        Tokens(self.0.get(n..).unwrap_or(&[]))
    }

    /// How many tokens are left.
    pub fn len(self) -> usize {
        self.0.len()
    }

    /// Whether none is left.
    pub fn is_empty(self) -> bool {
        self.0.is_empty()
    }

    /// Whether the next token is this word.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn at(self, word: &str) -> bool {
        self.first().is_some_and(|t| t.is(word))
    }

    /// Whether the token `n` places on is one of these words, parted by spaces.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn nth_any(self, n: usize, words: &str) -> bool {
        self.0.get(n).is_some_and(|t| t.is_any(words))
    }

    /// Whether any token is one of these words, parted by spaces.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn has_any(self, words: &str) -> bool {
        self.0.iter().any(|t| t.is_any(words))
    }

    /// Whether any of the next `n` tokens is one of these words, parted by spaces.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn first_any(self, n: usize, words: &str) -> bool {
        self.0.iter().take(n).any(|t| t.is_any(words))
    }

    /// Whether the next token is one of these words, parted by spaces.
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    pub fn at_any(self, words: &str) -> bool {
        self.first().is_some_and(|t| t.is_any(words))
    }
}

/// A production did not match. Speech needs one good remark, not a trace, so only the place is kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Miss {
    /// How many tokens were left where it gave up; the branch that got farthest wins.
    pub left: usize,
}

/// What a production gives.
pub type Read<'t, T> = IResult<Tokens<'t>, T, Miss>;

/// Gives up here.
pub fn miss<T>(i: Tokens<'_>) -> Read<'_, T> {
    Err(nom::Err::Error(Miss { left: i.len() }))
}

impl ParseError<Tokens<'_>> for Miss {
    fn from_error_kind(i: Tokens<'_>, _: ErrorKind) -> Miss {
        Miss { left: i.len() }
    }
    fn append(_: Tokens<'_>, _: ErrorKind, other: Miss) -> Miss {
        other
    }
    fn or(self, other: Miss) -> Miss {
        if other.left < self.left { other } else { self }
    }
}

impl<'t> Input for Tokens<'t> {
    type Item = &'t Token;
    type Iter = std::slice::Iter<'t, Token>;
    type IterIndices = std::iter::Enumerate<std::slice::Iter<'t, Token>>;

    fn input_len(&self) -> usize {
        self.0.len()
    }
    fn take(&self, n: usize) -> Self {
        Tokens(self.0.get(..n).unwrap_or(self.0))
    }
    fn take_from(&self, n: usize) -> Self {
        self.skip(n)
    }
    fn take_split(&self, n: usize) -> (Self, Self) {
        (self.take_from(n), self.take(n))
    }
    fn position<P: Fn(Self::Item) -> bool>(&self, wanted: P) -> Option<usize> {
        self.0.iter().position(wanted)
    }
    fn iter_elements(&self) -> Self::Iter {
        self.0.iter()
    }
    fn iter_indices(&self) -> Self::IterIndices {
        self.0.iter().enumerate()
    }
    fn slice_index(&self, n: usize) -> Result<usize, Needed> {
        if n <= self.0.len() { Ok(n) } else { Err(Needed::Unknown) }
    }
}
