//! Looking into a list through one function: each place that looks into one itself brings a check, a panic and the name of its
//! line, some forty bytes of wasm.

/// What is looked up by its place.
pub trait Items<T> {
    /// The item at a place.
    ///
    /// # Panics
    /// Where the list ends before it.
    fn item(&self, at: usize) -> &T;

    /// The items from a place up to another, which is not among them.
    ///
    /// # Panics
    /// Where the list ends before it, or the places stand the wrong way round.
    fn row(&self, from: usize, to: usize) -> &[T];
}

impl<T> Items<T> for [T] {
    #[cfg_attr(target_arch = "wasm32", inline(never))]
    fn item(&self, at: usize) -> &T {
        &self[at]
    }

    #[cfg_attr(target_arch = "wasm32", inline(never))]
    fn row(&self, from: usize, to: usize) -> &[T] {
        &self[from..to]
    }
}
