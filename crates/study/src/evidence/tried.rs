//! One set of values, and how far off what was measured is there.

use nalgebra::DVector;
use target::normal_below;

use crate::{StudyError, Watch, normal_quantile};

/// Computed less measured, over the error of each number, at the chances of a point;
/// none where it gives no shot.
pub(crate) type Residuals<'a> = dyn Fn(&[f64]) -> Result<Option<Vec<f64>>, StudyError> + Sync + 'a;

/// One point tried.
#[derive(Debug, Clone)]
pub(super) struct Tried {
    pub(super) chances: Vec<f64>,
    pub(super) residuals: Option<Vec<f64>>,
    /// Half the sum of the squares of those that count; endless without any.
    pub(super) loss: f64,
}

impl Tried {
    /// Whether it gives every reading.
    pub(super) fn gives(&self) -> bool {
        self.loss.is_finite()
    }
}

/// What tries a point.
pub(super) struct Trial<'a> {
    pub(super) residuals: &'a Residuals<'a>,
    /// To which thing each number belongs, counted from zero.
    pub(super) things: &'a [usize],
    /// Which things are left out.
    pub(super) beyond: Vec<bool>,
    pub(super) watch: &'a dyn Watch,
}

impl Trial<'_> {
    pub(super) fn tried(&self, chances: Vec<f64>) -> Result<Tried, StudyError> {
        if self.watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let residuals = (self.residuals)(&chances)?;
        let residuals = residuals.filter(|all| all.iter().all(|one| one.is_finite()));
        let mut one = Tried { chances, residuals, loss: 0.0 };
        self.judge(&mut one);
        Ok(one)
    }

    /// The same at standard normal numbers.
    pub(super) fn tried_at(&self, z: &DVector<f64>) -> Result<Tried, StudyError> {
        self.tried(z.iter().map(|z| chance(*z)).collect())
    }

    /// Its loss anew. The squares are added in the order of their size, so that what
    /// was measured may come in any order.
    pub(super) fn judge(&self, one: &mut Tried) {
        one.loss = f64::INFINITY;
        if let Some(counted) = self.counted(one) {
            let mut squares: Vec<f64> = counted.iter().map(|r| r * r).collect();
            squares.sort_by(f64::total_cmp);
            one.loss = 0.5 * squares.iter().sum::<f64>();
        }
    }

    /// The numbers that count at a point.
    pub(super) fn counted(&self, one: &Tried) -> Option<Vec<f64>> {
        let all = one.residuals.as_ref()?.iter().zip(self.things);
        Some(all.filter(|(_, thing)| !self.beyond[**thing]).map(|(r, _)| *r).collect())
    }
}

/// The chance below which a standard normal number lies, kept inside.
fn chance(z: f64) -> f64 {
    normal_below(z).clamp(f64::EPSILON, 1.0 - f64::EPSILON)
}

/// Chances as standard normal numbers.
pub(super) fn normal(chances: &[f64]) -> DVector<f64> {
    DVector::from_iterator(chances.len(), chances.iter().map(|c| normal_quantile(*c)))
}
