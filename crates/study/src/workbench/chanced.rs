//! The bow and the shafts that are sold, at every outer point.

use rayon::prelude::*;
use units::Length;
use workbench::{Population, Throw};

use super::aimed::{AimedBow, unsure};
use crate::{OUTER_POINTS, RandomStream, Recipe, StudyError, Watch, normal_quantile};

/// How far the scales of the hooks may lie off their own values, as factors. Chosen:
/// .003 to .006 in about .0045.
const HOOKS: (f64, f64) = (2.0 / 3.0, 4.0 / 3.0);

/// One way in which everything may be.
pub(super) struct Chanced {
    /// What faults throw, at each distance.
    pub(super) throws: Vec<Throw>,
    /// The shafts.
    pub(super) population: Population,
    pub(super) weight: f64,
}

/// The bow as the scenario has it, and every way in which bow and shafts may be.
pub(super) struct ChancedBow {
    pub(super) throws: Vec<Throw>,
    pub(super) points: Vec<Chanced>,
}

/// Standard normal numbers of one shaft, the same at every call.
pub(super) fn normals(seed: u64, key: &str) -> impl FnMut() -> f64 + use<> {
    let mut stream = RandomStream::new(seed, key);
    let mut next = 0;
    move || {
        next += 1;
        normal_quantile(stream.chance(next - 1))
    }
}

/// The population at each outer point.
pub(super) fn hooked(seed: u64, population: Population) -> impl FnMut(usize) -> Population {
    let mut chances = RandomStream::new(seed, "bench.population");
    move |at| {
        let (low, high) = HOOKS;
        let chance = chances.chance(at as u64);
        // The own value is the median, and ratios count: as of any poorly known scale.
        let by =
            if chance < 0.5 { low.powf(1.0 - 2.0 * chance) } else { high.powf(2.0 * chance - 1.0) };
        let scaled = |of: Length| Length::from_si(of.si() * by);
        Population {
            nock_hook: scaled(population.nock_hook),
            point_hook: scaled(population.point_hook),
            ..population
        }
    }
}

/// The bow at every outer point. Where it knows everything well, the shafts still
/// vary: then all points have its own values.
pub(super) fn chanced(
    recipe: &dyn Recipe,
    (distances, wanted): (&[f64], Length),
    (seed, population): (u64, Population),
    watch: &dyn Watch,
) -> Result<ChancedBow, StudyError> {
    let bow = AimedBow::new(recipe, distances)?;
    let throws = bow.throws(wanted)?;
    let points = match unsure(recipe, distances, seed, watch)? {
        Some(joint) => {
            let all = joint.points.par_iter();
            let thrown: Vec<_> = all.map(|point| point.answer.throws(wanted)).collect();
            let mut good = Vec::new();
            for (point, throws) in joint.points.iter().zip(thrown) {
                match throws {
                    Ok(throws) => good.push((throws, point.weight)),
                    Err(StudyError::Cancelled) => return Err(StudyError::Cancelled),
                    // A point that gives no shot is left out, as everywhere.
                    Err(_) => {}
                }
            }
            good
        }
        None => vec![(throws.clone(), 1.0); OUTER_POINTS],
    };
    let mut hooked = hooked(seed, population);
    let points = points
        .into_iter()
        .enumerate()
        .map(|(at, (throws, weight))| Chanced { throws, weight, population: hooked(at) })
        .collect();
    Ok(ChancedBow { throws, points })
}
