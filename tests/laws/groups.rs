//! What moving, turning, scaling or mirroring does to a group.

use target::{Estimate, Group, Impact};

/// A spread-out cloud of unlike sigmas, off centre.
fn cloud() -> Vec<Impact> {
    let part = |at: u32, step: f64| (f64::from(at) * step).fract();
    (0..60)
        .map(|at| {
            let r = (-2.0 * (1.0 - part(at, 0.618_033_988_7) * 0.999).ln()).sqrt();
            let (sin, cos) = (std::f64::consts::TAU * part(at, 0.414_213_562_4)).sin_cos();
            Impact { left: 0.3 + 0.05 * r * cos, up: -0.2 + 0.08 * r * sin }
        })
        .collect()
}

fn moved(change: impl Fn(Impact) -> Impact) -> Group {
    let impacts: Vec<Impact> = cloud().into_iter().map(change).collect();
    Group::of(&impacts).unwrap()
}

/// The statistics that do not depend on the axes.
fn round(group: &Group) -> [Estimate; 5] {
    [group.sigma, group.mean_radius, group.r50, group.r90, group.spread6.unwrap()]
}

/// Equal after scaling, but for rounding of impacts a few sigma from zero.
fn alike(got: &[Estimate], want: &[Estimate], scale: f64) {
    for (got, want) in got.iter().zip(want) {
        for (got, want) in [(got.value, want.value), (got.low, want.low), (got.high, want.high)] {
            assert!((got - scale * want).abs() < 1e-13 * scale, "{got} is not {scale} x {want}");
        }
    }
}

#[test]
fn law_moving_a_group_moves_its_centre_only() {
    let (still, moved) = (moved(|i| i), moved(|i| Impact { left: i.left + 2.0, up: i.up - 3.0 }));
    alike(&round(&moved), &round(&still), 1.0);
    alike(&[moved.sigma_left, moved.sigma_up], &[still.sigma_left, still.sigma_up], 1.0);
    assert!((moved.centre.left - still.centre.left - 2.0).abs() < 1e-14);
    assert!((moved.centre.up - still.centre.up + 3.0).abs() < 1e-14);
}

#[test]
fn law_turning_a_group_keeps_its_size() {
    let (sin, cos) = 0.7_f64.sin_cos();
    let turned =
        moved(|i| Impact { left: cos * i.left - sin * i.up, up: sin * i.left + cos * i.up });
    let still = moved(|i| i);
    alike(&round(&turned), &round(&still), 1.0);
    assert!((turned.sigma_left.value - still.sigma_left.value).abs() > 1e-3);
    let quarter = moved(|i| Impact { left: -i.up, up: i.left });
    alike(&[quarter.sigma_up, quarter.sigma_left], &[still.sigma_left, still.sigma_up], 1.0);
}

#[test]
fn law_scaling_a_group_scales_every_size() {
    let still = moved(|i| i);
    for scale in [1e-3, 7.0, 1e6] {
        let scaled = moved(|i| Impact { left: scale * i.left, up: scale * i.up });
        alike(&round(&scaled), &round(&still), scale);
        alike(&[scaled.sigma_left, scaled.sigma_up], &[still.sigma_left, still.sigma_up], scale);
    }
}

#[test]
fn law_a_mirror_image_has_the_same_size() {
    let (still, mirrored) = (moved(|i| i), moved(|i| Impact { left: -i.left, ..i }));
    // Changing a sign rounds nothing.
    assert_eq!(round(&mirrored), round(&still));
    assert_eq!(mirrored.sigma_left, still.sigma_left);
    assert_eq!(mirrored.sigma_up, still.sigma_up);
    assert_eq!(mirrored.centre, Impact { left: -still.centre.left, up: still.centre.up });
}

#[test]
fn law_estimates_lie_within_their_intervals() {
    for count in 2..=60 {
        let group = Group::of(&cloud()[..count]).unwrap();
        let sides = [group.sigma_left, group.sigma_up, group.sigma, group.mean_radius];
        let radii = [group.r50, group.r90];
        for part in sides.iter().chain(&radii).chain(&group.spread6) {
            assert!(
                0.0 <= part.low && part.low < part.value && part.value < part.high,
                "{count} impacts: {part:?}"
            );
        }
    }
}
