use statrs::function::erf::erf;
use std::f64::consts::{FRAC_1_SQRT_2, PI};
use units::Length;

use crate::error::{not_negative, positive};
use crate::{Face, TargetError};

/// Sigmas beyond which a normal deviation is taken not to happen. Chosen: the
/// chance beyond is 2e-19, below the rounding of the sum.
const BEYOND: f64 = 9.0;

/// Steps of the trapezoid sum. Chosen: twice the 64 that hold 1e-14, whatever
/// the radius and the offset.
const STEPS: u32 = 128;

/// Expected score of one arrow on a face, for a circular normal group of
/// standard deviation `sigma` per axis, m, about the centre of the face.
///
/// Exact: the sum over the rings of `1 - exp(-(R + shaft / 2)^2 / (2 sigma^2))`.
///
/// # Errors
/// [`TargetError::Negative`] for a sigma or shaft diameter below zero or not
/// finite.
pub fn expected_score(sigma: f64, face: &Face, shaft: Length) -> Result<f64, TargetError> {
    let sigma = not_negative("sigma", sigma)?;
    let reach = not_negative("the diameter of the shaft", shaft.si())? / 2.0;
    let touched = |radius: f64| -(-0.5 * (radius / sigma).powi(2)).exp_m1();
    Ok(face.rings().iter().map(|ring| touched(ring.radius.si() + reach)).sum())
}

/// Chance that a circular normal deviation of standard deviation `sigma` per
/// axis falls in a circle of this `radius` whose centre is `offset` away, all
/// in m: the Rice distribution, or one minus Marcum's Q. Absolute error below
/// 1e-10, all of it from the error function.
///
/// With no spread it is 1 when the offset is within the radius, else 0.
///
/// # Errors
/// [`TargetError::NotPositive`] for the radius, [`TargetError::Negative`] for
/// offset or sigma.
pub fn offset_circle_probability(radius: f64, offset: f64, sigma: f64) -> Result<f64, TargetError> {
    let radius = positive("the radius", radius)?;
    let offset = not_negative("the offset", offset)?;
    let sigma = not_negative("sigma", sigma)?;
    let (r, d, gap) = (radius / sigma, offset / sigma, (radius - offset) / sigma);
    if !r.is_finite() {
        return Ok(if offset <= radius { 1.0 } else { 0.0 });
    }
    // Strips along the offset: y = r sin(t) from it, half as long as r cos(t).
    // The sum converges fast because the integrand is even and smooth across
    // t = pi/2, or vanishes at the ends.
    let end = (BEYOND / r).min(1.0).asin();
    let step = 2.0 * end / f64::from(STEPS);
    let sum: f64 = (1..STEPS)
        .map(|at| {
            let t = f64::from(at) * step - end;
            let (y, half) = (r * t.sin(), r * t.cos());
            // half - d, without the loss when both are large.
            let far = gap - 2.0 * r * (t / 2.0).sin().powi(2);
            let strip = 0.5 * (erf(far * FRAC_1_SQRT_2) + erf((half + d) * FRAC_1_SQRT_2));
            (-0.5 * y * y).exp() * strip * half
        })
        .sum();
    Ok((sum * step / (2.0 * PI).sqrt()).clamp(0.0, 1.0))
}
