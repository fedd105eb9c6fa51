use units::{Angle, AngularRate, Damping, Force, Length, Mass, Ratio, Speed, Stiffness};

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

/// A rest: holds the shaft over the bow for the first part of the push.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rest {
    /// Stiffness of the hold, the same up-down and sideways.
    pub stiffness: Stiffness,
    /// Damping of the hold.
    pub damping: Damping,
    /// Share of the power stroke after which the rest has let go.
    pub share: Ratio,
    /// How far ahead of the string at brace the rest stands.
    pub ahead: Length,
}

/// A bow as far as the thin rigid push needs it.
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
    /// Where the speed comes from.
    pub speed: SpeedSource,
    /// The mass that, moving with the arrow, would hold the energy the bow
    /// keeps.
    pub virtual_mass: Mass,
    /// Sideways restraint of the string over its simple value, 1 = simple.
    pub restraint: Ratio,
    /// Distance from the nock to the line of the limb tips when the string
    /// is at brace.
    pub tip_line: Length,
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
}
