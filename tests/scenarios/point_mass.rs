use crate::{close, fly, value};

/// Acceleration -k v|v|, k .0016, 80 m/s, no gravity: at 50 m v 73.84930771, t
/// .65068022 (C). The default tolerance of a flight is 1e-5; these are 1e-7.
#[test]
fn published_constant_drag_from_a_scenario() {
    let states = fly("constant-drag", &["--build", "calm", "--marks", "50 m"]);
    close("speed", value(&states[0], "speed"), 73.849_307_71, 1e-5);
    close("time", value(&states[0], "time"), 0.650_680_22, 1e-7);
    assert_eq!([value(&states[0], "left"), value(&states[0], "up")].map(f64::to_bits), [0; 2]);
}

/// Pure cross-wind 5 m/s, no gravity, 70 m, 80 m/s: drift .25492395 m = w(t -
/// x/v0), the lag rule (C). Wind from the right drifts to the left.
#[test]
fn published_cross_wind_lag_from_a_scenario() {
    let states = fly("constant-drag", &["--build", "cross-wind", "--marks", "70 m"]);
    let (left, time) = (value(&states[0], "left"), value(&states[0], "time"));
    close("drift", left, 0.254_923_95, 1e-7);
    close("lag rule", left, 5.0 * (time - 70.0 / 80.0), 1e-7);
}
