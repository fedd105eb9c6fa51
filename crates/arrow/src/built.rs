use body::{Across, MassProperties};
use units::{BendingStiffness, Length, Ratio};

use crate::{
    ArrowError, Faults, Layout, Note, Parts, Shape, Whole, check, note, stiffness_from_spine,
};

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

/// A built arrow.
#[derive(Debug, Clone, PartialEq)]
pub struct Built {
    /// Mass, balance point, inertias.
    pub mass: MassProperties,
    /// Bottom of the nock groove to the end of the shaft (trade standard).
    pub length: Length,
    /// Front of centre by the trade standard.
    pub foc: Ratio,
    /// Bending stiffness from static spine.
    pub stiffness: BendingStiffness,
    /// Where things are.
    pub layout: Layout,
    /// What the faults do.
    pub effects: Effects,
    /// Every mass and line of the arrow built up from its parts.
    pub shape: Shape,
    /// The sum of its masses.
    pub whole: Whole,
    /// Odd but possible things.
    pub notes: Vec<Note>,
}

/// Builds an arrow.
///
/// Values given directly replace the built-up mass properties; the effects of
/// faults are always those of the arrow built up from its parts.
///
/// # Errors
/// [`ArrowError`] where a part is impossible or two parts do not fit.
pub fn build(parts: &Parts, faults: &Faults) -> Result<Built, ArrowError> {
    let layout = Layout::new(parts);
    check::all(parts, faults, &layout)?;
    let shape = Shape::unchecked(parts, faults, &layout);
    let whole = Whole::of(&shape.pieces)?;
    let mass = mass_properties(parts, &whole)?;
    let foc = foc(mass.balance(), layout.shaft_front);
    let vane = parts.vanes.map_or(VaneError::default(), |_| VaneError {
        angle: faults.vane.angle.si(),
        around: faults.vane.around.si(),
        forward: faults.vane.forward.si(),
    });
    Ok(Built {
        mass,
        length: layout.shaft_front,
        foc,
        stiffness: stiffness_from_spine(parts.shaft.spine),
        layout,
        effects: Effects { vane, ..shape.effects(&whole) },
        shape,
        whole,
        notes: note::all(parts, faults, &whole, foc),
    })
}

/// Front of centre [astm-f1435]: how far the balance point lies ahead of the
/// middle of the arrow length, as a share of that length.
///
/// `balance` and `length` are measured from the bottom of the nock groove;
/// `length` ends at the end of the shaft and is not zero.
pub fn foc(balance: Length, length: Length) -> Ratio {
    Ratio::from_si((balance.si() - length.si() / 2.0) / length.si())
}

fn mass_properties(parts: &Parts, whole: &Whole) -> Result<MassProperties, ArrowError> {
    let given = &parts.given;
    Ok(MassProperties::new(
        given.mass.unwrap_or(units::Mass::from_si(whole.mass)),
        given.balance.unwrap_or(Length::from_si(whole.principal.station)),
        given.transverse.unwrap_or(units::Inertia::from_si(whole.transverse)),
        given.axial.unwrap_or(units::Inertia::from_si(whole.axial)),
    )?)
}
