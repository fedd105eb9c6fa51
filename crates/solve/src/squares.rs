//! Damped least squares.

use std::cell::RefCell;

use levenberg_marquardt::{LeastSquaresProblem, LevenbergMarquardt, TerminationReason};
use nalgebra::storage::Owned;
use nalgebra::{DMatrix, DVector, Dyn};

use crate::SolveError;

/// Size given to residuals where the function has none, so that the step
/// there is taken back. Chosen: its square is still finite.
const FAR: f64 = 1e100;
/// Evaluations for each value sought, and one more. Chosen: ten times what a
/// hard problem takes.
const PATIENCE: usize = 400;

/// How closely to fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closeness {
    /// Half the width of the central differences that make the slopes, in
    /// sizes of each value.
    pub step: f64,
    /// Relative change of the sum of squares, and of the values, at which to
    /// stop.
    pub tolerance: f64,
}

/// Where the sum of squares is least.
#[derive(Debug, Clone, PartialEq)]
pub struct LeastSquares {
    /// The values sought.
    pub at: Vec<f64>,
    /// The residuals there.
    pub residuals: Vec<f64>,
    /// Slope of each residual (row) with each value (column).
    pub slopes: DMatrix<f64>,
    /// How often the function was asked.
    pub evaluations: usize,
}

impl LeastSquares {
    /// The sum of squares.
    pub fn sum(&self) -> f64 {
        self.residuals.iter().map(|r| r * r).sum()
    }
}

/// The values at which the sum of squared residuals is least, from a start, by
/// the damped method of Levenberg and Marquardt as MINPACK has it \[more1978\].
///
/// `sizes` are how much each value usually changes; the search runs in values
/// over sizes. `f` gives the residuals, always as many, or none where there are
/// none: the search then turns back.
///
/// # Errors
/// [`SolveError::FewResiduals`] for fewer residuals than values,
/// [`SolveError::NoResiduals`] where the function has none at the start,
/// [`SolveError::NotFitted`] when the search does not settle.
pub fn least_squares(
    f: impl FnMut(&[f64]) -> Option<Vec<f64>>,
    start: &[f64],
    sizes: &[f64],
    closeness: Closeness,
) -> Result<LeastSquares, SolveError> {
    for (what, value) in
        [("the step of a fit", closeness.step), ("the tolerance of a fit", closeness.tolerance)]
    {
        if !(value.is_finite() && value > 0.0) {
            return Err(SolveError::Setting { what, value });
        }
    }
    let scaled = DVector::from_iterator(start.len(), start.iter().zip(sizes).map(|(v, s)| v / s));
    let asked = Asked { f, sizes, evaluations: 0 };
    let mut problem =
        Problem { asked: RefCell::new(asked), step: closeness.step, at: scaled, residuals: None };
    problem.residuals = problem.ask(&problem.at);
    let Some(first) = &problem.residuals else { return Err(SolveError::NoResiduals) };
    if first.len() < start.len() || start.is_empty() {
        let (residuals, values) = (first.len(), start.len());
        return Err(SolveError::FewResiduals { residuals, values });
    }
    let (found, report) = LevenbergMarquardt::new()
        .with_ftol(closeness.tolerance)
        .with_xtol(closeness.tolerance)
        .with_gtol(closeness.tolerance)
        .with_patience(PATIENCE)
        .minimize(problem);
    // Where rounding leaves nothing to gain the place is as good as found.
    let settled = report.termination.was_successful()
        || matches!(report.termination, TerminationReason::NoImprovementPossible(_));
    let slopes = if settled { found.jacobian() } else { None };
    let evaluations = found.asked.borrow().evaluations;
    let (Some(residuals), Some(mut slopes)) = (found.residuals, slopes) else {
        return Err(SolveError::NotFitted { evaluations });
    };
    for (mut column, size) in slopes.column_iter_mut().zip(sizes) {
        column /= *size;
    }
    Ok(LeastSquares {
        at: found.at.iter().zip(sizes).map(|(v, s)| v * s).collect(),
        residuals: residuals.as_slice().to_vec(),
        slopes,
        evaluations,
    })
}

/// The function, in values over sizes.
struct Asked<'a, F> {
    f: F,
    sizes: &'a [f64],
    evaluations: usize,
}

/// The search as the library sees it.
struct Problem<'a, F> {
    asked: RefCell<Asked<'a, F>>,
    step: f64,
    at: DVector<f64>,
    residuals: Option<DVector<f64>>,
}

impl<F: FnMut(&[f64]) -> Option<Vec<f64>>> Problem<'_, F> {
    fn ask(&self, at: &DVector<f64>) -> Option<DVector<f64>> {
        let mut asked = self.asked.borrow_mut();
        asked.evaluations += 1;
        let values: Vec<f64> = at.iter().zip(asked.sizes).map(|(v, s)| v * s).collect();
        let residuals = (asked.f)(&values)?;
        residuals.iter().all(|r| r.is_finite()).then(|| DVector::from_vec(residuals))
    }
}

impl<F: FnMut(&[f64]) -> Option<Vec<f64>>> LeastSquaresProblem<f64, Dyn, Dyn> for Problem<'_, F> {
    type ResidualStorage = Owned<f64, Dyn>;
    type JacobianStorage = Owned<f64, Dyn, Dyn>;
    type ParameterStorage = Owned<f64, Dyn>;

    fn set_params(&mut self, at: &DVector<f64>) {
        let rows = self.residuals.as_ref().map_or(0, DVector::len);
        self.at.copy_from(at);
        self.residuals = Some(self.ask(at).unwrap_or_else(|| DVector::from_element(rows, FAR)));
    }

    fn params(&self) -> DVector<f64> {
        self.at.clone()
    }

    fn residuals(&self) -> Option<DVector<f64>> {
        self.residuals.clone()
    }

    fn jacobian(&self) -> Option<DMatrix<f64>> {
        let rows = self.residuals.as_ref()?.len();
        let mut slopes = DMatrix::zeros(rows, self.at.len());
        for place in 0..self.at.len() {
            let beside = |step: f64| {
                let mut at = self.at.clone();
                at[place] += step;
                self.ask(&at)
            };
            let (up, down) = (beside(self.step)?, beside(-self.step)?);
            slopes.set_column(place, &((up - down) / (2.0 * self.step)));
        }
        Some(slopes)
    }
}
