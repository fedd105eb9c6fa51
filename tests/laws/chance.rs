use study::{Distribution, RandomStream};

/// Of any law, half of the values that are drawn lie below its median: the
/// chances below one half are exactly those whose values lie below it.
#[test]
fn law_half_of_all_values_lie_below_the_median_of_any_law() {
    let laws = [
        (Distribution::Normal { mean: -2.0, sd: 0.5 }, -2.0),
        (Distribution::NormalWithin { mean: 3.0, sd: 2.0, within: 0.7 }, 3.0),
        (Distribution::Uniform { low: 1.0, high: 4.0 }, 2.5),
        // Where 1 - exp(-x^2/2) is one half; with a limit, half of what that leaves.
        (Distribution::Rayleigh { scale: 2.0 }, 2.0 * (2.0 * 2.0_f64.ln()).sqrt()),
        (Distribution::RayleighUpTo { scale: 1.0, most: 1.5 }, {
            let kept = 1.0 - (-0.5_f64 * 1.5 * 1.5).exp();
            (-2.0 * (1.0 - 0.5 * kept).ln()).sqrt()
        }),
    ];
    for (law, closed) in laws {
        let median = law.median();
        // A few units in the last place of the closed forms.
        assert!((median - closed).abs() < 1e-14 * closed.abs().max(1.0), "{law:?}: {median}");
        let mut stream = RandomStream::new(5, "median");
        for index in 0..1000 {
            let chance = stream.chance(index);
            assert_eq!(law.at(chance) < median, chance < 0.5, "{law:?} at {chance}");
        }
    }
}
