//! Sorting that is compiled once: the standard sort is made anew for every type, some 4 KB of the page's download each.

/// The places `0..count` in order, equals as they stood; `before(a, b)` is whether what stands at `a` goes before `b`.
///
/// ```
/// let words = ["pear", "fig", "plum", "date"];
/// let order = plainspoon::kitchen::order::order(4, &mut |a, b| words[a].len() < words[b].len());
/// assert_eq!(order, [1, 0, 2, 3]);
/// ```
pub fn order(count: usize, before: &mut dyn FnMut(usize, usize) -> bool) -> Vec<usize> {
    let mut from: Vec<usize> = (0..count).collect();
    let mut to = from.clone();
    let mut width = 1;
    while width < count {
        for start in (0..count).step_by(width * 2) {
            let (middle, end) = ((start + width).min(count), (start + width * 2).min(count));
            let (mut left, mut right) = (start, middle);
            for place in &mut to[start..end] {
                // The right one goes first only where it must, which keeps equals in their order.
                let take_right = left == middle || right < end && before(from[right], from[left]);
                let taken = if take_right { &mut right } else { &mut left };
                *place = from[*taken];
                *taken += 1;
            }
        }
        std::mem::swap(&mut from, &mut to);
        width *= 2;
    }
    from
}
