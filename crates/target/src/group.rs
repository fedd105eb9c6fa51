use crate::TargetError;
use crate::interval::{Estimate, LARGEST, Sorted, mean_interval, sigma_factors};

/// Where an arrow met the impact plane, from the point of aim, m.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Impact {
    /// To the archer's left.
    pub left: f64,
    /// Up.
    pub up: f64,
}

impl Impact {
    /// Distance from the point of aim, m.
    pub fn radius(&self) -> f64 {
        self.left.hypot(self.up)
    }
}

/// Statistics of a group of impacts, about the group's own centre.
///
/// Card: `docs/model/groups.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Group {
    /// Number of impacts.
    pub count: usize,
    /// Centre of the group.
    pub centre: Impact,
    /// Standard deviation sideways, m. Interval: chi-square, n - 1 degrees of
    /// freedom.
    pub sigma_left: Estimate,
    /// Standard deviation up-down, m. Interval as sideways.
    pub sigma_up: Estimate,
    /// Root mean of the two variances, m. Interval: chi-square, 2n - 2 degrees
    /// of freedom, for equal and independent axes.
    pub sigma: Estimate,
    /// Mean distance from the centre, m, not corrected for the centre being
    /// the group's own. Interval: Student's t from 36 impacts; below, the
    /// value scaled like `sigma`.
    pub mean_radius: Estimate,
    /// Radius that holds half of the impacts, m. Interval: order statistics
    /// from 6 impacts; below, value and interval from `sigma`.
    pub r50: Estimate,
    /// Radius that holds nine tenths of the impacts, m. Interval: order
    /// statistics from 36 impacts; below, value and interval from `sigma`.
    pub r90: Estimate,
    /// Mean largest distance between two impacts of a six-shot group, m, over
    /// the consecutive sixes in the order given; a last part of a six is left
    /// out. Interval: Student's t. None below two sixes.
    pub spread6: Option<Estimate>,
}

/// Shots of a six-shot group.
const SIX: usize = 6;

/// Below this many impacts the t interval of the mean radius covers less than
/// its 95 %. Chosen: 36, where R90 leaves the form from sigma too.
const ENOUGH_FOR_T: usize = 36;

impl Group {
    /// Statistics of the impacts, at least two.
    ///
    /// Impacts that all share one point give zeros.
    ///
    /// # Errors
    /// [`TargetError::TooFew`] below two impacts; [`TargetError::Impact`] names
    /// the first impact that is not finite, or beyond 1e100 m, where squares
    /// would no longer be finite.
    pub fn of(impacts: &[Impact]) -> Result<Self, TargetError> {
        let first = check(impacts)?;
        let count = impacts.len();
        let n = count as f64;

        // From the first impact, so that equal impacts give an exact zero.
        let (sum_left, sum_up) = impacts
            .iter()
            .fold((0.0, 0.0), |(l, u), i| (l + (i.left - first.left), u + (i.up - first.up)));
        let centre = Impact { left: first.left + sum_left / n, up: first.up + sum_up / n };

        let mut squares = (0.0, 0.0);
        let mut radii = Vec::with_capacity(count);
        for impact in impacts {
            let left = impact.left - first.left - sum_left / n;
            let up = impact.up - first.up - sum_up / n;
            squares = (squares.0 + left * left, squares.1 + up * up);
            radii.push((left * left + up * up).sqrt());
        }
        let axis = sigma_factors(n - 1.0);
        let both = sigma_factors(2.0 * n - 2.0);
        let sigma = scaled(((squares.0 + squares.1) / (2.0 * n - 2.0)).sqrt(), both);

        let mut mean_radius = mean_interval(&radii);
        if count < ENOUGH_FOR_T {
            mean_radius = scaled(mean_radius.value, both);
        }
        let sorted = Sorted::new(radii);
        Ok(Self {
            count,
            centre,
            sigma_left: scaled((squares.0 / (n - 1.0)).sqrt(), axis),
            sigma_up: scaled((squares.1 / (n - 1.0)).sqrt(), axis),
            sigma,
            mean_radius,
            r50: sorted.quantile(5).unwrap_or_else(|| circle(&sigma, 0.5)),
            r90: sorted.quantile(9).unwrap_or_else(|| circle(&sigma, 0.9)),
            spread6: spread_of_sixes(impacts),
        })
    }
}

/// The first of at least two usable impacts.
fn check(impacts: &[Impact]) -> Result<Impact, TargetError> {
    let [first, _, ..] = impacts else {
        return Err(TargetError::TooFew { what: "impacts", count: impacts.len(), needed: 2 });
    };
    let usable = |i: &Impact| i.left.abs() <= LARGEST && i.up.abs() <= LARGEST;
    match impacts.iter().position(|impact| !usable(impact)) {
        Some(index) => {
            let Impact { left, up } = impacts[index];
            Err(TargetError::Impact { index, left, up, limit: LARGEST })
        }
        None => Ok(*first),
    }
}

fn scaled(value: f64, (low, high): (f64, f64)) -> Estimate {
    Estimate { value, low: value * low, high: value * high }
}

/// Radius that holds `share` of a circular normal group: the Rayleigh quantile
/// `sigma sqrt(-2 ln(1 - share))`.
fn circle(sigma: &Estimate, share: f64) -> Estimate {
    let factor = (-2.0 * (1.0 - share).ln()).sqrt();
    Estimate { value: sigma.value * factor, low: sigma.low * factor, high: sigma.high * factor }
}

/// Largest distance between two of the impacts, at least two, m.
///
/// It grows with the number of impacts, so compare it only between groups of
/// one size. The work grows with the square of their number.
///
/// # Errors
/// As for [`Group::of`].
pub fn extreme_spread(impacts: &[Impact]) -> Result<f64, TargetError> {
    check(impacts)?;
    Ok(widest(impacts))
}

fn widest(impacts: &[Impact]) -> f64 {
    let mut largest: f64 = 0.0;
    for (at, a) in impacts.iter().enumerate() {
        for b in &impacts[at + 1..] {
            let (left, up) = (a.left - b.left, a.up - b.up);
            largest = largest.max(left * left + up * up);
        }
    }
    largest.sqrt()
}

fn spread_of_sixes(impacts: &[Impact]) -> Option<Estimate> {
    let spreads: Vec<f64> = impacts.chunks_exact(SIX).map(widest).collect();
    if spreads.len() < 2 {
        return None;
    }
    let mean = mean_interval(&spreads);
    // A spread is never below zero, whatever the t interval says.
    Some(Estimate { low: mean.low.max(0.0), ..mean })
}

#[cfg(test)]
mod tests {
    use super::{Group, Impact, circle, extreme_spread, scaled};
    use crate::TargetError;

    fn square() -> [Impact; 4] {
        [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)].map(|(left, up)| Impact { left, up })
    }

    #[test]
    fn exact_a_square_of_impacts() -> Result<(), TargetError> {
        let group = Group::of(&square())?;
        // Squares of four, over three.
        assert!((group.sigma_left.value - (4.0_f64 / 3.0).sqrt()).abs() < 1e-15);
        assert!((group.mean_radius.value - 2.0_f64.sqrt()).abs() < 1e-15);
        assert!((extreme_spread(&square())? - 8.0_f64.sqrt()).abs() < 1e-15);
        Ok(())
    }

    #[test]
    fn law_a_group_moved_is_the_same_group() -> Result<(), TargetError> {
        let moved = square().map(|i| Impact { left: i.left + 64.0, up: i.up - 32.0 });
        let (here, there) = (Group::of(&square())?, Group::of(&moved)?);
        assert!((here.sigma.value - there.sigma.value).abs() < 1e-13);
        assert!((there.centre.left - 64.0).abs() < 1e-13 && (there.centre.up + 32.0).abs() < 1e-13);
        Ok(())
    }

    /// Half of a round normal group lies within 1.1774 sigma, the square root of
    /// 2 ln 2.
    #[test]
    fn exact_half_of_a_round_group() {
        let half = circle(&scaled(1.0, (0.5, 2.0)), 0.5);
        assert!((half.value - (2.0 * 2.0_f64.ln()).sqrt()).abs() < 1e-15);
    }
}
