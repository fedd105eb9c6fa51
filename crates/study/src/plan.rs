use std::sync::Arc;

use arrow::{Faults, Parts};
use flight::{AeroChoice, Site};
use launch::{Bow, Form, GivenDeparture};
use target::PowerTest;
use units::{Angle, Dimension, Length, Ratio, Speed, Time};

use crate::{CausesAlone, Measured};

/// How the sight is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sight {
    /// Distance at which line of sight and arrow meet.
    pub zero: Length,
    /// Height of the line of sight above the arrow at the bow.
    pub height: Length,
    /// Eye to pin along the arrow.
    pub radius: Length,
}

/// Everything one shot needs, all values drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Setup {
    /// Parts of the arrow.
    pub parts: Parts,
    /// Its faults.
    pub faults: Faults,
    /// Roll of the index vane at departure, clockwise from straight up.
    pub index: Angle,
    /// The bow.
    pub bow: Bow,
    /// The archer's part in this shot.
    pub form: Form,
    /// Departure values given directly.
    pub departure: GivenDeparture,
    /// Coefficients given directly and the choices behind the others.
    pub aero: AeroChoice,
    /// Air, wind, slope.
    pub site: Site,
    /// Sight.
    pub sight: Sight,
}

/// Names one numeric value of a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Slot(pub usize);

/// Whose doing a drawn value is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Owner {
    /// Form: aim, release, speed.
    Archer,
    /// Point, insert, front end face.
    FrontEnd,
    /// Nock, groove, rear end face.
    NockEnd,
    /// Shaft: bend, wall, spine, length.
    Shaft,
    /// Vanes.
    Vanes,
    /// Masses of parts.
    Weights,
    /// Bow and string.
    Bow,
    /// Air and wind.
    Weather,
}

/// How a value is drawn. Parameters are in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Distribution {
    /// Normal.
    Normal {
        /// Mean.
        mean: f64,
        /// Standard deviation.
        sd: f64,
    },
    /// Uniform between two ends.
    Uniform {
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
    },
    /// Normal, but no farther from its mean than this: what is left after
    /// sorting.
    NormalWithin {
        /// Mean.
        mean: f64,
        /// Standard deviation before sorting.
        sd: f64,
        /// Farthest from the mean.
        within: f64,
    },
    /// Rayleigh, but no more than this: what is left after the worst are
    /// rejected.
    RayleighUpTo {
        /// Standard deviation of each component before any is rejected.
        scale: f64,
        /// The largest kept.
        most: f64,
    },
    /// Rayleigh: the size of a fault whose two components are normal with
    /// standard deviation `scale`.
    Rayleigh {
        /// Standard deviation of each component.
        scale: f64,
    },
}

/// How often a value is drawn anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Per {
    /// Once for each arrow.
    Arrow,
    /// Once for each shot.
    Shot,
}

/// A value that is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnParameter {
    /// Which value.
    pub slot: Slot,
    /// Its dotted key, such as `faults.point_end.angle`; also names its random
    /// stream, so that builds share their chances.
    pub key: String,
    /// Whose doing it is.
    pub owner: Owner,
    /// How it is drawn.
    pub law: Distribution,
    /// How often.
    pub per: Per,
    /// Its value when this cause is switched off: zero for a fault or a form
    /// error, the centre of the law for anything else.
    pub off: f64,
}

/// A value that nobody knows well: a default in doubt, or a value written with
/// its range.
#[derive(Debug, Clone, PartialEq)]
pub struct UncertainParameter {
    /// Which value.
    pub slot: Slot,
    /// Its dotted key.
    pub key: String,
    /// What it measures, so that its range can be shown with a unit.
    pub dimension: Dimension,
    /// Its own value, SI: the middle of all draws where it is inside the range.
    pub value: f64,
    /// Lower end of its stated range, SI.
    pub low: f64,
    /// Upper end of its stated range, SI.
    pub high: f64,
}

/// Two poorly known values that are not independent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Correlated {
    /// Which two.
    pub slots: [Slot; 2],
    /// Correlation of their normal scores, between -1 and 1.
    pub by: f64,
}

/// A value outside what the scenario allows, met while drawing or sweeping.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{key} = {value} is outside {allowed}")]
pub struct Refused {
    /// Dotted key.
    pub key: String,
    /// The value with its unit.
    pub value: String,
    /// The allowed range.
    pub allowed: String,
}

/// Turns a set of values into one shot's setup.
pub trait Recipe: Sync + Send {
    /// The values that are drawn.
    fn draws(&self) -> &[DrawnParameter];
    /// The poorly known defaults in use.
    fn uncertain(&self) -> &[UncertainParameter];
    /// Those of them that are a choice between models: one end of the range or
    /// the other, nothing between.
    fn choices(&self) -> &[Slot] {
        &[]
    }
    /// Pairs of them that are not independent; a pair named twice counts as
    /// named last.
    fn correlated(&self) -> &[Correlated] {
        &[]
    }
    /// The setup with some values changed (SI); later changes win.
    ///
    /// # Errors
    /// [`Refused`] when a changed value leaves its allowed range.
    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused>;
    /// The recipe after some bench steps, counted as in [`Worth::steps`] and
    /// rising; none where it knows no such steps.
    fn after(&self, _steps: &[usize]) -> Option<Box<dyn Recipe>> {
        None
    }
    /// What was measured, for answers that rest on this recipe alone; a plan holds its
    /// own.
    fn evidence(&self) -> &[Evidence] {
        &[]
    }
}

/// One build of a comparison.
#[derive(Clone)]
pub struct Build {
    /// Its name.
    pub name: String,
    /// Its recipe.
    pub recipe: Arc<dyn Recipe>,
}

/// One thing that was measured.
#[derive(Clone)]
pub struct Evidence {
    /// What the answer calls it.
    pub name: String,
    /// The arrow and bow it was measured with.
    pub recipe: Arc<dyn Recipe>,
    /// What was measured.
    pub what: Measured,
    /// Which of left and up was measured, of a thing that has both.
    pub sides: [bool; 2],
    /// Shots of each group, or sheets.
    pub shots: u32,
    /// Standard error of each number, SI, scatter and all; none where it is left to
    /// the usual one.
    pub error: Option<f64>,
}

/// When enough flights have been flown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StopRule {
    /// Stop when the half-width of the R90 interval at every distance is
    /// within this share of R90.
    pub r90_within: f64,
    /// But fly no more than this many.
    pub at_most: usize,
}

/// One value stepped through a list.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// Dotted key.
    pub key: String,
    /// What it measures.
    pub dimension: Dimension,
    /// Its slot, the same in every build.
    pub slot: Slot,
    /// The values, SI.
    pub values: Vec<f64>,
    /// How the values are written, one text for each.
    pub labels: Vec<String>,
}

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// Builds side by side; the first is the base that others are held
    /// against. With `ends`, also what the trade says of square ends.
    Compare {
        /// Check the trade's view of square ends.
        ends: bool,
    },
    /// One value swept.
    Sweep(Sweep),
    /// How the push leaves the arrow, and what would bring it nearer neutral.
    Tune(Tune),
    /// Whose share of the group's spread is how large.
    Matters(Shares),
    /// What bench steps would bring.
    Worth(Worth),
}

/// A question for shares of spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shares {
    /// Stop when every interval reaches no farther than this from its share,
    /// or when the plan's flights are spent.
    pub within: f64,
}

/// A question for the worth of bench steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Worth {
    /// The steps that may be done, alone or together.
    pub steps: Vec<BenchStep>,
}

/// Something done at the bench to a dozen arrows.
#[derive(Debug, Clone, PartialEq)]
pub struct BenchStep {
    /// Its name.
    pub name: String,
    /// How long it takes for a dozen arrows.
    pub time: Time,
    /// What it costs for a dozen arrows, in any money.
    pub cost: f64,
}

/// A tuning question.
#[derive(Debug, Clone, PartialEq)]
pub struct Tune {
    /// Values to vary, each about the scenario's own: spine, point mass,
    /// length, draw weight where they are fixed numbers.
    pub trends: Vec<Sweep>,
    /// Where a paper sheet stands, m from the bow, rising.
    pub paper: Vec<Length>,
}

/// What is shot at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TargetChoice {
    /// A round zone of this diameter.
    Zone {
        /// Diameter.
        diameter: Length,
    },
    /// An elliptical zone.
    Ellipse {
        /// Width.
        width: Length,
        /// Height.
        height: Length,
    },
    /// A ten-ring face of this diameter, with the compound inner ten or not.
    Face {
        /// Diameter of the outermost ring.
        diameter: Length,
        /// Score ten only in the compound inner ten.
        inner_ten: bool,
    },
}

/// A whole question, ready to run.
#[derive(Clone)]
pub struct Plan {
    /// Title of the scenario.
    pub title: String,
    /// The builds; at least one.
    pub builds: Vec<Build>,
    /// What is asked.
    pub question: Question,
    /// Distances, rising.
    pub distances: Vec<Length>,
    /// Flights for each build (or the first batch, with a stop rule).
    pub flights: usize,
    /// When to stop early or go on.
    pub stop: Option<StopRule>,
    /// How many arrows the flights are shared among; none for a new arrow
    /// each flight.
    pub arrows: Option<usize>,
    /// What is shot at.
    pub target: TargetChoice,
    /// What is stated for builds side by side.
    pub stated: Stated,
    /// Outer points at which all that is poorly known is drawn; none for an
    /// answer without bands.
    pub points: usize,
    /// Where groups with one cause alone are flown.
    pub alone: CausesAlone,
    /// What was measured; every answer uses it.
    pub evidence: Vec<Evidence>,
    /// Seed of all chances.
    pub seed: u64,
}

/// What the asker states for builds held side by side.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Stated {
    /// How sure a verdict must be.
    pub power_test: PowerTest,
    /// By how much the distance may be misjudged.
    pub range_error: Option<Length>,
    /// A cross wind that goes unnoticed.
    pub wind_error: Option<Speed>,
    /// The share of hits whose farthest distance is asked for.
    pub hit_share: Option<Ratio>,
    /// Arrows in a round on a face.
    pub round: Option<u32>,
    /// The distance that the short answer speaks of, one of those asked; the middle one if
    /// none is.
    pub headline: Option<Length>,
    /// Whether the zone to hit was asked for, not taken for lack of a word.
    pub zone: bool,
}
