//! The factor table against the definitions of the units.

use std::f64::consts::TAU;

use proptest::prelude::*;
use units::Dimension as D;
use units::{Dimension, STANDARD_GRAVITY, parse_si};

/// Every unit with the size of one of it in SI, written out from the
/// definitions: yard .9144 m and pound .45359237 kg (1959 agreement), 7000
/// grains and 16 ounces to the pound, 1760 yards to the mile, free fall
/// 9.80665 m/s2 (3rd CGPM, 1901), atmosphere 101325 Pa (10th CGPM, 1954), bar
/// 1e5 Pa. Products of these are exact decimals or carry 17 digits.
pub(crate) const ONE: &[(Dimension, &[(&str, f64)])] = &[
    (
        D::Length,
        &[
            ("m", 1.0),
            ("cm", 0.01),
            ("mm", 0.001),
            ("um", 0.000_001),
            ("km", 1000.0),
            ("in", 0.0254),
            ("thou", 0.000_025_4),
            ("ft", 0.3048),
            ("yd", 0.9144),
        ],
    ),
    (
        D::Mass,
        &[
            ("kg", 1.0),
            ("g", 0.001),
            ("mg", 0.000_001),
            ("gr", 0.000_064_798_91),
            ("oz", 0.028_349_523_125),
            ("lb", 0.453_592_37),
        ],
    ),
    (
        D::LinearDensity,
        &[("kg/m", 1.0), ("g/m", 0.001), ("g/cm", 0.1), ("gr/in", 0.002_551_138_188_976_378)],
    ),
    (D::Density, &[("kg/m3", 1.0), ("g/cm3", 1000.0)]),
    (D::Force, &[("N", 1.0), ("kN", 1000.0), ("lbf", 4.448_221_615_260_5)]),
    (
        D::Speed,
        &[("m/s", 1.0), ("km/h", 0.277_777_777_777_777_8), ("ft/s", 0.3048), ("mph", 0.447_04)],
    ),
    (D::Acceleration, &[("m/s2", 1.0), ("ft/s2", 0.3048), ("gee", 9.806_65)]),
    (
        D::Angle,
        &[
            ("rad", 1.0),
            ("mrad", 0.001),
            ("deg", 0.017_453_292_519_943_295),
            ("arcmin", 0.000_290_888_208_665_721_6),
            ("turn", TAU),
        ],
    ),
    (
        D::AngularRate,
        &[
            ("rad/s", 1.0),
            ("deg/s", 0.017_453_292_519_943_295),
            ("turn/s", TAU),
            ("rpm", 0.104_719_755_119_659_77),
        ],
    ),
    (D::Time, &[("s", 1.0), ("ms", 0.001), ("min", 60.0)]),
    (D::Temperature, &[("K", 1.0), ("degC", 274.15), ("degF", 255.927_777_777_777_78)]),
    (
        D::Pressure,
        &[("Pa", 1.0), ("hPa", 100.0), ("kPa", 1000.0), ("bar", 100_000.0), ("atm", 101_325.0)],
    ),
    (D::Energy, &[("J", 1.0), ("ft lbf", 1.355_817_948_331_400_4)]),
    (
        D::Momentum,
        &[("kg m/s", 1.0), ("N s", 1.0), ("mN s", 0.001), ("slug ft/s", 4.448_221_615_260_5)],
    ),
    (
        D::Inertia,
        &[
            ("kg m2", 1.0),
            ("g m2", 0.001),
            ("kg mm2", 0.000_001),
            ("gr in2", 4.180_566_477_56e-8),
            ("slug ft2", 1.355_817_948_331_400_4),
        ],
    ),
    (D::BendingStiffness, &[("N m2", 1.0), ("lbf in2", 0.002_869_814_657_301_464)]),
    (D::Stiffness, &[("N/m", 1.0), ("N/mm", 1000.0), ("lbf/in", 175.126_835_246_476_4)]),
    (D::Damping, &[("N s/m", 1.0)]),
    (D::PerLength, &[("1/m", 1.0), ("1/ft", 3.280_839_895_013_123_4)]),
    (D::Ratio, &[("", 1.0), ("%", 0.01)]),
];

/// Every unit against its definition, and none that is not in this list.
#[test]
fn exact_factors_against_definitions() {
    assert_eq!(STANDARD_GRAVITY.to_bits(), 9.806_65_f64.to_bits());
    for &(dimension, units) in ONE {
        let listed: Vec<&str> = units.iter().map(|&(symbol, _)| symbol).collect();
        let known: Vec<&str> = dimension.units().iter().map(|unit| unit.symbol).collect();
        assert_eq!(listed, known, "{dimension}");
        for &(symbol, one) in units {
            let si = parse_si(dimension, &format!("1 {symbol}")).unwrap();
            // Factors multiplied from others round a few times.
            assert!((si / one - 1.0).abs() < 4.0 * f64::EPSILON, "{symbol}: {si:e} {one:e}");
        }
    }
}

/// The SI unit comes first, with a factor of exactly one.
#[test]
fn exact_the_first_unit_is_si() {
    for &(dimension, _) in ONE {
        let first = dimension.units()[0];
        assert_eq!((first.factor.to_bits(), first.offset.to_bits()), (1.0_f64.to_bits(), 0));
    }
}

/// Fixed points of the temperature scales, by their definitions.
#[test]
fn exact_temperatures() {
    for (text, kelvin) in [
        ("0 degC", 273.15),
        ("-273.15 degC", 0.0),
        ("32 degF", 273.15),
        ("212 degF", 373.15),
        ("-40 degF", 233.15),
        ("-459.67 degF", 0.0),
    ] {
        let si = parse_si(D::Temperature, text).unwrap();
        assert!((si - kelvin).abs() < 1e-13, "{text}: {si}");
    }
}

/// Any dimension, for property tests.
pub(crate) fn any_dimension() -> impl Strategy<Value = Dimension> {
    (0..ONE.len()).prop_map(|index| ONE[index].0)
}

proptest! {
    /// Into a unit and back.
    #[test]
    fn exact_round_trip_through_every_unit(dimension in any_dimension(), si in -1e6..1e6_f64) {
        for unit in dimension.units() {
            let back = unit.to_si(unit.of_si(si));
            // Four roundings, and the offset of a temperature.
            let size = si.abs().max(unit.offset.abs() * unit.factor);
            prop_assert!((back - si).abs() <= 4.0 * f64::EPSILON * size, "{} {back} {si}", unit.symbol);
        }
    }
}
