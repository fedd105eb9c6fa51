//! Axes: round steps, grid, labels, and the way from numbers to the sheet.

use crate::ink::{GRID, Pen, SOFT};
use crate::paper::{Cell, Drawn, Paper, Spot};

/// A plot's frame. `low` of y may be the larger number: then y runs downward.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Axes {
    /// Place on the sheet.
    pub(crate) cell: Cell,
    /// Numbers at the left and right edge.
    pub(crate) x: (f64, f64),
    /// Numbers at the bottom and top edge.
    pub(crate) y: (f64, f64),
}

impl Axes {
    /// Where a pair of numbers falls on the sheet.
    pub(crate) fn at(&self, x: f64, y: f64) -> Spot {
        let part = |value: f64, ends: (f64, f64)| (value - ends.0) / (ends.1 - ends.0);
        let c = &self.cell;
        (
            c.left + part(x, self.x) * (c.right - c.left),
            c.bottom - part(y, self.y) * (c.bottom - c.top),
        )
    }

    /// Where a list of pairs falls.
    pub(crate) fn all(&self, points: &[(f64, f64)]) -> Vec<Spot> {
        points.iter().map(|&(x, y)| self.at(x, y)).collect()
    }

    /// Pixels that a unit takes, across and up.
    pub(crate) fn scale(&self) -> (f64, f64) {
        let c = &self.cell;
        let across = (c.right - c.left) / (self.x.1 - self.x.0);
        let up = (c.bottom - c.top) / (self.y.1 - self.y.0);
        (across.abs(), up.abs())
    }

    /// Grid and ticks. Where y has no ticks of its own, the grid stands
    /// upright.
    pub(crate) fn draw(
        &self,
        paper: &Paper,
        x_ticks: &[(f64, String)],
        y_ticks: Option<&[(f64, String)]>,
        size: f64,
    ) -> Drawn {
        let c = &self.cell;
        let (low, high) = (self.y.0.min(self.y.1), self.y.0.max(self.y.1));
        for (value, label) in y_ticks.unwrap_or_default() {
            let (_, y) = self.at(self.x.0, *value);
            paper.line(&[(c.left, y), (c.right, y)], Pen::solid(GRID, 0.8))?;
            paper.right(label, (c.left - 6.0, y), size, SOFT)?;
        }
        for (value, label) in x_ticks {
            let (x, _) = self.at(*value, self.y.0);
            if y_ticks.is_none() {
                paper.line(&[(x, c.top), (x, c.bottom)], Pen::solid(GRID, 0.8))?;
            }
            paper.line(&[(x, c.bottom), (x, c.bottom + 5.0)], Pen::solid(SOFT, 1.0))?;
            paper.centre(label, (x, c.bottom + 15.0), size, SOFT)?;
        }
        paper.line(&[(c.left, c.bottom), (c.right, c.bottom)], Pen::solid(GRID, 0.8))?;
        let (_, base) = self.at(self.x.0, 0.0_f64.clamp(low, high));
        paper.line(&[(c.left, base), (c.right, base)], Pen::solid(SOFT, 1.2))
    }
}

/// A round step that cuts a span into at most `most` parts.
fn step(span: f64, most: u32) -> f64 {
    let rough = span / f64::from(most);
    let power = 10_f64.powf(rough.log10().floor());
    let round = [1.0, 2.0, 2.5, 5.0, 10.0];
    power * round.into_iter().find(|r| r * power >= rough * (1.0 - 1e-9)).unwrap_or(10.0)
}

/// Decimals that write a round step, no more than ten.
pub(crate) fn places(step: f64) -> usize {
    let whole = |n: &i32| {
        let scaled = step * 10_f64.powi(*n);
        (scaled - scaled.round()).abs() < 1e-6 * scaled
    };
    usize::try_from((0..10).find(whole).unwrap_or(10)).unwrap_or(10)
}

/// Round numbers between two ends, with their labels.
pub(crate) fn ticks(low: f64, high: f64, most: u32) -> Vec<(f64, String)> {
    let step = step(high - low, most);
    if !(step.is_finite() && step > 0.0) {
        return Vec::new();
    }
    let places = places(step);
    let mut out = Vec::new();
    let mut count = (low / step - 1e-9).ceil();
    while count * step <= high + 1e-9 * step {
        // Adding zero turns a negative zero into a plain one.
        let value = count * step + 0.0;
        let label = format!("{value:.places$}").replace('-', "\u{2212}");
        out.push((value, label));
        count += 1.0;
    }
    out
}

/// The end of an axis that starts at zero: the first half step above.
pub(crate) fn ceiling(high: f64) -> f64 {
    if high <= 0.0 {
        return 1.0;
    }
    let half = 0.5 * step(high, 5);
    (high / half - 1e-9).ceil() * half
}

/// The largest of 1, 2, 5, 10, 20 and so on that is no larger.
pub(crate) fn round_below(value: f64) -> f64 {
    let power = 10_f64.powf(value.log10().floor());
    let round = [5.0, 2.0].into_iter().find(|round| round * power <= value);
    round.unwrap_or(1.0) * power
}

/// The ends of values.
fn reach(values: impl IntoIterator<Item = f64>) -> (f64, f64) {
    values.into_iter().fold((0.0, 0.0), |(low, high): (f64, f64), v| (low.min(v), high.max(v)))
}

/// Ends of an axis that runs from zero, on both sides where there are values,
/// to half a round step.
pub fn from_zero(values: impl IntoIterator<Item = f64>) -> (f64, f64) {
    let (low, high) = reach(values);
    (if low < 0.0 { -ceiling(-low) } else { 0.0 }, ceiling(high))
}

/// Ends of an axis that holds zero and all values, with some room beyond them;
/// a width of one where there is nothing to show.
pub fn hold_zero(values: impl IntoIterator<Item = f64>) -> (f64, f64) {
    let (low, high) = reach(values);
    if high > low {
        let room = 0.06 * (high - low);
        (if low < 0.0 { low - room } else { 0.0 }, if high > 0.0 { high + room } else { 0.0 })
    } else {
        (-0.5, 0.5)
    }
}

/// Ends of an axis round values, with some room; not below zero where no value
/// is.
pub fn around(values: &[f64]) -> (f64, f64) {
    let low = values.iter().copied().fold(f64::INFINITY, f64::min);
    let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    // One value alone still needs an axis with a width.
    let room = if high > low { 0.06 * (high - low) } else { 0.5 * low.abs().max(1.0) };
    (if low >= 0.0 { (low - room).max(0.0) } else { low - room }, high + room)
}

/// A smooth line through points of rising x: cubic pieces whose slopes are
/// those of the parabola through each point and its neighbours.
pub fn smooth(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    if points.len() < 3 {
        return points.to_vec();
    }
    let rise = |a: (f64, f64), b: (f64, f64)| (b.1 - a.1) / (b.0 - a.0);
    let last = points.len() - 1;
    let slope = |at: usize| {
        let mid = at.clamp(1, last - 1);
        let (a, b, c) = (points[mid - 1], points[mid], points[mid + 1]);
        let bend = (rise(b, c) - rise(a, b)) / (c.0 - a.0);
        rise(a, b) + bend * (2.0 * points[at].0 - a.0 - b.0)
    };
    let mut out = vec![points[0]];
    for at in 0..last {
        let (from, to) = (points[at], points[at + 1]);
        let width = to.0 - from.0;
        let (m0, m1) = (slope(at) * width, slope(at + 1) * width);
        for part in 1..=12 {
            let t = f64::from(part) / 12.0;
            let (t2, t3) = (t * t, t * t * t);
            let y = (2.0 * t3 - 3.0 * t2 + 1.0) * from.1
                + (t3 - 2.0 * t2 + t) * m0
                + (3.0 * t2 - 2.0 * t3) * to.1
                + (t3 - t2) * m1;
            out.push((from.0 + t * width, y));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{around, ceiling, places, round_below, ticks};

    fn labels(low: f64, high: f64, most: u32) -> Vec<String> {
        ticks(low, high, most).into_iter().map(|(_, label)| label).collect()
    }

    #[test]
    fn exact_labels_stand_at_round_numbers() {
        assert_eq!(labels(0.0, 1.0, 5), ["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
        assert_eq!(labels(-3.0, 7.0, 5), ["\u{2212}2", "0", "2", "4", "6"]);
        assert_eq!(labels(20.0, 60.0, 4), ["20", "30", "40", "50", "60"]);
        assert_eq!(labels(0.0, 0.01, 4), ["0.0000", "0.0025", "0.0050", "0.0075", "0.0100"]);
        assert_eq!(labels(1.0, 1.0, 5), [""; 0]);
        assert_eq!(labels(0.0, f64::NAN, 5), [""; 0]);
    }

    #[test]
    fn exact_a_round_length_is_written_without_idle_zeros() {
        for (value, text) in
            [(0.7, "0.5"), (3.0, "2"), (12.0, "10"), (260.0, "200"), (0.06, "0.05")]
        {
            let round = round_below(value);
            assert_eq!(format!("{round:.places$}", places = places(round)), text);
        }
    }

    #[test]
    fn law_an_axis_holds_its_values() {
        for high in [1e-6, 0.3, 1.0, 4.1, 99.0, 1234.0] {
            assert!(ceiling(high) >= high && ceiling(high) <= 1.2 * high, "{high}");
            let (low, top) = around(&[high, 0.5 * high]);
            assert!(0.0 <= low && low < 0.5 * high && top > high, "{high}");
        }
    }
}
