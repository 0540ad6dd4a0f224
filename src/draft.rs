//! The draft as pasted, and the places in it.

pub mod format;

/// A place in the draft: a range of bytes that begins and ends between characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Span {
    /// The first byte.
    pub start: u32,
    /// The byte after the last.
    pub end: u32,
}

impl Span {
    /// From `start` up to, not including, `end`.
    pub const fn new(start: usize, end: usize) -> Span {
        Span { start: start as u32, end: end as u32 }
    }

    /// The smallest span that covers both.
    pub fn to(self, other: Span) -> Span {
        Span { start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// The words it covers; nothing where the draft is not the one it was made from.
    pub fn of(self, draft: &str) -> &str {
        draft.get(self.start as usize..self.end as usize).unwrap_or("")
    }
}
