//! Drawn values. Every check allows four standard errors; seeds are fixed.

use study::{Distribution, RandomStream};

const COUNT: u64 = 100_000;

fn drawn(key: &str, law: Distribution) -> Vec<f64> {
    let mut stream = RandomStream::new(20, key);
    (0..COUNT).map(|index| stream.value(&law, index)).collect()
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

fn near(what: &str, found: f64, want: f64, error: f64) {
    assert!((found - want).abs() < 4.0 * error, "{what}: {found}, not {want} within 4 x {error}");
}

#[test]
fn stat_normal_mean_deviation_and_tails() {
    let (n, sd) = (COUNT as f64, 3.0);
    let values = drawn("a", Distribution::Normal { mean: 2.0, sd });
    let centre = mean(&values);
    near("mean", centre, 2.0, sd / n.sqrt());
    let squares: Vec<f64> = values.iter().map(|v| (v - centre).powi(2)).collect();
    near("deviation", mean(&squares).sqrt(), sd, sd / (2.0 * n).sqrt());
    // 4.55 % lie beyond two deviations (scipy norm.sf: .0227501319).
    let beyond = values.iter().filter(|v| (*v - 2.0).abs() > 2.0 * sd).count() as f64;
    let share = 2.0 * 0.022_750_131_948;
    near("beyond two deviations", beyond / n, share, (share * (1.0 - share) / n).sqrt());
}

/// Median `scale sqrt(2 ln 2)`, mean `scale sqrt(pi / 2)`.
#[test]
fn stat_rayleigh_median_and_mean() {
    let (n, scale) = (COUNT as f64, 0.4);
    let values = drawn("b", Distribution::Rayleigh { scale });
    let below = values.iter().filter(|&&v| v < scale * (2.0 * 2.0_f64.ln()).sqrt()).count();
    near("share below the median", below as f64 / n, 0.5, 0.5 / n.sqrt());
    let variance = (2.0 - std::f64::consts::FRAC_PI_2) * scale * scale;
    let want = scale * std::f64::consts::FRAC_PI_2.sqrt();
    near("mean", mean(&values), want, (variance / n).sqrt());
}

#[test]
fn stat_uniform_fills_its_range_evenly() {
    let values = drawn("c", Distribution::Uniform { low: -1.0, high: 1.0 });
    let n = COUNT as f64;
    for tenth in 0..10 {
        let (low, high) = (-1.0 + 0.2 * f64::from(tenth), -0.8 + 0.2 * f64::from(tenth));
        let inside = values.iter().filter(|&&v| v >= low && v < high).count() as f64;
        near("share of a tenth", inside / n, 0.1, (0.09 / n).sqrt());
    }
}

/// Neighbours in a stream, and equal indices of two keys, two seeds: the
/// correlation of two independent series has a standard error of 1/sqrt(n).
#[test]
fn stat_chances_are_independent() {
    let normal = Distribution::Normal { mean: 0.0, sd: 1.0 };
    let a = drawn("a", normal);
    let other_key = drawn("b", normal);
    let mut stream = RandomStream::new(21, "a");
    let other_seed: Vec<f64> = (0..COUNT).map(|i| stream.value(&normal, i)).collect();
    let neighbours: Vec<f64> = a[1..].to_vec();
    for (what, b) in [("key", other_key), ("seed", other_seed), ("neighbour", neighbours)] {
        let products: Vec<f64> = a.iter().zip(&b).map(|(a, b)| a * b).collect();
        near(what, mean(&products), 0.0, 1.0 / (COUNT as f64).sqrt());
    }
}
