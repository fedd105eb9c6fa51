use units::Length;

use crate::{
    BuildAnswer, Caution, Compared, Joint, Matters, Plan, SquareEnds, Swept, TargetChoice, Tuned,
    WorthOfSteps,
};

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
    /// What could hurt somebody.
    pub cautions: Vec<Caution>,
    /// Seed.
    pub seed: u64,
    /// What was shot at.
    pub target: TargetChoice,
    /// The distance that the first sentence speaks of; the middle one if none.
    pub headline: Option<Length>,
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
        Self {
            title: title.clone(),
            cautions: Vec::new(),
            seed: *seed,
            target: *target,
            headline: plan.stated.headline,
            flown,
            found,
            unknown: None,
        }
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
