//! Who would see two groups differ.

use target::{Estimate, Impact, MOST_FOR_CENTRES, PowerTest};
use units::Length;

/// A build against the base.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// Index of the base.
    pub base: usize,
    /// Index of the other.
    pub other: usize,
    /// By distance.
    pub marks: Vec<PairMark>,
}

/// A build against the base at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct PairMark {
    /// Distance.
    pub distance: Length,
    /// Sigma of the base over sigma of the other, archer and arrows; none
    /// when the other's group is a point and the base's is not.
    pub full_ratio: Option<Estimate>,
    /// The same from a machine.
    pub machine_ratio: Option<Estimate>,
    /// Gain in R50, base minus other, archer and arrows, m.
    pub gain: Estimate,
    /// Shots with each build until the archer can tell (80 % power, two-sided
    /// 5 %); 2, the fewest that show any spread, when one group is a point.
    pub archer_shots: Shots,
    /// The same for a machine.
    pub machine_shots: Shots,
    /// The verdict on the width of the groups.
    pub seen: Seen,
    /// Where it lands with the base's sight setting; none where it does not get there.
    pub one_sight: Option<OneSight>,
}

/// Where a build's group lands with another's sight setting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneSight {
    /// Its centre from the other's, m.
    pub shift: Impact,
    /// The squared distance of the centres in units of both groups' covariance; without
    /// end where neither spreads.
    pub apart: f64,
    /// Shots with each build until the archer can tell the centres apart, by the test
    /// that judges groups that were shot (same confidence and power as of widths).
    pub shots: Shots,
}

impl OneSight {
    /// Whether the archer would see it, within as many shots as count for widths.
    pub fn seen(&self) -> bool {
        is_few(self.shots)
    }

    /// Of centres so far apart.
    pub(crate) fn of(shift: Impact, apart: f64, power_test: &PowerTest) -> Self {
        // Points apart are told by the fewest shots that show any spread.
        let shots = if apart.is_finite() {
            let each = power_test.shots_for_centres(apart);
            each.map_or(Shots::MoreThan(MOST_FOR_CENTRES), Shots::Each)
        } else {
            Shots::Each(2)
        };
        Self { shift, apart, shots }
    }

    /// The same with the distance of many flights, carried to a point by its change in
    /// few flights with the same chances.
    pub(crate) fn carried(self, main: &Self, centre: &Self, power_test: &PowerTest) -> Self {
        let by = self.apart / centre.apart;
        if by.is_finite() && main.apart.is_finite() {
            Self::of(self.shift, main.apart * by, power_test)
        } else {
            self
        }
    }
}

/// How many shots with each build until a difference in group size shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shots {
    /// This many with each build.
    Each(u32),
    /// More than the search limit.
    MoreThan(u32),
}

/// Who would see a difference.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// The archer, within `ARCHER_SHOTS` shots with each build.
    Archer,
    /// Only a machine, within that many shots.
    MachineOnly,
    /// Neither.
    Nobody,
}

/// Shots with each build that an archer would spend on a comparison. Chosen:
/// three dozen.
pub const ARCHER_SHOTS: u32 = 36;
/// Where the search for enough shots ends. Chosen: nobody shoots more with
/// each build.
pub const MOST_SHOTS: u32 = 10_000;

/// Shots until two groups with this ratio of sigmas are told apart; none
/// stands for a ratio to a point, which is beyond any number.
pub(crate) fn shots(ratio: Option<Estimate>, power_test: &PowerTest) -> Shots {
    let ratio = ratio.map_or(f64::INFINITY, |ratio| ratio.value);
    power_test.shots(ratio, MOST_SHOTS).map_or(Shots::MoreThan(MOST_SHOTS), Shots::Each)
}

/// Whether an archer would spend so many shots on a comparison.
fn is_few(shots: Shots) -> bool {
    matches!(shots, Shots::Each(count) if count <= ARCHER_SHOTS)
}

pub(crate) fn seen(archer: Shots, machine: Shots) -> Seen {
    if is_few(archer) {
        Seen::Archer
    } else if is_few(machine) {
        Seen::MachineOnly
    } else {
        Seen::Nobody
    }
}

/// A ratio of many flights, carried to a point by its change in few flights
/// with the same chances; its interval keeps its width as a ratio. None stands
/// for a ratio to a point.
pub(crate) fn carried(
    main: Option<Estimate>,
    centre: Option<Estimate>,
    at: Option<Estimate>,
) -> Option<Estimate> {
    let (Some(main), Some(centre), Some(at)) = (main, centre, at) else { return at };
    if !(centre.value > 0.0 && at.value > 0.0) {
        return Some(at);
    }
    let by = at.value / centre.value;
    Some(Estimate { value: main.value * by, low: main.low * by, high: main.high * by })
}
