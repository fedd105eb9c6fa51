use crate::{Compared, Matters, Plan, SquareEnds, Swept, TargetChoice, Tuned, WorthOfSteps};

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
