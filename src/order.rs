//! Sorting through one instance of the library's sort: each kind of list would bring its own five kilobytes of wasm.

use std::cmp::Ordering;

/// The places of a list in order; equal ones stay as they stand.
fn places(len: usize, compare: &mut dyn FnMut(usize, usize) -> Ordering) -> Vec<usize> {
    let mut at: Vec<usize> = (0..len).collect();
    at.sort_unstable_by(|a, b| compare(*a, *b).then(a.cmp(b)));
    at
}

/// Sorts a list; equal entries stay in their order.
pub fn sort_by<T>(list: &mut Vec<T>, mut compare: impl FnMut(&T, &T) -> Ordering) {
    let at = places(list.len(), &mut |a, b| compare(&list[a], &list[b]));
    let mut slots: Vec<Option<T>> = std::mem::take(list).into_iter().map(Some).collect();
    list.extend(at.into_iter().filter_map(|k| slots[k].take()));
}

/// Sorts a list by the order of its kind.
pub fn sort<T: Ord>(list: &mut Vec<T>) {
    sort_by(list, T::cmp);
}
