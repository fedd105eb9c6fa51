use body::Across;

use crate::{ArrowError, Line};

/// Which part a piece of mass is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceOf {
    /// The shaft.
    Shaft,
    /// The insert or outsert.
    Holder,
    /// The collar.
    Collar,
    /// The point.
    Point,
    /// The nock.
    Nock,
    /// All vanes together.
    Vanes,
    /// The wrap.
    Wrap,
}

/// One part as a mass element, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Which part.
    pub of: PieceOf,
    /// Mass, kg; zero for a part that is absent.
    pub mass: f64,
    /// Station of its own balance, m from the bottom of the nock groove.
    pub station: f64,
    /// Its own inertia across the shaft about its own balance, kg m2.
    pub transverse: f64,
    /// Its own inertia about the shaft, kg m2.
    pub axial: f64,
    /// Its balance sideways from the reference line, m.
    pub offset: Across,
    /// Its own product of inertia about its own balance, the sum of mass times
    /// distance forward times distance sideways, kg m2. A part that leans by t
    /// has t times (transverse - axial).
    pub product: Across,
}

impl Piece {
    /// A part of even mass between two stations, round the shaft's axis, with
    /// this mean square distance from the axis (m2).
    pub(crate) fn rod(of: PieceOf, mass: f64, ends: (f64, f64), radius_square: f64) -> Self {
        let length = ends.1 - ends.0;
        Self {
            of,
            mass,
            station: f64::midpoint(ends.0, ends.1),
            transverse: mass * (length * length / 12.0 + radius_square / 2.0),
            axial: mass * radius_square,
            offset: Across::ZERO,
            product: Across::ZERO,
        }
    }

    /// A part that is not there.
    pub(crate) fn absent(of: PieceOf) -> Self {
        Self::rod(of, 0.0, (0.0, 0.0), 0.0)
    }

    /// The part carried along a line.
    pub(crate) fn on(mut self, line: &Line) -> Self {
        self.offset = self.offset + line.at(self.station);
        self.product = self.product + line.slope * (self.transverse - self.axial);
        self
    }
}

/// The sum of all pieces, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Whole {
    /// Mass, kg.
    pub mass: f64,
    /// Inertia across the shaft about the balance point, kg m2.
    pub transverse: f64,
    /// Inertia about the shaft, kg m2.
    pub axial: f64,
    /// The principal axis; its station is the balance point.
    pub principal: Line,
}

/// How many times the axial inertia the transverse one must be.
///
/// Chosen: arrows have thousands. Below ten a thing is no arrow, and the
/// principal axis is too sensitive for sums of small tilts.
pub(crate) const SLENDER: f64 = 10.0;

impl Whole {
    /// Adds the pieces up.
    ///
    /// The axis is tilted by P / (It - Ia), the small-angle solution for the
    /// direction in which the products of inertia vanish.
    ///
    /// # Errors
    /// [`ArrowError::NotSlender`] if the principal axis is not well defined.
    pub fn of(pieces: &[Piece]) -> Result<Self, ArrowError> {
        let mass: f64 = pieces.iter().map(|piece| piece.mass).sum();
        let mut station = 0.0;
        let mut offset = Across::ZERO;
        for piece in pieces {
            station += piece.mass * piece.station;
            offset = offset + piece.offset * piece.mass;
        }
        station /= mass;
        offset = offset * (1.0 / mass);
        let (mut transverse, mut axial) = (0.0, 0.0);
        let mut product = Across::ZERO;
        for piece in pieces {
            let ahead = piece.station - station;
            transverse += piece.transverse + piece.mass * ahead * ahead;
            axial += piece.axial;
            product = product + piece.product + (piece.offset - offset) * (piece.mass * ahead);
        }
        // Written so that a NaN is refused too.
        if transverse > SLENDER * axial {
            let slope = product * (1.0 / (transverse - axial));
            Ok(Self { mass, transverse, axial, principal: Line { station, offset, slope } })
        } else {
            Err(ArrowError::NotSlender { transverse, axial })
        }
    }
}
