//! Group statistics of drawn groups. Every check allows four standard errors,
//! so one seed in 16,000 would fail it by chance; the seeds are fixed.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use target::{
    Estimate, Face, Group, Impact, expected_score, extreme_spread, hit_share, mean_estimate,
    sigma_ratio,
};
use units::Length;

/// A uniform draw above 0 and below 1.
fn uniform(rng: &mut ChaCha8Rng) -> f64 {
    ((rng.next_u64() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
}

/// A circular normal group about the origin (Box and Muller's transform).
fn group(rng: &mut ChaCha8Rng, count: usize, sigma: f64) -> Vec<Impact> {
    (0..count)
        .map(|_| {
            let r = sigma * (-2.0 * uniform(rng).ln()).sqrt();
            let (sin, cos) = (std::f64::consts::TAU * uniform(rng)).sin_cos();
            Impact { left: r * cos, up: r * sin }
        })
        .collect()
}

fn holds(part: &Estimate, truth: f64) -> bool {
    part.low <= truth && truth <= part.high
}

/// The drawn share is `want` within four standard errors.
fn share_is(what: &str, drawn: usize, of: usize, want: f64) {
    let share = drawn as f64 / of as f64;
    let slack = 4.0 * (want * (1.0 - want) / of as f64).sqrt();
    assert!((share - want).abs() < slack, "{what}: {share} is not {want} within {slack}");
}

/// The mean of the draws is `want` within four standard errors, and `rounding`
/// of the printed figure.
fn mean_is(what: &str, draws: &[f64], want: f64, rounding: f64) {
    let n = draws.len() as f64;
    let mean = draws.iter().sum::<f64>() / n;
    let squares: f64 = draws.iter().map(|v| (v - mean).powi(2)).sum();
    let slack = 4.0 * (squares / (n - 1.0) / n).sqrt() + rounding;
    assert!((mean - want).abs() < slack, "{what}: {mean} is not {want} within {slack}");
}

/// Mean radius 1.253314137 about the true centre, 1.120998243 about the
/// group's own at n 5 (C).
#[test]
fn stat_mean_radius_about_the_own_centre() {
    let mut rng = ChaCha8Rng::seed_from_u64(5);
    let of = |rng: &mut ChaCha8Rng, n| Group::of(&group(rng, n, 1.0)).unwrap().mean_radius.value;
    let five: Vec<f64> = (0..40_000).map(|_| of(&mut rng, 5)).collect();
    mean_is("n 5", &five, 1.120_998_243, 0.0);
    let many: Vec<f64> = (0..20).map(|_| of(&mut rng, 10_000)).collect();
    // The own centre takes 1 / (2 n) off.
    mean_is("n 10,000", &many, 1.253_314_137 * (1.0 - 0.5e-4), 0.0);
}

/// Extreme spread n 2 1.772453851, n 3 2.408801240, n 5 3.0659, n 20 4.4509
/// (C).
#[test]
fn stat_extreme_spread_by_group_size() {
    let mut rng = ChaCha8Rng::seed_from_u64(2);
    for (n, want, rounding) in
        [(2, 1.772_453_851, 0.0), (3, 2.408_801_240, 0.0), (5, 3.0659, 5e-5), (20, 4.4509, 5e-5)]
    {
        let draws: Vec<f64> =
            (0..40_000).map(|_| extreme_spread(&group(&mut rng, n, 1.0)).unwrap()).collect();
        mean_is(&format!("n {n}"), &draws, want, rounding);
    }
}

/// CEP 1.177410023, R90 2.145966026 (C).
#[test]
fn stat_radii_of_large_groups() {
    let mut rng = ChaCha8Rng::seed_from_u64(90);
    let groups: Vec<Group> =
        (0..40).map(|_| Group::of(&group(&mut rng, 10_000, 1.0)).unwrap()).collect();
    let radii = |part: fn(&Group) -> f64| groups.iter().map(part).collect::<Vec<f64>>();
    // The own centre takes 1 / (2 n) off.
    mean_is("R50", &radii(|g| g.r50.value), 1.177_410_023, 6e-5);
    mean_is("R90", &radii(|g| g.r90.value), 2.145_966_026, 1.1e-4);
}

const TRIALS: usize = 20_000;

/// How many groups of this size have intervals that hold the truth: both
/// sigmas, sigma, mean radius, R50, R90.
fn covered(seed: u64, count: usize) -> [usize; 6] {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let truth = [1.0, 1.0, 1.0, 1.253_314_137, 1.177_410_023, 2.145_966_026];
    let mut held = [0; 6];
    for _ in 0..TRIALS {
        let g = Group::of(&group(&mut rng, count, 1.0)).unwrap();
        let parts = [g.sigma_left, g.sigma_up, g.sigma, g.mean_radius, g.r50, g.r90];
        for ((held, part), truth) in held.iter_mut().zip(&parts).zip(truth) {
            *held += usize::from(holds(part, truth));
        }
    }
    held
}

fn between(what: &str, held: usize, low: f64, high: f64) {
    let share = held as f64 / TRIALS as f64;
    let slack = 4.0 * (0.05 * 0.95 / TRIALS as f64).sqrt();
    assert!(low - slack < share && share < high + slack, "{what}: {share}");
}

/// Chi-square intervals are exact. The mean radius falls a little short of 95 %
/// (its own scatter is wider than sigma's, and it lies about its own centre):
/// 93 % is the least of `docs/model/groups.md`. Order statistics hold at least
/// 95 % and, in steps, up to 98.5 %.
#[test]
fn stat_intervals_of_a_small_group_hold_the_truth() {
    let [left, up, sigma, mean, r50, r90] = covered(12, 12);
    share_is("sigma left", left, TRIALS, 0.95);
    share_is("sigma up", up, TRIALS, 0.95);
    share_is("sigma", sigma, TRIALS, 0.95);
    between("mean radius", mean, 0.93, 0.95);
    between("R50", r50, 0.95, 0.985);
    share_is("R90, from sigma", r90, TRIALS, 0.95);
}

/// As for the small group.
#[test]
fn stat_intervals_of_a_middling_group_hold_the_truth() {
    let [left, up, sigma, mean, r50, r90] = covered(60, 60);
    share_is("sigma left", left, TRIALS, 0.95);
    share_is("sigma up", up, TRIALS, 0.95);
    share_is("sigma", sigma, TRIALS, 0.95);
    between("mean radius", mean, 0.93, 0.95);
    between("R50", r50, 0.95, 0.985);
    between("R90", r90, 0.95, 0.985);
}

/// The truth for the six-shot spread is the mean over all draws, 200,000 sixes.
#[test]
fn stat_interval_of_the_six_shot_spread_holds_the_mean() {
    let mut rng = ChaCha8Rng::seed_from_u64(6);
    let spreads: Vec<Estimate> = (0..TRIALS)
        .map(|_| Group::of(&group(&mut rng, 60, 1.0)).unwrap().spread6.unwrap())
        .collect();
    let truth = spreads.iter().map(|s| s.value).sum::<f64>() / TRIALS as f64;
    let held = spreads.iter().filter(|s| holds(s, truth)).count();
    // Spreads are nearly normal: half a per cent for the rest of the skew.
    between("spread of six", held, 0.945, 0.955);
}

#[test]
fn stat_interval_of_a_ratio_is_exact() {
    let mut rng = ChaCha8Rng::seed_from_u64(15);
    let held = (0..TRIALS)
        .filter(|_| {
            let a = Group::of(&group(&mut rng, 12, 1.5)).unwrap();
            let b = Group::of(&group(&mut rng, 20, 1.0)).unwrap();
            holds(&sigma_ratio(&a, &b).unwrap(), 1.5)
        })
        .count();
    share_is("ratio", held, TRIALS, 0.95);
}

/// At ratio 2 and 10 shots each the power is .816300 (scipy 1.17.1 `f`, C); at
/// ratio 1 the test errs in 5 %.
#[test]
fn stat_shots_to_tell_have_their_power() {
    let mut rng = ChaCha8Rng::seed_from_u64(80);
    for (ratio, want) in [(2.0, 0.816_300), (1.0, 0.05)] {
        let told = (0..TRIALS)
            .filter(|_| {
                let a = Group::of(&group(&mut rng, 10, ratio)).unwrap();
                let b = Group::of(&group(&mut rng, 10, 1.0)).unwrap();
                !holds(&sigma_ratio(&a, &b).unwrap(), 1.0)
            })
            .count();
        share_is(&format!("ratio {ratio}"), told, TRIALS, want);
    }
}

/// Exact cover of the Wilson interval at 0.8 of 50: 0.950701 (scipy 1.17.1
/// `binom`, C).
#[test]
fn stat_interval_of_a_share_holds_the_truth() {
    let mut rng = ChaCha8Rng::seed_from_u64(8);
    let held = (0..TRIALS)
        .filter(|_| {
            let hits = (0..50).filter(|_| uniform(&mut rng) < 0.8).count();
            holds(&hit_share(hits, 50).unwrap(), 0.8)
        })
        .count();
    share_is("share", held, TRIALS, 0.950_701);
}

/// The t interval of the mean of 72 scores, and the exact expected score that
/// it should hold.
#[test]
fn stat_interval_of_a_mean_score_holds_the_expected_score() {
    let mut rng = ChaCha8Rng::seed_from_u64(72);
    let shaft = Length::from_si(0.0055);
    let face = Face::ten_ring(Length::from_si(1.22), false).unwrap();
    let truth = expected_score(0.107, &face, shaft).unwrap();
    let means: Vec<Estimate> = (0..TRIALS)
        .map(|_| {
            let impacts = group(&mut rng, 72, 0.107);
            let scores: Vec<f64> =
                impacts.iter().map(|i| f64::from(face.score(i, shaft))).collect();
            mean_estimate(&scores).unwrap()
        })
        .collect();
    let values: Vec<f64> = means.iter().map(|m| m.value).collect();
    mean_is("score", &values, truth, 0.0);
    // Scores are skewed: a little off the 95 % of a normal mean.
    between("score", means.iter().filter(|m| holds(m, truth)).count(), 0.94, 0.955);
}
