//! Reading and showing quantities.

use proptest::prelude::*;
use units::Dimension as D;
use units::{Bare, Dimension, Length, Ratio, Role, Style, UnitError, parse_si, read};

use super::units::{ONE, any_dimension};

const ROLES: &[Role] = &[
    Role::Range,
    Role::Impact,
    Role::Part,
    Role::Gauge,
    Role::Rim,
    Role::Spine,
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
    for text in ["5 furlong", "1 2 m", "1e m", "5 m m", "5 gr", "3/2 m", "5 m/s"] {
        assert!(matches!(length(text), UnitError::UnknownUnit { .. }), "{text}");
    }
    for text in ["1e999 m", "-1e999 in", "1e308 km"] {
        assert!(matches!(length(text), UnitError::NotFinite { .. }), "{text}");
    }
}

/// What people write, and the standard form in which it is echoed. Spellings of
/// the trade: common practice, no source.
const ORDINARY: &[(Dimension, &str, &str)] = &[
    (D::Length, "28 1/2 in", "28.5 in"),
    (D::Length, "28-1/2\"", "28.5 in"),
    (D::Length, "28\u{bd}\u{201d}", "28.5 in"),
    (D::Length, "28.5 inches", "28.5 in"),
    (D::Length, "29 inch", "29 in"),
    (D::Length, "29 in.", "29 in"),
    (D::Length, "1/8 in", "0.125 in"),
    (D::Length, "5' 10\"", "70 in"),
    (D::Length, "6 ft 2 in", "74 in"),
    (D::Length, "5 feet", "5 ft"),
    (D::Length, "40 yds", "40 yd"),
    (D::Length, "40 yards", "40 yd"),
    (D::Length, "70 METRES", "70 m"),
    (D::Length, "5 thou", "5 thou"),
    (D::Length, "3 mil", "3 thou"),
    (D::Length, "28,5 in", "28.5 in"),
    (D::Force, "60 lb", "60 lbf"),
    (D::Force, "60 lbs", "60 lbf"),
    (D::Force, "60 lbs.", "60 lbf"),
    (D::Force, "60#", "60 lbf"),
    (D::Force, "62 1/2 pounds", "62.5 lbf"),
    (D::Mass, "425 grains", "425 gr"),
    (D::Mass, "100 grain", "100 gr"),
    (D::Mass, "27.5 grams", "27.5 g"),
    (D::LinearDensity, "9.3 gpi", "9.3 gr/in"),
    (D::LinearDensity, "9.3 grains per inch", "9.3 gr/in"),
    (D::Speed, "285 fps", "285 ft/s"),
    (D::Speed, "285 feet per second", "285 ft/s"),
    (D::Speed, "10 MPH", "10 mph"),
    (D::Speed, "15 kph", "15 km/h"),
    (D::Angle, "3 o'clock", "90 deg"),
    (D::Angle, "10:30 o\u{2019}clock", "315 deg"),
    (D::Angle, "12 oclock", "0 deg"),
    (D::Angle, "2 degrees", "2 deg"),
    (D::Angle, "1.5\u{b0}", "1.5 deg"),
    (D::Temperature, "60 F", "60 degF"),
    (D::Temperature, "15\u{b0}C", "15 degC"),
    (D::Energy, "70 ft-lbs", "70 ft lbf"),
    (D::Ratio, "80 percent", "80 %"),
    (D::Ratio, "1/4", "0.25"),
];

/// What could mean several things, and a word of the question.
const UNCLEAR: &[(Dimension, &str, &str)] = &[
    (D::Length, "28", "\"28 in\" or \"28 mm\""),
    (D::Length, "28 1/2", "\"28 1/2 in\""),
    (D::Length, "1/8", "\"1/8 in\" or \"1/8 mm\""),
    (D::Length, "1,250 mm", "thousands"),
    (D::Mass, "350", "\"350 gr\" or \"350 g\""),
    (D::Mass, "350 G", "g is grams, gr is grains"),
    (D::Force, "60", "\"60 lb\" or \"60 N\""),
    (D::Force, "28 kg", "kg is a mass"),
    (D::Force, "60-65 lb", "{ low = \"60 lb\", high = \"65 lb\" }"),
    (D::Speed, "285", "\"285 ft/s\" or \"285 m/s\""),
    (D::Temperature, "15", "\"15 degF\" or \"15 degC\""),
    (D::Temperature, "15 degrees", "degF or degC"),
    (D::Angle, "2 mil", "mrad"),
    (D::Angle, "3", "\"3 deg\""),
];

/// Ordinary spellings are read, and echoed in a form that is read as the same.
#[test]
fn exact_ordinary_spellings_are_read_and_echoed_in_standard_form() {
    for &(dimension, text, standard) in ORDINARY {
        let bare = Bare::Asked(&dimension.units()[0]);
        let reading = read(dimension, text, bare).unwrap_or_else(|e| panic!("{text}: {e}"));
        assert_eq!(reading.standard(), standard, "{text}");
        assert_eq!(reading.echo(text), standard, "{text}");
        let again = parse_si(dimension, standard).unwrap();
        assert_eq!(again.to_bits(), reading.si().to_bits(), "{text}");
    }
    assert!(ORDINARY.len() >= 30);
}

/// What is not clear is asked about, never guessed.
#[test]
fn exact_unclear_quantities_are_asked_about() {
    for &(dimension, text, word) in UNCLEAR {
        let asked = parse_si(dimension, text).expect_err(text);
        let unclear = matches!(asked, UnitError::Unclear { .. } | UnitError::NoUnit { .. });
        assert!(unclear && asked.to_string().contains(word), "{text}: {asked}");
    }
    assert!(UNCLEAR.len() >= 10);
}

/// A spine is read as the trade says it, and nothing that may be no spine.
#[test]
fn exact_a_spine_may_stand_without_a_unit() {
    let spine = |text: &str| read(D::Length, text, Bare::Spine);
    for text in ["340", ".340", "0.340", "0.34", "340 spine", ".340 spine", "spine 340", ".340 in"]
    {
        let read = spine(text).unwrap_or_else(|e| panic!("{text}: {e}"));
        assert_eq!(read.standard(), "0.34 in", "{text}");
    }
    for text in ["34", "8.6", "3.4", "0.034", "0", "60 lb", "60#"] {
        assert!(matches!(spine(text), Err(UnitError::Unclear { .. })), "{text}");
    }
    // A slip that is clear: what no shaft has, the range of the key tells.
    assert_eq!(spine("7000").unwrap().standard(), "7 in");
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
        (Role::Mass, 0.028, "432.1 gr", "432.1 gr"),
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

    /// Every other spelling of a unit reads as the unit, and what is echoed reads
    /// back to the same bits.
    #[test]
    fn exact_every_spelling_reads_as_its_unit(
        dimension in any_dimension(), value in -1e6..1e6_f64, capitals: bool,
    ) {
        for (spelling, symbol) in dimension.spellings() {
            let unit = dimension.unit(symbol).unwrap();
            // A capital M is mega where milli is a unit.
            let upper = capitals && !spelling.starts_with('m') && !spelling.contains('\u{b5}');
            let said = if upper { spelling.to_uppercase() } else { (*spelling).to_owned() };
            let asked = ["G", "GS"].contains(&said.as_str());
            if dimension == D::Mass && asked { continue; }
            for text in [format!("{value}{said}"), format!(" {value} {said}. ")] {
                let read = read(dimension, &text, Bare::Asked(unit));
                let read = read.unwrap_or_else(|e| panic!("{text}: {e}"));
                prop_assert_eq!(read.si().to_bits(), unit.to_si(value).to_bits(), "{}", text);
                let again = parse_si(dimension, &read.standard()).unwrap();
                prop_assert_eq!(again.to_bits(), read.si().to_bits(), "{}", text);
            }
        }
    }

    /// Fractions read as the nearest number to what they say.
    #[test]
    fn exact_every_fraction_reads_as_its_number(
        ones in 0..60_u16, power in 1..7_u32, above in 1..64_u16, negative: bool,
    ) {
        let below = 2_u16.pow(power);
        prop_assume!(above < below);
        let value = f64::from(ones) + f64::from(above) / f64::from(below);
        let (value, sign) = if negative { (-value, "-") } else { (value, "") };
        for text in [
            format!("{sign}{ones} {above}/{below} in"),
            format!("{sign}{ones}-{above}/{below}\""),
        ] {
            let read = read(D::Length, &text, Bare::Spine).unwrap();
            prop_assert_eq!(read.si().to_bits(), (value * 0.0254).to_bits(), "{}", text);
            prop_assert_eq!(read.standard(), format!("{value} in"));
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
