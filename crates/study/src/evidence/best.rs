//! The values that go best with what was measured and with what was likely before.

use nalgebra::{DMatrix, DVector};
use rayon::prelude::*;

use super::tried::{Trial, Tried, normal};
use crate::StudyError;
use crate::first::all_or_first;

/// Steps of the search. Chosen: it settles in three or four.
const STEPS: usize = 8;
/// Step of its slopes, in standard deviations of what is not known. Chosen: far above
/// what flights are computed to.
const SLOPE: f64 = 0.02;
/// Shares of a step that are tried until one is better.
const SHARES: [f64; 3] = [1.0, 0.5, 0.1];

/// How far a point is from what was measured and from what was likely before: minus
/// the logarithm of how likely it is now.
fn far(one: &Tried) -> f64 {
    one.loss + 0.5 * normal(&one.chances).norm_squared()
}

/// Their chances, by Gauss and Newton's steps from the best point of a crowd or from
/// the own values; and how many points that took. What nothing measured tells of
/// stays at its own value.
pub(super) fn best(
    trial: &Trial,
    values: usize,
    crowd: &[Tried],
) -> Result<(Vec<f64>, usize), StudyError> {
    let own = trial.tried(vec![0.5; values])?;
    let mut best = crowd.iter().chain([&own]).min_by(|a, b| far(a).total_cmp(&far(b)));
    let mut best = best.take().cloned().unwrap_or(own);
    let mut tried = 1;
    for _ in 0..STEPS {
        let (z, Some(residuals)) = (normal(&best.chances), trial.counted(&best)) else { break };
        let beside = |value: usize| {
            let mut z = z.clone();
            z[value] += SLOPE;
            trial.tried_at(&z)
        };
        let near = all_or_first((0..values).into_par_iter().map(beside))?;
        tried += near.len();
        let columns: Vec<Option<Vec<f64>>> = near.iter().map(|one| trial.counted(one)).collect();
        let slopes = DMatrix::from_fn(residuals.len(), values, |row, value| {
            columns[value].as_ref().map_or(0.0, |of| (of[row] - residuals[row]) / SLOPE)
        });
        let pull = &z + slopes.transpose() * DVector::from_vec(residuals);
        let bend = DMatrix::identity(values, values) + slopes.transpose() * &slopes;
        let Some(step) = bend.cholesky().map(|bend| bend.solve(&pull)) else { break };
        let mut next = None;
        for share in SHARES {
            let one = trial.tried_at(&(&z - share * &step))?;
            tried += 1;
            if far(&one) < far(&best) {
                next = Some(one);
                break;
            }
        }
        let Some(next) = next else { break };
        best = next;
        if step.amax() < SLOPE {
            break;
        }
    }
    Ok((best.chances, tried))
}
