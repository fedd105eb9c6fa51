//! What weighted points say: bands, standings, and what knowing a value would
//! narrow.

use super::fair::{Number, fair};
use super::legendre::{TERMS, legendre};

/// The lower and upper end of a band: 5 and 95 %.
const ENDS: [f64; 2] = [0.05, 0.95];
/// How near to its band a number must lie for the band to reach to it, as a share
/// of the band's width. Chosen: of 16 points an end is known no better than to a
/// tenth of the width.
const NEAR: f64 = 0.1;

/// Where a number may lie for what is not known: nine tenths of the outer
/// sample do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// 5 % of the outer sample lie below.
    pub low: f64,
    /// 5 % lie above.
    pub high: f64,
}

impl Band {
    /// The band of weighted values; none without any.
    pub fn of(values: &[(f64, f64)]) -> Option<Self> {
        let [low, high] = quantiles(values, ENDS)?;
        Some(Self { low, high })
    }

    /// Whether a value lies in it.
    pub fn holds(&self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }

    /// The same about a number as it is at the usual values, which are the
    /// medians of what is drawn: the band reaches to a number that lies just
    /// beside it. One that lies farther off stays outside; wherever it is
    /// printed it is said to be that of the usual values. Nothing else decides
    /// that.
    #[must_use]
    pub fn about(self, value: f64) -> Self {
        let near = NEAR * (self.high - self.low);
        let beside = (self.low - value).max(value - self.high);
        if beside <= near {
            Self { low: self.low.min(value), high: self.high.max(value) }
        } else {
            self
        }
    }

    /// Whether its ends are more than a factor apart, or on two sides of zero.
    pub fn wider_than(&self, factor: f64) -> bool {
        let (low, high) =
            (self.low.abs().min(self.high.abs()), self.low.abs().max(self.high.abs()));
        self.low * self.high <= 0.0 && high > 0.0 || high > factor * low
    }
}

/// Values below which these shares of the weight lie, each pair being value and
/// weight: straight between neighbours, beyond the last ones even.
///
/// With n equal weights the k-th value stands at k / (n + 1), definition 6 of the
/// usual list: one value more, drawn like the others, lies below the k-th with that
/// chance whatever the law. Unequal weights are worth as many as
/// sum^2 / sum of squares. [hyndman-fan-1996]
fn quantiles<const N: usize>(values: &[(f64, f64)], at: [f64; N]) -> Option<[f64; N]> {
    let mut sorted: Vec<(f64, f64)> = values.iter().copied().filter(|of| of.1 > 0.0).collect();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
    let whole: f64 = sorted.iter().map(|of| of.1).sum();
    let worth = whole * whole / sorted.iter().map(|of| of.1 * of.1).sum::<f64>();
    let (first, last) = (sorted.first()?.0, sorted.last()?.0);
    let mut below = 0.0;
    let places: Vec<(f64, f64)> = sorted
        .iter()
        .map(|&(value, weight)| {
            let middle = (below + 0.5 * weight) / whole;
            below += weight;
            ((worth * middle + 0.5) / (worth + 1.0), value)
        })
        .collect();
    Some(at.map(|share| {
        let Some(after) = places.iter().position(|place| place.0 >= share) else { return last };
        let Some(before) = after.checked_sub(1) else { return first };
        let ((p, low), (q, high)) = (places[before], places[after]);
        // Equal ends, even endless ones, need no way between them.
        if low.to_bits() == high.to_bits() {
            low
        } else {
            low + (share - p) / (q - p) * (high - low)
        }
    }))
}

/// In what share of what is not known a verdict holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The share, 0 to 1.
    pub share: f64,
}

/// The fixed words for a standing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Word {
    /// In 95 % of what is not known, or more.
    Everywhere,
    /// In 80 to 95 %.
    Likely,
    /// In 20 to 80 %: what is known does not decide it.
    Open,
    /// In less than 20 %: its contrary is the likelier.
    Unlikely,
}

impl Standing {
    /// Of weighted outcomes; none without any.
    pub fn of(outcomes: &[(bool, f64)]) -> Option<Self> {
        let whole: f64 = outcomes.iter().map(|of| of.1).sum();
        let holds: f64 = outcomes.iter().filter(|of| of.0).map(|of| of.1).sum();
        (whole > 0.0).then(|| Self { share: holds / whole })
    }

    /// Its word.
    pub fn word(&self) -> Word {
        match self.share {
            share if share >= 0.95 => Word::Everywhere,
            share if share >= 0.8 => Word::Likely,
            share if share >= 0.2 => Word::Open,
            _ => Word::Unlikely,
        }
    }
}

/// What knowing one poorly known value would bring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Narrowing {
    /// Which input of the outer sample.
    pub input: usize,
    /// Share of the outer variance that goes with it, 0 to 1: what knowing it would
    /// take, and what knowing those it goes with would take too.
    pub share: f64,
    /// Its fair share, which all values' add up with.
    pub fair: f64,
    /// Chance that the verdict is another once it is known.
    pub turns: f64,
}

/// What knowing each input would narrow, the most first. For each point: its
/// chances, its weight and the number that is asked about; `pairs` go together.
///
/// The share is the variance of the number's mean given the input, over its
/// variance: the first-order index, from a fit of a straight and a bent term
/// (Legendre's) of the input's chance, less what chance alone would give.
pub(super) fn narrowings(
    points: &[(&[f64], f64, f64)],
    verdicts: &[bool],
    pairs: &[([usize; 2], f64)],
) -> Vec<Narrowing> {
    let inputs = points.first().map_or(0, |point| point.0.len());
    let whole: f64 = points.iter().map(|point| point.1).sum();
    let squares: f64 = points.iter().map(|point| point.1 * point.1).sum();
    let count = whole * whole / squares;
    let numbers: Vec<f64> = points.iter().map(|point| point.2).collect();
    let indicator: Vec<f64> = verdicts.iter().map(|holds| f64::from(u8::from(*holds))).collect();
    let share = |input| fitted(points, input, whole, &numbers).map_or(0.0, |fit| fit.share(count));
    let first: Vec<f64> = (0..inputs).map(share).collect();
    let fair = fair(&Number { points, count }, &first, pairs);
    let mut found: Vec<Narrowing> = (0..inputs)
        .map(|input| Narrowing {
            input,
            share: first[input],
            fair: fair[input],
            turns: fitted(points, input, whole, &indicator)
                .map_or(0.0, |fit| fit.turns(points, input)),
        })
        .collect();
    found.sort_by(|a, b| b.share.total_cmp(&a.share));
    found
}

/// A number fitted by the chance of one input.
struct Fitted {
    mean: f64,
    terms: [f64; TERMS],
    /// Share of the variance that the terms take.
    taken: f64,
}

fn fitted(points: &[(&[f64], f64, f64)], input: usize, whole: f64, of: &[f64]) -> Option<Fitted> {
    let mean = |value: &dyn Fn(usize) -> f64| {
        points.iter().enumerate().map(|(at, point)| point.1 * value(at)).sum::<f64>() / whole
    };
    let middle = mean(&|at| of[at]);
    let variance = mean(&|at| (of[at] - middle).powi(2));
    if variance.is_nan() || variance <= 0.0 {
        return None;
    }
    // The points fill every input evenly, so the terms are all but orthogonal:
    // what is left of that is solved for by the two normal equations.
    let term = |at: usize| legendre(points[at].0[input]);
    let middles: [f64; TERMS] = std::array::from_fn(|k| mean(&|at| term(at)[k]));
    let cross =
        |j: usize, k: usize| mean(&|at| (term(at)[j] - middles[j]) * (term(at)[k] - middles[k]));
    let with = |k: usize| mean(&|at| (term(at)[k] - middles[k]) * (of[at] - middle));
    let (a, b, d) = (cross(0, 0), cross(0, 1), cross(1, 1));
    let (p, q) = (with(0), with(1));
    let det = a * d - b * b;
    if det.is_nan() || det <= 1e-9 {
        return None;
    }
    let terms = [(d * p - b * q) / det, (a * q - b * p) / det];
    let taken = ((terms[0] * p + terms[1] * q) / variance).clamp(0.0, 1.0);
    Some(Fitted { mean: middle - terms[0] * middles[0] - terms[1] * middles[1], terms, taken })
}

impl Fitted {
    /// The share taken, less what so many terms take of chance alone (Ezekiel's
    /// correction).
    fn share(&self, count: f64) -> f64 {
        let free = count - 1.0 - TERMS as f64;
        if free <= 0.0 { 0.0 } else { (1.0 - (1.0 - self.taken) * (count - 1.0) / free).max(0.0) }
    }

    /// For an indicator of a verdict: how often the likelier side, the input
    /// known, is not the side that is likelier now.
    fn turns(&self, points: &[(&[f64], f64, f64)], input: usize) -> f64 {
        let whole: f64 = points.iter().map(|point| point.1).sum();
        let now = self.mean >= 0.5;
        let turned = points.iter().filter(|point| {
            let [one, two] = legendre(point.0[input]);
            let share = self.mean + self.terms[0] * one + self.terms[1] * two;
            (share >= 0.5) != now
        });
        turned.fold(0.0, |sum, point| sum + point.1) / whole
    }
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "exact steps")]
mod tests {
    use super::*;

    /// Definition 6 of nineteen values: the first has 5 % below it. Of fewer the ends
    /// are the outermost.
    #[test]
    fn exact_quantiles_of_equal_weights() {
        let values: Vec<(f64, f64)> = (1..=19).rev().map(|k| (f64::from(k), 1.0)).collect();
        let band = Band::of(&values).unwrap();
        assert!((band.low - 1.0).abs() < 1e-12 && (band.high - 19.0).abs() < 1e-12);
        let band = Band::of(&values[..10]).unwrap();
        assert_eq!((band.low, band.high), (10.0, 19.0));
        assert_eq!(Band::of(&[]), None);
        let endless = [(1.0, 1.0), (f64::INFINITY, 1.0), (f64::INFINITY, 1.0)];
        assert_eq!(Band::of(&endless), Some(Band { low: 1.0, high: f64::INFINITY }));
    }

    #[test]
    fn exact_a_band_reaches_to_a_number_just_beside_it() {
        let band = Band { low: 1.0, high: 2.0 };
        assert_eq!(band.about(1.5), band);
        assert_eq!(band.about(2.05), Band { low: 1.0, high: 2.05 });
        assert_eq!(band.about(0.95), Band { low: 0.95, high: 2.0 });
        assert_eq!((band.about(0.8), band.about(2.2)), (band, band));
        let endless = Band { low: 1.0, high: f64::INFINITY };
        assert!(endless.about(0.5).holds(0.5));
    }

    #[test]
    fn exact_weights_count_as_so_many_points() {
        let light = [(0.0, 0.0), (1.0, 1.0), (9.0, 0.0), (2.0, 1.0)];
        assert_eq!(Band::of(&light), Band::of(&[(1.0, 7.0), (2.0, 7.0)]));
        assert_eq!(Standing::of(&[(true, 3.0), (false, 1.0)]).unwrap().share, 0.75);
    }

    #[test]
    fn exact_words_have_their_limits() {
        let word = |share: f64| Standing { share }.word();
        assert_eq!([1.0, 0.95, 0.9, 0.8].map(word)[1..3], [Word::Everywhere, Word::Likely]);
        assert_eq!([0.79, 0.2, 0.19].map(word), [Word::Open, Word::Open, Word::Unlikely]);
        assert!(Band { low: -1.0, high: 2.0 }.wider_than(3.0));
        assert!(!Band { low: 1.0, high: 2.9 }.wider_than(3.0));
    }

    fn points(count: u32) -> Vec<Vec<f64>> {
        let chance = |point, input| f64::from(sobol_burley::sample(point, input, 5)) + 1e-8;
        (0..count).map(|point| (0..3).map(|input| chance(point, input)).collect()).collect()
    }

    fn ranked(number: impl Fn(&[f64]) -> f64) -> Vec<Narrowing> {
        let points = points(64);
        let all: Vec<(&[f64], f64, f64)> =
            points.iter().map(|of| (of.as_slice(), 1.0, number(of))).collect();
        let verdicts: Vec<bool> = points.iter().map(|of| number(of) > 0.0).collect();
        narrowings(&all, &verdicts, &[])
    }

    /// C: the shares of a sum of 1, 2 and 3 times alike parts are 1/14, 4/14
    /// and 9/14. A fit of 64 points errs by some hundredths.
    #[test]
    fn stat_shares_of_a_linear_sum() {
        let found = ranked(|u| (0..3).map(|k| (k + 1) as f64 * (u[k] - 0.5)).sum());
        for (found, (input, share)) in found.iter().zip([(2, 9.0), (1, 4.0), (0, 1.0)]) {
            assert_eq!(found.input, input);
            assert!((found.share - share / 14.0).abs() < 0.04, "{found:?}");
        }
        // Knowing the greatest part turns about half of a verdict that is even.
        assert!(found[0].turns > 0.3 && found[2].turns < found[0].turns);
    }

    /// A number that falls and rises again with one value is all that value's.
    #[test]
    fn exact_shares_of_a_bent_number() {
        let found = ranked(|u| (2.0 * u[1] - 1.0).powi(2) - 0.3);
        assert_eq!(found[0].input, 1);
        assert!((found[0].share - 1.0).abs() < 1e-9 && found[1].share < 0.1, "{found:?}");
        assert!(found[0].turns > 0.2);
    }
}
