//! Verdicts on two spreads, rounds, and zones. C: `tests/reference/power_test.py`.

use target::{Face, Group, Impact, PowerTest, Scores, Spread, TargetError, Zone};
use units::Length;

/// A group of `count` impacts round a circle of this radius.
fn ring(count: u32, radius: f64) -> Group {
    let impacts: Vec<Impact> = (0..count)
        .map(|at| std::f64::consts::TAU * f64::from(at) / f64::from(count))
        .map(|angle| Impact { left: radius * angle.cos(), up: radius * angle.sin() })
        .collect();
    Group::of(&impacts).unwrap()
}

/// C: chance of the smaller group being the wrong build's, of the test seeing
/// nothing, and of its saying the opposite, at 95 %.
#[test]
fn exact_odds_after_a_few_shots() {
    let power_test = PowerTest::default();
    for (ratio, shots, wrong, missed, reversed) in [
        (1.1, 3, 0.428_947_528_600, 0.947_408_085_243, 0.017_837_464_674),
        (1.3, 6, 0.210_477_545_720, 0.881_254_495_555, 0.003_796_854_404),
        (1.3, 36, 0.014_816_562_044, 0.413_579_270_650, 0.000_023_011_533),
        (2.0, 3, 0.104, 0.789_593_704_018, 0.001_898_110_702),
        (2.0, 12, 0.000_969_696_438, 0.111_502_220_786, 0.000_000_886_045),
    ] {
        let odds = power_test.odds(ratio, shots);
        // Half of the last printed digit, and the quantile of the library.
        assert!((odds.wrong - wrong).abs() < 1e-11, "{ratio} {shots}: {odds:?}");
        assert!((odds.missed - missed).abs() < 1e-11, "{ratio} {shots}: {odds:?}");
        assert!((odds.reversed - reversed).abs() < 1e-11, "{ratio} {shots}: {odds:?}");
        // The same build may be named first or second.
        let inverse = power_test.odds(1.0 / ratio, shots);
        assert!((odds.wrong - inverse.wrong).abs() < 1e-12);
        let told = 1.0 - odds.missed;
        assert!((told - power_test.chance_to_tell(ratio, shots)).abs() < 1e-12);
    }
}

/// Between equal builds the smaller group is a coin's toss, and the test errs
/// as often as its confidence allows. A point is always told from a group.
#[test]
fn exact_odds_at_their_ends() {
    let power_test = PowerTest::new(0.9, 0.8).unwrap();
    let even = power_test.odds(1.0, 6);
    assert!((even.wrong - 0.5).abs() < 1e-12);
    assert!((even.missed - 0.9).abs() < 1e-10);
    assert!((even.reversed - 0.05).abs() < 1e-10);
    let point = power_test.odds(f64::INFINITY, 3);
    assert_eq!(format!("{point:?}"), "Odds { wrong: 0.0, missed: 0.0, reversed: 0.0 }");
    let limit = power_test.limit(6);
    assert!((power_test.odds(1.0, 6).reversed - 0.05).abs() < 1e-10 && limit > 1.0);
}

/// C: sigma 1.7 of 8 shots against 1 of 13, at 90 %.
#[test]
fn exact_verdict_on_groups_of_unequal_size() {
    let power_test = PowerTest::new(0.9, 0.8).unwrap();
    let first = Spread { sigma: 1.7, freedom: 14.0 };
    let second = Spread { sigma: 1.0, freedom: 24.0 };
    let found = power_test.verdict(&first, &second).unwrap();
    for (found, want) in [
        (found.ratio.value, 1.7),
        (found.ratio.low, 1.164_876_345_715_281_5),
        (found.ratio.high, 2.605_317_569_821_535_6),
        (found.chance, 0.021_623_818_962_437_16),
        (found.least, 1.814_267_464_930_798_6),
    ] {
        assert!((found - want).abs() < 1e-10 * want, "{found} {want}");
    }
    assert!(found.told());

    // Changing sides turns the ratio over; the chance is the same.
    let turned = power_test.verdict(&second, &first).unwrap();
    assert!((turned.ratio.low * found.ratio.high - 1.0).abs() < 1e-12);
    assert!((turned.ratio.high * found.ratio.low - 1.0).abs() < 1e-12);
    assert!((turned.chance - found.chance).abs() < 1e-12);

    let strict = PowerTest::new(0.99, 0.8).unwrap();
    assert!(!strict.verdict(&first, &second).unwrap().told());
}

#[test]
fn exact_a_verdict_needs_two_spreads() {
    let power_test = PowerTest::default();
    let (some, none) = (ring(7, 1.0), Group::of(&[Impact::default(); 7]).unwrap());
    let [some, none] = [&some, &none].map(Spread::of_group);
    assert_eq!(power_test.verdict(&some, &none), Err(TargetError::NoSpread));
    assert_eq!(power_test.verdict(&none, &some), Err(TargetError::NoSpread));
    assert!(!power_test.verdict(&some, &some).unwrap().told());
}

/// C: degrees of freedom of the mean radius, and sigma over it.
#[test]
fn exact_spread_of_a_mean_radius() {
    for (shots, freedom, sigma) in [
        (2, 2.0, 1.0),
        (3, 3.951_898_060_2, 0.917_879_962_6),
        (5, 7.666_665_494_0, 0.863_520_524_4),
        (6, 9.507_895_936_8, 0.851_397_079_7),
        (12, 20.512_616_658_3, 0.823_272_134_5),
        (36, 64.445_045_419_5, 0.806_069_725_1),
        (100, 181.562_889_832_8, 0.800_800_752_6),
        (1000, 1_828.471_682_539_6, 0.798_174_663_7),
    ] {
        let spread = Spread::of_mean_radius(shots, 1.0).unwrap();
        // The reference loses digits in differences of logarithms above 1000.
        let slack = if shots == 1000 { 1e-8 } else { 1e-10 };
        assert!((spread.freedom / freedom - 1.0).abs() < slack, "{shots}: {spread:?}");
        assert!((spread.sigma / sigma - 1.0).abs() < 1e-10, "{shots}: {spread:?}");
    }
    // Two shots say the same either way.
    let pair = [Impact { left: 0.3, up: 0.1 }, Impact { left: -0.2, up: 0.4 }];
    let group = Group::of(&pair).unwrap();
    let (a, b) =
        (Spread::of_group(&group), Spread::of_mean_radius(2, group.mean_radius.value).unwrap());
    assert!((a.sigma - b.sigma).abs() < 1e-15 && (a.freedom - b.freedom).abs() < 1e-12);
}

#[test]
fn exact_shares_beyond_none_and_all_are_refused() {
    for bad in [0.0, 1.0, -0.1, 1.5, f64::NAN] {
        assert!(PowerTest::new(bad, 0.8).is_err());
        assert!(PowerTest::new(0.95, bad).is_err());
    }
    assert!(Spread::of_mean_radius(1, 0.1).is_err());
    assert!(Spread::of_mean_radius(5, 0.0).is_err());
    assert!(Spread::of_mean_radius(5, f64::NAN).is_err());
    assert!(Scores::counted(&[]).is_err());
    assert_eq!(Scores::counted(&[10, 11]), Err(TargetError::Score { index: 1, score: 11 }));
}

/// Half tens and half misses: ten times a binomial count of 4 tosses.
#[test]
fn exact_a_round_of_two_scores_is_binomial() {
    let round = Scores::counted(&[10, 0]).unwrap().round(4);
    assert_eq!(round.arrows(), 4);
    assert!((round.mean() - 20.0).abs() < 1e-12);
    assert!((round.deviation() - 10.0).abs() < 1e-12);
    // 1/16 none, 5/16 at most one, 11/16 at most two, 15/16 at most three.
    for (share, want) in [(0.05, 0), (0.3, 10), (0.5, 20), (0.7, 30), (0.99, 40)] {
        assert_eq!(round.quantile(share), want, "{share}");
    }
    let duel = round.against(&round);
    // Ties: the sum of the squares of 1, 4, 6, 4, 1 over 16.
    assert!((duel.tie - 70.0 / 256.0).abs() < 1e-15);
    assert_eq!(duel.first.to_bits(), duel.second.to_bits());
    assert!((duel.first + duel.tie + duel.second - 1.0).abs() < 1e-15);

    let better = Scores::counted(&[10]).unwrap().round(3);
    let duel = better.against(&round);
    assert!((duel.second - 1.0 / 16.0).abs() < 1e-15 && (duel.tie - 4.0 / 16.0).abs() < 1e-15);
    let turned = round.against(&better);
    assert_eq!(duel.first.to_bits(), turned.second.to_bits());
}

/// C: mean, deviation and ends of 19 rounds in 20 on three faces.
#[test]
fn exact_rounds_on_faces() {
    for (face, inner, sigma, shaft, arrows, mean, deviation, low, high) in [
        (1.22, false, 0.107, 5.5e-3, 72, 600.856_876_079, 10.022_304_354, 581, 620),
        (0.40, true, 0.012, 9.3e-3, 60, 571.462_959_274, 3.883_647_246, 564, 579),
        (0.40, false, 0.03, 5.5e-3, 60, 525.003_007_369, 7.822_056_971, 509, 540),
    ] {
        let face = Face::ten_ring(Length::from_si(face), inner).unwrap();
        let scores = Scores::of(sigma, &face, Length::from_si(shaft)).unwrap();
        let round = scores.round(arrows);
        // Half of the last printed digit, and rounding over the whole sum.
        assert!((round.mean() - mean).abs() < 2e-9, "{}", round.mean());
        assert!((round.deviation() - deviation).abs() < 2e-9, "{}", round.deviation());
        assert_eq!((round.quantile(0.025), round.quantile(0.975)), (low, high));
        let one = target::expected_score(sigma, &face, Length::from_si(shaft)).unwrap();
        assert!((round.mean() / f64::from(arrows) - one).abs() < 1e-12);
    }
}

#[test]
fn exact_an_elliptical_zone() {
    let [width, height] = [0.30, 0.20].map(Length::from_si);
    let zone = Zone::elliptical(width, height).unwrap();
    assert_eq!((zone.width(), zone.height()), (width, height));
    let at = |left, up| zone.hit(&Impact { left, up });
    assert!(at(0.15, 0.0) && at(-0.15, 0.0) && at(0.0, 0.1) && at(0.0, -0.1));
    assert!(!at(0.150_001, 0.0) && !at(0.0, 0.100_001));
    // On the ellipse at half the width: up to sqrt(3)/2 of half the height.
    assert!(at(0.075, 0.086_60) && !at(0.075, 0.086_61));
    assert!(!at(f64::NAN, 0.0) && !at(0.0, f64::INFINITY));
    assert!(Zone::elliptical(width, Length::ZERO).is_err());
    assert!(Zone::elliptical(Length::from_si(f64::NAN), height).is_err());
    // A circle either way.
    let round = Zone::round(width).unwrap();
    assert_eq!(round, Zone::elliptical(width, width).unwrap());
}

/// z(0.975) + z(0.8) = 1.959964 + 0.841621 standard errors of a difference of two shares.
#[test]
fn exact_least_hits_apart() {
    let least = PowerTest::default().least_hits_apart(0.9, 36);
    let by_hand = (1.959_963_985 + 0.841_621_234) * (2.0 * 0.9 * 0.1_f64 / 36.0).sqrt();
    assert!((least - by_hand).abs() < 1e-8, "{least} {by_hand}");
}
