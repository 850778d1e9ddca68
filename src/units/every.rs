//! Enums whose variants are listed by derive, as arrays.

/// The variants as an array of their number.
///
/// # Panics
/// While compiling, where `N` is more than there are.
pub(crate) const fn every<T: Copy, const N: usize>(variants: &[T]) -> [T; N] {
    match variants.first_chunk() {
        Some(all) => *all,
        None => panic!("an array of more than all variants"),
    }
}
