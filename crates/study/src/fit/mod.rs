//! Departure speed, drag and sight from what was really shot. See
//! `docs/model/fit.md`.

mod answer;
mod check;
mod fault;
mod judge;
mod next;
mod observed;
mod passing;
mod predictor;
mod refit;

pub use answer::{
    ErrorsFrom, FitPlan, FitRow, Fitted, FittedSpeed, FittedSpeeds, FittedValue, NextShot,
};
pub use fault::ShotFault;
pub use observed::{Observed, Sought, What};
pub use refit::Refit;

use nalgebra::{DMatrix, DVector};
use solve::{LeastSquares, least_squares};

use crate::{Recipe, StudyError};
use judge::Judged;
use predictor::{CLOSENESS, Predictor, SCALE_SIZE, Values};

/// Least share of its length that a column of slopes must keep apart from the
/// others. Chosen: ten times the error of the slopes.
const APART: f64 = 1e-3;

/// Fits what is sought to what was shot, everything else as in the recipe:
/// its nominal arrow, nothing drawn, no faults, no form error.
///
/// # Errors
/// [`StudyError::Impossible`] names every shot that cannot be;
/// [`StudyError::FewShots`], [`StudyError::NotTold`] when the shots cannot tell
/// what is sought; [`StudyError::Fit`] when the search does not settle; and any
/// failure of the flights.
pub fn fit(recipe: &dyn Recipe, plan: &FitPlan) -> Result<Fitted, StudyError> {
    let course = Predictor::new(recipe, plan)?;
    let start = course.start(plan)?;
    let start = check::check(&course, &start, &plan.shots)?;
    let values = start.list(&plan.sought);
    if values.len() > plan.shots.len() || plan.sought.is_empty() {
        return Err(StudyError::FewShots { shots: plan.shots.len(), values: values.len() });
    }
    let mut failed = None;
    let residuals = |at: &[f64]| match residuals(&course, &start.with(&plan.sought, at), plan) {
        Ok(residuals) => Some(residuals),
        Err(error) => {
            failed = Some(error);
            None
        }
    };
    let sizes = start.sizes(&plan.sought, SCALE_SIZE);
    let found = least_squares(residuals, &values, &sizes, CLOSENESS)
        .map_err(|source| failed.unwrap_or(StudyError::Fit(source)))?;
    finish(&course, &start, plan, &found)
}

/// What was computed less what was seen, over the error of each.
fn residuals(course: &Predictor, at: &Values, plan: &FitPlan) -> Result<Vec<f64>, StudyError> {
    let computed = course.read(at, &plan.shots)?;
    let pairs = computed.iter().zip(&plan.shots);
    Ok(pairs.map(|(computed, shot)| (computed - shot.what.si()) / shot.sigma()).collect())
}

fn finish(
    course: &Predictor,
    start: &Values,
    plan: &FitPlan,
    found: &LeastSquares,
) -> Result<Fitted, StudyError> {
    let values = start.with(&plan.sought, &found.at);
    let unit = inverse(&found.slopes, plan)?;
    let judged = Judged::new(found, &unit, plan)?;
    let scale = judged.scale * judged.scale;
    let held = held(course, &values, plan, found, &unit)?;
    let covariance = &unit * scale + &held * held.transpose();
    let error = |place: usize| covariance[(place, place)].sqrt();
    let fitted = plan.sought.iter().enumerate().map(|(place, &what)| {
        let (value, half) = (found.at[place], judged.factor * error(place));
        FittedValue {
            what,
            before: start.of(what),
            value,
            error: error(place),
            low: value - half,
            high: value + half,
        }
    });
    let fitted: Vec<FittedValue> = fitted.collect();
    let count = plan.sought.len();
    let correlations = (0..count)
        .map(|a| (0..count).map(|b| covariance[(a, b)] / (error(a) * error(b))).collect())
        .collect();
    let computed = course.read(&values, &plan.shots)?;
    let rows = plan.shots.iter().zip(&computed).zip(&judged.rows);
    let rows = rows.map(|((shot, computed), judged)| FitRow {
        shot: *shot,
        computed: *computed,
        studentized: judged.studentized,
        agrees: judged.agrees,
    });
    Ok(Fitted {
        rows: rows.collect(),
        next: next::next(course, &values, plan, &unit, &found.at)?,
        speeds: passing::speeds(course, &values, plan, &covariance)?,
        values: fitted,
        correlations,
        scale_zero: values.scale_zero(),
        falling: values.sense < 0.0,
        freedom: judged.freedom,
        scatter: judged.scatter,
        scatter_limit: judged.limit,
        spread: judged.spread,
        evaluations: found.evaluations,
    })
}

/// How far the values go with the sight radius by one standard deviation of it, where it
/// is held: every mark and gap is in proportion to it, so its doubt is theirs together.
fn held(
    course: &Predictor,
    values: &Values,
    plan: &FitPlan,
    found: &LeastSquares,
    unit: &DMatrix<f64>,
) -> Result<DVector<f64>, StudyError> {
    let error = plan.radius_error.si();
    if error <= 0.0 || plan.sought.contains(&Sought::Radius) {
        return Ok(DVector::zeros(found.at.len()));
    }
    let radius = values.of(Sought::Radius);
    let step = CLOSENESS.step * radius;
    let [low, high] = [radius - step, radius + step]
        .map(|radius| residuals(course, &values.at_radius(radius), plan));
    let slopes = high?.into_iter().zip(low?).map(|(high, low)| (high - low) / (2.0 * step));
    let slopes = DVector::from_iterator(plan.shots.len(), slopes);
    Ok(-error * unit * found.slopes.transpose() * slopes)
}

/// The covariance for errors of size one.
fn inverse(slopes: &DMatrix<f64>, plan: &FitPlan) -> Result<DMatrix<f64>, StudyError> {
    let lengths: DVector<f64> =
        DVector::from_iterator(slopes.ncols(), slopes.column_iter().map(|c| c.norm()));
    let name = |place: usize| plan.sought.get(place).copied();
    if let Some(place) = (0..lengths.len()).find(|&place| lengths[place] <= 0.0) {
        return Err(StudyError::NotTold { one: name(place), other: None });
    }
    let mut scaled = slopes.clone();
    for (mut column, length) in scaled.column_iter_mut().zip(&lengths) {
        column /= *length;
    }
    let parts = scaled.svd(false, true);
    let turned = parts.v_t.ok_or(StudyError::NotTold { one: None, other: None })?;
    let (weakest, least) = parts.singular_values.argmin();
    if least < APART {
        let direction = turned.row(weakest);
        let mut places: Vec<usize> = (0..direction.len()).collect();
        places.sort_by(|a, b| direction[*b].abs().total_cmp(&direction[*a].abs()));
        let other = places.get(1).copied().and_then(name);
        return Err(StudyError::NotTold { one: name(places[0]), other });
    }
    let inverse_squares = DMatrix::from_diagonal(&parts.singular_values.map(|s| 1.0 / (s * s)));
    let inside = turned.transpose() * inverse_squares * &turned;
    Ok(DMatrix::from_fn(inside.nrows(), inside.ncols(), |a, b| {
        inside[(a, b)] / (lengths[a] * lengths[b])
    }))
}
