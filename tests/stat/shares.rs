//! Intervals of shares cover the truth as often as they say.

use std::f64::consts::{PI, TAU};

use study::{Design, REPLICATES, ShareEstimator, VarianceSums};

/// Ishigami's function with 64 points a set, over 200 seeds: each interval
/// should cover in 190 of 200, and by chance in 178 to 198 (4 sigma, with the
/// 6 that few points may cost).
#[test]
fn stat_intervals_of_shares_cover_the_truth() {
    let truth = [0.313_905, 0.442_411, 0.0, 0.557_589, 0.442_411, 0.243_684];
    let causes = [vec![0], vec![1], vec![2]];
    let mut covered = [0; 6];
    for seed in 0..200 {
        let design = Design::new(seed, 3, &causes).unwrap();
        let rows = design.rows();
        let one = |set: usize| {
            let f = |row: usize| {
                let x = |input: usize| TAU * design.chance(set, row, input) - PI;
                x(0).sin() + 7.0 * x(1).sin().powi(2) + 0.1 * x(2).powi(4) * x(0).sin()
            };
            VarianceSums::of(&(0..64 * rows).map(f).collect::<Vec<_>>(), rows)
        };
        let sets: Vec<VarianceSums> = (0..REPLICATES).map(one).collect();
        let ratio = ShareEstimator::new(&sets).unwrap();
        for (at, truth) in truth.into_iter().enumerate() {
            let part = |s: &VarianceSums| if at < 3 { s.first[at] } else { s.total[at - 3] };
            let found = ratio.of(part).unwrap();
            covered[at] += u32::from((found.low..=found.high).contains(&truth));
        }
    }
    assert!(covered.iter().all(|count| (172..=200).contains(count)), "{covered:?}");
}

/// Owen's scrambling: the error that the scatter of 16 scrambled sets foretells is the
/// error that 300 other scrambles have, by brute force. Both sides are known to 5 %
/// here (300 scrambles to 4 %, the mean of 300 estimates to 1 %); and points that fill
/// the square err ten times less than as many by chance.
#[test]
fn stat_scatter_of_scrambled_sets_is_their_error() {
    const POINTS: usize = 64;
    let sets = REPLICATES as f64;
    let (mut squares, mut foretold, mut errors) = (0.0, 0.0, 0.0);
    for seed in 0..300 {
        let design = Design::new(seed, 2, &[vec![0], vec![1]]).unwrap();
        let mean = |set: usize| {
            let one = |point: usize| {
                let x = |input: usize| design.chance(set, point * design.rows(), input);
                (x(0) * x(1)).exp()
            };
            (0..POINTS).map(one).sum::<f64>() / POINTS as f64
        };
        let means: Vec<f64> = (0..REPLICATES).map(mean).collect();
        let whole = means.iter().sum::<f64>() / sets;
        foretold += means.iter().map(|of| (of - whole).powi(2)).sum::<f64>() / (sets - 1.0) / sets;
        // The integral of exp(x y) over the square: the sum of 1 / (n! (n + 1)^2).
        let truth = 1.317_902_151_454_403_8;
        squares += (whole - truth).powi(2);
        errors += whole - truth;
    }
    let (error, foretold) = ((squares / 300.0).sqrt(), (foretold / 300.0).sqrt());
    assert!((error / foretold - 1.0).abs() < 0.15, "{error} {foretold}");
    assert!(errors.abs() / 300.0 < 4.0 * error / 300.0_f64.sqrt());
    // Of exp(x y) the deviation is 0.32; so many by chance would err by this.
    let chance = 0.32 / (sets * POINTS as f64).sqrt();
    assert!(error < 0.1 * chance, "{error} {chance}");
}
