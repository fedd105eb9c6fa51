use body::{Across, MassProperties};
use units::{BendingStiffness, Length, Ratio};

use crate::{ArrowError, Faults, Parts};

/// Stations along a built arrow, m from the bottom of the nock groove.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layout {
    /// Rear end face of the shaft.
    pub shaft_rear: Length,
    /// Front end face of the shaft; the trade's arrow length.
    pub shaft_front: Length,
    /// The face on which the point seats.
    pub point_seat: Length,
    /// The tip of the point.
    pub tip: Length,
    /// Front of the vane root; the groove bottom if there are no vanes.
    pub vane_front: Length,
    /// Front of the blade root; the tip if there are no blades.
    pub blade_front: Length,
}

/// What all faults together do to the arrow, named by effect.
///
/// Directions are clock positions. The principal axis is the line through the
/// balance point about which the real arrow spins freely.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Effects {
    /// Centre of the nock groove from the principal axis, m. The string
    /// pushes here, so this is the lever of the push.
    pub groove_offset: Across,
    /// Balance point from the shaft's own axis at that station, m.
    pub balance_offset: Across,
    /// Direction of the rear shaft (and vanes) relative to the principal
    /// axis, rad.
    pub shaft_tilt: Across,
    /// Direction of the point relative to the principal axis, rad.
    pub point_tilt: Across,
    /// Tip of the point from the principal axis, m; a spin test reads twice
    /// its size.
    pub tip_offset: Across,
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

/// Something odd that a builder should know; never an error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Note {
    /// Below 5 gr per lb of draw weight. Holds kg per N.
    Light {
        /// Arrow mass over draw weight, kg/N.
        mass_per_force: f64,
    },
    /// FOC outside 5 % to 30 %.
    UnusualFoc {
        /// FOC as a fraction.
        foc: f64,
    },
    /// No vanes: unstable unless the push is clean.
    BareShaft,
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
    /// Odd but possible things.
    pub notes: Vec<Note>,
}

/// Builds an arrow.
///
/// # Errors
/// [`ArrowError`] where a part is impossible or two parts do not fit.
pub fn build(parts: &Parts, faults: &Faults) -> Result<Built, ArrowError> {
    let _ = (parts, faults);
    unimplemented!("written next")
}
