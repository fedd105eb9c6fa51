use body::Across;
use nalgebra::{Matrix3, Vector3};

use crate::WorkbenchError;

/// Least share of evenly spread readings' information that a fit must have.
/// Chosen: readings within a tenth of a turn have less.
const LEAST_SPREAD: f64 = 1e-2;

/// Readings round the clock as a mean and one wave:
/// `mean + at0 cos(clock) + at90 sin(clock)`.
///
/// Of a round part turning about an axis, the wave is how far its centre lies
/// off the axis; to first order it is the centre of the least-squares circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Harmonic {
    /// The mean.
    pub mean: f64,
    /// The wave: its size, and the clock position where it is highest.
    pub wave: Across,
    /// Readings beyond the three that a fit takes.
    pub freedom: usize,
    /// Standard deviation of a reading about the fit; zero without freedom.
    pub noise: f64,
    /// Largest distance of a reading from the fit.
    pub largest: f64,
    /// Variances of the wave's two components and their covariance, over the
    /// variance of one reading.
    pub spread: [f64; 3],
}

impl Harmonic {
    /// Standard error of the wave along a vector (of size one for the wave
    /// itself), for this noise of one reading.
    pub fn error(&self, noise: f64, along: Across) -> f64 {
        let Across { at0: x, at90: y } = along;
        let [a, b, ab] = self.spread;
        noise * (a * x * x + b * y * y + 2.0 * ab * x * y).max(0.0).sqrt()
    }

    /// The wave at a clock position, rad, above the mean.
    pub fn above(&self, clock: f64) -> f64 {
        let (sin, cos) = clock.sin_cos();
        self.wave.at0 * cos + self.wave.at90 * sin
    }
}

/// The least-squares fit of one wave to readings at clock positions, rad.
///
/// # Errors
/// [`WorkbenchError::Clocks`] when the readings do not spread over the turn.
pub fn harmonic(readings: &[(f64, f64)]) -> Result<Harmonic, WorkbenchError> {
    let count = readings.len();
    let bad = WorkbenchError::Clocks { count };
    if count < 3 || readings.iter().any(|(clock, y)| !(clock.is_finite() && y.is_finite())) {
        return Err(bad);
    }
    let row = |clock: f64| {
        let (sin, cos) = clock.sin_cos();
        Vector3::new(1.0, cos, sin)
    };
    // Taken from the first reading, which keeps small waves on large means exact.
    let first = readings[0].1;
    let (mut normal, mut right) = (Matrix3::zeros(), Vector3::zeros());
    for &(clock, y) in readings {
        let row = row(clock);
        normal += row * row.transpose();
        right += row * (y - first);
    }
    // Of evenly spread readings the smallest eigenvalue is half their number.
    let least = normal.symmetric_eigenvalues().min();
    if least < LEAST_SPREAD * count as f64 / 2.0 {
        return Err(bad);
    }
    let inverse = normal.try_inverse().ok_or(bad)?;
    let fit = inverse * right;
    let left: Vec<f64> =
        readings.iter().map(|&(clock, y)| y - first - row(clock).dot(&fit)).collect();
    let freedom = count - 3;
    let squares: f64 = left.iter().map(|r| r * r).sum();
    Ok(Harmonic {
        mean: first + fit[0],
        wave: Across { at0: fit[1], at90: fit[2] },
        freedom,
        noise: if freedom > 0 { (squares / freedom as f64).sqrt() } else { 0.0 },
        largest: left.iter().fold(0.0, |most, r| r.abs().max(most)),
        spread: [inverse[(1, 1)], inverse[(2, 2)], inverse[(1, 2)]],
    })
}

#[cfg(test)]
mod tests {
    use super::harmonic;
    use crate::WorkbenchError;

    #[test]
    fn exact_a_wave_is_found_at_uneven_clocks() -> Result<(), WorkbenchError> {
        let wave = |clock: f64| 3.0 + 0.2 * (clock - 1.1).cos();
        let readings = [0.0, 0.7, 1.9, 3.3, 4.1, 5.8].map(|clock| (clock, wave(clock)));
        let found = harmonic(&readings)?;
        assert!((found.mean - 3.0).abs() < 1e-14 && (found.wave.size() - 0.2).abs() < 1e-14);
        assert!((found.wave.clock() - 1.1).abs() < 1e-13 && found.noise < 1e-14);
        Ok(())
    }

    #[test]
    fn law_readings_on_one_side_are_refused() {
        assert!(harmonic(&[(0.0, 1.0), (0.1, 1.0), (0.2, 1.0)]).is_err());
    }
}
