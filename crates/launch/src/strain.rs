//! How far the push bends the shaft, and how near it comes to buckling it.
//! Model card: docs/model/safety.md.

use arrow::{Built, Parts};
use units::Angle;

use crate::{Bow, Buckling, Detail, Form, Frame, History, LaunchError, beam, watch};

/// Elements of the shaft between whose ends its bend is looked at. Chosen: some
/// eight to each half wave of the third mode; the curvature of a wave of twice
/// that length comes out within 1.3 %.
const ELEMENTS: usize = 24;

/// How far a push bends the shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PushBend {
    /// How near it comes to buckling.
    pub buckling: Buckling,
    /// Greatest strain of the shaft's surface.
    pub strain: f64,
    /// Farthest that the bent shaft stands off the line between its ends, m.
    pub bow: f64,
}

/// Follows the push of an arrow and tells how far it bends the shaft.
///
/// # Errors
/// [`LaunchError`].
pub fn push_bend(
    bow: &Bow,
    parts: &Parts,
    built: &Built,
    index: Angle,
    form: &Form,
) -> Result<PushBend, LaunchError> {
    let history = watch(bow, parts, built, index, form, Detail::default())?;
    let peak = history.frames.iter().map(|frame| frame.push).fold(0.0, f64::max);
    let limit = beam(parts, built).buckling_acceleration()?;
    let shape = Shape::of(&history, built);
    let half = 0.5 * parts.shaft.outside.si();
    let (mut curvature, mut off) = (0.0_f64, 0.0_f64);
    for frame in &history.frames {
        let [left, up] = shape.at(frame);
        for at in 1..ELEMENTS {
            let turn = |of: &[f64]| bent(of, at, shape.step);
            let chord = |of: &[f64]| {
                let share = at as f64 / ELEMENTS as f64;
                of[at] - of[0] - share * (of[ELEMENTS] - of[0])
            };
            curvature = curvature.max(turn(&left).hypot(turn(&up)));
            off = off.max(chord(&left).hypot(chord(&up)));
        }
    }
    let buckling = Buckling { limit, peak: peak / built.mass.mass().si() };
    Ok(PushBend { buckling, strain: half * curvature, bow: off })
}

/// Curvature of a line at a place, from its neighbours a step (m) away.
fn bent(line: &[f64], at: usize, step: f64) -> f64 {
    (line[at - 1] - 2.0 * line[at] + line[at + 1]) / step.powi(2)
}

/// Bending modes at places along the shaft.
struct Shape {
    step: f64,
    modes: Vec<Vec<f64>>,
}

impl Shape {
    fn of(history: &History, built: &Built) -> Self {
        let (rear, front) = (built.layout.shaft_rear.si(), built.layout.shaft_front.si());
        let step = (front - rear) / ELEMENTS as f64;
        // Two rigid motions come first.
        let at = |place: usize| history.arrow.at(rear + place as f64 * step).0[2..].to_vec();
        Self { step, modes: (0..=ELEMENTS).map(at).collect() }
    }

    /// What the bending moves each place, left and up, m.
    fn at(&self, frame: &Frame) -> [Vec<f64>; 2] {
        frame.bending().map(|bent| {
            let moved = |modes: &Vec<f64>| modes.iter().zip(&bent).map(|(w, q)| w * q).sum();
            self.modes.iter().map(moved).collect()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of a wave of which every half has eight places, (pi/8)^2/12 of its curvature is
    /// lost, as the series of the second difference says.
    #[test]
    fn exact_curvature_of_a_wave() {
        let (wave, step) = (20.0_f64, std::f64::consts::PI / 8.0 / 20.0);
        let line: Vec<f64> = (0..9).map(|at| (wave * f64::from(at) * step).sin()).collect();
        let lost = 1.0 + bent(&line, 4, step) / wave.powi(2);
        assert!((lost - (std::f64::consts::PI / 8.0).powi(2) / 12.0).abs() < 1e-4, "{lost}");
    }
}
