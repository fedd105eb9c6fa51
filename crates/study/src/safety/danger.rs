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
    /// The shaft is weaker than those that are shot from such bows, not so that it must break.
    Weak {
        /// The push's peak over what buckles the shaft.
        times: f64,
        /// Where the usual ones end.
        usual: f64,
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
    /// Too few arrows hit the zone for a shot at an animal, or may.
    Far(Far),
}

/// From where on too few arrows hit, or may; at least one of the two is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Far {
    /// The nearest distance asked about at which that is so at the usual values.
    pub surely: Option<FarAt>,
    /// A nearer one at which it is so where what is poorly known goes against the archer.
    pub maybe: Option<FarAt>,
    /// The farthest distance asked about up to which enough hit also then, m; none where
    /// that is at no distance.
    pub holds: Option<f64>,
    /// The least share that passes.
    pub least: f64,
    /// What says it.
    pub by: FarBy,
}

/// What says how far is too far, the least sure first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FarBy {
    /// Aim alone, before an arrow is flown.
    Aim,
    /// Groups at the usual values of what is poorly known.
    Usual,
    /// Groups over all that may be.
    All,
}

/// A distance at which too few arrows hit, or may.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FarAt {
    /// It, m.
    pub distance: f64,
    /// The share that hits there at the usual values.
    pub share: f64,
    /// The lower end of its band.
    pub low: f64,
}

impl Far {
    /// What is due over rising distances, each with its share; none where all pass.
    pub(super) fn of(all: &[FarAt], least: f64, by: FarBy) -> Option<Self> {
        let surely = all.iter().position(|at| at.share < least);
        let first = all.iter().position(|at| at.share.min(at.low) < least)?;
        Some(Self {
            surely: surely.map(|at| all[at]),
            maybe: (surely != Some(first)).then(|| all[first]),
            holds: first.checked_sub(1).map(|at| all[at].distance),
            least,
            by,
        })
    }

    /// Both at once: of each the nearest.
    fn with(self, other: Self) -> Self {
        let nearer = |one: Option<FarAt>, other: Option<FarAt>| {
            one.into_iter().chain(other).min_by(|a, b| a.distance.total_cmp(&b.distance))
        };
        let surely = nearer(self.surely, other.surely);
        let beyond = |at: &FarAt| surely.is_none_or(|sure| at.distance < sure.distance);
        Self {
            surely,
            maybe: nearer(self.maybe, other.maybe).filter(beyond),
            holds: self.holds.zip(other.holds).map(|(one, other)| one.min(other)),
            least: self.least,
            by: self.by.min(other.by),
        }
    }
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

    /// The worse of two of one kind.
    pub(super) fn worse(self, other: Self) -> Self {
        match (self, other) {
            (Self::Far(one), Self::Far(other)) => Self::Far(one.with(other)),
            _ if other.severity() > self.severity() => other,
            _ => self,
        }
    }

    /// How far beyond what passes: the worst of several is told.
    fn severity(&self) -> f64 {
        match *self {
            Self::Light { mass_per_force, least } => least / mass_per_force,
            Self::Buckles { times, most } | Self::Weak { times, usual: most } => times / most,
            Self::Bends { strain, most, .. } => strain / most,
            Self::NearRest { ahead, least } => least - ahead,
            Self::ShortSeat { engaged, least, .. } => least - engaged,
            Self::OverStored { leaves, stored } => leaves / stored,
            Self::BareBlades | Self::Far(_) => 1.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(distance: f64, share: f64, low: f64) -> FarAt {
        FarAt { distance, share, low }
    }

    /// 98 % at 30 yd was passed over though its band went down to 73 %.
    #[test]
    fn regress_the_low_end_of_the_band_counts() {
        let all = [at(20.0, 1.0, 0.97), at(30.0, 0.98, 0.73), at(40.0, 0.88, 0.6)];
        let far = Far::of(&all, 0.9, FarBy::All).expect("told");
        assert_eq!((far.surely, far.maybe, far.holds), (Some(all[2]), Some(all[1]), Some(20.0)));
        let far = Far::of(&all[..2], 0.9, FarBy::All).expect("told");
        assert_eq!((far.surely, far.maybe, far.holds), (None, Some(all[1]), Some(20.0)));
        assert_eq!(Far::of(&all[1..], 0.9, FarBy::All).and_then(|far| far.holds), None);
        assert_eq!(Far::of(&all[..1], 0.9, FarBy::All), None);
        // A band that lies above its value loosens nothing.
        let far = Far::of(&[at(20.0, 0.8, 0.95)], 0.9, FarBy::All).expect("told");
        assert!(far.surely.is_some() && far.maybe.is_none());
    }

    #[test]
    fn law_of_two_builds_the_nearest_is_told() {
        let one =
            Far::of(&[at(20.0, 1.0, 0.97), at(30.0, 0.98, 0.73)], 0.9, FarBy::All).expect("told");
        let other =
            Far::of(&[at(20.0, 0.7, 0.5), at(30.0, 0.6, 0.4)], 0.9, FarBy::All).expect("told");
        for far in [one.with(other), other.with(one)] {
            assert_eq!((far.surely, far.maybe, far.holds), (other.surely, None, None));
        }
    }
}
