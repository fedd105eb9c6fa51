//! What is to be looked at: which arrows, where.

use units::Length;

use crate::sample::Sample;
use crate::variant::Variant;
use crate::{Plan, Question, Setup, StudyError};

/// What is to be looked at.
#[derive(Clone, Copy)]
pub struct SafetyAsk<'a> {
    /// The builds, what is asked of them, and where.
    pub plan: &'a Plan,
    /// The one build that counts; none for all.
    pub build: Option<&'a str>,
    /// Where it is shot, in place of the plan's distances.
    pub distances: Option<&'a [Length]>,
    /// The length to which the shaft is to be cut.
    pub cut: Option<Length>,
}

impl<'a> SafetyAsk<'a> {
    /// All that a plan asks about.
    pub fn all(plan: &'a Plan) -> Self {
        Self { plan, build: None, distances: None, cut: None }
    }
}

/// An arrow to look at.
pub(super) struct Looked<'a> {
    pub(super) name: String,
    pub(super) variant: Variant<'a>,
    pub(super) setup: Setup,
    /// Its place among the answers of a question.
    pub(super) at: usize,
}

/// The arrows of a plan: its builds as they stand, and at each value of a sweep.
pub(super) fn looked<'a>(ask: &SafetyAsk<'a>) -> Result<Vec<Looked<'a>>, StudyError> {
    let plan = ask.plan;
    let mut variants: Vec<(String, Variant)> =
        plan.builds.iter().map(|build| (build.name.clone(), Variant::of(build))).collect();
    if let Question::Sweep(sweep) = &plan.question {
        for build in &plan.builds {
            for (value, label) in sweep.values.iter().zip(&sweep.labels) {
                let variant = Variant::of(build).sweeping(Some((sweep.slot, *value)));
                variants.push((label.clone(), variant));
            }
        }
    }
    let mut all = Vec::with_capacity(variants.len());
    for (at, (name, variant)) in variants.into_iter().enumerate() {
        if ask.build.is_some_and(|build| build != variant.name) {
            continue;
        }
        let mut setup = variant.undrawn(Sample::Fixed)?;
        if let Some(length) = ask.cut {
            setup.parts.shaft.length = length;
        }
        all.push(Looked { name, variant, setup, at });
    }
    Ok(all)
}
