use arrow::PointShape;

/// Slope of the slender-body normal force of a nose on its base area, per rad.
/// Exact in slender-body theory (Munk 1924), whatever the shape.
pub(super) const SLOPE: f64 = 2.0;

/// Centre of pressure of the nose behind the tip, as a share of its length.
///
/// Ogives: 0.466 \[barrowman1967\]. Others: 0.5, chosen between ogive
/// and cone (2/3); the point is so short that it hardly matters.
pub(super) fn centre_share(shape: PointShape) -> f64 {
    match shape {
        PointShape::Streamlined | PointShape::Bullet => 0.466,
        PointShape::Field
        | PointShape::Blunt
        | PointShape::FixedBlade
        | PointShape::ClosedBlade => 0.5,
    }
}

/// Pressure drag coefficient of the point on the shaft's frontal area.
///
/// Values from memory of blunt-body handbooks (Hoerner, Fluid-Dynamic Drag,
/// 1965, ch. 3): a faired nose has next to none, a flat face about 0.8. The
/// ones between are chosen.
pub(super) fn pressure_drag(shape: PointShape) -> f64 {
    match shape {
        PointShape::Streamlined => 0.02,
        PointShape::Field | PointShape::Bullet | PointShape::FixedBlade => 0.10,
        PointShape::ClosedBlade => 0.20,
        PointShape::Blunt => 0.80,
    }
}
