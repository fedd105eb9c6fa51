//! How many steps a batch needs, found with a pilot.

use std::f64::consts::TAU;

use body::State;
use nalgebra::{Rotation3, Unit};
use solve::LANES_MAX;

use crate::batch::{Entry, Steps, fly_batch};

/// How far the farthest impact may be off by the size of the steps, m. Chosen:
/// three tenths of the promised 0.05 mm, for arrows kicked harder than the pilot.
const PILOT_ERROR: f64 = 1.5e-5;
/// How far it may be off in steps a quarter longer. Chosen: an arrow that swings and
/// turns a quarter faster than the pilot errs as the pilot does in such steps; and where
/// the order holds, this is the same bound, 1.25 to the fourth times as far.
const QUARTER_LONGER: f64 = 3.6e-5;
/// Longest step, m, and how many halvings. Chosen: arrows pitch once in 15 m and more.
const LONGEST: f64 = 1.5;
const HALVINGS: u32 = 7;
/// Steps to a turn of the arrow, at least. Chosen: fixed steps alias with the turn at
/// one; half of that way is left to arrows that turn faster than the pilot.
const PER_TURN: f64 = 2.0;
/// Steps to a turn from which halving them tells their error. Chosen: eight
/// evaluations.
const FOLLOWED: f64 = 4.0;
/// How much longer the next step tried is: three make a quarter.
const LONGER: f64 = 1.0772;
const RUNGS: i32 = 3;

/// Steps for flights like a pilot: the longest that move it by no more than 0.015 mm
/// at any mark, and by no more than 0.036 mm when a quarter longer, however it is turned
/// about its axis and whichever way it is kicked; no fewer than two to a turn. The
/// shortest tried if nothing suffices.
///
/// Steps are halved until a halving moves the pilot by no more than 0.015 mm; the finer
/// flight then is the truth against which longer steps are held, one after the
/// other, up to the first that errs more. So no longer step is taken for good
/// because it errs little by accident.
pub fn pilot_steps(pilot: &Entry<'_>) -> Steps {
    let Entry { model, marks, .. } = *pilot;
    let starts: [State; WAYS] = std::array::from_fn(|way| turned(pilot.start, way));
    let pilots = starts.each_ref().map(|start| Entry { model, start, marks });
    let turn = model.turn_per_length().abs() * model.beats().max(1.0);
    let per_turn =
        |count: f64| if turn > 0.0 { LONGEST.min(TAU / (count * turn)) } else { LONGEST };
    let longest = per_turn(PER_TURN);
    let mut length = per_turn(FOLLOWED);
    let mut steps = Steps::no_longer_than(length, marks);
    let mut coarse = fly_batch(&pilots, steps);
    for _ in 0..HALVINGS {
        let halved = Steps::new(2 * steps.total());
        let truth = fly_batch(&pilots, halved);
        let error = |flown: &[_]| apart(flown, &truth).unwrap_or(f64::INFINITY);
        if error(&coarse) >= PILOT_ERROR {
            (steps, coarse, length) = (halved, truth, 0.5 * length);
            continue;
        }
        let (mut near, mut rungs) = (0, 0);
        while length * LONGER.powi(rungs - RUNGS) < longest {
            let longer = Steps::no_longer_than(length * LONGER.powi(rungs + 1), marks);
            let error = error(&fly_batch(&pilots, longer));
            if error >= QUARTER_LONGER {
                break;
            }
            rungs += 1;
            if error < PILOT_ERROR && near + 1 == rungs {
                near = rungs;
            }
        }
        let length = length * LONGER.powi(near.min(rungs - RUNGS));
        return Steps::no_longer_than(longest.min(length), marks);
    }
    steps
}

/// Ways in which a pilot flies. Chosen: as many as the widest lanes hold.
const WAYS: usize = LANES_MAX;

/// A start with its kick turned about the axis by one angle and the arrow by
/// another.
fn turned(start: &State, way: usize) -> State {
    let eighths = |count: usize| TAU * count as f64 / WAYS as f64;
    let mut turned = *start;
    let about = Rotation3::from_axis_angle(&Unit::new_normalize(start.axis), eighths(way));
    turned.rate = about * start.rate;
    turned.roll += eighths(3 * way);
    turned
}

/// Largest distance between flights at any mark, m; none if one fell short.
fn apart(one: &[Option<Vec<State>>], other: &[Option<Vec<State>>]) -> Option<f64> {
    let mut gap: f64 = 0.0;
    for (a, b) in one.iter().zip(other) {
        for (a, b) in a.as_ref()?.iter().zip(b.as_ref()?) {
            gap = gap.max((a.position - b.position).norm());
        }
    }
    Some(gap)
}
