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
