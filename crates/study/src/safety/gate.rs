//! The list itself.

use ::arrow::PointShape;

use super::ask::{Looked, SafetyAsk, looked};
use super::danger::{Caution, Danger};
use super::{arrow, group};
use crate::{Answer, Question, StudyError};

/// Every caution that is due, each once.
///
/// # Errors
/// [`StudyError`] where an arrow cannot be built or pushed.
pub fn cautions(ask: &SafetyAsk) -> Result<Vec<Caution>, StudyError> {
    among(ask, None)
}

/// Tuning computes bare shafts; one with fixed blades is none to shoot.
fn bare_blades(one: &Looked, ask: &SafetyAsk) -> Option<Danger> {
    let tuned = matches!(ask.plan.question, Question::Tune(_));
    let parts = &one.setup.parts;
    let blades = matches!(parts.point.shape, PointShape::FixedBlade) && parts.vanes.is_some();
    (tuned && blades).then_some(Danger::BareBlades)
}

/// The same with an answer, whose groups and their bands say how far is too far.
pub(crate) fn among(ask: &SafetyAsk, answer: Option<&Answer>) -> Result<Vec<Caution>, StudyError> {
    let all = looked(ask)?;
    let mut cautions: Vec<Caution> = Vec::new();
    for one in &all {
        let mut dangers = arrow::dangers(one)?;
        dangers.extend(bare_blades(one, ask));
        dangers.extend(group::too_far(one, ask, answer)?);
        for danger in dangers {
            let same = |known: &&mut Caution| known.danger.is_like(&danger);
            match cautions.iter_mut().find(same) {
                Some(known) => {
                    known.of.push(one.name.clone());
                    known.danger = known.danger.worse(danger);
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
