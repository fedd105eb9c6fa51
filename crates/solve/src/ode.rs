use std::cell::Cell;

use crate::SolveError;
use crate::control::{Control, Effort};
use crate::guard::{Run, run};
use crate::root::between;

/// The outcome of an integration.
#[derive(Debug, Clone, PartialEq)]
pub struct Solution<const N: usize> {
    /// The state at each mark reached, in order.
    pub at: Vec<[f64; N]>,
    /// The last value of the independent variable.
    pub end: f64,
    /// The state there.
    pub last: [f64; N],
    /// Whether the stop condition, or the event, ended it.
    pub stopped: bool,
    /// What it cost.
    pub effort: Effort,
}

/// How closely an event is found on the interpolated solution, relative.
/// Chosen: well above the rounding of the interpolant, well below the error
/// of any integration.
const EVENT: f64 = 1e-12;

/// Integrates from 0 to the last mark and gives the state at each mark.
///
/// `rhs(x, y, dy)` writes the derivative. After each accepted step `stop(x, y)`
/// may end the integration there; marks beyond are then not reached. A first
/// mark of 0 gives the starting state. A trial step on which a derivative is
/// not finite is tried again shorter; if that cannot help it is an error.
///
/// Dormand and Prince 5(4) with its interpolant of order 4. \[dormand1980\]
///
/// # Errors
/// See [`SolveError`]: marks, settings, the first term that is not finite, a
/// step that underflows, too many steps, stiffness.
pub fn integrate<const N: usize, F, S>(
    rhs: F,
    start: [f64; N],
    marks: &[f64],
    control: &Control<N>,
    stop: S,
) -> Result<Solution<N>, SolveError>
where
    F: Fn(f64, &[f64; N], &mut [f64; N]),
    S: Fn(f64, &[f64; N]) -> bool,
{
    let limit = check(&start, marks, control)?;
    if limit == 0.0 {
        return Ok(at_start(start));
    }
    let run = run(rhs, &start, limit, control, stop)?;
    Ok(Solution {
        at: states(&run, start, marks, run.end)?,
        end: run.end,
        last: run.last,
        stopped: run.halted,
        effort: run.effort,
    })
}

/// As [`integrate`], but ends where `g(x, y)` crosses zero for the first time.
///
/// The crossing is the first change of sign from one accepted step to the
/// next: two crossings within one step go unseen, and `step_max` guards
/// against that. A zero at the start is not a crossing. The place is found on
/// the interpolated solution to a relative 1e-12; `end` and `last` are the
/// crossing and `stopped` tells that there is one.
///
/// # Errors
/// As [`integrate`]; [`SolveError::FunctionNotFinite`] where `g` is not finite.
pub fn event<const N: usize, F, G>(
    rhs: F,
    start: [f64; N],
    marks: &[f64],
    control: &Control<N>,
    g: G,
) -> Result<Solution<N>, SolveError>
where
    F: Fn(f64, &[f64; N], &mut [f64; N]),
    G: Fn(f64, &[f64; N]) -> f64,
{
    let limit = check(&start, marks, control)?;
    let first = g(0.0, &start);
    if !first.is_finite() {
        return Err(SolveError::FunctionNotFinite { at: 0.0 });
    }
    if limit == 0.0 {
        return Ok(at_start(start));
    }
    // The last two accepted steps: place and g there.
    let (before, now) = (Cell::new((0.0, first)), Cell::new((0.0, first)));
    let mut run = run(rhs, &start, limit, control, |x, y| {
        before.set(now.get());
        now.set((x, g(x, y)));
        let (old, new) = (before.get().1, now.get().1);
        !new.is_finite() || (old != 0.0 && (new == 0.0 || (old > 0.0) != (new > 0.0)))
    })?;
    let (low, high) = (before.get(), now.get());
    if !high.1.is_finite() {
        return Err(SolveError::FunctionNotFinite { at: high.0 });
    }
    if run.halted {
        let mut fault = Ok(());
        let on_model = |x| match run.state(x) {
            Ok(state) => g(x, &state),
            Err(error) => {
                fault = Err(error);
                f64::NAN
            }
        };
        let place = between(on_model, low, high, EVENT * high.0);
        fault?;
        (run.end, run.last) = {
            let x = place?;
            (x, run.state(x)?)
        };
    }
    Ok(Solution {
        at: states(&run, start, marks, run.end)?,
        end: run.end,
        last: run.last,
        stopped: run.halted,
        effort: run.effort,
    })
}

/// Refuses what cannot be integrated; gives the last mark.
fn check<const N: usize>(
    start: &[f64; N],
    marks: &[f64],
    control: &Control<N>,
) -> Result<f64, SolveError> {
    let mut before = None;
    for (index, &value) in marks.iter().enumerate() {
        let rises = before.is_none_or(|before| value > before);
        if !(value.is_finite() && value >= 0.0 && rises) {
            return Err(SolveError::Marks { index, value });
        }
        before = Some(value);
    }
    let settings = [
        ("the relative tolerance", control.relative),
        ("the longest step", control.step_max),
        ("the number of steps allowed", f64::from(control.steps_max)),
    ];
    let scales = control.scale.iter().map(|&scale| ("a scale of the state", scale));
    for (what, value) in settings.into_iter().chain(scales) {
        if !(value.is_finite() && value > 0.0) {
            return Err(SolveError::Setting { what, value });
        }
    }
    if let Some(component) = start.iter().position(|value| !value.is_finite()) {
        return Err(SolveError::NotFinite { at: 0.0, component });
    }
    before.ok_or(SolveError::NoMarks)
}

/// The solution when the only mark is 0.
fn at_start<const N: usize>(start: [f64; N]) -> Solution<N> {
    Solution { at: vec![start], end: 0.0, last: start, stopped: false, effort: Effort::default() }
}

/// The states at the marks up to `end`.
fn states<const N: usize>(
    run: &Run<N>,
    start: [f64; N],
    marks: &[f64],
    end: f64,
) -> Result<Vec<[f64; N]>, SolveError> {
    let reached = marks.iter().take_while(|&&mark| mark <= end);
    reached.map(|&mark| if mark == 0.0 { Ok(start) } else { run.state(mark) }).collect()
}
