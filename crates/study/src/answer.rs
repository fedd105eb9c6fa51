use arrow::Built;
use launch::Departure;
use target::{Estimate, Group, Impact};
use units::Length;

use crate::{
    Banded, Compared, Joint, Matters, Owner, Plan, SquareEnds, Swept, TargetChoice, Tuned, UncertainParameter,
    WorthOfSteps,
};

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
    /// Band of the nominal arrow's drop for what is not known, m.
    pub drop_band: (f64, f64),
    /// Band of the machine group's R50 for what is not known, m.
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
    pub uncertain: Vec<UncertainParameter>,
}

impl BuildAnswer {
    /// Gives what is drawn of it its bands; `of` finds the same build at a
    /// point.
    pub(crate) fn fill(
        &mut self,
        joint: &Joint<Found>,
        of: impl Fn(&Found) -> Option<&Self>,
    ) {
        for (at, mark) in self.marks.iter_mut().enumerate() {
            let read = |read: fn(&MarkAnswer) -> f64| {
                let of = &of;
                move |found: &Found| Some(read(of(found)?.marks.get(at)?))
            };
            let ends = |value: f64, number: fn(&MarkAnswer) -> f64| {
                let Banded { low, high, .. } = joint.banded(value, read(number));
                (low, high)
            };
            mark.drop_band = ends(mark.nominal.drop, |mark| mark.nominal.drop);
            let r50 = mark.machine.stats.r50.value;
            mark.machine_band = ends(r50, |mark| mark.machine.stats.r50.value);
        }
    }

    /// Drops the impacts that are kept for drawing.
    pub(crate) fn forget_sample(&mut self) {
        for mark in &mut self.marks {
            for group in [&mut mark.full, &mut mark.machine, &mut mark.form] {
                group.sample = Vec::new();
            }
        }
    }
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
    Worth(WorthOfSteps),
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
    /// The same at every outer point; none where nothing is poorly known.
    pub unknown: Option<Joint<Found>>,
}

impl Answer {
    /// What was found for a plan.
    pub(crate) fn new(plan: &Plan, flown: usize, found: Found) -> Self {
        let Plan { title, seed, target, .. } = plan;
        Self { title: title.clone(), seed: *seed, target: *target, flown, found, unknown: None }
    }

    /// The comparison, where builds were compared.
    pub fn compared(&self) -> Option<&Compared> {
        self.found.compared()
    }

    /// The same, to be changed.
    pub fn compared_mut(&mut self) -> Option<&mut Compared> {
        self.found.compared_mut()
    }
}

impl Found {
    /// The comparison, where builds were compared.
    pub fn compared(&self) -> Option<&Compared> {
        match self {
            Self::Compare(compared) => Some(compared),
            Self::Ends(ends) => Some(&ends.compared),
            _ => None,
        }
    }

    /// Every build of a comparison or a sweep, those of its points last.
    pub(crate) fn builds_mut(&mut self) -> Vec<&mut BuildAnswer> {
        match self {
            Self::Sweep(Swept { builds, sweeps, .. }) => {
                let points = sweeps.iter_mut().flat_map(|sweep| &mut sweep.points);
                builds.iter_mut().chain(points.map(|point| &mut point.build)).collect()
            }
            other => other.compared_mut().map_or_else(Vec::new, |c| c.builds.iter_mut().collect()),
        }
    }

    /// One of them, counted in the same way.
    pub(crate) fn build(&self, at: usize) -> Option<&BuildAnswer> {
        match self {
            Self::Sweep(Swept { builds, sweeps, .. }) => {
                let points = sweeps.iter().flat_map(|sweep| &sweep.points);
                builds.iter().chain(points.map(|point| &point.build)).nth(at)
            }
            other => other.compared()?.builds.get(at),
        }
    }

    /// The same, to be changed.
    pub fn compared_mut(&mut self) -> Option<&mut Compared> {
        match self {
            Self::Compare(compared) => Some(compared),
            Self::Ends(ends) => Some(&mut ends.compared),
            _ => None,
        }
    }
}
