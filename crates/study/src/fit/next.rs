//! Which further shot would tell most.

use nalgebra::{DMatrix, DVector};
use units::{Length, Speed};

use super::predictor::{CLOSENESS, Predictor, SCALE_SIZE, Values};
use super::{FitPlan, NextShot, Observed, What};
use crate::StudyError;

/// The shot after which the errors of the values sought, each over its present
/// size, have the least sum of squares.
pub(super) fn next(
    course: &Predictor,
    values: &Values,
    plan: &FitPlan,
    unit: &DMatrix<f64>,
    at: &[f64],
) -> Result<Option<NextShot>, StudyError> {
    let mut shots = candidates(course, plan);
    if shots.is_empty() {
        return Ok(None);
    }
    let expected = course.read(values, &shots)?;
    for (shot, value) in shots.iter_mut().zip(&expected) {
        shot.what = expecting(shot.what, *value);
    }
    let slopes = slopes(course, values, plan, &shots, at)?;
    let sought = plan.sought.len();
    let mut best: Option<(f64, NextShot)> = None;
    for (place, shot) in shots.iter().enumerate() {
        // All errors scale alike, so their common size does not matter here.
        let slope: DVector<f64> = slopes.row(place).transpose() / shot.sigma();
        let moved = unit * &slope;
        let gain = 1.0 + slope.dot(&moved);
        let left: Vec<f64> = (0..sought)
            .map(|own| {
                let old = unit[(own, own)];
                ((old - moved[own] * moved[own] / gain).max(0.0) / old).sqrt()
            })
            .collect();
        let sum: f64 = left.iter().map(|l| l * l).sum();
        if best.as_ref().is_none_or(|(least, _)| sum < *least) {
            best = Some((sum, NextShot { shot: *shot, left }));
        }
    }
    Ok(best.map(|(_, next)| next))
}

/// Shots that could be taken: a chronograph at the bow, and at every place
/// what was read there before: marks if there are any, else impacts with the
/// pin of the zero.
fn candidates(course: &Predictor, plan: &FitPlan) -> Vec<Observed> {
    if plan.places.is_empty() {
        return Vec::new();
    }
    let empty = Length::ZERO;
    let shot = |distance: Length, what: What| Observed { line: 0, distance, what, error: None };
    let marked = plan.shots.iter().any(|shot| matches!(shot.what, What::Mark(_)));
    let zero = course.zero();
    let mut out = vec![shot(empty, What::Speed(Speed::ZERO))];
    for &place in &plan.places {
        if marked {
            out.push(shot(place, What::Mark(empty)));
        } else if place != zero {
            out.push(shot(place, What::Impact { pin: zero, up: empty }));
        }
    }
    out
}

fn expecting(what: What, value: f64) -> What {
    let length = Length::from_si(value);
    match what {
        What::Speed(_) => What::Speed(Speed::from_si(value)),
        What::Mark(_) => What::Mark(length),
        What::Gap { pin, .. } => What::Gap { pin, gap: length },
        What::Impact { pin, .. } => What::Impact { pin, up: length },
    }
}

/// Slope of each shot with each value fitted.
fn slopes(
    course: &Predictor,
    values: &Values,
    plan: &FitPlan,
    shots: &[Observed],
    at: &[f64],
) -> Result<DMatrix<f64>, StudyError> {
    let sizes = values.sizes(&plan.sought, SCALE_SIZE);
    let mut slopes = DMatrix::zeros(shots.len(), at.len());
    for (place, size) in sizes.iter().enumerate() {
        let step = CLOSENESS.step * size;
        let beside = |step: f64| {
            let mut list = at.to_vec();
            list[place] += step;
            course.read(&values.with(&plan.sought, &list), shots).map(DVector::from_vec)
        };
        slopes.set_column(place, &((beside(step)? - beside(-step)?) / (2.0 * step)));
    }
    Ok(slopes)
}
