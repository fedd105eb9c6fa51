use std::fmt;

use arrow::ArrowError;
use flight::{FlightError, Shortfall};
use launch::LaunchError;
use sight::SightError;
use solve::SolveError;
use target::TargetError;
use units::Role;
use workbench::WorkbenchError;

use crate::{Refused, ShotFault, Sought};

/// Which arrow of a run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Who {
    /// Name of the build; empty when there is only one.
    pub build: String,
    /// Index of the flight in its group, from zero; none for the nominal
    /// arrow.
    pub flight: Option<usize>,
}

impl fmt::Display for Who {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.build.is_empty() {
            write!(f, "build '{}', ", self.build)?;
        }
        match self.flight {
            Some(index) => write!(f, "flight {index}"),
            None => f.write_str("the arrow without drawn faults"),
        }
    }
}

/// Why a question has no answer. Lengths are in m.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum StudyError {
    /// The system does not give that many threads.
    #[error("{threads} threads cannot be started here")]
    Threads {
        /// Threads asked for.
        threads: usize,
    },
    /// There is nothing to shoot.
    #[error("no build is given; at least one is needed")]
    NoBuild,
    /// A measured thing that the scenario's own values cannot give at all.
    #[error(
        "'{name}' was measured, but with the scenario's own values the arrow does not get there"
    )]
    Unread {
        /// Its name.
        name: String,
    },
    /// There is nowhere to shoot.
    #[error("no distance is given; at least one is needed")]
    NoDistance,
    /// A distance is not finite, not above zero, or not above the one before.
    #[error("distance {index} is {value} m; distances must be finite, above zero and rising")]
    Distance {
        /// Its index, from zero.
        index: usize,
        /// The distance.
        value: f64,
    },
    /// The zero distance of the sight is not a finite number above zero.
    #[error("the sight is zeroed at {value} m; it must be a finite distance above zero")]
    Zero {
        /// The distance.
        value: f64,
    },
    /// A sight mark too near or too far.
    #[error(
        "a sight mark at {}; marks lie between {} and {}",
        Role::Range.both(*value), Role::Range.both(*nearest), Role::Range.both(*farthest)
    )]
    MarkDistance {
        /// The distance.
        value: f64,
        /// The nearest.
        nearest: f64,
        /// The farthest.
        farthest: f64,
    },
    /// The sight cannot be set.
    #[error("{0}")]
    Sight(#[from] SightError),
    /// Too few flights for intervals.
    #[error("{flights} flights asked for; at least {least} are needed for intervals")]
    FewFlights {
        /// Flights asked for.
        flights: usize,
        /// The least.
        least: usize,
    },
    /// More builds than can be held side by side.
    #[error("{builds} builds are to be compared; at most {most} can be")]
    ManyBuilds {
        /// How many builds.
        builds: usize,
        /// The most.
        most: usize,
    },
    /// An error of the distance that the nearest one does not bear.
    #[error(
        "the distance is to be misjudged by {}; it must be above zero and below half the nearest \
         distance, {}",
        Role::Range.both(*error), Role::Range.both(*nearest)
    )]
    RangeError {
        /// The error.
        error: f64,
        /// The nearest distance.
        nearest: f64,
    },
    /// More poorly known values than the outer sample has dimensions.
    #[error("{values} values are poorly known; at most {most} can be drawn together")]
    ManyUnknown {
        /// How many.
        values: usize,
        /// How many can be.
        most: usize,
    },
    /// Correlations that no values can have all at once.
    #[error(
        "the {pairs} correlations between poorly known values cannot all hold at once; write \
         weaker ones"
    )]
    Correlations {
        /// How many pairs are correlated.
        pairs: usize,
    },
    /// The flights are to be shared among no arrows.
    #[error("the flights are shared among 0 arrows; at least 1 is needed")]
    NoArrow,
    /// A stopping rule that can never be met.
    #[error("the stopping rule asks for R90 within {share} of itself; it must be above zero")]
    StopShare {
        /// The share.
        share: f64,
    },
    /// A sweep without values, or with a label missing.
    #[error("the sweep of {key} has {values} values and {labels} labels; it needs one of each")]
    Sweep {
        /// Dotted key.
        key: String,
        /// How many values.
        values: usize,
        /// How many labels.
        labels: usize,
    },
    /// A distance so short that the point is beyond it before it leaves the
    /// string.
    #[error(
        "{who}: at {} the point, {} ahead of the balance point, is past it",
        Role::Part.both(*distance), Role::Part.both(*front)
    )]
    Near {
        /// Which arrow.
        who: Who,
        /// The distance.
        distance: f64,
        /// Balance point to tip.
        front: f64,
    },
    /// No launch angle brings the arrow to the line of sight.
    #[error(
        "{who}: no launch angle up to {:.1} deg brings it to the line of sight at {}",
        steepest.to_degrees(), Role::Range.both(*zero)
    )]
    OutOfReach {
        /// Which arrow.
        who: Who,
        /// The zero distance.
        zero: f64,
        /// The steepest launch angle tried, rad.
        steepest: f64,
    },
    /// The launch angle could not be found.
    #[error("{who}: setting the sight failed: {source}")]
    SightIn {
        /// Which arrow.
        who: Who,
        /// Why.
        source: SolveError,
    },
    /// The arrow did not get as far as asked.
    #[error(
        "{who}: it flew {} of {}: {}",
        Role::Range.both(*reached), Role::Range.both(*distance), ended(*why)
    )]
    Short {
        /// Which arrow.
        who: Who,
        /// How far it came.
        reached: f64,
        /// The first distance not reached.
        distance: f64,
        /// Why it ended.
        why: Shortfall,
    },
    /// A drawn or swept value is not allowed.
    #[error("{who}: {source}")]
    Refused {
        /// Which arrow.
        who: Who,
        /// What was refused.
        source: Refused,
    },
    /// The arrow cannot be built.
    #[error("{who}: {source}")]
    Arrow {
        /// Which arrow.
        who: Who,
        /// Why.
        source: ArrowError,
    },
    /// The arrow cannot be shot.
    #[error("{who}: {source}")]
    Launch {
        /// Which arrow.
        who: Who,
        /// Why.
        source: LaunchError,
    },
    /// The flight cannot be computed.
    #[error("{who}: {source}")]
    Flight {
        /// Which arrow.
        who: Who,
        /// Why.
        source: FlightError,
    },
    /// The target or its statistics were refused.
    #[error("{0}")]
    Target(#[from] TargetError),
    /// A tuning question about an arrow that is bare already.
    #[error("build '{build}' has no vanes, so no bare shaft can be held against it")]
    NoVanes {
        /// The build.
        build: String,
    },
    /// A measured shift that says nothing.
    #[error(
        "the measured shift is {} long; it must be finite and at least {}",
        Role::Part.both(*size), Role::Part.both(*least)
    )]
    Unmeasured {
        /// Its size.
        size: f64,
        /// The least.
        least: f64,
    },
    /// Shots that cannot be.
    #[error("these shots cannot be:{}", listed(faults))]
    Impossible {
        /// Every one.
        faults: Vec<ShotFault>,
    },
    /// Fewer shots than values to fit, or nothing to fit.
    #[error("too few shots: {shots} given, {values} needed{}", scale_counts(*shots))]
    FewShots {
        /// Shots.
        shots: usize,
        /// Values, the zero of the sight's scale included.
        values: usize,
    },
    /// Values that these shots cannot tell, or not from each other.
    #[error("{}", not_told(*one, *other))]
    NotTold {
        /// One; none for the zero of the sight's scale.
        one: Option<Sought>,
        /// The other.
        other: Option<Sought>,
    },
    /// The search for the fit failed.
    #[error("the shots cannot be fitted: {0}")]
    Fit(SolveError),
    /// Shares of a spread that nothing makes.
    #[error("build '{build}' draws nothing by chance, so there is no spread to share out")]
    NoSpread {
        /// The build.
        build: String,
    },
    /// More drawn values than the low-discrepancy points have dimensions for.
    #[error("{draws} drawn values; shares can be worked out for at most {most}")]
    ManyDraws {
        /// How many are drawn.
        draws: usize,
        /// The most.
        most: usize,
    },
    /// Too few flights for shares with intervals.
    #[error("{flights} flights allowed; build '{build}' needs at least {least} for shares")]
    FewForShares {
        /// The build.
        build: String,
        /// Flights allowed.
        flights: usize,
        /// The least.
        least: usize,
    },
    /// Shares asked for within nothing.
    #[error("shares asked for within {share}; it must be above zero")]
    ShareWithin {
        /// The half-width.
        share: f64,
    },
    /// No bench step, or more than can be tried together.
    #[error("{steps} bench steps; between 1 and {most} can be weighed")]
    StepCount {
        /// How many.
        steps: usize,
        /// The most.
        most: usize,
    },
    /// A bench step whose time is not above zero.
    #[error("bench step '{step}' takes {seconds} s; it must be a finite time above zero")]
    StepTime {
        /// The step.
        step: String,
        /// Its time.
        seconds: f64,
    },
    /// A recipe that knows no bench steps.
    #[error("build '{build}' does not say what the bench steps change")]
    NoSteps {
        /// The build.
        build: String,
    },
    /// No shaft to build was weighed over a known length.
    #[error("no shaft was weighed over a known length; note mass, length and stage, raw or cut")]
    NothingWeighed,
    /// Nothing is left to build.
    #[error("every shaft of this table is a finished arrow by now, so none is left to pair")]
    AllBuilt,
    /// Readings, a plan or a choice that the workbench refuses.
    #[error("{0}")]
    Workbench(#[from] WorkbenchError),
    /// The same, or any other failure, for one arrow from the bench.
    #[error("\"{arrow}\" on the bench: {source}")]
    Bench {
        /// Its name.
        arrow: String,
        /// Why.
        source: Box<Self>,
    },
    /// A share by which a group may grow that makes no sense.
    #[error("a group is to grow by {share} of itself; it must be above zero and at most 10")]
    Share {
        /// The share.
        share: f64,
    },
    /// Too few or too many positions for a nock.
    #[error("a nock is to have {positions} positions; it must be 1 to 360")]
    Positions {
        /// How many.
        positions: u32,
    },
    /// The watcher ended the run.
    #[error("the run was cancelled")]
    Cancelled,
}

fn listed(faults: &[ShotFault]) -> String {
    faults.iter().fold(String::new(), |text, fault| text + "\n  " + &fault.to_string())
}

fn scale_counts(shots: usize) -> &'static str {
    if shots == 0 {
        "\n  hint: give some shots"
    } else {
        "\n  hint: with sight marks the zero of the scale is one value more; shoot more, or seek less"
    }
}

fn not_told(one: Option<Sought>, other: Option<Sought>) -> String {
    let name = |what: Option<Sought>| what.map_or("zero of the sight's scale", Sought::name);
    match other {
        Some(other) => format!(
            "these shots cannot tell the {} from the {}\n  hint: seek one of them, or shoot \
             something that moves them apart, such as a chronograph and marks far apart",
            name(one),
            other.name()
        ),
        None => format!("these shots cannot tell the {}", name(one)),
    }
}

fn ended(why: Shortfall) -> &'static str {
    match why {
        Shortfall::Spent => "it no longer moves toward the target",
        Shortfall::Tumbled => "it turned more than 45 degrees from its path",
    }
}
