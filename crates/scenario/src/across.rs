//! Which side a wind comes from.

/// Whether a wind from this angle comes from the left; none for one along the shot.
pub(crate) fn side(from: f64) -> Option<bool> {
    let across = from.sin();
    // Chosen: a hundred thousandth of a degree off the line is along it.
    (across.abs() > 1e-7).then_some(across < 0.0)
}
