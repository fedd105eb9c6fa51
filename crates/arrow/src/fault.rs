use body::Across;
use units::{Angle, Length};

/// An angular fault with a clock position.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Lean {
    /// Its size.
    pub angle: Angle,
    /// Where it leans: the clock position of the high side of a face, or the
    /// side toward which the part's free end leans.
    pub clock: Angle,
}

/// A sideways offset with a clock position.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shift {
    /// Its size.
    pub offset: Length,
    /// Toward which clock position.
    pub clock: Angle,
}

/// A bent shaft of constant curvature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// Sideways bow in the middle of `span`: half the total indicator reading.
    pub bow: Length,
    /// The span over which the bow was read.
    pub span: Length,
    /// The clock position toward which the middle bows out.
    pub clock: Angle,
}

/// What is wrong with one vane (the one at clock position zero).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct VaneFault {
    /// Its angle beyond that of the others.
    pub angle: Angle,
    /// How far round the shaft it sits from its place, clockwise.
    pub around: Angle,
    /// How far forward it sits from its place.
    pub forward: Length,
}

/// Every fault of one arrow. The default is a perfect arrow.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Faults {
    /// The shaft's front end face out of square.
    pub point_end: Lean,
    /// The insert's (or outsert's) front face out of square.
    pub insert_face: Lean,
    /// The point canted in its seat, whatever the cause.
    pub point_cant: Lean,
    /// The point off centre in its seat.
    pub point_offset: Shift,
    /// The shaft's rear end face out of square.
    pub nock_end: Lean,
    /// The nock canted in its seat, whatever the cause.
    pub nock_cant: Lean,
    /// The nock off centre in its seat: the play that its lean leaves.
    pub nock_offset: Shift,
    /// The groove off centre in the nock.
    pub groove_offset: Shift,
    /// The shaft's mass off its centre line (uneven wall).
    pub wall_offset: Shift,
    /// The shaft bent.
    pub bend: Option<Bend>,
    /// One vane out of place.
    pub vane: VaneFault,
}

impl Lean {
    /// As a tilt vector across the shaft, rad.
    pub fn across(self) -> Across {
        Across::polar(self.angle.si(), self.clock.si())
    }
}

impl Shift {
    /// As an offset vector across the shaft, m.
    pub fn across(self) -> Across {
        Across::polar(self.offset.si(), self.clock.si())
    }
}
