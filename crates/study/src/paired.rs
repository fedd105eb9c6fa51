//! Intervals of differences between two groups flown with the same chances.

use target::{Estimate, Impact, TargetError, mean_estimate};

/// Blocks of the jackknife. Chosen: enough that Student's t is within 3 % of
/// the normal, few enough that a block of 10,000 flights holds 200.
const BLOCKS: usize = 50;

/// Which flights are left out together.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Blocks {
    count: usize,
    arrows: Option<usize>,
}

impl Blocks {
    /// For so many flights, shared among so many arrows. Flights of one arrow
    /// stay together, because they are not independent; a single arrow's
    /// flights are parted, since it has no other to differ from.
    pub(crate) fn new(flights: usize, arrows: Option<usize>) -> Self {
        let arrows = arrows.filter(|&arrows| arrows > 1);
        Self { count: BLOCKS.min(arrows.unwrap_or(flights)).min(flights), arrows }
    }

    fn of(self, flight: usize) -> usize {
        self.arrows.map_or(flight, |arrows| flight % arrows) % self.count
    }

    /// The interval of a statistic, from its values with each block left out
    /// in turn: Student's t on the pseudo-values. [tukey-1958]
    fn interval(self, whole: f64, without: &[f64]) -> Result<Estimate, TargetError> {
        let count = self.count as f64;
        let pseudo: Vec<f64> =
            without.iter().map(|part| count * whole - (count - 1.0) * part).collect();
        let about = mean_estimate(&pseudo)?;
        let half = 0.5 * (about.high - about.low);
        Ok(Estimate { value: whole, low: whole - half, high: whole + half })
    }
}

/// Sigma of `a` over that of `b`, the same flights with two builds. None when
/// only `b` has no scatter; 1 when neither has.
///
/// The interval is taken on the logarithm, so it stays above zero.
pub(crate) fn sigma_ratio(
    a: &[Impact],
    b: &[Impact],
    blocks: Blocks,
) -> Result<Option<Estimate>, TargetError> {
    let (a, b) = (PairSums::new(a, blocks), PairSums::new(b, blocks));
    let exact = |value| Ok(Some(Estimate { value, low: value, high: value }));
    let (whole_a, whole_b) = (a.whole.sigma(), b.whole.sigma());
    if whole_b <= 0.0 {
        return if whole_a <= 0.0 { exact(1.0) } else { Ok(None) };
    }
    if whole_a <= 0.0 {
        return exact(0.0);
    }
    let without: Vec<f64> = (0..blocks.count)
        .map(|block| (a.without(block).sigma() / b.without(block).sigma()).ln())
        .collect();
    let log = blocks.interval((whole_a / whole_b).ln(), &without)?;
    Ok(Some(Estimate { value: log.value.exp(), low: log.low.exp(), high: log.high.exp() }))
}

/// R50 of `a` less that of `b`, the same flights with two builds; `value` is
/// that difference as the groups give it.
///
/// The radii are about each group's centre; that the centre moves as a block
/// is left out is of second order and not counted.
pub(crate) fn gain(
    value: f64,
    a: &[Impact],
    b: &[Impact],
    blocks: Blocks,
) -> Result<Estimate, TargetError> {
    let (a, b) = (Radii::new(a, blocks), Radii::new(b, blocks));
    let whole = a.median_without(None) - b.median_without(None);
    let without: Vec<f64> = (0..blocks.count)
        .map(|block| a.median_without(Some(block)) - b.median_without(Some(block)))
        .collect();
    let about = blocks.interval(whole, &without)?;
    let half = 0.5 * (about.high - about.low);
    Ok(Estimate { value, low: value - half, high: value + half })
}

/// The mean of changes, one for each flight flown with two builds.
pub(crate) fn mean_change(changes: &[f64], blocks: Blocks) -> Result<Estimate, TargetError> {
    let whole: f64 = changes.iter().sum();
    let mut parts = vec![(0.0, 0.0); blocks.count];
    for (flight, change) in changes.iter().enumerate() {
        let part: &mut (f64, f64) = &mut parts[blocks.of(flight)];
        *part = (part.0 + change, part.1 + 1.0);
    }
    let count = changes.len() as f64;
    let without: Vec<f64> = parts.iter().map(|(sum, of)| (whole - sum) / (count - of)).collect();
    blocks.interval(whole / count, &without)
}

/// Count, sums and sums of squares.
#[derive(Debug, Clone, Copy, Default)]
struct PairSum {
    count: f64,
    left: f64,
    up: f64,
    squares: f64,
}

impl PairSum {
    fn add(&mut self, impact: Impact) {
        self.count += 1.0;
        self.left += impact.left;
        self.up += impact.up;
        self.squares += impact.left * impact.left + impact.up * impact.up;
    }

    fn less(self, other: Self) -> Self {
        Self {
            count: self.count - other.count,
            left: self.left - other.left,
            up: self.up - other.up,
            squares: self.squares - other.squares,
        }
    }

    fn sigma(self) -> f64 {
        let about = self.squares - (self.left * self.left + self.up * self.up) / self.count;
        (about.max(0.0) / (2.0 * self.count - 2.0)).sqrt()
    }
}

struct PairSums {
    whole: PairSum,
    parts: Vec<PairSum>,
}

impl PairSums {
    fn new(impacts: &[Impact], blocks: Blocks) -> Self {
        let centre = centre(impacts);
        let mut whole = PairSum::default();
        let mut parts = vec![PairSum::default(); blocks.count];
        for (flight, impact) in impacts.iter().enumerate() {
            let about = Impact { left: impact.left - centre.left, up: impact.up - centre.up };
            whole.add(about);
            parts[blocks.of(flight)].add(about);
        }
        Self { whole, parts }
    }

    fn without(&self, block: usize) -> PairSum {
        self.whole.less(self.parts[block])
    }
}

/// Radii about the centre, rising, each with its block.
struct Radii(Vec<(f64, usize)>);

impl Radii {
    fn new(impacts: &[Impact], blocks: Blocks) -> Self {
        let centre = centre(impacts);
        let radius = |i: &Impact| (i.left - centre.left).hypot(i.up - centre.up);
        let mut radii: Vec<(f64, usize)> =
            impacts.iter().enumerate().map(|(at, i)| (radius(i), blocks.of(at))).collect();
        radii.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        Self(radii)
    }

    /// The median radius with a block left out; impacts are never all in it.
    fn median_without(&self, block: Option<usize>) -> f64 {
        let kept = || self.0.iter().filter(|(_, of)| Some(*of) != block);
        let count = kept().count();
        let mut middle = kept().map(|(radius, _)| *radius).skip((count - 1) / 2);
        let lower = middle.next().unwrap_or_default();
        if count % 2 == 1 { lower } else { 0.5 * (lower + middle.next().unwrap_or(lower)) }
    }
}

/// The mean, measured from the first impact, so that equal impacts give it
/// exactly.
fn centre(impacts: &[Impact]) -> Impact {
    let Some(first) = impacts.first().copied() else { return Impact::default() };
    let n = impacts.len() as f64;
    let (left, up) = impacts
        .iter()
        .fold((0.0, 0.0), |(l, u), i| (l + (i.left - first.left), u + (i.up - first.up)));
    Impact { left: first.left + left / n, up: first.up + up / n }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn column(scale: f64) -> Vec<Impact> {
        let at = |i: u32| f64::from(i * 7919 % 101) / 101.0 - 0.5;
        (0..200).map(|i| Impact { left: scale * at(i), up: scale * at(3 * i + 1) }).collect()
    }

    #[test]
    fn exact_a_group_twice_as_wide_has_twice_the_sigma_without_doubt() {
        let blocks = Blocks::new(200, None);
        let ratio = sigma_ratio(&column(2.0), &column(1.0), blocks).unwrap().unwrap();
        // Each block gives the same ratio, so the interval has no width.
        assert!((ratio.value - 2.0).abs() < 1e-12 && ratio.high - ratio.low < 1e-12);
    }

    #[test]
    fn exact_points_have_no_ratio_to_them() {
        let (point, group) = (vec![Impact::default(); 200], column(1.0));
        let ratio = |a, b| sigma_ratio(a, b, Blocks::new(200, None)).unwrap();
        assert_eq!(ratio(&group, &point), None);
        assert_eq!(ratio(&point, &group).map(|ratio| ratio.value), Some(0.0));
        assert_eq!(ratio(&point, &point).map(|ratio| ratio.value), Some(1.0));
    }
}
