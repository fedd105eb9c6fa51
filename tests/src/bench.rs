//! Shares and bench steps of the invented build.

use study::{
    BenchStep, Build, DrawnParameter, Plan, Question, Recipe, Refused, Setup, Shares, Slot,
    UncertainParameter, Worth,
};
use units::Time;

use crate::recipe::{Simple, compare};

/// A question for shares known within this much.
pub fn matters(build: Build, within: f64, flights: usize) -> Plan {
    Plan { question: Question::Matters(Shares { within }), ..compare(vec![build], flights) }
}

/// A build whose steps scale drawn values: each step by a key and a factor.
#[derive(Debug, Clone)]
pub struct Worked {
    /// The build before any step.
    pub simple: Simple,
    /// What each step does.
    pub steps: Vec<(&'static str, f64)>,
}

impl Recipe for Worked {
    fn draws(&self) -> &[DrawnParameter] {
        self.simple.draws()
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        self.simple.uncertain()
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        self.simple.setup(changes)
    }

    fn after(&self, steps: &[usize]) -> Option<Box<dyn Recipe>> {
        use study::Distribution::{Normal, Rayleigh};
        let mut after = self.simple.clone();
        for at in steps {
            let (key, factor) = self.steps[*at];
            for draw in after.draws.iter_mut().filter(|draw| draw.key == key) {
                draw.law = match draw.law {
                    Rayleigh { scale } => Rayleigh { scale: factor * scale },
                    Normal { mean, sd } => Normal { mean, sd: factor * sd },
                    other => other,
                };
            }
        }
        Some(Box::new(after))
    }
}

/// A question for the worth of steps, each of this many minutes and a cost of
/// one.
pub fn worth(worked: Worked, minutes: &[f64], flights: usize) -> Plan {
    let steps = worked.steps.iter().zip(minutes).map(|((key, _), minutes)| BenchStep {
        name: (*key).to_owned(),
        time: Time::from_si(60.0 * minutes),
        cost: 1.0,
    });
    let question = Question::Worth(Worth { steps: steps.collect() });
    let build = Build { name: "worked".to_owned(), recipe: std::sync::Arc::new(worked) };
    Plan { question, ..compare(vec![build], flights) }
}
