//! Group statistics with known answers.

use target::{
    Estimate, Group, Impact, TargetError, extreme_spread, hit_share, mean_estimate, t_factor,
};

/// A group about the origin with these radii, each twice, on opposite sides.
fn pairs(radii: impl IntoIterator<Item = f64>) -> Vec<Impact> {
    let both = |r: f64| [Impact { left: r, up: 0.0 }, Impact { left: -r, up: 0.0 }];
    radii.into_iter().flat_map(both).collect()
}

/// Circular normal radii for sigma 1 at the middles of equal shares, four to a
/// radius at right angles, each four turned by the golden angle.
fn grid(count: u32) -> Vec<Impact> {
    let golden = std::f64::consts::PI * (3.0 - 5_f64.sqrt());
    let four = |at: u32| {
        let share = (f64::from(at) + 0.5) / f64::from(count);
        let r = (-2.0 * (1.0 - share).ln()).sqrt();
        let (sin, cos) = (f64::from(at) * golden).sin_cos();
        let (a, b) = (r * cos, r * sin);
        [(a, b), (-b, a), (-a, -b), (b, -a)].map(|(left, up)| Impact { left, up })
    };
    (0..count).flat_map(four).collect()
}

fn close(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} is not {want} within {tolerance}");
}

fn same(got: Estimate, value: f64, low: f64, high: f64) {
    for (got, want) in [(got.value, value), (got.low, low), (got.high, high)] {
        // Rounding of a few operations.
        close(got, want, 1e-12 * want.abs().max(1.0));
    }
}

/// Six on two spots, `d` apart.
fn six(d: f64) -> [Impact; 6] {
    [0.0, d, 0.0, d, 0.0, d].map(|left| Impact { left, up: 1.0 })
}

#[test]
fn exact_impacts_on_one_point_give_zeros() {
    // A third is not exact in binary, so a mean taken carelessly leaves a rest.
    let group = Group::of(&[Impact { left: 1.0 / 3.0, up: -0.1 }; 37]).unwrap();
    let zero = Estimate { value: 0.0, low: 0.0, high: 0.0 };
    assert_eq!(group.centre, Impact { left: 1.0 / 3.0, up: -0.1 });
    let all = [group.sigma_left, group.sigma_up, group.sigma, group.mean_radius];
    assert_eq!(all, [zero; 4]);
    assert_eq!([group.r50, group.r90, group.spread6.unwrap()], [zero; 3]);
}

#[test]
fn exact_sigmas_of_a_known_group() {
    let group =
        Group::of(&[(1.0, 2.0), (3.0, 8.0), (5.0, 2.0)].map(|(left, up)| Impact { left, up }))
            .unwrap();
    assert_eq!(group.centre, Impact { left: 3.0, up: 4.0 });
    close(group.sigma_left.value, 2.0, 1e-15);
    close(group.sigma_up.value, 12_f64.sqrt(), 1e-15);
    close(group.sigma.value, 8_f64.sqrt(), 1e-15);
    close(group.mean_radius.value, (2.0 * 8_f64.sqrt() + 4.0) / 3.0, 1e-15);
}

/// Factors of one axis (11 degrees of freedom): scipy 1.17.1 `chi2.ppf` (C).
#[test]
fn exact_one_axis_has_half_the_degrees_of_freedom() {
    let group = Group::of(&pairs([1.0, 2.0, 3.0, 4.0, 5.0, 6.0])).unwrap();
    let sigma = group.sigma_left;
    // statrs finds chi-square quantiles to about 3e-11.
    close(sigma.low / sigma.value, 0.708_395_150_862_265_9, 1e-10);
    close(sigma.high / sigma.value, 1.697_878_017_724_006, 1e-10);
}

/// Ranks from scipy 1.17.1 `binom` (C): the 40th to 61st of 100 for a half,
/// the 84th to 96th for nine tenths.
#[test]
fn exact_order_statistics_bound_the_radii() {
    let group = Group::of(&pairs((1..=50).map(f64::from))).unwrap();
    same(group.r50, 25.5, 20.0, 31.0);
    // Rank (100 + 1/3) 0.9 + 1/3 = 90.633.
    same(group.r90, 45.0 + 19.0 / 30.0, 42.0, 48.0);
}

#[test]
fn exact_few_impacts_fall_back_on_sigma() {
    let rayleigh = |group: &Group, share: f64| {
        let factor = (-2.0 * (1.0 - share).ln()).sqrt();
        (group.sigma.value * factor, group.sigma.low * factor, group.sigma.high * factor)
    };
    let cloud = grid(9);
    let few = Group::of(&cloud[..5]).unwrap();
    let (value, low, high) = rayleigh(&few, 0.5);
    same(few.r50, value, low, high);
    let six = Group::of(&cloud[..6]).unwrap();
    assert!((six.r50.value - rayleigh(&six, 0.5).0).abs() > 1e-3);

    let under = Group::of(&cloud[..35]).unwrap();
    let (value, low, high) = rayleigh(&under, 0.9);
    same(under.r90, value, low, high);
    let ratio = under.mean_radius.value / under.sigma.value;
    same(
        under.mean_radius,
        under.mean_radius.value,
        under.sigma.low * ratio,
        under.sigma.high * ratio,
    );
    let enough = Group::of(&cloud).unwrap();
    assert!((enough.r90.value - rayleigh(&enough, 0.9).0).abs() > 1e-3);
}

/// Student's t with one degree of freedom at 97.5 %: tan(0.475 pi).
#[test]
fn exact_spread_of_two_sixes() {
    let impacts = [six(1.0), six(3.0)].concat();
    let t = (0.475 * std::f64::consts::PI).tan();
    same(Group::of(&impacts).unwrap().spread6.unwrap(), 2.0, 0.0, 2.0 + t);
    assert_eq!(Group::of(&impacts[..11]).unwrap().spread6, None);
    close(extreme_spread(&impacts).unwrap(), 3.0, 0.0);
}

/// Closed forms for sigma 1 per axis, on a grid of quantiles.
#[test]
fn exact_circular_normal_on_a_grid() {
    let group = Group::of(&grid(25_000)).unwrap();
    // The grid cuts the far tail: relative error about 1 / (2 count) in the
    // squares, far less elsewhere; and n - 1 against n.
    close(group.sigma.value, 1.0, 2e-5);
    close(group.sigma_left.value, group.sigma_up.value, 1e-12);
    close(group.mean_radius.value, (std::f64::consts::PI / 2.0).sqrt(), 1e-5);
    close(group.r50.value, (2.0 * 2_f64.ln()).sqrt(), 4e-5);
    close(group.r90.value, (2.0 * 10_f64.ln()).sqrt(), 2e-4);
}

/// scipy 1.17.1 `binomtest(..).proportion_ci(0.95, "wilson")` (C).
#[test]
fn exact_wilson_interval_of_a_share() {
    for (hits, of, low, high) in [
        (0, 10, 0.0, 0.277_532_799_862_889_26),
        (7, 10, 0.396_778_147_461_145_26, 0.892_208_732_593_699),
        (10, 10, 0.722_467_200_137_110_9, 1.0),
        (45, 50, 0.786_397_685_625_203_4, 0.956_524_235_068_109_5),
        (9500, 10_000, 0.945_552_884_156_975_8, 0.954_101_517_309_415_2),
    ] {
        same(hit_share(hits, of).unwrap(), hits as f64 / of as f64, low, high);
    }
}

/// scipy 1.17.1 `t.interval` (C).
#[test]
fn exact_t_interval_of_a_mean() {
    let scores = [9.0, 10.0, 8.0, 10.0, 7.0, 9.0, 9.0, 10.0];
    let mean = mean_estimate(&scores).unwrap();
    // statrs finds the t quantile to about 1e-11.
    close(mean.value, 9.0, 1e-15);
    close(mean.low, 8.106_256_040_881_895, 1e-10);
    close(mean.high, 9.893_743_959_118_105, 1e-10);
}

#[test]
fn exact_impacts_without_a_place_are_refused() {
    let mut impacts = pairs([1.0, 2.0, 3.0]);
    for bad in [f64::NAN, f64::INFINITY, -1e101] {
        impacts[4].up = bad;
        let refused = Group::of(&impacts).unwrap_err();
        assert!(matches!(refused, TargetError::Impact { index: 4, .. }), "{refused}");
    }
    let one = Group::of(&impacts[..1]).unwrap_err();
    assert!(matches!(one, TargetError::TooFew { count: 1, .. }));
}

#[test]
fn exact_the_largest_impacts_stay_finite() {
    let group = Group::of(&pairs([1e100, 1e100, 5e99, 1e-100, 0.0, 1e100])).unwrap();
    for part in [group.sigma, group.sigma_left, group.sigma_up, group.mean_radius, group.r50] {
        assert!(part.value.is_finite() && part.low.is_finite() && part.high.is_finite());
    }
}

/// Student's t at 97.5 % (scipy 1.17.1 `t.ppf`, C).
#[test]
fn exact_factors_of_a_t_interval() {
    // 1e-9 of each: what the inverse in use holds.
    for (freedom, factor) in [
        (1, 12.706_204_736_174_694),
        (2, 4.302_652_729_749_462),
        (10, 2.228_138_851_986_274),
        (30, 2.042_272_456_301_237_8),
    ] {
        close(t_factor(freedom).unwrap(), factor, 1e-9 * factor);
    }
    assert_eq!(
        t_factor(0),
        Err(TargetError::TooFew { what: "degrees of freedom", count: 0, needed: 1 })
    );
}
