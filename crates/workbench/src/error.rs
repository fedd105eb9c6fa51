use arrow::ArrowError;
use units::Role;

/// Why readings, a plan or a choice make no sense. Values are in SI.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum WorkbenchError {
    /// A value is outside the range in which the workbench makes sense.
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
    /// A gauge reading that the arrow room refuses.
    #[error(transparent)]
    Arrow(#[from] ArrowError),
    /// Readings at too few clock positions, or all in a row.
    #[error(
        "{count} readings do not tell which way the high side lies; read at three clock positions \
         or more, spread over the turn"
    )]
    Clocks {
        /// How many readings there are.
        count: usize,
    },
    /// The same for one station of a shaft.
    #[error(
        "at the station {} there are {count} readings that do not tell which way the shaft lies \
         off; read at one clock position along the whole shaft, at two opposite ones, or at three \
         or more",
        Role::Part.both(*station)
    )]
    StationClocks {
        /// Station, m.
        station: f64,
        /// How many readings there are.
        count: usize,
    },
    /// Too few stations for an axis.
    #[error("the shaft was read at {count} stations; {needed} or more make an axis")]
    FewStations {
        /// How many.
        count: usize,
        /// How many are needed.
        needed: usize,
    },
    /// Two run-out readings at one station.
    #[error("two run-out readings stand at the station {}", Role::Part.both(*station))]
    StationTwice {
        /// Station, m.
        station: f64,
    },
    /// Supports that do not hold a shaft.
    #[error(
        "the supports stand at {} and {}; they must lie on the shaft, {} long, the first nearer \
         the nock end",
        Role::Part.both(*rear), Role::Part.both(*front), Role::Part.both(*stock)
    )]
    Supports {
        /// Nearer the nock end, m.
        rear: f64,
        /// Nearer the point end, m.
        front: f64,
        /// Length of the shaft, m.
        stock: f64,
    },
    /// Two readings or three of a shaft, one without its high side.
    #[error(
        "this shaft has more than one reading, and one has no high side; without it, nobody knows \
         whether its bends add up or cancel"
    )]
    NoHighSide,
    /// A reading that no sound part gives.
    #[error("{}", crate::gauged::said(*of, *reading))]
    Unsound {
        /// What was read.
        of: crate::gauged::Gauged,
        /// What it reads, m.
        reading: f64,
    },
    /// A shaft of which nobody knows how long it is.
    #[error("this shaft has no length; note its \"stock\"")]
    NoLength,
    /// Readings that no shaft gives together.
    #[error("the readings of this shaft cannot be put together; are two of them the same?")]
    Unsolved,
    /// The shaft is shorter than the arrow wanted.
    #[error(
        "the shaft is {} long, {} too short for the {} wanted",
        Role::Part.both(*stock), Role::Part.both(wanted - stock), Role::Part.both(*wanted)
    )]
    TooShort {
        /// Length of the shaft, m.
        stock: f64,
        /// Length wanted, m.
        wanted: f64,
    },
    /// Nock and insert would meet inside the shaft.
    #[error(
        "nock and front end engage {} and {}, but the shaft would be only {} long",
        Role::Part.both(*nock), Role::Part.both(*front), Role::Part.both(*wanted)
    )]
    NoRoom {
        /// Engaged by the nock, m.
        nock: f64,
        /// Engaged at the front, m.
        front: f64,
        /// Length wanted, m.
        wanted: f64,
    },
    /// No place for the saw.
    #[error(
        "{} must come off, but one cut takes at least {}; the rear end may give {} and the front \
         end {}",
        Role::Part.both(*waste), Role::Part.both(*least), Role::Part.both(*most_rear),
        Role::Part.both(*most_front)
    )]
    NoCut {
        /// What must come off, m.
        waste: f64,
        /// The least a cut takes off, m.
        least: f64,
        /// Most to come off the rear end, m.
        most_rear: f64,
        /// Most to come off the front end, m.
        most_front: f64,
    },
    /// More arrows asked for than there are, or none.
    #[error("{wanted} arrows are asked for out of {of}; it must be 1 to {of}")]
    Size {
        /// Asked for.
        wanted: usize,
        /// There are.
        of: usize,
    },
    /// More arrows to sort than are sorted at once.
    #[error("{count} arrows are to be sorted; at most {most} are at once: sort them in batches")]
    Many {
        /// There are.
        count: usize,
        /// The limit.
        most: usize,
    },
    /// An impact or a value that is not a finite number, or absurdly large.
    #[error("arrow {index} (counted from 1) has no usable place: {value}")]
    NotAPlace {
        /// Which arrow, from 1.
        index: usize,
        /// The value.
        value: f64,
    },
    /// Shots at too few nock positions to fit a turn.
    #[error(
        "{shots} shots at {positions} nock positions; a fit needs shots at three or more positions \
         spread over the turn, and one shot more than positions"
    )]
    FewShots {
        /// How many shots.
        shots: usize,
        /// At how many nock positions.
        positions: usize,
    },
}

/// Refuses a value outside its range, and anything that is not a number.
pub(crate) fn range(
    what: &'static str,
    role: Role,
    value: f64,
    low: f64,
    high: f64,
) -> Result<f64, WorkbenchError> {
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(WorkbenchError::OutOfRange { what, role, value, low, high })
    }
}
