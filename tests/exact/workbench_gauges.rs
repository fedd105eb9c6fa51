//! Gauge readings by geometry.

use units::{Angle, Length};
use workbench::{Gauge, LIGHT, off_axis};

fn mm(value: f64) -> Length {
    Length::from_si(value * 1e-3)
}

fn near(got: f64, want: f64) {
    assert!((got - want).abs() <= 1e-12, "{got} against {want}");
}

/// Each gauge by the tangent of its own triangle.
#[test]
fn exact_each_gauge_is_its_own_triangle() {
    let leaf = Gauge::Leaf { gap: mm(0.05), step: mm(0.01), across: mm(6.0) }.angle().unwrap();
    near(leaf.value, (0.05_f64 / 6.0).atan());
    near(leaf.low, leaf.value);
    near(leaf.high, (0.06_f64 / 6.0).atan());

    let dial = Gauge::Dial { total: mm(0.05), step: mm(0.01), radius: mm(2.5) }.angle().unwrap();
    near(dial.value, (0.05_f64 / 5.0).atan());
    near(dial.low, (0.04_f64 / 5.0).atan());
    near(dial.high, (0.06_f64 / 5.0).atan());

    let wobble = Gauge::Wobble { total: mm(0.2), step: mm(0.02), ahead: mm(30.0) };
    let cant = wobble.angle().unwrap();
    near(cant.value, (0.1_f64 / 30.0).atan());
    near(cant.low, (0.09_f64 / 30.0).atan());
    let offset = wobble.offset().unwrap();
    near(offset.value, 1e-4);
    near(offset.high, 1.1e-4);
    near(off_axis(Angle::from_si(cant.value), mm(30.0)).si(), offset.value);

    let (depth, depth_give) = (mm(0.004), mm(0.001));
    let strokes = Gauge::Strokes { count: 10, depth, depth_give, across: mm(6.0) };
    let strokes = strokes.angle().unwrap();
    near(strokes.value, (0.038_f64 / 6.0).atan());
    near(strokes.low, (0.027_f64 / 6.0).atan());
    near(strokes.high, (0.05_f64 / 6.0).atan());
}

/// Light and leaf bound the gap from both sides.
#[test]
fn exact_light_bounds_the_gap() {
    let (refused, across) = (mm(0.04), mm(6.0));
    let seen = Gauge::Light { seen: true, refused, across }.angle().unwrap();
    let dark = Gauge::Light { seen: false, refused, across }.angle().unwrap();
    near(seen.low, (LIGHT.si() / 6e-3).atan());
    near(seen.high, (0.04_f64 / 6.0).atan());
    near(dark.low, 0.0);
    near(dark.high, seen.low);
}
