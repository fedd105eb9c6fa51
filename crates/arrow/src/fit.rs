use body::Across;
use units::{Angle, Length};

use crate::{Lean, Parts};

/// How freely a part can lean in the bore (or on the spigot) that holds it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Fit {
    clearance: f64,
    engaged: f64,
}

impl Fit {
    pub(crate) fn new(clearance: Length, engaged: Length) -> Self {
        Self { clearance: clearance.si(), engaged: engaged.si() }
    }

    /// Largest lean, rad: diametral clearance over engaged length. A part
    /// that is not engaged at all stands on its face alone.
    pub(crate) fn limit(self) -> f64 {
        if self.engaged > 0.0 { self.clearance / self.engaged } else { f64::INFINITY }
    }

    /// The lean of the part's free end when it seats on a face whose high
    /// side is `face`: away from the high side, as far as the fit allows.
    pub(crate) fn follow(self, face: Lean) -> Across {
        -face.across().limited(self.limit())
    }
}

/// The seats of an arrow, each with the fit that guides the part on it.
pub(crate) struct Seats {
    /// What seats on the shaft's front end: insert, outsert or the point.
    pub(crate) front: Fit,
    /// The point on the insert or outsert; none if it seats on the shaft.
    pub(crate) point: Option<Fit>,
    /// The nock on the shaft's rear end.
    pub(crate) nock: Fit,
}

impl Seats {
    pub(crate) fn new(parts: &Parts) -> Self {
        let shank = Fit::new(parts.point.clearance, parts.point.shank);
        let holder = match (&parts.insert, &parts.outsert) {
            (Some(insert), _) => Some(Fit::new(insert.clearance, insert.engaged)),
            (None, Some(outsert)) => Some(Fit::new(outsert.clearance, outsert.engaged)),
            (None, None) => None,
        };
        Self {
            front: holder.unwrap_or(shank),
            point: holder.map(|_| shank),
            nock: Fit::new(parts.nock.clearance, parts.nock.engaged),
        }
    }
}

/// How far the parts at the two ends of the shaft can lean in their seats;
/// none for a part without engagement, which nothing limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeanLimits {
    /// The insert, the outsert, or the point where there is neither.
    pub front: Option<Angle>,
    /// The nock.
    pub nock: Option<Angle>,
}

/// The limits that fits set to leaning: diametral clearance over engaged
/// length.
pub fn lean_limits(parts: &Parts) -> LeanLimits {
    let seats = Seats::new(parts);
    let of = |fit: Fit| Some(fit.limit()).filter(|limit| limit.is_finite()).map(Angle::from_si);
    LeanLimits { front: of(seats.front), nock: of(seats.nock) }
}
