//! The fitter against certified fits.

use solve::{Closeness, LeastSquares, least_squares};

const CLOSE: Closeness = Closeness { step: 1e-5, tolerance: 1e-14 };

fn fitted(data: &[(f64, f64)], model: impl Fn(f64, &[f64]) -> f64, start: &[f64]) -> LeastSquares {
    let residuals = |b: &[f64]| Some(data.iter().map(|(x, y)| y - model(*x, b)).collect());
    least_squares(residuals, start, start, CLOSE).unwrap()
}

/// Holds values, their standard deviations and the sum of squares against what
/// is certified, to seven figures: half the digits of the certificate, whose
/// data have four.
fn certified(found: &LeastSquares, values: [f64; 2], deviations: [f64; 2], sum: f64) {
    assert!((found.sum() / sum - 1.0).abs() < 1e-8, "{}", found.sum());
    let freedom = (found.residuals.len() - 2) as f64;
    let covariance = (found.slopes.transpose() * &found.slopes).try_inverse().unwrap();
    for place in 0..2 {
        let (value, want) = (found.at[place], values[place]);
        assert!((value / want - 1.0).abs() < 1e-7, "{value} for {want}");
        let deviation = (covariance[(place, place)] * found.sum() / freedom).sqrt();
        let want = deviations[place];
        assert!((deviation / want - 1.0).abs() < 1e-6, "{deviation} for {want}");
    }
}

/// `Misra1a`: certified 238.94212918, 5.5015643181e-4, sum of squares
/// .12455138894 (R2); data, starts and standard deviations from memory (M), the
/// sum of squares holds the data. From both starts. [nist-strd]
#[test]
fn published_misra1a() {
    let data = [
        (77.6, 10.07),
        (114.9, 14.73),
        (141.1, 17.94),
        (190.8, 23.93),
        (239.9, 29.61),
        (289.0, 35.18),
        (332.8, 40.02),
        (378.4, 44.82),
        (434.8, 50.76),
        (477.3, 55.05),
        (536.8, 61.01),
        (593.1, 66.40),
        (689.1, 75.47),
        (760.0, 81.78),
    ];
    for start in [[500.0, 1e-4], [250.0, 5e-4]] {
        let found = fitted(&data, |x, b| b[0] * (1.0 - (-b[1] * x).exp()), &start);
        certified(
            &found,
            [238.942_129_18, 5.501_564_318_1e-4],
            [2.707_007_524_1, 7.266_868_843_6e-6],
            0.124_551_388_94,
        );
    }
}

/// `DanWood`: certified 0.76886226176, 3.8604055871, standard deviations
/// 0.018281973860, 0.051726610913, sum of squares 4.3173084083e-3; all from
/// memory (M). From both starts. [nist-strd]
#[test]
fn published_danwood() {
    let data = [
        (1.309, 2.138),
        (1.471, 3.421),
        (1.490, 3.597),
        (1.565, 4.340),
        (1.611, 4.882),
        (1.680, 5.660),
    ];
    for start in [[1.0, 5.0], [0.7, 4.0]] {
        let found = fitted(&data, |x: f64, b| b[0] * x.powf(b[1]), &start);
        certified(
            &found,
            [0.768_862_261_76, 3.860_405_587_1],
            [0.018_281_973_860, 0.051_726_610_913],
            4.317_308_408_3e-3,
        );
    }
}
