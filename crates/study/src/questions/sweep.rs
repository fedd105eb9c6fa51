//! One value stepped through a list, for every build.

use crate::group::{Ground, Rig};
use crate::variant::Variant;
use crate::{BuildAnswer, Plan, StudyError, Sweep, SweepAnswer, SweepPoint};

/// Refuses a sweep without values or with labels missing.
pub(crate) fn check(sweep: &Sweep) -> Result<(), StudyError> {
    let (values, labels) = (sweep.values.len(), sweep.labels.len());
    if values == 0 || values != labels {
        return Err(StudyError::Sweep { key: sweep.key.clone(), values, labels });
    }
    Ok(())
}

/// A case for each build and value, build by build.
pub(crate) fn rigs<'a>(
    plan: &'a Plan,
    sweep: &Sweep,
    ground: &Ground,
) -> Result<Vec<Rig<'a>>, StudyError> {
    let mut rigs = Vec::with_capacity(plan.builds.len() * sweep.values.len());
    for build in &plan.builds {
        for &value in &sweep.values {
            let swept = Some((sweep.slot, value));
            rigs.push(Rig::new(Variant::of(build).sweeping(swept), ground.distances)?);
        }
    }
    Ok(rigs)
}

/// The answers in the order of [`rigs`], by build.
pub(crate) fn answers(plan: &Plan, sweep: &Sweep, found: Vec<BuildAnswer>) -> Vec<SweepAnswer> {
    let mut found = found.into_iter();
    let answer = |name: &String| SweepAnswer {
        key: sweep.key.clone(),
        dimension: sweep.dimension,
        build: name.clone(),
        points: sweep
            .values
            .iter()
            .zip(&sweep.labels)
            .zip(found.by_ref())
            .map(|((&value, label), build)| SweepPoint { label: label.clone(), value, build })
            .collect(),
    };
    plan.builds.iter().map(|build| &build.name).map(answer).collect()
}
