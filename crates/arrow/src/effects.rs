use body::Across;

/// What all faults together do to the arrow, named by effect.
///
/// Directions are clock positions. The principal axis is the line through the
/// balance point about which the real arrow spins freely.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Effects {
    /// Centre of the nock groove from the principal axis, m. The string
    /// pushes here, so this is the lever of the push.
    pub groove_offset: Across,
    /// Balance point from the shaft's centre line, m. Of a bent shaft, from
    /// the straight line that the centre line follows on average: friction
    /// acts along all of it.
    pub balance_offset: Across,
    /// Direction of the rear shaft (and vanes) relative to the principal
    /// axis, rad; of a bare shaft, its mean direction.
    pub shaft_tilt: Across,
    /// Direction of the point relative to the principal axis, rad.
    pub point_tilt: Across,
    /// Tip of the point from the principal axis, m. A spin test about that
    /// axis reads twice its size.
    pub tip_offset: Across,
    /// Curvature of the shaft's centre line, 1/m, toward the side on which it is
    /// hollow.
    pub curvature: Across,
    /// What is wrong with the vane at clock position zero.
    pub vane: VaneError,
}

/// A misplaced or mis-angled vane, in SI.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct VaneError {
    /// Angle beyond that of the others, rad.
    pub angle: f64,
    /// Turned round the shaft from its place, rad, clockwise.
    pub around: f64,
    /// Ahead of its place, m.
    pub forward: f64,
}
