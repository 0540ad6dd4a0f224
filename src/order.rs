//! Sorting through one small sort: the library's own brings three kilobytes of wasm, and so again for each kind of list.

use std::cmp::Ordering;

/// The places of a list in order; equal ones stay as they stand. Sorted runs are merged two by two, each time twice as long.
fn places(len: usize, compare: &mut dyn FnMut(usize, usize) -> Ordering) -> Vec<usize> {
    let mut at: Vec<usize> = (0..len).collect();
    let mut run = 1;
    while run < len {
        let mut merged = Vec::with_capacity(len);
        for from in (0..len).step_by(2 * run) {
            let (mut a, mut b) = (from, from + run);
            let (middle, end) = (b.min(len), (b + run).min(len));
            while a < middle || b < end {
                let first = b >= end || a < middle && compare(at[a], at[b]) != Ordering::Greater;
                let next = if first { &mut a } else { &mut b };
                merged.push(at[*next]);
                *next += 1;
            }
        }
        at = merged;
        run *= 2;
    }
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
