use arrow::Built;
use launch::Departure;
use target::{Estimate, Group, Impact};
use units::{Dimension, Length};

use crate::{Bench, Doubt, Matters, Owner, Plan, Sides, TargetChoice, Tuned};

/// The fault-free, formless arrow at one distance, SI, in the line frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nominal {
    /// Time of flight, s.
    pub time: f64,
    /// Speed, m/s.
    pub speed: f64,
    /// Kinetic energy, J.
    pub energy: f64,
    /// Momentum, kg m/s.
    pub momentum: f64,
    /// Fall below the line of departure, m, positive downward.
    pub drop: f64,
    /// Height above the line of sight as zeroed, m.
    pub above_sight: f64,
    /// Sideways place, m, left positive.
    pub left: f64,
    /// Descent: pitch of the velocity, rad, up positive.
    pub path_pitch: f64,
    /// Spin, rad/s.
    pub spin: f64,
    /// Drop with every doubt at the end that lowers it, and that raises it, m
    /// (root sum of squares of one-at-a-time changes).
    pub drop_band: (f64, f64),
}

/// The groups at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkAnswer {
    /// Distance.
    pub distance: Length,
    /// The nominal arrow.
    pub nominal: Nominal,
    /// Archer and arrows together.
    pub full: Sampled,
    /// Faulty arrows from a machine without form error.
    pub machine: Sampled,
    /// The same archer with perfect arrows.
    pub form: Sampled,
    /// Range of the machine group's R50 over the stated ranges of the
    /// doubts, m.
    pub machine_band: (f64, f64),
    /// Chance of a hit in the zone (or of a ten, for a face), archer and
    /// arrows together.
    pub hit: Estimate,
    /// Expected score per arrow on a face; none for a zone.
    pub score: Option<Estimate>,
}

/// A group with a sample of its impacts for drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Sampled {
    /// Statistics.
    pub stats: Group,
    /// The first impacts, at most 300.
    pub sample: Vec<Impact>,
}

/// The machine group with only the faults of one owner, per distance.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// Whose faults.
    pub owner: Owner,
    /// R50 at each distance, m.
    pub r50: Vec<Estimate>,
}

/// All about one build.
#[derive(Debug, Clone, PartialEq)]
pub struct BuildAnswer {
    /// Name.
    pub name: String,
    /// The nominal arrow.
    pub built: Built,
    /// The nominal arrow's departure.
    pub departure: Departure,
    /// Arrow mass over peak draw force, kg/N.
    pub mass_per_force: f64,
    /// Launch angle above the line of sight, rad.
    pub launch_pitch: f64,
    /// Flights flown per group.
    pub flights: usize,
    /// Steps of each of those flights to the farthest distance.
    pub steps: u32,
    /// The distances.
    pub marks: Vec<MarkAnswer>,
    /// Machine groups by owner of the faults.
    pub causes: Vec<Cause>,
    /// The doubts that the bands rest on.
    pub doubts: Vec<Doubt>,
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
    /// The verdict.
    pub seen: Seen,
}

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

/// What the trade says, and what was computed.
#[derive(Debug, Clone, PartialEq)]
pub struct TradeClaim {
    /// Which claim.
    pub claim: EndsView,
    /// What the computation says of it.
    pub finding: Finding,
    /// The two numbers that decide it, SI; see [`EndsView`].
    pub numbers: (f64, f64),
}

/// What the computation says of a claim.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finding {
    /// It agrees.
    Agrees,
    /// In direction, not in degree: a machine would notice far sooner than the
    /// archer, but not within `ARCHER_SHOTS`.
    InDirection,
    /// It disagrees.
    Disagrees,
}

/// What the drawn faults of one end do to an arrow before it is shot, each the
/// median over the arrows, and what the fit at that end decides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lever {
    /// Groove, where the string pushes, off the principal axis, m.
    pub groove_offset: f64,
    /// Balance point off the shaft's line, m.
    pub balance_offset: f64,
    /// Rear shaft tilted to the principal axis, rad.
    pub shaft_tilt: f64,
    /// Point tilted to the principal axis, rad.
    pub point_tilt: f64,
    /// How far the fit lets the part in that end of the shaft lean, rad; none
    /// where nothing limits it.
    pub lean_limit: Option<f64>,
    /// Range of R50 from a machine with this end alone at fault, over the
    /// stated ranges of the fits at that end, at the farthest distance, m;
    /// none where no fit is in doubt.
    pub fit_band: Option<(f64, f64)>,
}

/// Two builds whose arrows have no faults but those of their ends, at the
/// farthest distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndsAlone {
    /// R50 of the base from a machine, m.
    pub base_r50: Estimate,
    /// R50 of the other from a machine, m.
    pub other_r50: Estimate,
    /// Sigma of the base over sigma of the other, from a machine; none when
    /// only the other's group is a point.
    pub machine_ratio: Option<Estimate>,
    /// Shots with each build until a machine can tell.
    pub machine_shots: Shots,
    /// Shots with each build until the archer can tell, the variance of form
    /// added to that of the ends.
    pub archer_shots: Shots,
    /// The verdict.
    pub seen: Seen,
}

/// What the ends do on their own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ends {
    /// The front end of the base build.
    pub front: Lever,
    /// Its nock end.
    pub nock: Lever,
    /// The base against the first other build; none where there is no other.
    pub alone: Option<EndsAlone>,
}

/// The trade's view of square ends (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EndsView {
    /// A saw cut that looks true still shows on a gauge. Numbers: median
    /// run-out of the sawn face, m; the smallest step of a dial indicator, m.
    LooksTrue,
    /// Front-end errors weigh more than nock-end ones. Numbers: R50 from the
    /// front end alone and from the nock end alone at the farthest distance,
    /// m.
    FrontOutweighsNock,
    /// A machine would notice where a shooter would not. Numbers: shots each
    /// way for the machine and for the archer at the farthest distance.
    MachineNotShooter,
    /// The same on arrows without other faults than those of their ends.
    MachineNotShooterEndsAlone,
}

/// One value of a sweep.
#[derive(Debug, Clone, PartialEq)]
pub struct SweepPoint {
    /// The value as written.
    pub label: String,
    /// The value, SI.
    pub value: f64,
    /// Everything computed for it.
    pub build: BuildAnswer,
}

/// One swept variable for one build.
#[derive(Debug, Clone, PartialEq)]
pub struct SweepAnswer {
    /// Dotted key.
    pub key: String,
    /// What the swept value measures.
    pub dimension: Dimension,
    /// Name of the build.
    pub build: String,
    /// The points.
    pub points: Vec<SweepPoint>,
}

/// Builds compared.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// The builds, in the order asked.
    pub builds: Vec<BuildAnswer>,
    /// Each further build against the first.
    pub pairs: Vec<Pair>,
    /// The builds held side by side.
    pub sides: Sides,
}

/// Builds compared for what their square ends do.
#[derive(Debug, Clone, PartialEq)]
pub struct SquareEnds {
    /// The comparison.
    pub compared: Compared,
    /// The trade's claims.
    pub trade: Vec<TradeClaim>,
    /// What the ends do on their own.
    pub ends: Ends,
}

/// One variable swept.
#[derive(Debug, Clone, PartialEq)]
pub struct Swept {
    /// The builds as they stand, in the order asked.
    pub builds: Vec<BuildAnswer>,
    /// Each further build against the first.
    pub pairs: Vec<Pair>,
    /// The sweep, one entry for each build.
    pub sweeps: Vec<SweepAnswer>,
}

/// What was found, by the question that was asked.
#[derive(Debug, Clone, PartialEq)]
pub enum Found {
    /// How builds compare.
    Compare(Compared),
    /// What square ends do.
    Ends(Box<SquareEnds>),
    /// What one variable does.
    Sweep(Swept),
    /// What would tune the bow.
    Tune(Tuned),
    /// What makes the spread.
    Matters(Matters),
    /// What bench steps bring.
    Worth(Bench),
}

/// An answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// Title.
    pub title: String,
    /// Seed.
    pub seed: u64,
    /// What was shot at.
    pub target: TargetChoice,
    /// Six-degree-of-freedom flights flown in all.
    pub flown: usize,
    /// What was found.
    pub found: Found,
}

impl Answer {
    /// What was found for a plan.
    pub(crate) fn new(plan: &Plan, flown: usize, found: Found) -> Self {
        Self { title: plan.title.clone(), seed: plan.seed, target: plan.target, flown, found }
    }

    /// The comparison, where builds were compared.
    pub fn compared(&self) -> Option<&Compared> {
        match &self.found {
            Found::Compare(compared) => Some(compared),
            Found::Ends(ends) => Some(&ends.compared),
            _ => None,
        }
    }

    /// The same, to be changed.
    pub fn compared_mut(&mut self) -> Option<&mut Compared> {
        match &mut self.found {
            Found::Compare(compared) => Some(compared),
            Found::Ends(ends) => Some(&mut ends.compared),
            _ => None,
        }
    }
}
