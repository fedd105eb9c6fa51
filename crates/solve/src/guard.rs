//! The only file that names `ode_solvers`.
//!
//! What is used of it and what is not, and why: decision 10.

use std::cell::Cell;

use nalgebra::SVector;
use ode_solvers::continuous_output_model::ContinuousOutputModel;
use ode_solvers::dop_shared::IntegrationError;
use ode_solvers::{Dopri5, OutputType, System};

use crate::{Control, Effort, SolveError};

/// Step control. Chosen: the values of the published code \[hairer1993\], which
/// are also the library's own defaults.
const SAFETY: f64 = 0.9;
const BETA: f64 = 0.04;
const SHRINK: f64 = 0.2;
const GROW: f64 = 10.0;
/// Accepted steps between tests for stiffness. Chosen: same source.
const STIFF_EVERY: u32 = 1000;

/// The first component that was not finite since the last accepted step.
type Bad = Cell<Option<(f64, usize)>>;

/// The equations as the library sees them: the state divided by its scale,
/// and nothing but "not a number" once a component is not finite, so that the
/// library always rejects that step and never hides it behind a zero weight.
struct Guarded<'a, const N: usize, F, H> {
    rhs: F,
    halt: H,
    scale: &'a [f64; N],
    inverse: [f64; N],
    bad: &'a Bad,
    halted: &'a Cell<bool>,
}

impl<const N: usize, F, H> System<f64, SVector<f64, N>> for Guarded<'_, N, F, H>
where
    F: Fn(f64, &[f64; N], &mut [f64; N]),
    H: FnMut(f64, &[f64; N]) -> bool,
{
    fn system(&self, x: f64, y: &SVector<f64, N>, dy: &mut SVector<f64, N>) {
        let state = unscaled(y, self.scale);
        let slope = &mut dy.data.0[0];
        let mut first = first_bad(&state);
        if first.is_none() {
            slope.fill(f64::NAN);
            (self.rhs)(x, &state, slope);
            first = first_bad(slope);
        }
        if let Some(component) = first {
            if self.bad.get().is_none() {
                self.bad.set(Some((x, component)));
            }
            slope.fill(f64::NAN);
        }
        for (slope, inverse) in slope.iter_mut().zip(self.inverse) {
            *slope *= inverse;
        }
    }

    fn solout(&mut self, x: f64, y: &SVector<f64, N>, _dy: &SVector<f64, N>) -> bool {
        self.bad.set(None);
        let halt = (self.halt)(x, &unscaled(y, self.scale));
        self.halted.set(halt);
        halt
    }
}

fn unscaled<const N: usize>(y: &SVector<f64, N>, scale: &[f64; N]) -> [f64; N] {
    let values = &y.data.0[0];
    std::array::from_fn(|i| values[i] * scale[i])
}

fn first_bad<const N: usize>(values: &[f64; N]) -> Option<usize> {
    // Every component is looked at, without a branch: this runs at each stage.
    if values.iter().fold(true, |fine, value| fine & value.is_finite()) {
        return None;
    }
    values.iter().position(|value| !value.is_finite())
}

/// A finished integration from 0.
pub(crate) struct Run<const N: usize> {
    model: ContinuousOutputModel<f64, SVector<f64, N>>,
    scale: [f64; N],
    /// Where it ended: the wanted end, unless halted.
    pub(crate) end: f64,
    /// The state there.
    pub(crate) last: [f64; N],
    /// Whether `halt` ended it.
    pub(crate) halted: bool,
    pub(crate) effort: Effort,
}

impl<const N: usize> Run<N> {
    /// The state at `x`, from 0 to the end. At the end it is the last step's
    /// own state: the model may stop a rounding short of it.
    pub(crate) fn state(&self, x: f64) -> Result<[f64; N], SolveError> {
        let state = match self.model.evaluate(x) {
            Some(y) if x < self.end => unscaled(&y, &self.scale),
            _ => self.last,
        };
        first_bad(&state)
            .map_or(Ok(state), |component| Err(SolveError::NotFinite { at: x, component }))
    }
}

/// Integrates from 0 to `end`, above zero, or until `halt` after an accepted
/// step.
pub(crate) fn run<const N: usize, F, H>(
    rhs: F,
    start: &[f64; N],
    end: f64,
    control: &Control<N>,
    halt: H,
) -> Result<Run<N>, SolveError>
where
    F: Fn(f64, &[f64; N], &mut [f64; N]),
    H: FnMut(f64, &[f64; N]) -> bool,
{
    let (bad, halted) = (Cell::new(None), Cell::new(false));
    let (scale, inverse) = (&control.scale, control.scale.map(f64::recip));
    let guarded = Guarded { rhs, halt, scale, inverse, bad: &bad, halted: &halted };
    let mut stepper = Dopri5::from_param(
        guarded,
        0.0,
        end,
        0.0,
        SVector::<f64, N>::from_fn(|i, _| start[i] * inverse[i]),
        control.relative,
        control.relative,
        SAFETY,
        BETA,
        SHRINK,
        GROW,
        control.step_max,
        0.0,
        control.steps_max - 1,
        STIFF_EVERY,
        OutputType::Continuous,
    );
    let mut model = ContinuousOutputModel::new();
    let stats =
        stepper.integrate_with_continuous_output_model(&mut model).map_err(|error| {
            match (bad.get(), error) {
                (Some((at, component)), _) => SolveError::NotFinite { at, component },
                (None, IntegrationError::StepSizeUnderflow { x }) => {
                    SolveError::StepUnderflow { at: x }
                }
                (None, IntegrationError::MaxNumStepReached { x, n_step }) => {
                    SolveError::TooManySteps { at: x, steps: n_step }
                }
                (None, IntegrationError::StiffnessDetected { x }) => SolveError::Stiff { at: x },
            }
        })?;
    let (reached, states) = stepper.results().get();
    let (Some(&x), Some(y)) = (reached.last(), states.last()) else {
        unreachable!("the library stores every accepted step and ends on one")
    };
    Ok(Run {
        model,
        scale: *scale,
        end: if halted.get() { x } else { end },
        last: unscaled(y, scale),
        halted: halted.get(),
        effort: Effort {
            evaluations: stats.num_eval,
            accepted: stats.accepted_steps,
            rejected: stats.rejected_steps,
        },
    })
}
