//! What was found for builds held side by side. SI; left and up positive.

use target::{Duel, Estimate, Impact, Odds};
use units::Length;

use crate::{Shots, Stated};

/// Most builds held side by side. Chosen: more do not fit a page, and every
/// two of them are compared.
pub const MOST_BUILDS: usize = 6;

/// Builds held side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct SideBySide {
    /// What was stated.
    pub stated: Stated,
    /// Each build, in the order asked.
    pub builds: Vec<BuildSide>,
    /// Every two builds, the earlier first.
    pub pairs: Vec<SidePair>,
}

/// One build.
#[derive(Debug, Clone, PartialEq)]
pub struct BuildSide {
    /// By distance.
    pub marks: Vec<SideMark>,
    /// How far the stated share of hits holds, if it was stated.
    pub reach: Option<Reach>,
}

/// Cross wind by which drift is told, m/s: 10 mph. Chosen: a wind that an archer knows by
/// feel. Not a slope in still air: with blades, whose wake leaves the vanes as the arrow
/// turns into the wind, drift does not grow in proportion.
pub const DRIFT_WIND: f64 = 4.4704;

/// One build at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct SideMark {
    /// Distance.
    pub distance: Length,
    /// Drift to the left in a cross wind of [`DRIFT_WIND`] from the right and no other, m.
    pub drift: f64,
    /// How far to the left the scenario's own wind carries the arrow, against still air, m.
    pub carried: f64,
    /// Hits when something is misjudged; empty if nothing was stated.
    pub misjudged: Vec<Misjudged>,
    /// The total of a round, on a face.
    pub round: Option<RoundScore>,
}

/// What is misjudged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Misjudgement {
    /// The distance is taken as greater than it is: the arrow hits high.
    TooFar,
    /// The distance is taken as less than it is: the arrow hits low.
    TooNear,
    /// A cross wind from the right goes unnoticed.
    WindFromRight,
    /// A cross wind from the left goes unnoticed.
    WindFromLeft,
}

/// A group whose aim was misjudged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Misjudged {
    /// What was misjudged.
    pub what: Misjudgement,
    /// How far the group is shifted, m.
    pub shift: Impact,
    /// Share of hits (of tens on a face).
    pub hit: Estimate,
    /// Mean score of an arrow, on a face.
    pub score: Option<Estimate>,
}

/// The total of a round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundScore {
    /// Number of arrows.
    pub arrows: u32,
    /// Expected total, with the interval of the flights.
    pub mean: Estimate,
    /// Standard deviation from round to round.
    pub deviation: f64,
    /// 19 rounds in 20 lie from here
    pub low: u32,
    /// to here.
    pub high: u32,
}

/// How far a share of hits holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Reach {
    /// Share of hits at every distance flown for this, rising.
    pub curve: Vec<ReachMark>,
    /// The farthest distance up to which it holds.
    pub farthest: Farthest,
    /// The same with distance and wind misjudged at once, the worst way; none
    /// if nothing was stated to be misjudged.
    pub misjudged: Option<Farthest>,
}

/// Share of hits at one distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReachMark {
    /// Distance.
    pub distance: Length,
    /// Share of hits.
    pub hit: Estimate,
    /// The same with distance and wind misjudged the worst way.
    pub misjudged: Option<Estimate>,
}

/// The farthest distance up to which a share of hits holds; looked for between
/// the nearest and the farthest distance asked, and nowhere else.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Farthest {
    /// Not even at the nearest distance.
    Nowhere,
    /// Up to here.
    To {
        /// The distance.
        distance: Length,
        /// Lower end of its 95 % interval; none when not even the nearest
        /// distance is sure.
        low: Option<Length>,
        /// Upper end; none when it may lie beyond the farthest distance.
        high: Option<Length>,
    },
    /// At every distance asked.
    Throughout {
        /// Whether the whole interval lies at or above the share throughout.
        sure: bool,
    },
}

/// Two builds held against each other.
#[derive(Debug, Clone, PartialEq)]
pub struct SidePair {
    /// Index of the one.
    pub one: usize,
    /// Index of the other.
    pub other: usize,
    /// By distance.
    pub marks: Vec<SidePairMark>,
}

/// Two builds at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct SidePairMark {
    /// Distance.
    pub distance: Length,
    /// The other less the one, measure by measure.
    pub differences: Vec<Difference>,
    /// Whether the archer would see the groups differ.
    pub archer: PowerRow,
    /// Whether a machine would.
    pub machine: PowerRow,
    /// The one against the other over a round each, on a face.
    pub duel: Option<Duel>,
}

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BuildMeasure {
    /// Drop below the line of departure.
    Drop,
    /// Drift for each m/s of cross wind.
    Drift,
    /// Time of flight.
    Time,
    /// Speed.
    Speed,
    /// Kinetic energy.
    Energy,
    /// Momentum.
    Momentum,
    /// Radius that holds half of the arrows.
    R50,
    /// Share of hits (of tens on a face).
    Hit,
    /// Mean score of an arrow.
    Score,
}

/// A difference between two builds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// Of what.
    pub of: BuildMeasure,
    /// The other less the one. For groups the interval is the 95 % interval of
    /// chance; the flight of the fault-free arrow has none of its own, so there
    /// it is the band for what is not known.
    pub value: Estimate,
}

impl Difference {
    /// Whether it may be called a difference: its interval excludes zero.
    pub fn shown(&self) -> bool {
        self.value.low > 0.0 || self.value.high < 0.0
    }
}

/// Whether two groups would be told apart.
#[derive(Debug, Clone, PartialEq)]
pub struct PowerRow {
    /// Sigma of the one over that of the other; none when the other's group is
    /// a point and the one's is not.
    pub ratio: Option<Estimate>,
    /// Shots with each build until the stated test tells them apart.
    pub shots: Shots,
    /// How often a comparison misleads after the shots people usually fire.
    pub after: Vec<After>,
}

/// How often a comparison misleads after some shots with each build.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct After {
    /// Shots with each build.
    pub shots: u32,
    /// For circular normal groups, from the F distribution.
    pub odds: Odds,
    /// Chance that the smaller group is the wrong build's, from groups picked
    /// among the impacts flown, whatever their shape.
    pub picked_wrong: f64,
    /// Chance that the test of such groups shows nothing.
    pub picked_missed: f64,
}
