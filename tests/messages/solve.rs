use insta::assert_snapshot;
use solve::{Control, SolveError, Table, event, integrate, root};

const CONTROL: Control<2> =
    Control { relative: 1e-6, scale: [1.0; 2], step_max: 1.0, steps_max: 100_000 };

fn turn(_: f64, y: &[f64; 2], dy: &mut [f64; 2]) {
    *dy = [y[1], -y[0]];
}

fn fails(
    rhs: impl Fn(f64, &[f64; 2], &mut [f64; 2]),
    start: [f64; 2],
    marks: &[f64],
    control: &Control<2>,
) -> SolveError {
    integrate(rhs, start, marks, control, |_, _| false).unwrap_err()
}

#[test]
fn regress_messages_about_marks() {
    let of = |marks: &[f64]| fails(turn, [1.0, 0.0], marks, &CONTROL);
    assert_snapshot!(of(&[]), @"there are no marks to integrate to");
    assert_snapshot!(of(&[1.0, 3.0, 2.0]), @"mark 2 is 2; marks must be finite, not below zero and strictly rising");
    assert_snapshot!(of(&[1.0, 1.0]), @"mark 1 is 1; marks must be finite, not below zero and strictly rising");
    assert_snapshot!(of(&[-1.0]), @"mark 0 is -1; marks must be finite, not below zero and strictly rising");
    assert_snapshot!(of(&[f64::NAN]), @"mark 0 is NaN; marks must be finite, not below zero and strictly rising");
    assert_snapshot!(of(&[1.0, f64::INFINITY]), @"mark 1 is inf; marks must be finite, not below zero and strictly rising");
}

#[test]
fn regress_messages_about_settings() {
    let of = |control: Control<2>| fails(turn, [1.0, 0.0], &[1.0], &control);
    assert_snapshot!(of(Control { relative: 0.0, ..CONTROL }), @"the relative tolerance is 0; it must be a finite number above zero");
    assert_snapshot!(of(Control { step_max: f64::INFINITY, ..CONTROL }), @"the longest step is inf; it must be a finite number above zero");
    assert_snapshot!(of(Control { steps_max: 0, ..CONTROL }), @"the number of steps allowed is 0; it must be a finite number above zero");
    assert_snapshot!(of(Control { scale: [1.0, -2.0], ..CONTROL }), @"a scale of the state is -2; it must be a finite number above zero");
    assert_snapshot!(root(|x| x, -1.0, 1.0, f64::NAN).unwrap_err(), @"the tolerance of a root is NaN; it must be a finite number above zero");
}

#[test]
fn regress_messages_about_a_run() {
    let start = [1.0, 0.0];
    assert_snapshot!(fails(turn, [0.0, f64::NAN], &[1.0], &CONTROL), @"component 1 of the state or its derivative is not finite at 0");
    // A jump that no step can cross within the tolerance.
    let wall = |x: f64, _: &[f64; 2], dy: &mut [f64; 2]| {
        *dy = [if x < 0.5 { 0.0 } else { 1e30 }, 0.0];
    };
    let at = match fails(wall, start, &[1.0], &CONTROL) {
        SolveError::StepUnderflow { at } => at,
        other => panic!("{other:?}"),
    };
    assert!((at - 0.5).abs() < 1e-12, "{at}");
    assert_snapshot!(SolveError::StepUnderflow { at: 0.5 }, @"no step at 0.5 is small enough for the tolerance");
    let few = Control { steps_max: 2, ..CONTROL };
    assert!(matches!(fails(turn, start, &[9.0], &few), SolveError::TooManySteps { steps: 2, .. }));
    assert_snapshot!(SolveError::TooManySteps { at: 0.25, steps: 2 }, @"2 steps were used up at 0.25");
    let stiff = |x: f64, y: &[f64; 2], dy: &mut [f64; 2]| *dy = [-1e5 * (y[0] - x.cos()), 0.0];
    assert!(matches!(fails(stiff, start, &[1.0], &CONTROL), SolveError::Stiff { .. }));
    assert_snapshot!(SolveError::Stiff { at: 0.5 }, @"the equations are too stiff for an explicit method at 0.5");
}

#[test]
fn regress_messages_about_functions() {
    assert_snapshot!(root(|x| x * x + 1.0, -1.0, 2.0, 1e-9).unwrap_err(), @"no sign change between -1 and 2: the function is 2 and 5 there");
    assert_snapshot!(root(f64::ln, -1.0, 2.0, 1e-9).unwrap_err(), @"the function whose zero is sought is not finite at -1");
    let g = |_: f64, y: &[f64; 2]| y[1].sqrt();
    assert!(matches!(
        event(turn, [1.0, 0.0], &[9.0], &CONTROL, g),
        Err(SolveError::FunctionNotFinite { at }) if at > 0.0
    ));
    assert_snapshot!(event(turn, [1.0, -1.0], &[9.0], &CONTROL, g).unwrap_err(), @"the function whose zero is sought is not finite at 0");
}

#[test]
fn regress_messages_about_tables() {
    assert_snapshot!(Table::new(vec![(0.0, 1.0)]).unwrap_err(), @"a table needs at least two rows, not 1");
    assert_snapshot!(Table::new(vec![(0.0, 1.0), (0.0, 2.0)]).unwrap_err(), @"row 1 of the table is (0, 2); rows must be finite and x strictly rising");
    assert_snapshot!(Table::new(vec![(0.0, 1.0), (1.0, f64::NAN)]).unwrap_err(), @"row 1 of the table is (1, NaN); rows must be finite and x strictly rising");
    let table = Table::new(vec![(0.5, 1.0), (2.0, 3.0)]).unwrap();
    assert_snapshot!(table.at(2.25).unwrap_err(), @"2.25 is outside the table, which runs from 0.5 to 2");
}
