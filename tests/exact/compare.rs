//! Two groups held against each other.

use target::{Group, Impact, TargetError, shots_to_tell, sigma_ratio};

/// A group of `count` impacts round a circle of this radius.
fn ring(count: u32, radius: f64) -> Group {
    let impacts: Vec<Impact> = (0..count)
        .map(|at| std::f64::consts::TAU * f64::from(at) / f64::from(count))
        .map(|angle| Impact { left: radius * angle.cos(), up: radius * angle.sin() })
        .collect();
    Group::of(&impacts).unwrap()
}

/// scipy 1.17.1 `f.ppf(0.975, 22, 38)` and back (C).
#[test]
fn exact_interval_of_a_ratio() {
    let (a, b) = (ring(12, 1.5), ring(20, 1.0));
    let ratio = sigma_ratio(&a, &b).unwrap();
    let value = a.sigma.value / b.sigma.value;
    assert!((ratio.value - value).abs() < 1e-15);
    assert!((ratio.low / value - 0.697_605_960_747_852_4).abs() < 1e-12);
    assert!((ratio.high / value - 1.489_857_373_634_652_3).abs() < 1e-12);
}

#[test]
fn exact_ratio_without_spread() {
    let (some, none) = (ring(7, 1.0), Group::of(&[Impact::default(); 7]).unwrap());
    let zero = sigma_ratio(&none, &some).unwrap();
    assert_eq!((zero.value.abs().to_bits(), zero.low.to_bits(), zero.high.to_bits()), (0, 0, 0));
    assert_eq!(sigma_ratio(&some, &none), Err(TargetError::NoSpread));
    assert_eq!(sigma_ratio(&none, &none), Err(TargetError::NoSpread));
}

#[test]
fn exact_shots_at_the_ends_of_the_scale() {
    assert_eq!(shots_to_tell(1.0, u32::MAX), None);
    assert_eq!(shots_to_tell(1.2, 119), None);
    assert_eq!(shots_to_tell(1.2, 120), Some(120));
    assert_eq!(shots_to_tell(1.0 / 1.2, 1000), Some(120));
    assert_eq!(shots_to_tell(f64::INFINITY, 1000), Some(2));
    assert_eq!(shots_to_tell(0.0, 2), Some(2));
    for bad in [f64::NAN, -1.2, f64::NEG_INFINITY] {
        assert_eq!(shots_to_tell(bad, 1000), None);
    }
    assert_eq!(shots_to_tell(2.0, 0), None);
    assert_eq!(shots_to_tell(1e300, 1), None);
}
