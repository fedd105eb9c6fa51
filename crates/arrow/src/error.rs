use body::MassError;
use units::Role;

/// Why parts do not make an arrow. Values are in SI.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ArrowError {
    /// A value is outside the range in which this model makes sense.
    #[error(
        "the {what} is {}; it must lie between {} and {}",
        role.both(*value), role.both(*low), role.both(*high)
    )]
    OutOfRange {
        /// Which value.
        what: &'static str,
        /// What it measures.
        role: Role,
        /// The value.
        value: f64,
        /// Least allowed.
        low: f64,
        /// Most allowed.
        high: f64,
    },
    /// Too few or too many of something.
    #[error("there are {count} {what}; allowed are 2 to 6 (0 is written by leaving them out)")]
    Count {
        /// Of what.
        what: &'static str,
        /// How many.
        count: u8,
    },
    /// The shaft has no wall.
    #[error(
        "the shaft's inside diameter {} is not below its outside diameter {}",
        Role::Part.both(*inside), Role::Part.both(*outside)
    )]
    NoWall {
        /// Inside diameter, m.
        inside: f64,
        /// Outside diameter, m.
        outside: f64,
    },
    /// The shaft's wall would be denser than any metal.
    #[error(
        "the shaft's mass per length and diameters make its wall {density:.0} kg/m3; \
         no metal is above {limit:.0} kg/m3"
    )]
    TooDense {
        /// Density of the wall, kg/m3.
        density: f64,
        /// Most allowed, kg/m3.
        limit: f64,
    },
    /// Both an insert and an outsert.
    #[error("an insert and an outsert are both given; the point can seat on only one of them")]
    TwoHolders,
    /// An insert in a shaft without a bore.
    #[error("an insert is given, but the shaft is solid (its inside diameter is 0)")]
    NoBore,
    /// More length engaged than the shaft has.
    #[error(
        "parts engage {} at the front and {} at the rear, more than the shaft's length of {}",
        Role::Part.both(*front), Role::Part.both(*rear), Role::Part.both(*shaft)
    )]
    Engaged {
        /// At the front, m.
        front: f64,
        /// The nock, m.
        rear: f64,
        /// Shaft length, m.
        shaft: f64,
    },
    /// A groove deeper than the nock.
    #[error(
        "the nock's groove is {} deep, but the nock is only {} long",
        Role::Part.both(*depth), Role::Part.both(*nock)
    )]
    Groove {
        /// Depth of the groove, m.
        depth: f64,
        /// Length of the nock, m.
        nock: f64,
    },
    /// Vanes that reach beyond the shaft.
    #[error(
        "the vanes reach from {} to {} ahead of the nock groove; the shaft reaches from {} to {}",
        Role::Part.both(*rear), Role::Part.both(*front),
        Role::Part.both(*shaft_rear), Role::Part.both(*shaft_front)
    )]
    VanesOffShaft {
        /// Rear of the vanes, m.
        rear: f64,
        /// Front of the vanes, m.
        front: f64,
        /// Rear of the shaft, m.
        shaft_rear: f64,
        /// Front of the shaft, m.
        shaft_front: f64,
    },
    /// A vane or blade whose outer edge lies too far back.
    #[error(
        "the {what}'s sweep {} and tip chord {} put its outer edge more than twice the root \
         chord, {}, behind the front of the root",
        Role::Part.both(*sweep), Role::Part.both(*tip), Role::Part.both(*root)
    )]
    Outline {
        /// Vane or blade.
        what: &'static str,
        /// Sweep, m.
        sweep: f64,
        /// Tip chord, m.
        tip: f64,
        /// Root chord, m.
        root: f64,
    },
    /// A fixed-blade head without blades.
    #[error("the point is a fixed-blade head, but no blades are given")]
    NoBlades,
    /// Blades on a point that is not a fixed-blade head.
    #[error("blades are given, but the point is not a fixed-blade head")]
    StrayBlades,
    /// Blades that reach behind the point's seat.
    #[error(
        "the blades' setback {} and root {} together are longer than the point, {}",
        Role::Part.both(*setback), Role::Part.both(*root), Role::Part.both(*point)
    )]
    BladesOffPoint {
        /// Tip to front of the blades, m.
        setback: f64,
        /// Root chord, m.
        root: f64,
        /// Point length, m.
        point: f64,
    },
    /// A clock position that is not a number.
    #[error("the clock position of the {what} is {value}; it must be a finite angle")]
    Clock {
        /// Of which fault.
        what: &'static str,
        /// The clock position, rad.
        value: f64,
    },
    /// A bend that would fold the shaft.
    #[error(
        "the bend bows the shaft by {} over its own length; at most a tenth of the length, \
         {}, is allowed",
        Role::Gauge.both(*bow), Role::Gauge.both(*limit)
    )]
    Bend {
        /// Bow over the whole shaft, m.
        bow: f64,
        /// Most allowed, m.
        limit: f64,
    },
    /// The axial inertia is too near the transverse one.
    #[error(
        "the parts' inertia across the shaft is {transverse:.3e} kg m2 and about it \
         {axial:.3e} kg m2; an arrow has at least ten times more across"
    )]
    NotSlender {
        /// Transverse inertia, kg m2.
        transverse: f64,
        /// Axial inertia, kg m2.
        axial: f64,
    },
    /// The mass properties are impossible.
    #[error(transparent)]
    Mass(#[from] MassError),
}
