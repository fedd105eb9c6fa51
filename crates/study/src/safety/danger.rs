//! What can be told, with its numbers.

/// What could hurt somebody, with the numbers that say so, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Danger {
    /// Too little mass for the draw weight.
    Light {
        /// Arrow mass over draw weight, kg/N.
        mass_per_force: f64,
        /// The least for this kind of bow, kg/N.
        least: f64,
    },
    /// The push would buckle the shaft, were it to last.
    Buckles {
        /// Its peak over what buckles the shaft.
        times: f64,
        /// The most that passes.
        most: f64,
    },
    /// The push bends the shaft too far.
    Bends {
        /// Strain of the shaft's surface.
        strain: f64,
        /// The most that passes.
        most: f64,
        /// Farthest off the line between its ends, m.
        bow: f64,
    },
    /// The shaft ends near the rest at full draw.
    NearRest {
        /// Its end ahead of the rest, m.
        ahead: f64,
        /// The least that passes, m.
        least: f64,
    },
    /// What holds the point does not reach far enough into or over the shaft.
    ShortSeat {
        /// What holds it.
        seat: Seat,
        /// How far it reaches, m.
        engaged: f64,
        /// The least that passes, m.
        least: f64,
    },
    /// More energy leaves than the bow stores.
    OverStored {
        /// What leaves, J.
        leaves: f64,
        /// What is stored, J.
        stored: f64,
    },
    /// A question asks for a bare shaft with fixed blades, which turns over in flight.
    BareBlades,
    /// Too few arrows hit the zone for a shot at an animal.
    Far {
        /// The nearest distance asked about at which that is so, m.
        from: f64,
        /// The share that hits there.
        share: f64,
        /// The least that passes.
        least: f64,
    },
}

/// What holds the point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seat {
    /// An insert in the shaft.
    Insert,
    /// An outsert over it.
    Outsert,
    /// The point's own shank in it.
    Shank,
}

/// A danger, at its worst, and the arrows it holds for.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// The danger.
    pub danger: Danger,
    /// The builds, or values of a sweep, that it holds for; none where it holds for all.
    pub of: Vec<String>,
}

impl Danger {
    /// Whether both are of one kind.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        std::mem::discriminant(self) == std::mem::discriminant(other)
    }

    /// How far beyond what passes: the worst of several is told.
    pub(super) fn severity(&self) -> f64 {
        match *self {
            Self::Light { mass_per_force, least } => least / mass_per_force,
            Self::Buckles { times, most } => times / most,
            Self::Bends { strain, most, .. } => strain / most,
            Self::NearRest { ahead, least } => least - ahead,
            Self::ShortSeat { engaged, least, .. } => least - engaged,
            Self::OverStored { leaves, stored } => leaves / stored,
            Self::BareBlades => 1.0,
            Self::Far { from, .. } => -from,
        }
    }
}
