//! Intervals of fitted values, over many sets of noisy shots.

use clothyard_tests::shots::{TRUTH, known, plan, shots};
use rayon::prelude::*;
use study::{Distribution, Observed, RandomStream, Sought, fit};

const SETS: u64 = 300;

/// Shares of sets whose 95 % intervals hold the truth, for each value sought.
fn coverage(key: &str, state: bool) -> Vec<f64> {
    let sought: Vec<Sought> = TRUTH.iter().map(|(what, _)| *what).collect();
    let exact = shots(true, || 0.0);
    let law = Distribution::Normal { mean: 0.0, sd: 1.0 };
    let sets: Vec<Vec<Observed>> = (0..SETS)
        .map(|set| {
            let mut stream = RandomStream::new(11, key);
            let mut set_of = exact.clone();
            for (place, shot) in set_of.iter_mut().enumerate() {
                let noise = stream.value(&law, 100 * set + place as u64);
                *shot = moved(shot, noise);
                if !state {
                    shot.error = None;
                }
            }
            set_of
        })
        .collect();
    let held: Vec<Vec<bool>> = sets
        .into_par_iter()
        .map(|set| {
            let found = fit(&known(), &plan(set, &sought)).unwrap();
            let pairs = found.values.iter().zip(TRUTH);
            pairs.map(|(value, (_, truth))| value.low <= truth && truth <= value.high).collect()
        })
        .collect();
    (0..sought.len())
        .map(|at| held.iter().filter(|set| set[at]).count() as f64 / SETS as f64)
        .collect()
}

/// A shot moved by so many of its errors.
fn moved(shot: &Observed, errors: f64) -> Observed {
    use study::What;
    use units::{Length, Speed};
    let value = shot.what.si() + errors * shot.error.unwrap_or_default();
    let what = match shot.what {
        What::Speed(_) => What::Speed(Speed::from_si(value)),
        _ => What::Mark(Length::from_si(value)),
    };
    Observed { what, ..*shot }
}

/// With stated errors, the 95 % intervals of speed, drag and radius hold the
/// truth in 95 % of 300 sets, within four standard errors of that share.
#[test]
fn stat_intervals_of_a_fit_hold_the_truth() {
    let slack = 4.0 * (0.95 * 0.05 / SETS as f64).sqrt();
    for share in coverage("stated", true) {
        assert!((share - 0.95).abs() < slack, "{share}");
    }
}

/// The same with errors told by the scatter of seven shots about four values.
/// The usual errors of speeds and marks, 0.42 m/s and 0.25 mm, are in nearly
/// the proportion of the true ones.
#[test]
fn stat_intervals_from_the_scatter_hold_the_truth() {
    let slack = 4.0 * (0.95 * 0.05 / SETS as f64).sqrt();
    for share in coverage("scatter", false) {
        assert!((share - 0.95).abs() < slack, "{share}");
    }
}
