use flight::aero::laminar::curvature_factor;

/// More curvature rubs harder, by less and less; also across the rows of the
/// table and beyond its end.
#[test]
fn law_laminar_friction_rises_and_bends_down() {
    let step = 0.01;
    let rises: Vec<f64> = (0..300)
        .map(|i| f64::from(i) * step)
        .map(|k| curvature_factor(k + step) - curvature_factor(k))
        .collect();
    assert!(rises.iter().all(|rise| *rise > 0.0));
    // The rows are rounded to 1e-7.
    assert!(rises.windows(2).all(|pair| pair[1] <= pair[0] + 1e-7));
}
