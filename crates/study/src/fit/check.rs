//! Shots that cannot be, named by their lines.

use super::predictor::{Predictor, Values};
use super::{Observed, ShotFault, What};
use crate::StudyError;

/// Times the computed size beyond which a reading is in another unit. Chosen:
/// wider than any arrow, narrower than feet for metres or inches for
/// centimetres.
const FAR_OFF: f64 = 2.3;
/// Errors by which two marks may lie in the wrong order. Chosen: by chance,
/// fewer than one pair in ten thousand.
const ORDER: f64 = 4.0;

/// Refuses shots that cannot be; gives the values with the sight's scale laid
/// to its marks.
pub(super) fn check(
    course: &Predictor,
    start: &Values,
    shots: &[Observed],
) -> Result<Values, StudyError> {
    let mut faults: Vec<ShotFault> = shots.iter().filter_map(number).collect();
    if !faults.is_empty() {
        return Err(StudyError::Impossible { faults });
    }
    // On a scale that starts level with the arrow.
    let values = start.on_scale(0.0, 1.0);
    let computed = course.read(&values, shots)?;
    for (shot, computed) in shots.iter().zip(&computed) {
        let what = match shot.what {
            What::Speed(_) => "speed",
            What::Gap { .. } => "gap",
            What::Mark(_) | What::Impact { .. } => continue,
        };
        faults.extend(off(shot.line, what, shot.what.si() / computed));
    }
    let mut marks: Vec<(&Observed, f64)> =
        shots.iter().zip(computed).filter(|(shot, _)| matches!(shot.what, What::Mark(_))).collect();
    marks.sort_by(|a, b| a.0.distance.si().total_cmp(&b.0.distance.si()));
    let placed = match marks.as_slice() {
        [] => *start,
        marks => scale(start, marks, &mut faults),
    };
    if faults.is_empty() { Ok(placed) } else { Err(StudyError::Impossible { faults }) }
}

fn off(line: usize, what: &'static str, times: f64) -> Option<ShotFault> {
    let fine = (1.0 / FAR_OFF..=FAR_OFF).contains(&times);
    (!fine).then_some(ShotFault::Unit { line, what, times })
}

/// Numbers, and pins that are no other pins.
fn number(shot: &Observed) -> Option<ShotFault> {
    let line = shot.line;
    let fault = |what, value: f64, above: bool| {
        let fine = value.is_finite() && (!above || value > 0.0);
        (!fine).then_some(ShotFault::Number { line, what, value, above })
    };
    let distance = shot.distance.si();
    let pin = match shot.what {
        What::Gap { pin, .. } | What::Impact { pin, .. } => Some(pin.si()),
        What::Speed(_) | What::Mark(_) => None,
    };
    let sized = matches!(shot.what, What::Speed(_) | What::Gap { .. });
    let at_bow = matches!(shot.what, What::Speed(_)) && distance == 0.0;
    fault("the distance", distance, !at_bow)
        .or_else(|| pin.and_then(|pin| fault("the pin's distance", pin, true)))
        .or_else(|| fault("the reading", shot.what.si(), sized))
        .or_else(|| shot.error.and_then(|error| fault("the error", error, true)))
        .or_else(|| (pin == Some(distance)).then_some(ShotFault::SamePin { line }))
}

/// Lays the scale to the marks, sorted by distance, each with its computed
/// reading on a scale that rises with distance.
fn scale(start: &Values, marks: &[(&Observed, f64)], faults: &mut Vec<ShotFault>) -> Values {
    let count = marks.len() as f64;
    let mean = marks.iter().map(|(shot, _)| shot.what.si()).sum::<f64>() / count;
    let computed = marks.iter().map(|(_, computed)| computed).sum::<f64>() / count;
    let product: f64 =
        marks.iter().map(|(shot, at)| (shot.what.si() - mean) * (at - computed)).sum();
    let sense = if product < 0.0 { -1.0 } else { 1.0 };
    let mut crossed = false;
    for pair in marks.windows(2) {
        let [(near, near_at), (far, far_at)] = [pair[0], pair[1]];
        let seen = sense * (far.what.si() - near.what.si());
        let error = near.sigma().hypot(far.sigma());
        let against = seen * (far_at - near_at) < 0.0;
        if against && seen.abs() > ORDER * error && (far_at - near_at).abs() > error {
            crossed = true;
            let way = if sense > 0.0 { "rise" } else { "fall" };
            faults.push(ShotFault::Crossing { first: near.line, second: far.line, way });
        }
    }
    let ends = marks.iter().map(|(_, at)| *at);
    let (low, high) = ends.fold((f64::MAX, f64::MIN), |(l, h), at| (l.min(at), h.max(at)));
    let error = marks.iter().map(|(shot, _)| shot.sigma()).fold(0.0, f64::max);
    let square: f64 = marks.iter().map(|(_, at)| (at - computed).powi(2)).sum();
    if !crossed && high - low > ORDER * error {
        // The mark farthest from the middle shows the unit best.
        let outer =
            marks.iter().max_by(|a, b| (a.1 - computed).abs().total_cmp(&(b.1 - computed).abs()));
        if let Some((shot, _)) = outer {
            faults.extend(off(shot.line, "run of sight marks", product.abs() / square));
        }
    }
    start.on_scale(mean - sense * computed, sense)
}
