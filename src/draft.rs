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

    /// Whether the two have a byte in common.
    pub fn meets(self, other: Span) -> bool {
        self.start < other.end && other.start < self.end
    }

    /// Whole words before it, its own words, and whole words after it, `most` characters on either side.
    pub fn around(self, draft: &str, most: usize) -> (&str, &str, &str) {
        let before = draft.get(..self.start as usize).unwrap_or("");
        let after = draft.get(self.end as usize..).unwrap_or("");
        let from = before.char_indices().rev().take(most).last().map_or(0, |(at, _)| at);
        let rest = after.len();
        let upto = after.char_indices().nth(most).map_or(after.len(), |(at, _)| at);
        let (before, after) = (crate::letters::part(before, from, before.len()), crate::letters::part(after, 0, upto));
        let before = before.split_once(char::is_whitespace).filter(|_| from > 0).map_or(before, |(_, whole)| whole);
        let after =
            if upto < rest { after.rsplit_once(char::is_whitespace).map_or(after, |(whole, _)| whole) } else { after };
        (before, self.of(draft), after)
    }
}
