//! What could hurt somebody: the one list of cautions, for every medium to show
//! before its answer. Model card: docs/model/safety.md.

mod arrow;
mod group;

use units::Length;

use crate::sample::Sample;
use crate::variant::Variant;
use crate::{Found, Plan, Question, Setup, StudyError};

/// What could hurt somebody, with the numbers that say so, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Danger {
    /// Too little mass for the draw weight.
    Light {
        /// Arrow mass over draw weight, kg/N.
        mass_per_force: f64,
        /// The least for this kind of bow, kg/N.
        least: f64,
    },
    /// The push would buckle the shaft, were it to last.
    Buckles {
        /// Its peak over what buckles the shaft.
        times: f64,
        /// The most that passes.
        most: f64,
    },
    /// The push bends the shaft too far.
    Bends {
        /// Strain of the shaft's surface.
        strain: f64,
        /// The most that passes.
        most: f64,
        /// Farthest off the line between its ends, m.
        bow: f64,
    },
    /// The shaft ends near the rest at full draw.
    NearRest {
        /// Its end ahead of the rest, m.
        ahead: f64,
        /// The least that passes, m.
        least: f64,
    },
    /// What holds the point does not reach far enough into or over the shaft.
    ShortSeat {
        /// What holds it.
        seat: Seat,
        /// How far it reaches, m.
        engaged: f64,
        /// The least that passes, m.
        least: f64,
    },
    /// More energy leaves than the bow stores.
    OverStored {
        /// What leaves, J.
        leaves: f64,
        /// What is stored, J.
        stored: f64,
    },
    /// Too few arrows hit the zone for a shot at an animal.
    Far {
        /// The nearest distance asked about at which that is so, m.
        from: f64,
        /// The share that hits there.
        share: f64,
        /// The least that passes.
        least: f64,
    },
}

/// What holds the point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seat {
    /// An insert in the shaft.
    Insert,
    /// An outsert over it.
    Outsert,
    /// The point's own shank in it.
    Shank,
}

/// A danger, at its worst, and the arrows it holds for.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// The danger.
    pub danger: Danger,
    /// The builds, or values of a sweep, that it holds for; none where it holds for all.
    pub of: Vec<String>,
}

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
struct Looked<'a> {
    name: String,
    variant: Variant<'a>,
    setup: Setup,
    /// Its place among the answers of a question.
    at: usize,
}

/// Every caution that is due, each once.
///
/// # Errors
/// [`StudyError`] where an arrow cannot be built or pushed.
pub fn cautions(ask: &SafetyAsk) -> Result<Vec<Caution>, StudyError> {
    among(ask, None)
}

/// The same with what was found, whose groups say how far is too far.
pub(crate) fn among(ask: &SafetyAsk, found: Option<&Found>) -> Result<Vec<Caution>, StudyError> {
    let all = looked(ask)?;
    let mut cautions: Vec<Caution> = Vec::new();
    for one in &all {
        let mut dangers = arrow::dangers(one)?;
        dangers.extend(group::too_far(one, ask, found));
        for danger in dangers {
            let same = |known: &&mut Caution| known.danger.is_like(&danger);
            match cautions.iter_mut().find(same) {
                Some(known) => {
                    known.of.push(one.name.clone());
                    if danger.severity() > known.danger.severity() {
                        known.danger = danger;
                    }
                }
                None => cautions.push(Caution { danger, of: vec![one.name.clone()] }),
            }
        }
    }
    for caution in &mut cautions {
        if caution.of.len() == all.len() {
            caution.of.clear();
        }
    }
    Ok(cautions)
}

/// The arrows of a plan: its builds as they stand, and at each value of a sweep.
fn looked<'a>(ask: &SafetyAsk<'a>) -> Result<Vec<Looked<'a>>, StudyError> {
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

impl Danger {
    /// Whether both are of one kind.
    fn is_like(&self, other: &Self) -> bool {
        std::mem::discriminant(self) == std::mem::discriminant(other)
    }

    /// How far beyond what passes: the worst of several is told.
    fn severity(&self) -> f64 {
        match *self {
            Self::Light { mass_per_force, least } => least / mass_per_force,
            Self::Buckles { times, most } => times / most,
            Self::Bends { strain, most, .. } => strain / most,
            Self::NearRest { ahead, least } => least - ahead,
            Self::ShortSeat { engaged, least, .. } => least - engaged,
            Self::OverStored { leaves, stored } => leaves / stored,
            Self::Far { from, .. } => -from,
        }
    }
}
