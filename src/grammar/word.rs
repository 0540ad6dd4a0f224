//! Single words and short phrases, the atoms of the other productions.

use crate::token::input::miss;
use crate::token::{Read, Token, Tokens};
use nom::Parser;

/// Any token. The only production that looks at what a token is.
pub fn any(i: Tokens<'_>) -> Read<'_, &Token> {
    match i.first() {
        Some(t) => Ok((i.skip(1), t)),
        None => miss(i),
    }
}

/// One certain word.
pub fn word<'t>(w: &'static str) -> impl Parser<Tokens<'t>, Output = &'t Token, Error = crate::token::Miss> {
    move |i: Tokens<'t>| if i.at(w) { any(i) } else { miss(i) }
}

/// How many tokens `rest` is short of `from`.
pub fn taken(from: Tokens<'_>, rest: Tokens<'_>) -> usize {
    from.len() - rest.len()
}
