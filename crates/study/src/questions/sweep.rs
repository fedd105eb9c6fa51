//! One value stepped through a list, for every build.

use target::Estimate;
use units::Dimension;

use crate::sampler::{BuildSampler, RunSettings};
use crate::variant::Variant;
use crate::{BuildAnswer, Pair, Plan, StudyError, Sweep};

/// One variable swept.
#[derive(Debug, Clone, PartialEq)]
pub struct Swept {
    /// The builds as they stand, in the order asked.
    pub builds: Vec<BuildAnswer>,
    /// Each further build against the first.
    pub pairs: Vec<Pair>,
    /// The sweep, one entry for each build.
    pub sweeps: Vec<SweepAnswer>,
}

/// One swept variable for one build.
#[derive(Debug, Clone, PartialEq)]
pub struct SweepAnswer {
    /// Dotted key.
    pub key: String,
    /// What the swept value measures.
    pub dimension: Dimension,
    /// Name of the build.
    pub build: String,
    /// The points.
    pub points: Vec<SweepPoint>,
}

impl SweepAnswer {
    /// The points with the tightest and the widest group at a distance; none in
    /// a sweep without points.
    pub fn extremes(&self, mark: usize) -> Option<[&SweepPoint; 2]> {
        let by_r50 =
            |a: &&SweepPoint, b: &&SweepPoint| a.r50(mark).value.total_cmp(&b.r50(mark).value);
        Some([self.points.iter().min_by(by_r50)?, self.points.iter().max_by(by_r50)?])
    }
}

impl SweepPoint {
    /// Radius that holds half of the arrows at a distance, m.
    pub fn r50(&self, mark: usize) -> Estimate {
        self.build.marks[mark].full.stats.r50
    }
}

/// One value of a sweep.
#[derive(Debug, Clone, PartialEq)]
pub struct SweepPoint {
    /// The value as written.
    pub label: String,
    /// The value, SI.
    pub value: f64,
    /// Everything computed for it.
    pub build: BuildAnswer,
}

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
    settings: &RunSettings,
) -> Result<Vec<BuildSampler<'a>>, StudyError> {
    let mut rigs = Vec::with_capacity(plan.builds.len() * sweep.values.len());
    for build in &plan.builds {
        for &value in &sweep.values {
            let swept = Some((sweep.slot, value));
            rigs.push(BuildSampler::new(Variant::of(build).sweeping(swept), settings.distances)?);
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
