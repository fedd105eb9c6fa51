use units::{
    Acceleration, Angle, AngularRate, Damping, Force, Length, Mass, Momentum, Ratio, Speed,
    Stiffness, Time,
};

use crate::{Flex, LaunchError};

/// The kind of bow; it shapes the push along the stroke.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BowKind {
    /// Cams and let-off.
    Compound,
    /// Recurved limbs.
    Recurve,
    /// Straight limbs.
    Longbow,
}

/// Where the arrow speed comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SpeedSource {
    /// A chronograph reading with an arrow of known mass.
    Chronograph {
        /// The speed read.
        speed: Speed,
        /// The mass of the arrow that was shot.
        mass: Mass,
    },
    /// The stored energy less hysteresis, for lack of any reading.
    Stored,
    /// A maker's rating with its conditions, carried over to this bow by its
    /// draw weight and power stroke.
    Rating {
        /// The rated speed.
        speed: Speed,
        /// Arrow mass of the rating.
        mass: Mass,
        /// Draw weight of the rating.
        draw_weight: Force,
        /// Draw length of the rating.
        draw_length: Length,
    },
}

/// How a rest holds the shaft.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RestKind {
    /// A launcher: carries the shaft in a fork, which holds it to both sides but
    /// not down, and falls away at a stated share of the stroke.
    DropAway,
    /// Holds all round as long as the shaft is over it.
    Containment,
    /// A spring-loaded point at the riser's side and a support below; each can
    /// only push.
    SidePoint,
    /// The riser's side and a shelf below; each can only push.
    Shelf,
}

/// On which side of the riser the arrow lies, as the archer sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Left of the riser: an archer who draws with the right hand.
    Left,
    /// Right of the riser.
    Right,
}

/// A rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rest {
    /// How it holds.
    pub kind: RestKind,
    /// On which side of the riser the arrow lies; counts where a rest only
    /// pushes.
    pub side: Side,
    /// Stiffness of the hold, the same up-down and sideways.
    pub stiffness: Stiffness,
    /// Damping of the hold.
    pub damping: Damping,
    /// Force at which a side point's spring begins to give.
    pub preload: Force,
    /// Share of the power stroke after which the rest starts to fall; at 1 it
    /// stays until the shaft has passed.
    pub share: Ratio,
    /// How long after that it is out of reach.
    pub delay: Time,
    /// How far ahead of the string at brace the rest stands.
    pub ahead: Length,
    /// From the shaft's centre line at rest to the riser beside it.
    pub riser_gap: Length,
    /// How far below the shaft's centre line the rest lies once it has let go.
    pub drop: Length,
}

/// Most points of a force-draw curve.
pub const CURVE_POINTS: usize = 40;

/// Fewest. Chosen: two would be a straight line, which no bow draws.
const LEAST_CURVE: usize = 3;

/// Readings of draw force along the draw, rising in draw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawCurve {
    /// Draw as the trade measures it (pivot to string plus 1.75 in), m, and
    /// force, N. Only the first `count` are in use.
    points: [(f64, f64); CURVE_POINTS],
    count: usize,
}

impl DrawCurve {
    /// From readings of trade draw and force.
    ///
    /// # Errors
    /// [`LaunchError::CurveCount`] for fewer than 3 or more than
    /// [`CURVE_POINTS`] readings; [`LaunchError::Curve`] for draws that do not
    /// rise, or a force that is negative or not finite.
    pub fn new(readings: &[(Length, Force)]) -> Result<Self, LaunchError> {
        let count = readings.len();
        if !(LEAST_CURVE..=CURVE_POINTS).contains(&count) {
            return Err(LaunchError::CurveCount { count, least: LEAST_CURVE, most: CURVE_POINTS });
        }
        let mut points = [(0.0, 0.0); CURVE_POINTS];
        for (index, (draw, force)) in readings.iter().enumerate() {
            let (draw, force) = (draw.si(), force.si());
            let rises = index == 0 || draw > points[index - 1].0;
            if !(rises && draw.is_finite() && force.is_finite() && force >= 0.0) {
                return Err(LaunchError::Curve { index, draw, force });
            }
            points[index] = (draw, force);
        }
        Ok(Self { points, count })
    }

    /// The greatest force read, N.
    pub fn peak(&self) -> f64 {
        self.points().iter().map(|point| point.1).fold(0.0, f64::max)
    }

    /// The readings in use: trade draw, m, and force, N.
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points[..self.count]
    }
}

/// How the nock is set free.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Release {
    /// Sideways impulse on the nock, to the left positive; a release aid gives
    /// none.
    pub left: Momentum,
    /// Upward impulse on the nock.
    pub up: Momentum,
}

/// How far the nock's path bows out from the straight line halfway, by cam
/// lean, tiller or timing; a half sine over the stroke.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct NockPath {
    /// To the left.
    pub left: Length,
    /// Up.
    pub up: Length,
}

/// A bowstring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BowString {
    /// Mass of all of it.
    pub mass: Mass,
    /// Mass fixed to it at the nock: loop, nocking points.
    pub nocking: Mass,
    /// Force over strain.
    pub stiffness: Force,
    /// Force at which a nock comes off it.
    pub grip: Force,
}

/// How firmly the string holds the nock, over what geometry and tension say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Restraint {
    /// Sideways.
    pub left: Ratio,
    /// Up and down.
    pub up: Ratio,
}

/// A bow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bow {
    /// Kind.
    pub kind: BowKind,
    /// Peak draw force.
    pub draw_weight: Force,
    /// Trade draw length: pivot to string at full draw plus 1.75 in.
    pub draw_length: Length,
    /// Pivot to string at rest.
    pub brace_height: Length,
    /// Let-off at full draw, 0 to 1.
    pub let_off: Ratio,
    /// The user's own force-draw readings, if any; else the curve is built
    /// from kind, draw weight and let-off.
    pub curve: Option<DrawCurve>,
    /// Share of the stored energy that never comes back.
    pub hysteresis: Ratio,
    /// Where the speed comes from.
    pub speed: SpeedSource,
    /// The mass that, moving with the arrow, would hold the energy the bow
    /// keeps, where it is known; else it follows from the moving parts.
    pub virtual_mass: Option<Mass>,
    /// Moving mass of one limb as if all of it were at its tip; of a compound,
    /// what moves with an axle.
    pub limb_mass: Mass,
    /// The string.
    pub string: BowString,
    /// How firmly the string holds the nock.
    pub restraint: Restraint,
    /// Compound: how far the string at brace stands behind the axles, which is
    /// the radius of its track where it leaves the cam.
    pub tip_line: Length,
    /// Half the length of the string between the limb tips, or between the
    /// axles, at brace.
    pub half_string: Length,
    /// Free fall across the push; the arrow lies on its rest by its weight.
    pub gravity: Acceleration,
    /// How the nock is set free.
    pub release: Release,
    /// The nock's path.
    pub path: NockPath,
    /// The rest.
    pub rest: Rest,
}

/// What this archer did on this shot, relative to a perfect shot.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Form {
    /// Line of aim to the left of the mark.
    pub aim_left: Angle,
    /// Line of aim above the mark.
    pub aim_up: Angle,
    /// Departure speed beyond the bow's own.
    pub speed: Speed,
    /// Arrow's nose left of its line of motion at departure.
    pub release_left: Angle,
    /// Arrow's nose above its line of motion at departure.
    pub release_up: Angle,
}

/// Departure values that the user gives directly; each replaces the computed
/// one.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GivenDeparture {
    /// Departure speed.
    pub speed: Option<Speed>,
    /// Nose left of the line of motion.
    pub yaw: Option<Angle>,
    /// Nose above the line of motion.
    pub pitch: Option<Angle>,
    /// Rate of yaw, nose going left.
    pub yaw_rate: Option<AngularRate>,
    /// Rate of pitch, nose going up.
    pub pitch_rate: Option<AngularRate>,
    /// Spin, clockwise seen from the nock.
    pub spin: Option<AngularRate>,
}

/// The arrow as it leaves the string, relative to the line of departure, SI.
///
/// "left" and "up" are in the range frame turned so that x runs along the
/// direction in which the bow pushes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Departure {
    /// Speed along the line of departure, m/s.
    pub speed: f64,
    /// Sideways velocity of the balance point, m/s.
    pub velocity_left: f64,
    /// Upward velocity of the balance point, m/s.
    pub velocity_up: f64,
    /// Principal axis to the left of the line of departure, rad.
    pub yaw: f64,
    /// Principal axis above the line of departure, rad.
    pub pitch: f64,
    /// Rate of yaw, rad/s, nose going left positive.
    pub yaw_rate: f64,
    /// Rate of pitch, rad/s, nose going up positive.
    pub pitch_rate: f64,
    /// Spin, rad/s.
    pub spin: f64,
    /// Roll of the index vane from straight up, rad.
    pub roll: f64,
    /// Sideways place of the balance point, m.
    pub left: f64,
    /// Height of the balance point relative to the bow's push line, m.
    pub up: f64,
    /// How the shaft swings as it leaves.
    pub flex: Flex,
}
