//! Reading and showing quantities.

use proptest::prelude::*;
use units::Dimension as D;
use units::{Dimension, Length, Ratio, Role, Style, UnitError, parse_si};

use super::units::{ONE, any_dimension};

const ROLES: &[Role] = &[
    Role::Range,
    Role::Impact,
    Role::Part,
    Role::Gauge,
    Role::Mass,
    Role::LinearDensity,
    Role::Force,
    Role::Speed,
    Role::Wind,
    Role::Angle,
    Role::Rate,
    Role::Spin,
    Role::Time,
    Role::Temperature,
    Role::Pressure,
    Role::Energy,
    Role::Momentum,
    Role::Inertia,
    Role::BendingStiffness,
    Role::Stiffness,
    Role::Density,
    Role::Percent,
    Role::Number,
];

const STYLES: [Style; 2] = [Style::Archery, Style::Metric];

/// What is understood, and as what.
#[test]
fn exact_texts_that_are_understood() {
    for (text, metres) in [
        ("29.5 in", 29.5 * 0.0254),
        ("  29.5in ", 29.5 * 0.0254),
        ("+3 m", 3.0),
        ("-3 m", -3.0),
        (".5 m", 0.5),
        ("5. m", 5.0),
        ("2e3 mm", 2.0),
        ("2E+3mm", 2.0),
        ("2.5e-1\tm", 0.25),
        ("0 yd", 0.0),
    ] {
        let length: Length = text.parse().unwrap();
        assert!((length.si() - metres).abs() <= f64::EPSILON * metres.abs(), "{text}");
    }
    for (text, ratio) in [("0.5", 0.5), ("12 %", 0.12), ("12%", 0.12), (" 1e-2 ", 0.01)] {
        assert_eq!(text.parse::<Ratio>().unwrap(), Ratio::from_si(ratio), "{text}");
    }
    // Units with a blank inside are written with exactly one.
    assert!((parse_si(D::Energy, "60 ft lbf").unwrap() - 81.349_076_899_884_02).abs() < 1e-13);
}

/// What is refused, and why.
#[test]
fn exact_texts_that_are_refused() {
    let length = |text: &str| text.parse::<Length>().unwrap_err();
    for text in ["", " ", "in", ".", "-", "+", "e5 m", "- 3 m", "nan m", "inf m", "--3 m"] {
        assert!(matches!(length(text), UnitError::NoNumber { .. }), "{text}");
    }
    for text in ["5", "-0.5", "1e3"] {
        assert!(matches!(length(text), UnitError::NoUnit { .. }), "{text}");
    }
    for text in ["5 furlong", "5 IN", "1 2 m", "1,5 m", "1e m", "5 m m", "5 gr", "5 \"", "5 m/s"] {
        assert!(matches!(length(text), UnitError::UnknownUnit { .. }), "{text}");
    }
    for text in ["1e999 m", "-1e999 in", "1e308 km"] {
        assert!(matches!(length(text), UnitError::NotFinite { .. }), "{text}");
    }
}

/// Every role names a unit of one dimension, in both styles.
#[test]
fn exact_every_role_has_a_unit() {
    for &role in ROLES {
        let [archery, metric] = STYLES.map(|style| dimension_of(role, style));
        assert_eq!(archery, metric, "{role:?}");
    }
}

/// A value that rounds to nothing is shown without a sign.
#[test]
fn exact_no_negative_zero_is_shown() {
    assert_eq!(Role::Impact.text(-1e-9, Style::Metric), "0.0 cm");
    assert_eq!(Role::Range.number(-0.0, Style::Archery), "0");
    assert_eq!(Role::Impact.text(-0.0011, Style::Metric), "-0.11 cm");
}

/// Impacts and inertias show two figures, as far as two more decimals go.
#[test]
fn exact_small_impacts_and_inertias_keep_two_figures() {
    let shown = |role: Role, of_unit: f64, style: Style| {
        role.number(role.unit(style).0.to_si(of_unit), style)
    };
    for (value, archery, metric) in [
        (123.456, "123.46", "123.5"),
        (1.234, "1.23", "1.2"),
        (0.961, "0.96", "1.0"),
        (0.941, "0.94", "0.94"),
        (0.0949, "0.095", "0.095"),
        (0.0123, "0.012", "0.012"),
        (0.00123, "0.0012", "0.001"),
        (0.000_06, "0.0001", "0.0"),
        (0.000_01, "0.00", "0.0"),
        (0.0, "0.00", "0.0"),
        (-0.0123, "-0.012", "-0.012"),
    ] {
        assert_eq!(shown(Role::Impact, value, Style::Archery), archery);
        assert_eq!(shown(Role::Impact, value, Style::Metric), metric);
        assert_eq!(shown(Role::Inertia, value, Style::Metric), metric);
    }
    assert_eq!(Role::Inertia.text(1855.392e-6, Style::Archery), "1855.4 kg mm2");
    assert_eq!(Role::Inertia.text(0.2912e-6, Style::Archery), "0.29 kg mm2");
    // Numbers shown together take the decimals of one.
    let decimals = Role::Impact.decimals(0.0254, Style::Archery);
    assert_eq!(Role::Impact.rounded(0.0005, decimals, Style::Archery), "0.02");
}

/// Some readings of a trade and a metric reader.
#[test]
fn exact_shown_values() {
    for (role, si, archery, metric) in [
        (Role::Range, 36.576, "40 yd", "37 m"),
        (Role::Mass, 0.028, "432.1 gr", "28.00 g"),
        (Role::Speed, 85.0, "278.9 ft/s", "85.0 m/s"),
        (Role::Temperature, 288.15, "59 degF", "15 degC"),
        (Role::Percent, 0.125, "12.5 %", "12.5 %"),
        (Role::Number, 1.5, "1.500", "1.500"),
    ] {
        assert_eq!(role.text(si, Style::Archery), archery);
        assert_eq!(role.text(si, Style::Metric), metric);
    }
}

fn dimension_of(role: Role, style: Style) -> Dimension {
    let (unit, _) = role.unit(style);
    let holds = |dimension: &Dimension| dimension.units().contains(unit);
    ONE.iter().map(|&(dimension, _)| dimension).find(holds).unwrap()
}

proptest! {
    /// A number with a unit reads back as that number in that unit.
    #[test]
    fn exact_parse_reads_what_is_written(
        dimension in any_dimension(), value in -1e12..1e12_f64, tiny in -1e-9..1e-9_f64,
    ) {
        for unit in dimension.units() {
            for value in [value, tiny] {
                for text in [format!("{value} {}", unit.symbol), format!("{value:e} {}", unit.symbol)] {
                    let si = parse_si(dimension, &text).unwrap();
                    prop_assert_eq!(si.to_bits(), unit.to_si(value).to_bits(), "{}", text);
                }
            }
        }
    }

    /// What is shown reads back to half a unit of its last decimal.
    #[test]
    fn exact_parse_reads_what_is_shown(index in 0..ROLES.len(), value in -1e4..1e4_f64) {
        let role = ROLES[index];
        for style in STYLES {
            let (unit, decimals) = role.unit(style);
            let text = role.text(unit.to_si(value), style);
            let si = parse_si(dimension_of(role, style), &text).unwrap();
            let half = 0.5 * 0.1_f64.powi(i32::try_from(decimals).unwrap());
            prop_assert!((unit.of_si(si) - value).abs() < half + 1e-10, "{text} {value}");
        }
    }

    /// No text brings the reader down, and nothing it accepts is not finite.
    #[test]
    fn exact_any_text_is_read_or_refused(dimension in any_dimension(), text in ".{0,24}") {
        prop_assert!(parse_si(dimension, &text).map_or(true, f64::is_finite));
    }

    /// The same for texts that look like quantities.
    #[test]
    fn exact_any_near_quantity_is_read_or_refused(
        dimension in any_dimension(),
        text in "[+-]{0,2}[0-9]{0,4}[.]{0,2}[0-9]{0,3}(e|E)?[+-]?[0-9]{0,4} ?[a-z%/2 ]{0,5}",
    ) {
        prop_assert!(parse_si(dimension, &text).map_or(true, f64::is_finite));
    }
}
