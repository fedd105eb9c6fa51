//! Faces, zones and chances of a hit.

use target::{Face, Impact, TargetError, Zone, expected_score, offset_circle_probability};
use units::Length;

fn metres(si: f64) -> Length {
    Length::from_si(si)
}

fn at(left: f64, up: f64) -> Impact {
    Impact { left, up }
}

#[test]
fn exact_a_touched_line_scores_the_higher() {
    // Sizes that binary holds exactly: rings 1/16 m wide, shaft 1/128 m.
    let face = Face::ten_ring(metres(1.25), false).unwrap();
    let shaft = metres(0.007_812_5);
    let reach = shaft.si() / 2.0;
    for (ring, want) in (1..=10).zip((1..=10).rev()) {
        let line = f64::from(ring) * 0.0625;
        assert_eq!(face.score(&at(line + reach, 0.0), shaft), want);
        assert_eq!(face.score(&at(0.0, -line - reach - 1e-12), shaft), want - 1);
        assert_eq!(face.score(&at(-line, 0.0), Length::ZERO), want);
    }
    assert_eq!(face.score(&at(0.0, 0.0), shaft), 10);
    assert_eq!(face.score(&at(f64::NAN, 0.0), shaft), 0);
}

#[test]
fn exact_the_inner_ten_leaves_a_nine() {
    let face = Face::ten_ring(metres(0.40), true).unwrap();
    let none = Length::ZERO;
    assert_eq!(face.score(&at(0.0, 0.0099), none), 10);
    assert_eq!(face.score(&at(0.0, 0.0101), none), 9);
    assert_eq!(face.score(&at(0.0, 0.0399), none), 9);
    assert_eq!(face.score(&at(0.0, 0.0401), none), 8);
}

#[test]
fn exact_a_zone_asks_for_the_centre_of_the_shaft() {
    let zone = Zone::round(metres(0.25)).unwrap();
    assert!(zone.hit(&at(0.125, 0.0)));
    assert!(!zone.hit(&at(0.125 + 1e-12, 0.0)));
    assert!(!zone.hit(&at(f64::NAN, 0.0)));
}

#[test]
fn exact_sizes_that_are_none_are_refused() {
    for bad in [0.0, -0.4, f64::NAN, f64::INFINITY] {
        let face = Face::ten_ring(metres(bad), false).unwrap_err();
        assert!(matches!(face, TargetError::NotPositive { .. }));
        assert!(Zone::round(metres(bad)).is_err());
        assert!(offset_circle_probability(bad, 0.0, 1.0).is_err());
    }
    let face = Face::ten_ring(metres(0.4), false).unwrap();
    for bad in [-1e-9, f64::NAN, f64::INFINITY] {
        assert!(expected_score(bad, &face, Length::ZERO).is_err());
        assert!(expected_score(0.1, &face, metres(bad)).is_err());
        assert!(offset_circle_probability(1.0, bad, 1.0).is_err());
        assert!(offset_circle_probability(1.0, 0.0, bad).is_err());
    }
}

#[test]
fn exact_no_spread_scores_ten() {
    let face = Face::ten_ring(metres(0.4), true).unwrap();
    let score = expected_score(0.0, &face, metres(0.005)).unwrap();
    assert!((score - 10.0).abs() < 1e-15);
}

/// scipy 1.17.1 `ncx2.cdf((R/s)^2, 2, (d/s)^2)` (C).
#[test]
fn exact_offset_circle_against_noncentral_chi_square() {
    for (radius, offset, sigma, want) in [
        (2.0, 1.0, 1.0, 0.730_987_939_964_09),
        (1.0, 0.0, 1.0, 0.393_469_340_287_366_5),
        (1.0, 5.0, 1.0, 1.279_102_361_650_680_6e-5),
        (0.1, 0.3, 0.2, 0.040_835_686_589_182_77),
        (9.0, 9.0, 1.0, 0.477_802_096_473_600_67),
        (9.5, 9.0, 1.0, 0.672_139_051_623_937),
        (20.0, 21.5, 1.0, 0.063_739_827_591_868_41),
        (100.0, 99.0, 1.0, 0.840_125_726_848_654_7),
        (3.0, 10.0, 1.0, 6.875_776_996_462_842e-13),
        (1e4, 9999.0, 1.0, 0.841_332_646_625_158_7),
    ] {
        let got = offset_circle_probability(radius, offset, sigma).unwrap();
        // The error function of statrs has constants of ten digits: up to 5e-11.
        assert!((got - want).abs() < 6e-11, "R {radius} d {offset}: {got} is not {want}");
    }
}

#[test]
fn exact_offset_circle_at_its_ends() {
    let chance = |r, d, s| offset_circle_probability(r, d, s).unwrap();
    let [inside, edge, outside] = [0.9, 1.0, 1.1].map(|offset| chance(1.0, offset, 0.0));
    assert_eq!((inside.to_bits(), edge.to_bits(), outside.to_bits()), {
        (1_f64.to_bits(), 1_f64.to_bits(), 0_f64.to_bits())
    });
    // A line through the point of aim, as near as an enormous circle comes.
    assert!((chance(1e12, 1e12, 1.0) - 0.5).abs() < 6e-11);
    assert!(chance(1e-9, 1e200, 1.0) < 1e-300);
    for tiny in [1e-300, f64::MIN_POSITIVE, 5e-324] {
        assert!((chance(1.0, 0.5, tiny) - 1.0).abs() < 1e-12);
        assert!(chance(1.0, 1.5, tiny) < 1e-12);
    }
}
