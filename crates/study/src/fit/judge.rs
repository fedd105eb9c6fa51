//! What the residuals say of the errors, and of each shot.

use nalgebra::DMatrix;
use solve::LeastSquares;
use target::{outlier_factor, scatter_limit, t_factor};

use super::{ErrorsFrom, FitPlan};
use crate::StudyError;

/// Freedom from which the residuals tell the size of the errors. Chosen: below
/// three the interval of that size spans a factor of ten.
const ENOUGH: usize = 3;
/// A shot with less left of its own error than this is one the fit goes
/// through. Chosen.
const FREE: f64 = 1e-6;

pub(super) struct JudgedRow {
    pub(super) studentized: Option<f64>,
    pub(super) agrees: bool,
}

pub(super) struct Judged {
    /// Size of the errors over what the shots say.
    pub(super) scale: f64,
    /// Half an interval over the standard error.
    pub(super) factor: f64,
    pub(super) freedom: usize,
    pub(super) scatter: Option<f64>,
    pub(super) limit: Option<f64>,
    pub(super) spread: ErrorsFrom,
    pub(super) rows: Vec<JudgedRow>,
}

impl Judged {
    pub(super) fn new(
        found: &LeastSquares,
        unit: &DMatrix<f64>,
        plan: &FitPlan,
    ) -> Result<Self, StudyError> {
        let count = plan.shots.len();
        let freedom = count - found.at.len();
        let sum = found.sum();
        let scatter = (freedom > 0).then(|| (sum / freedom as f64).sqrt());
        let limit = if freedom > 0 { Some(scatter_limit(freedom)?) } else { None };
        let spread = if plan.shots.iter().all(|shot| shot.error.is_some()) {
            ErrorsFrom::Stated
        } else if freedom >= ENOUGH {
            ErrorsFrom::Residuals
        } else {
            ErrorsFrom::Assumed
        };
        let (scale, factor) = match (spread, scatter) {
            (ErrorsFrom::Residuals, Some(scatter)) => (scatter, t_factor(freedom)?),
            _ => (1.0, outlier_factor(1, None)?),
        };
        // Each shot is held against the fit without it.
        let known = match spread {
            ErrorsFrom::Residuals => Some(freedom - 1),
            ErrorsFrom::Stated | ErrorsFrom::Assumed => None,
        };
        let most = outlier_factor(count, known)?;
        let hat = &found.slopes * unit * found.slopes.transpose();
        let rows = found.residuals.iter().enumerate().map(|(place, residual)| {
            let free = 1.0 - hat[(place, place)];
            if free < FREE {
                return JudgedRow { studentized: None, agrees: true };
            }
            let others = match known {
                Some(freedom) => {
                    ((sum - residual * residual / free).max(0.0) / freedom as f64).sqrt()
                }
                None => 1.0,
            };
            let size = residual / free.sqrt();
            // Without any scatter nothing disagrees.
            let studentized = if size == 0.0 { 0.0 } else { size / others };
            let studentized = studentized.clamp(-f64::MAX, f64::MAX);
            JudgedRow { studentized: Some(studentized), agrees: studentized.abs() <= most }
        });
        let rows = rows.collect();
        Ok(Self { scale, factor, freedom, scatter, limit, spread, rows })
    }
}
