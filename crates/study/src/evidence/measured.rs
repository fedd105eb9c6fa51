//! What was measured, and how well.

use std::sync::Arc;

use units::{AngularRate, Dimension, Force, Length, Role, Speed};

use crate::{MeasuredShift, Recipe};

/// Error of a chronograph over its reading. Chosen: what the trade says of
/// common ones; common practice, no source.
pub(crate) const SPEED_ERROR: f64 = 0.005;
/// Error of one group's centre, m, beside its scatter. Chosen: holes read with a
/// tape to 2 mm.
const CENTRE_ERROR: f64 = 2e-3;
/// Error of how far a nock gives way, m, and over the give. Chosen: read on a
/// rule to half a millimetre, the force known to a twentieth.
const GIVE_ERROR: (f64, f64) = (0.5e-3, 0.05);
/// Error of a tear's length, m. Chosen: paper tears ragged, by an eighth of an
/// inch.
const TEAR_ERROR: f64 = 3e-3;
/// Error of a spin over its rate. Chosen: frames counted to one in twenty.
const SPIN_ERROR: f64 = 0.05;

/// What was measured. A shift's own error is left out of account here.
#[derive(Debug, Clone, PartialEq)]
pub enum Measured {
    /// A shift of impact.
    Shift(MeasuredShift),
    /// How far a build hits from another, shot with the same aim.
    Apart {
        /// The distance.
        distance: Length,
        /// To the left and up, m.
        shift: [f64; 2],
        /// The other build.
        against: Against,
    },
    /// How far the nock of a bow without arrow gives way, once to the left and once up.
    Push {
        /// The force.
        force: Force,
        /// Left and up, m.
        give: [f64; 2],
        /// At full draw, not at brace.
        drawn: bool,
    },
    /// A chronograph's reading at a distance from the bow, zero at the bow.
    Speed {
        /// The distance.
        distance: Length,
        /// The reading.
        speed: Speed,
    },
    /// How much lower, against the line of sight, the arrow hits at the farther of
    /// two distances, the sight left alone.
    Drop {
        /// The nearer distance.
        near: Length,
        /// The farther one.
        far: Length,
        /// How much lower.
        drop: Length,
    },
    /// Spin at a distance, clockwise seen from the nock.
    Spin {
        /// The distance.
        distance: Length,
        /// The spin.
        rate: AngularRate,
    },
    /// A tear in paper: from the point's hole to the nock's end of it.
    Tear {
        /// Distance of the sheet.
        distance: Length,
        /// Left and up, m.
        tear: [f64; 2],
    },
    /// A poorly known value, measured itself.
    Value {
        /// Its dotted key.
        key: String,
        /// What it measures.
        dimension: Dimension,
        /// The reading, SI.
        value: f64,
    },
}

/// The build that another was shot against.
#[derive(Clone)]
pub struct Against(pub Arc<dyn Recipe>);

impl PartialEq for Against {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

impl std::fmt::Debug for Against {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Against")
    }
}

/// The name of a reading to the left.
pub(super) const LEFT: &str = "left";

/// One number of a measured thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Reading {
    /// What it is called, such as "left".
    pub(crate) what: &'static str,
    pub(crate) role: Role,
    /// As measured, SI.
    pub(crate) value: f64,
}

impl Measured {
    /// Its numbers.
    pub(crate) fn readings(&self) -> Vec<Reading> {
        let sides = |role, of: [f64; 2]| {
            let [left, up] = of;
            let one = |what, value| Reading { what, role, value };
            vec![one(LEFT, left), one("up", up)]
        };
        let one = |what, role, value| vec![Reading { what, role, value }];
        match self {
            Self::Shift(shift) => sides(Role::Impact, shift.shift),
            Self::Apart { shift, .. } => sides(Role::Impact, *shift),
            Self::Push { give, .. } => sides(Role::Impact, *give),
            Self::Tear { tear, .. } => sides(Role::Impact, *tear),
            Self::Speed { speed, .. } => one("speed", Role::Speed, speed.si()),
            Self::Drop { drop, .. } => one("drop", Role::Impact, drop.si()),
            Self::Spin { rate, .. } => one("spin", Role::Spin, rate.si()),
            Self::Value { dimension, value, .. } => one("value", Role::of(*dimension), *value),
        }
    }

    /// Standard error of the instrument in each number, for so many shots; and how
    /// many groups' centres are in it, whose scatter comes on top.
    pub(crate) fn instrument(&self, shots: u32) -> (f64, u32) {
        let centres = |count: u32| (CENTRE_ERROR * f64::from(count).sqrt(), count);
        match self {
            Self::Push { give, .. } => {
                let give = give.iter().fold(0.0_f64, |most, give| most.max(give.abs()));
                (GIVE_ERROR.0.hypot(GIVE_ERROR.1 * give), 0)
            }
            Self::Shift(_) | Self::Apart { .. } | Self::Drop { .. } => centres(2),
            Self::Speed { speed, .. } => (SPEED_ERROR * speed.si(), 0),
            Self::Spin { rate, .. } => (SPIN_ERROR * rate.si().abs(), 0),
            Self::Tear { .. } => (TEAR_ERROR / f64::from(shots).sqrt(), 0),
            // A value states its own error.
            Self::Value { .. } => (0.0, 0),
        }
    }

    /// The other build it was measured with, if there is one.
    pub(crate) fn against(&self) -> Option<&dyn Recipe> {
        match self {
            Self::Apart { against, .. } => Some(against.0.as_ref()),
            _ => None,
        }
    }

    /// Where groups were shot, m.
    pub(crate) fn places(&self) -> Vec<f64> {
        match self {
            Self::Push { .. } | Self::Value { .. } => vec![],
            Self::Shift(shift) => vec![shift.distance.si()],
            Self::Drop { near, far, .. } => vec![near.si(), far.si()],
            Self::Apart { distance, .. }
            | Self::Speed { distance, .. }
            | Self::Spin { distance, .. }
            | Self::Tear { distance, .. } => vec![distance.si()],
        }
    }
}
