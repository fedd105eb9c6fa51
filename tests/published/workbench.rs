//! Gauges and straightness against published geometry.

use units::{Angle, Length};
use workbench::{Axis, FULL_SPAN, Gauge, RunOut, off_axis};

fn mm(value: f64) -> Length {
    Length::from_si(value * 1e-3)
}

fn near(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{got} against {want}");
}

/// Feeler gap .05 mm over 6 mm: .477454 deg; .001 in over .246 in: .232908 deg;
/// cant .25 deg, 30 mm ahead: .1309 mm off centre (C). TIR = 2 x eccentricity,
/// ISO 1101 (M).
#[test]
fn published_bench_gauges() {
    let leaf = |gap, across| Gauge::Leaf { gap, step: Length::ZERO, across };
    let deg = |gauge: Gauge| gauge.angle().unwrap().value.to_degrees();
    near(deg(leaf(mm(0.05), mm(6.0))), 0.477_454, 5e-7);
    near(deg(leaf(mm(0.0254), mm(0.246 * 25.4))), 0.232_908, 5e-7);
    let cant = Angle::from_si(0.25_f64.to_radians());
    near(off_axis(cant, mm(30.0)).si() * 1e3, 0.1309, 5e-5);
    let wobble = Gauge::Wobble { total: mm(0.2618), step: Length::ZERO, ahead: mm(30.0) };
    near(wobble.offset().unwrap().value * 1e3, 0.1309, 1e-12);
    near(deg(wobble), 0.25, 5e-5);
}

/// A constant curve that reads .006 in over 28 in reads that on any shorter
/// piece when carried over by (S2/S1)^2, ATA/ARR-203-2008 (R, C).
#[test]
fn published_straightness_is_carried_over_by_the_square_of_the_span() {
    let (stock, full) = (0.8128_f64, FULL_SPAN.si());
    let bow = |x: f64| 0.006 * 0.0254 / 2.0 * 4.0 * x * (stock - x) / (full * full);
    let readings: Vec<RunOut> = (0..=320)
        .map(|k| {
            let x = stock * f64::from(k) / 320.0;
            RunOut {
                station: Length::from_si(x),
                total: Length::from_si(2.0 * bow(x)),
                high: Angle::ZERO,
            }
        })
        .collect();
    let supports = [Length::ZERO, Length::from_si(stock)];
    let axis =
        Axis::from_run_out(Length::from_si(stock), supports, &readings, Length::ZERO).unwrap();
    for (rear, inches) in [(0.0, 32.0), (0.05, 28.0), (0.1, 24.0), (0.02, 20.0)] {
        let got = axis.straight(rear, inches * 0.0254);
        near(got.total / 0.0254, 0.006, 2e-6);
        // As it lies it reads the square of the ratio of spans.
        let ratio = (got.span / full).powi(2);
        near(got.total * ratio / 0.0254, 0.006 * ratio, 2e-6);
    }
}
