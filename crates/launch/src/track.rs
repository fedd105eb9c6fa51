//! One push made ready, in numbers: arrow, faults, rest and what the nock is led along.

use crate::beam::ELEMENTS;
use crate::contact::Contact;
use crate::course::TERMS;
use crate::elastic::{FaultForcing, MOTIONS};
use crate::flex::MODES;

/// Fewest steps until the string lets go. Chosen: fewer would show in plots of
/// the push.
pub const STEPS: usize = 96;

/// Values of a bending shape: displacement and slope between elements.
pub(crate) const NODAL: usize = 2 * ELEMENTS + 2;

/// One push of one arrow, or of one arrow in each lane.
#[derive(Debug, Clone)]
pub(crate) struct Track<N> {
    /// Mass, kg, and balance point ahead of the groove, m.
    pub(crate) mass: N,
    pub(crate) lever: N,
    /// One over the modal mass of each motion.
    pub(crate) inverse_modal_mass: [N; MOTIONS],
    /// How thrust turns and bends the arrow, over its acceleration.
    pub(crate) thrust: [[N; MOTIONS]; MOTIONS],
    /// Displacement of the groove in each motion, and over the modal mass.
    pub(crate) groove: [N; MOTIONS],
    pub(crate) weighed: [N; MOTIONS],
    /// Square of each frequency, 1/s2, and twice the decay rate, 1/s.
    pub(crate) spring: [N; MOTIONS],
    pub(crate) damping: [N; MOTIONS],
    /// Stiffness of the left plane over the mean less one, and coupling, and whether
    /// any shaft has a stiff side.
    pub(crate) stiff: [N; 2],
    pub(crate) sided: bool,
    /// What one newton on the groove gives it, m/s2.
    pub(crate) ease: N,
    /// Rear end of the shaft, m, elements per length, 1/m.
    pub(crate) rear: N,
    pub(crate) front: N,
    pub(crate) per_length: N,
    /// Nodal values of each bending shape.
    pub(crate) nodal: [[N; NODAL]; MODES],
    /// What the faults do, left and up.
    pub(crate) forcings: [FaultForcing<N>; 2],
    pub(crate) contacts: [Contact<N>; 2],
    /// How far the rest stands ahead of the string at brace, m.
    pub(crate) ahead: N,
    /// Free fall, m/s2.
    pub(crate) gravity: N,
    /// How far the nock's path bows out, m, and whether any does.
    pub(crate) path: [N; 2],
    pub(crate) bent: bool,
    /// Impulse of the release, N s.
    pub(crate) release: [N; 2],
    /// Power stroke, m.
    pub(crate) stroke: N,
    /// Terms of the course.
    pub(crate) weights: [N; TERMS],
    /// When the rest is out of reach and when the string lets go, s.
    pub(crate) let_go: N,
    pub(crate) end: N,
}

/// Motions of the bow inside: two and their rates.
pub(crate) const INSIDE: usize = 4 * MOTIONS;
/// Components of the state: motions, rates, inside.
pub(crate) const SIZE: usize = INSIDE + 4;
/// The same with the work done.
pub(crate) const WATCHED: usize = SIZE + 5;
