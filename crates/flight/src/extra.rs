//! What a [`crate::Model`] holds beside plain lift and drag.

/// Drag that a layer tripped at departure adds, and how it fades.
///
/// The share `1 / (1 + (x / x0)^4)` is smooth, so that it costs no order of the
/// method, falls from 0.9 to 0.1 between 0.58 and 1.7 `x0`, and its integral,
/// the distance flown turbulent, is `pi / sqrt(8) x0`. Chosen: when a layer
/// settles in flight is not known, how sharply even less.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Trip<N> {
    /// As a polynomial in speed.
    pub(crate) drag: [N; 3],
    /// One over x0, 1/m; zero without one.
    pub(crate) per_length: N,
}

/// The wake of blades over the vanes: see [`crate::aero::Wake`].
#[derive(Debug, Clone, Copy)]
pub(crate) struct Wake<N> {
    pub(crate) slope: N,
    pub(crate) arm: N,
    pub(crate) lead: N,
    pub(crate) drift: N,
    pub(crate) lag: N,
    /// Side force area of the head's tilt, toward clock 0 and 90 degrees.
    pub(crate) side: [N; 2],
}

/// A head of two blades: mean slope, arm, and cosine and sine of twice their
/// clock position.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TwoBlades<N> {
    pub(crate) slope: N,
    pub(crate) arm: N,
    pub(crate) twice: [N; 2],
    /// 1, or 0 for other heads.
    pub(crate) present: N,
}
