//! Figures of group statistics and scores from outside this project.

use target::{Face, Group, Impact, expected_score, offset_circle_probability, shots_to_tell};
use units::Length;

/// 95 % interval on sigma, n 12: x .773395 to 1.415351 (C).
#[test]
fn published_interval_factors_of_sigma() {
    let impacts: Vec<Impact> =
        (0..12).map(|at| Impact { left: f64::from(at), up: f64::from(at * at % 7) }).collect();
    let sigma = Group::of(&impacts).unwrap().sigma;
    // Half of the last printed digit.
    assert!((sigma.low / sigma.value - 0.773_395).abs() < 5e-7);
    assert!((sigma.high / sigma.value - 1.415_351).abs() < 5e-7);
}

/// Two groups, 80 % power, two-sided 5 %: 120 each at 1.2, 10 each at 2.0 (C);
/// the others: scipy 1.17.1 `f` (C).
#[test]
fn published_shots_to_tell_two_groups_apart() {
    for (ratio, want) in [
        (1.2, 120),
        (2.0, 10),
        (1.001, 3_928_357),
        (1.01, 39_639),
        (1.02, 10_010),
        (1.05, 1651),
        (1.1, 434),
        (1.3, 59),
        (1.5, 26),
        (3.0, 5),
        (5.0, 3),
        (20.0, 2),
    ] {
        assert_eq!(shots_to_tell(ratio, 10_000_000), Some(want), "ratio {ratio}");
    }
}

/// Offset circle, R 2, offset 1: .730987940 (C).
#[test]
fn published_offset_circle() {
    let got = offset_circle_probability(2.0, 1.0, 1.0).unwrap();
    // Half of the last printed digit.
    assert!((got - 0.730_987_940).abs() < 5e-10);
}

/// Expected 72-arrow score, 122 cm face, sigma 107 mm, shaft 5.5 mm: 600.857,
/// zero-width shaft 597.713. Park (magazine) pairs 600 with 107 mm (R).
#[test]
fn published_line_cutting_score() {
    let face = Face::ten_ring(Length::from_si(1.22), false).unwrap();
    let score = |shaft| 72.0 * expected_score(0.107, &face, Length::from_si(shaft)).unwrap();
    // Half of the last printed digit.
    assert!((score(0.0055) - 600.857).abs() < 5e-4);
    assert!((score(0.0) - 597.713).abs() < 5e-4);
    // A whole sigma and a round score: one point covers both roundings.
    assert!((score(0.0055) - 600.0).abs() < 1.0);
}

/// World Archery faces: ten ring 12.2 / 8 / 4 cm across, compound indoor inner
/// ten 2 cm (R/R2).
#[test]
fn published_sizes_of_the_ten_ring() {
    for (face, inner_ten, ten) in
        [(1.22, false, 0.122), (0.80, false, 0.08), (0.40, false, 0.04), (0.40, true, 0.02)]
    {
        let face = Face::ten_ring(Length::from_si(face), inner_ten).unwrap();
        let inmost = face.rings()[9];
        assert_eq!(inmost.score, 10);
        assert!((2.0 * inmost.radius.si() - ten).abs() < 1e-15);
        assert!((face.rings()[0].radius.si() - face.diameter().si() / 2.0).abs() < 1e-15);
    }
}
