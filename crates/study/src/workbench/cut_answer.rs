//! What is asked about cuts, and what was found.

use units::Length;
use workbench::{Axis, Cut, CutPlan, Population, SawJob, Sighting, WorkbenchError};

use crate::{Banded, Joint, Recipe, Standing};

/// A shaft to cut.
#[derive(Debug, Clone, PartialEq)]
pub struct ShaftToCut {
    /// Its name.
    pub name: String,
    /// The line of the notebook that tells of it, where one does.
    pub line: Option<usize>,
    /// Its length.
    pub stock: Length,
    /// What was read.
    pub read: Read,
}

/// How a shaft was read.
#[derive(Debug, Clone, PartialEq)]
pub enum Read {
    /// Along its length.
    Profile(Axis),
    /// At up to three places, each with what it says; none for a shaft that is known
    /// by its grade alone.
    Places(Vec<Sighting>),
}

impl Read {
    /// What was read, each in its direction.
    pub fn sightings(&self) -> &[Sighting] {
        match self {
            Self::Profile(axis) => axis.sightings(),
            Self::Places(seen) => seen,
        }
    }
}

/// A shaft that is not cut.
#[derive(Debug, Clone, PartialEq)]
pub struct LeftOut {
    /// Its name.
    pub name: String,
    /// The line of the notebook that tells of it, where one does.
    pub line: Option<usize>,
    /// Why.
    pub why: WorkbenchError,
}

/// Shafts to cut.
pub struct CutAsk<'a> {
    /// Bow, arrow and archer.
    pub recipe: &'a dyn Recipe,
    /// Distances; the last decides.
    pub distances: &'a [Length],
    /// The shafts.
    pub shafts: &'a [ShaftToCut],
    /// Shafts whose readings say nothing; the others are cut without them.
    pub unread: &'a [LeftOut],
    /// What is to be cut.
    pub job: SawJob,
    /// The shafts that these are some of.
    pub population: Population,
    /// What the saw's stop can be set to: whole numbers of this.
    pub stop: Length,
    /// The indicator's smallest step: readings nearer than it are alike.
    pub step: Length,
    /// Seed of the archer's own group.
    pub seed: u64,
}

/// Ways to cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WayKind {
    /// As listed: the smallest ring among cuts whose readings cannot be told from the
    /// straightest.
    Listed,
    /// All off the point end.
    FrontOnly,
    /// All off the nock end.
    RearOnly,
    /// Half off each end.
    Halves,
    /// The straightest piece by its reading.
    Straightest,
    /// The piece that hits closest, whatever it reads.
    Closest,
    /// The shaft as it is, as if it were the arrow.
    Uncut,
}

/// The plain ways beside the listed cuts.
pub const PLAIN: [WayKind; 4] =
    [WayKind::Uncut, WayKind::FrontOnly, WayKind::RearOnly, WayKind::Halves];

/// One way to cut, with what it does.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// Which.
    pub kind: WayKind,
    /// The cut.
    pub cut: Cut,
    /// Root mean square distance of the impacts from their middle as the nock
    /// is turned, over all that the shaft may be, at each distance, m.
    pub ring: Vec<f64>,
    /// The last of these over all that is not known of bow and shaft.
    pub band: Banded,
}

/// A shaft's plan.
#[derive(Debug, Clone, PartialEq)]
pub struct CutShaft {
    /// The shaft.
    pub shaft: ShaftToCut,
    /// Its likeliest axis.
    pub axis: Axis,
    /// The plan by straightness.
    pub plan: CutPlan,
    /// What remains after the nock end is cut, m: where the stop stands first. None
    /// where nothing comes off the nock end.
    pub first_stop: Option<f64>,
    /// The listed way first, then every other that shaft and saw allow.
    pub ways: Vec<Way>,
}

/// A way of cutting the whole batch.
#[derive(Debug, Clone, PartialEq)]
pub struct BatchWay {
    /// Which.
    pub kind: WayKind,
    /// Reading over 28 in, root mean square over shafts and all they may be, m.
    pub reads: f64,
    /// Ring of the batch: root mean square over its shafts, m.
    pub ring: Banded,
    /// What the listed cuts gain over it, m.
    pub gain: Banded,
    /// In what share of what is not known they gain.
    pub standing: Option<Standing>,
}

/// Shafts with their plans.
#[derive(Debug, Clone, PartialEq)]
pub struct Cutting {
    /// Distances.
    pub distances: Vec<Length>,
    /// What is to be cut.
    pub job: SawJob,
    /// What the saw's stop can be set to.
    pub stop: Length,
    /// The shafts that these are some of.
    pub population: Population,
    /// The shafts, in the order given.
    pub shafts: Vec<CutShaft>,
    /// Shafts that are not cut.
    pub left_out: Vec<LeftOut>,
    /// The listed cuts, then the plain ways that all shafts allow.
    pub batch: Vec<BatchWay>,
    /// Standard deviation of the archer's own group in one direction at each
    /// distance, m.
    pub form: Vec<f64>,
    /// Which outer point this is the answer at; none for the answer itself.
    pub point: Option<usize>,
    /// The same cuts at every outer point: another bow, and other shafts that read the
    /// same.
    pub unknown: Option<Box<Joint<Cutting>>>,
}
