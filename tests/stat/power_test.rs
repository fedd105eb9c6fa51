//! Verdicts on drawn groups. Every check allows four standard errors, so one
//! seed in 16,000 would fail it by chance; the seeds are fixed.

use clothyard_tests::compared;
use clothyard_tests::recipe::{Simple, compare};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use study::{BuildMeasure, Misjudgement, Quiet, Stated, run};
use target::{
    Group, Impact, LookRule, PowerTest, Spread, extreme_spread, offset_circle_probability,
};
use units::{Length, Speed};

fn uniform(rng: &mut ChaCha8Rng) -> f64 {
    ((rng.next_u64() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
}

/// A circular normal group about the origin (Box and Muller's transform).
fn impacts(rng: &mut ChaCha8Rng, count: u32, sigma: f64) -> Vec<Impact> {
    let one = |_| {
        let r = sigma * (-2.0 * uniform(rng).ln()).sqrt();
        let (sin, cos) = (std::f64::consts::TAU * uniform(rng)).sin_cos();
        Impact { left: r * cos, up: r * sin }
    };
    (0..count).map(one).collect()
}

fn group(rng: &mut ChaCha8Rng, count: u32, sigma: f64) -> Group {
    Group::of(&impacts(rng, count, sigma)).unwrap()
}

fn share_is(what: &str, drawn: f64, of: u32, want: f64, slack: f64) {
    let (share, of) = (drawn / f64::from(of), f64::from(of));
    let slack = slack + 4.0 * (want * (1.0 - want) / of).sqrt();
    assert!((share - want).abs() < slack, "{what}: {share} is not {want} within {slack}");
}

const TRIALS: u32 = 20_000;

/// The exact odds are those of drawn groups, by pooled sigma.
#[test]
fn stat_odds_are_those_of_drawn_groups() {
    let power_test = PowerTest::default();
    let mut rng = ChaCha8Rng::seed_from_u64(36);
    for (ratio, shots) in [(1.3, 3), (1.3, 6), (1.5, 12), (1.3, 36)] {
        let (mut wrong, mut missed) = (0, 0);
        for _ in 0..TRIALS {
            let wide = Spread::of_group(&group(&mut rng, shots, ratio));
            let tight = Spread::of_group(&group(&mut rng, shots, 1.0));
            wrong += u32::from(wide.sigma < tight.sigma);
            missed += u32::from(!power_test.verdict(&wide, &tight).unwrap().told());
        }
        let odds = power_test.odds(ratio, shots);
        share_is(&format!("wrong {ratio} {shots}"), f64::from(wrong), TRIALS, odds.wrong, 0.0);
        share_is(&format!("missed {ratio} {shots}"), f64::from(missed), TRIALS, odds.missed, 0.0);
    }
}

/// The interval of sigma from an extreme spread holds the truth 95 times in 100; a
/// point is allowed for its law, which is only nearly that of chi.
#[test]
fn stat_sigma_from_extreme_spread_covers() {
    let mut rng = ChaCha8Rng::seed_from_u64(181);
    for shots in [2, 3, 5, 6, 12, 30] {
        let mut held = 0;
        for _ in 0..TRIALS {
            let widest = extreme_spread(&impacts(&mut rng, shots, 1.0)).unwrap();
            let of = Spread::of_extreme_spread(shots, widest).unwrap().estimate();
            held += u32::from(of.low <= 1.0 && 1.0 <= of.high);
        }
        share_is(&format!("covers {shots}"), f64::from(held), TRIALS, 0.95, 0.01);
    }
}

/// A test that is looked at three times, and stopped where it tells, is wrong no more
/// often than it says: on widths and on centres of groups that are alike. A point is
/// allowed, as the levels are those of a normal score.
#[test]
fn stat_looks_keep_their_error() {
    const LOOKS: u32 = 3;
    let test = PowerTest::default();
    let mut rng = ChaCha8Rng::seed_from_u64(182);
    for rule in [LookRule::OBrienFleming, LookRule::Pocock] {
        let looks: Vec<PowerTest> =
            (1..=LOOKS).map(|k| test.at_look(rule, k, LOOKS).unwrap()).collect();
        let (mut widths, mut centres) = (0, 0);
        for _ in 0..TRIALS {
            let both = [(); 2].map(|()| impacts(&mut rng, 36, 1.0));
            let seen = |k: usize| both.each_ref().map(|all| &all[..12 * (k + 1)]);
            widths += u32::from(looks.iter().enumerate().any(|(k, test)| {
                let [one, other] = seen(k).map(|all| Spread::of_group(&Group::of(all).unwrap()));
                test.verdict(&one, &other).unwrap().told()
            }));
            centres += u32::from(looks.iter().enumerate().any(|(k, test)| {
                let [one, other] = seen(k);
                test.centres(one, other).unwrap().told
            }));
        }
        share_is(&format!("{rule:?} widths"), f64::from(widths), TRIALS, 0.05, 0.01);
        share_is(&format!("{rule:?} centres"), f64::from(centres), TRIALS, 0.05, 0.01);
    }
}

/// A verdict from the mean radius alone errs as seldom as its confidence says,
/// with equal and unequal numbers of shots. The chi law of a mean radius is no
/// more than nearly right: 0.3 points are allowed for that.
#[test]
fn stat_a_mean_radius_is_judged_at_its_confidence() {
    let power_test = PowerTest::default();
    let mut rng = ChaCha8Rng::seed_from_u64(95);
    for (first, second) in [(3, 3), (6, 6), (5, 20), (36, 12)] {
        let mut told = 0;
        for _ in 0..TRIALS {
            let mut spread = |shots| {
                let radius = group(&mut rng, shots, 1.0).mean_radius.value;
                Spread::of_mean_radius(shots, radius).unwrap()
            };
            let (a, b) = (spread(first), spread(second));
            told += u32::from(power_test.verdict(&a, &b).unwrap().told());
        }
        share_is(&format!("{first} and {second}"), f64::from(told), TRIALS, 0.05, 0.003);
    }
}

/// Builds whose arrows are perfect and whose archer's aim scatters evenly make
/// round normal groups: hits, misjudged or not, are those of the offset circle,
/// and odds from picked impacts are those of the F distribution.
#[test]
fn stat_round_groups_hit_and_are_told_as_the_closed_forms_say() {
    let aimed = |sd: f64| Simple::new().aimed(sd);
    let mut plan = compare(vec![aimed(2e-3).build("steady"), aimed(3e-3).build("shaky")], 4000);
    plan.stated = Stated {
        range_error: Some(Length::from_si(4.0)),
        wind_error: Some(Speed::from_si(6.0)),
        ..Stated::default()
    };
    let answer = compared(run(&plan, &Quiet).unwrap());
    let sides = answer.sides;
    let mut moved = 0;
    for (build, side) in answer.builds.iter().zip(&sides.builds) {
        for (mark, found) in build.marks.iter().zip(&side.marks) {
            // Aim moves the impact by its angle times the distance.
            let sigma = mark.full.stats.sigma.value;
            let hit =
                |shift: Impact| offset_circle_probability(0.1, shift.radius(), sigma).unwrap();
            let flown = 4000;
            share_is("hits", mark.hit.value * 4000.0, flown, hit(Impact::default()), 1e-3);
            assert_eq!(found.misjudged.len(), 4);
            for one in &found.misjudged {
                moved += u32::from(one.hit.value < mark.hit.value - 0.05);
                share_is("moved", one.hit.value * 4000.0, flown, hit(one.shift), 1e-3);
                let high = one.shift.up > 0.0;
                match one.what {
                    Misjudgement::TooFar => assert!(high),
                    Misjudgement::TooNear => assert!(!high),
                    Misjudgement::WindFromRight => assert!(one.shift.left > 0.0),
                    Misjudgement::WindFromLeft => assert!(one.shift.left < 0.0),
                }
            }
        }
    }
    assert!(moved > 4, "the misjudgements are too small to test anything");
    for mark in &sides.pairs[0].marks {
        let ratio = mark.archer.ratio.unwrap().value;
        assert!((ratio - 2.0 / 3.0).abs() < 0.01, "{ratio}");
        for after in &mark.archer.after {
            let of = |share: f64| share * 2000.0;
            share_is("wrong", of(after.picked_wrong), 2000, after.odds.wrong, 0.0);
            share_is("missed", of(after.picked_missed), 2000, after.odds.missed, 0.0);
        }
        let hit = mark.differences.iter().find(|found| found.of == BuildMeasure::Hit).unwrap();
        assert!(hit.value.value <= 0.0);
    }
}
