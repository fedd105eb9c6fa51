//! What a fit says of the flight, as readings of speed that any answer can use as
//! evidence.

use nalgebra::DMatrix;
use units::{Length, Speed};

use super::predictor::{CLOSENESS, Predictor, Values};
use super::{FitPlan, FittedSpeed, FittedSpeeds, Observed, Sought, What};
use crate::StudyError;

/// Places looked at between the bow and the farthest shot. Chosen: between two of them
/// a covariance is straight.
const PLACES: u32 = 12;

/// The speeds of a fit.
///
/// A fit knows departure speed v and drag c together. With S their covariance and g the
/// slopes of the speed at a distance x by both, that speed has the variance g' S g and
/// the covariance S g with v. Whoever sees an arrow fall as far either with more speed
/// and more drag or with less of both knows the speed on the way better than at its
/// ends, so the covariance falls through zero: the speeds there and at the bow are two
/// independent readings that say all of S.
pub(super) fn speeds(
    course: &Predictor,
    values: &Values,
    plan: &FitPlan,
    covariance: &DMatrix<f64>,
) -> Result<FittedSpeeds, StudyError> {
    let place = |what| plan.sought.iter().position(|sought| *sought == what);
    let (mass, mut speeds) = (course.mass(), Vec::new());
    let Some(speed) = place(Sought::Speed) else { return Ok(FittedSpeeds { mass, speeds }) };
    speeds.push(FittedSpeed {
        distance: Length::ZERO,
        speed: Speed::from_si(values.of(Sought::Speed)),
        error: Speed::from_si(covariance[(speed, speed)].sqrt()),
    });
    let Some(drag) = place(Sought::Drag) else { return Ok(FittedSpeeds { mass, speeds }) };
    let farthest = plan.shots.iter().map(|shot| shot.distance.si()).fold(0.0, f64::max);
    let distances: Vec<f64> =
        (1..=PLACES).map(|k| farthest * f64::from(k) / f64::from(PLACES)).collect();
    let shot = |distance: &f64| Observed {
        line: 0,
        distance: Length::from_si(*distance),
        what: What::Speed(Speed::ZERO),
        error: None,
    };
    let shots: Vec<Observed> = distances.iter().map(shot).collect();
    let own = course.read(values, &shots)?;
    let list = values.list(&plan.sought);
    let slopes = |of: usize| -> Result<Vec<f64>, StudyError> {
        let mut moved = list.clone();
        let step = CLOSENESS.step * moved[of];
        moved[of] += step;
        let read = course.read(&values.with(&plan.sought, &moved), &shots)?;
        Ok(read.iter().zip(&own).map(|(moved, own)| (moved - own) / step).collect())
    };
    let (by_speed, by_drag) = (slopes(speed)?, slopes(drag)?);
    let [v, c, both] = [(speed, speed), (drag, drag), (speed, drag)].map(|at| covariance[at]);
    let with: Vec<f64> = by_speed.iter().zip(&by_drag).map(|(a, b)| a * v + b * both).collect();
    // At the bow it is the speed itself.
    let before = |at: usize| at.checked_sub(1).map_or((0.0, v), |at| (distances[at], with[at]));
    if let Some(at) = with.iter().position(|with| *with <= 0.0) {
        let (from, above) = before(at);
        let distance = from + (distances[at] - from) * above / (above - with[at]);
        let near = |of: &[f64], at_bow: f64| {
            let from = at.checked_sub(1).map_or(at_bow, |at| of[at]);
            from + (of[at] - from) * above / (above - with[at])
        };
        let (a, b) = (near(&by_speed, 1.0), near(&by_drag, 0.0));
        let read = course.read(values, &[shot(&distance)])?[0];
        speeds.push(FittedSpeed {
            distance: Length::from_si(distance),
            speed: Speed::from_si(read),
            error: Speed::from_si((a * a * v + 2.0 * a * b * both + b * b * c).max(0.0).sqrt()),
        });
    }
    Ok(FittedSpeeds { mass, speeds })
}
