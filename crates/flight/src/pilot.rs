//! How many steps a batch needs, found with a pilot.

use std::f64::consts::TAU;

use body::State;
use nalgebra::{Rotation3, Unit};
use solve::LANES_MAX;

use crate::batch::{Entry, Steps, fly_batch};

/// How far the farthest impact may be off by the size of the steps, m. Chosen:
/// three tenths of the promised 0.05 mm, for arrows that swing more than the pilot.
const PILOT_ERROR: f64 = 1.5e-5;
/// Longest step tried, m, and how many halvings of it. Chosen: arrows pitch once
/// in 15 m and more.
const LONGEST: f64 = 1.5;
const HALVINGS: u32 = 7;
/// Steps to a turn of the arrow, at least. Chosen: fixed steps alias with the turn at
/// one; half of that way is left to arrows that turn faster than the pilot.
const PER_TURN: f64 = 2.0;
/// Steps to a turn from which halving them tells their error. Chosen: eight
/// evaluations.
const FOLLOWED: f64 = 4.0;
/// How much longer the next step tried is. Chosen: a fourth-order error grows by a
/// quarter.
const LONGER: f64 = 16.0 / 15.0;

/// Steps for flights like a pilot: the longest that move it by no more than 0.015 mm
/// at any mark, however it is turned about its axis and
/// whichever way it is kicked, and no fewer than two to a turn. The shortest tried
/// if nothing suffices.
///
/// Steps are halved until a halving moves the pilot by no more than that; the finer
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
        if apart(&coarse, &truth).is_none_or(|gap| gap >= PILOT_ERROR) {
            (steps, coarse, length) = (halved, truth, 0.5 * length);
            continue;
        }
        loop {
            length *= LONGER;
            let fewer = Steps::no_longer_than(length, marks);
            let flown = || fly_batch(&pilots, fewer);
            if length > longest || apart(&flown(), &truth).is_none_or(|gap| gap >= PILOT_ERROR) {
                return steps;
            }
            steps = fewer;
        }
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
