//! The bow as a machine: its moving parts, from what a user can give. Model
//! card: docs/model/bow.md.

use crate::cams::{CamParts, Cams};
use crate::check;
use crate::hold::Hold;
use crate::limbs::Limbs;
use crate::pose::{Pose, StringPush, Twine};
use crate::shape::stored_energy;
use crate::stroke::power_stroke;
use crate::{Bow, BowKind, BowLaw, DrawCurve, ForceLaw, LaunchError};

/// The pull on a nock so heavy that it stays where it is.
const HEAVY: f64 = 1e9;

/// A bow held still.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Still {
    /// Force that holds the nock, N.
    pub force: f64,
    /// Tension of the string, N.
    pub tension: f64,
    /// Turn of limb or cam, rad.
    pub turn: f64,
    /// Hold of the nock.
    pub hold: Hold,
}

/// Where the upper half of a bow is, from the side; the lower one is its mirror image.
/// Places are ahead of the nock groove at full draw, and up from the arrow, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UpperHalf {
    /// Hinge of the limb; none of a compound, whose limb tip moves straight.
    pub hinge: Option<[f64; 2]>,
    /// Tip of the limb, or the cam's axle.
    pub tip: [f64; 2],
    /// Where the free string ends: at the tip, or on the cam's track.
    pub string: [f64; 2],
    /// Radius of the track; zero without a cam.
    pub track: f64,
}

/// A bow's moving parts.
#[derive(Debug, Clone, PartialEq)]
pub enum Machine {
    /// Hinged limbs.
    Limbs {
        /// The bow.
        bow: Limbs,
        /// Nock at full draw, m from brace.
        stroke: f64,
    },
    /// Cams.
    Cams {
        /// The bow.
        bow: Cams,
        /// Nock at full draw, m from brace.
        stroke: f64,
    },
}

/// Hinge above the arrow over half the string, recurve and longbow. Chosen: a
/// riser and the stiff roots of its limbs take 0.3 m of a recurve's 0.78, 0.15 m
/// of a longbow's 0.85.
const HINGE: [f64; 2] = [0.3825, 0.1763];
/// Half a compound's string over its free part at brace. Chosen: half as much
/// again lies round a cam.
const ROUND: f64 = 1.46;
/// Tension of a cable at brace over the peak force. Chosen, with the stiffness
/// of a limb tip over peak force and stroke: cams then turn by some 250 degrees
/// and a limb tip moves by some 30 mm.
const CABLE: f64 = 1.63;
const TIP: f64 = 39.5;
/// Inertia of a cam, kg m2. Chosen: 100 g at 33 mm. It moves the time in the bow
/// and hardly the speed.
const CAM: f64 = 1.1e-4;
/// Stiffness of a cable over that of half the string. Chosen: of like material
/// and not longer.
const CABLE_STRETCH: f64 = 0.75;

impl Machine {
    /// The moving parts of a bow.
    ///
    /// # Errors
    /// [`LaunchError`] where a value is outside its range, or no such bow has
    /// this force-draw curve.
    pub fn new(bow: &Bow) -> Result<Self, LaunchError> {
        check::machine(bow)?;
        let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
        let peak = bow.curve.as_ref().map_or(bow.draw_weight.si(), DrawCurve::peak);
        let law = BowLaw::new(bow)?;
        let half = bow.half_string.si();
        let string = &bow.string;
        let twine = |half: f64| Twine {
            half,
            mass: string.mass.si(),
            nocking: string.nocking.si(),
            stiffness: string.stiffness.si(),
        };
        let moving = bow.limb_mass.si();
        if bow.kind == BowKind::Compound {
            /// Share of the stroke over which the first slope is taken. Chosen.
            const FIRST: f64 = 1e-4;
            let steep = peak * law.force(1.0 - FIRST) / (FIRST * stroke);
            let twine = twine(ROUND * half);
            let parts = CamParts {
                axle: half,
                radius: bow.tip_line.si(),
                preload: 0.5 * steep * half + 2.0 * CABLE * peak,
                stiffness: TIP * peak / stroke,
                inertia: CAM,
                tip: moving,
                cable: CABLE_STRETCH * twine.stiffness / twine.half,
                twine,
            };
            return Ok(Self::Cams { bow: Cams::new(parts, &law, peak, stroke)?, stroke });
        }
        let hinge = half * HINGE[usize::from(bow.kind == BowKind::Longbow)];
        let brace = bow.brace_height.si();
        let limb = brace.hypot(half - hinge);
        let shape = Limbs {
            hinge,
            limb,
            brace,
            torque: 0.0,
            stiffness: 0.0,
            inertia: moving * limb * limb,
            twine: twine(half),
        };
        let bow = shape.drawing(peak * law.force(0.0), stored_energy(bow)?.si(), stroke)?;
        Ok(Self::Limbs { bow, stroke })
    }

    /// The same with other moving masses of limbs, times a factor.
    pub(crate) fn lighter(&self, factor: f64) -> Self {
        match self.clone() {
            Self::Limbs { bow, stroke } => {
                Self::Limbs { bow: Limbs { inertia: factor * bow.inertia, ..bow }, stroke }
            }
            Self::Cams { bow, stroke } => {
                let tip = factor * bow.parts().tip;
                Self::Cams { bow: bow.with_tip(tip), stroke }
            }
        }
    }

    /// Nock at brace behind hinges or axles, m.
    pub(crate) fn brace(&self) -> f64 {
        match self {
            Self::Limbs { bow, .. } => bow.brace,
            Self::Cams { bow, .. } => bow.parts().radius,
        }
    }

    /// Power stroke, m.
    pub fn stroke(&self) -> f64 {
        match self {
            Self::Limbs { stroke, .. } | Self::Cams { stroke, .. } => *stroke,
        }
    }

    /// Full draw, everything still.
    pub(crate) fn full_draw(&self) -> Pose {
        match self {
            Self::Limbs { bow, stroke } => bow.still(bow.brace + stroke),
            Self::Cams { bow, stroke } => bow.full_draw(*stroke),
        }
    }

    /// The bow held still with its nock a share of the draw behind brace, 1 at
    /// full draw.
    pub fn still(&self, drawn: f64) -> Still {
        let pose = match self {
            Self::Limbs { bow, stroke } => bow.still(bow.brace + drawn * stroke),
            Self::Cams { bow, stroke } => bow.still(drawn, *stroke),
        };
        let push = self.push(HEAVY, &pose);
        Still {
            force: -HEAVY * push.acceleration[0],
            tension: push.tension,
            turn: pose.place[1],
            hold: self.hold(&pose),
        }
    }

    pub(crate) fn upper_half(&self, pose: &Pose) -> UpperHalf {
        let line = self.stroke() + self.brace();
        let place = |[back, up]: [f64; 2]| [line - back, up];
        match self {
            Self::Limbs { bow, .. } => {
                let tip = place(bow.tip(pose));
                let hinge = Some(place([0.0, bow.hinge]));
                UpperHalf { hinge, tip, string: tip, track: 0.0 }
            }
            Self::Cams { bow, .. } => {
                let [axle, string] = bow.axle_and_string(pose).map(place);
                UpperHalf { hinge: None, tip: axle, string, track: bow.parts().radius }
            }
        }
    }

    pub(crate) fn push(&self, mass: f64, pose: &Pose) -> StringPush {
        match self {
            Self::Limbs { bow, .. } => bow.push(mass, pose),
            Self::Cams { bow, .. } => bow.push(mass, pose),
        }
    }

    pub(crate) fn hold(&self, pose: &Pose) -> Hold {
        match self {
            Self::Limbs { bow, .. } => bow.hold(pose),
            Self::Cams { bow, .. } => bow.hold(pose),
        }
    }

    /// A bound on the bow's fastest motion, rad/s.
    pub(crate) fn fastest(&self, mass: f64) -> f64 {
        match self {
            Self::Limbs { bow, stroke } => bow.fastest(mass, *stroke),
            Self::Cams { bow, stroke } => bow.fastest(mass, *stroke),
        }
    }

    /// Kinetic energy of string, and of limbs and cams, J.
    pub(crate) fn moving(&self, pose: &Pose) -> [f64; 2] {
        match self {
            Self::Limbs { bow, .. } => bow.moving(pose),
            Self::Cams { bow, .. } => bow.moving(pose),
        }
    }

    /// Energy held in limbs, string and cables in a pose over that at brace, J.
    pub(crate) fn energy(&self, pose: &Pose) -> f64 {
        match self {
            Self::Limbs { bow, .. } => bow.energy(pose),
            Self::Cams { bow, .. } => bow.energy(pose),
        }
    }
}

/// Stiffness with which a bow held still, its nock a share of the draw behind
/// brace, holds the nock sideways and up and down, N/m: what a push on it with
/// a known weight shows.
///
/// # Errors
/// [`LaunchError`] where a value is outside its range, or no such bow has this
/// force-draw curve.
pub fn hold_at(bow: &Bow, drawn: f64) -> Result<[f64; 2], LaunchError> {
    let hold = Machine::new(bow)?.still(drawn).hold;
    let hold = hold.scaled(bow.restraint.left.si(), bow.restraint.up.si());
    Ok([hold.side, hold.still()])
}
