//! Power of the F test of two groups, and a magazine's score.

use target::{Face, PowerTest, Scores};
use units::Length;

/// Power of the two-sided F test with 2n - 2 degrees of freedom for each group:
/// scipy 1.17.1 `f`, `tests/reference/power_test.py` (C).
#[test]
fn published_power_of_the_f_test() {
    for (ratio, shots, confidence, want) in [
        (1.2, 3, 0.9, 0.116_018_793_923),
        (1.2, 6, 0.95, 0.082_342_755_273),
        (1.2, 12, 0.99, 0.038_386_316_159),
        (1.2, 36, 0.95, 0.327_046_511_345),
        (1.2, 120, 0.95, 0.801_489_598_290),
        (1.5, 3, 0.95, 0.100_093_468_039),
        (1.5, 6, 0.9, 0.335_915_691_989),
        (1.5, 12, 0.95, 0.456_882_793_534),
        (1.5, 36, 0.99, 0.783_304_744_840),
        (2.0, 3, 0.99, 0.059_043_646_600),
        (2.0, 6, 0.95, 0.545_178_515_934),
        (2.0, 12, 0.9, 0.938_039_935_119),
        (3.0, 3, 0.95, 0.476_027_683_465),
        (3.0, 12, 0.99, 0.991_798_038_974),
    ] {
        let power_test = PowerTest::new(confidence, 0.8).unwrap();
        let found = power_test.chance_to_tell(ratio, shots);
        // The library's F quantile holds 3e-12 of itself.
        assert!((found - want).abs() < 1e-11, "{ratio} {shots} {confidence}: {found}");
    }
}

/// Shots each way at other confidences and powers (C, the same script).
#[test]
fn published_shots_at_a_stated_confidence_and_power() {
    for (ratio, confidence, power, want) in [
        (1.2, 0.95, 0.9, 160),
        (1.2, 0.9, 0.8, 95),
        (1.5, 0.99, 0.8, 38),
        (1.5, 0.99, 0.95, 56),
        (2.0, 0.9, 0.5, 5),
        (1.1, 0.99, 0.99, 1325),
    ] {
        let power_test = PowerTest::new(confidence, power).unwrap();
        assert_eq!(power_test.shots(ratio, 10_000), Some(want), "{ratio} {confidence} {power}");
    }
}

/// Park (magazine) pairs 600 points of 72 arrows at 122 cm with 107 mm (R): a
/// round with that group and a shaft of 5.5 mm scores 600 within one standard
/// deviation of a single round, and its expected total within a point.
#[test]
fn published_a_round_of_six_hundred() {
    let face = Face::ten_ring(Length::from_si(1.22), false).unwrap();
    let round = Scores::of(0.107, &face, Length::from_si(5.5e-3)).unwrap().round(72);
    // A whole sigma and a round score: one point covers both roundings.
    assert!((round.mean() - 600.0).abs() < 1.0, "{}", round.mean());
    assert!((round.mean() - 600.857).abs() < 5e-4);
    assert!(round.deviation() > 9.0 && round.deviation() < 11.0, "{}", round.deviation());
}
