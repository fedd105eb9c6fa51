//! The one reader of quantities: a number as people write it, then a unit.

use crate::spelling::{Spelled, spelled};
use crate::{Dimension, Unit, UnitError};

/// What a number without a unit means.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bare {
    /// It is asked about; this unit is suggested first.
    Asked(&'static Unit),
    /// It is in this unit.
    In(&'static Unit),
    /// It is a static spine as the trade says it: 340 and .340 are 0.340 in.
    Spine,
}

/// A quantity as it was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    number: f64,
    unit: &'static Unit,
}

impl Reading {
    /// The quantity in SI.
    pub fn si(&self) -> f64 {
        self.unit.to_si(self.number)
    }

    /// The unit in which it was written.
    pub fn unit(&self) -> &'static Unit {
        self.unit
    }

    /// The quantity in standard form: a decimal number, a blank and the symbol of
    /// the unit. It reads back to the same bits.
    ///
    /// ```
    /// use units::{Bare, Dimension, read};
    ///
    /// let inch = Dimension::Length.unit("in").unwrap();
    /// let read = read(Dimension::Length, "28 1/2\"", Bare::Asked(inch))?;
    /// assert_eq!(read.standard(), "28.5 in");
    /// # Ok::<(), units::UnitError>(())
    /// ```
    pub fn standard(&self) -> String {
        let Self { number, unit } = self;
        if unit.symbol.is_empty() {
            number.to_string()
        } else {
            format!("{number} {}", unit.symbol)
        }
    }

    /// The text as it was written if that is standard form but for its digits,
    /// else in standard form.
    pub fn echo(&self, text: &str) -> String {
        let (text, symbol) = (text.trim(), self.unit.symbol);
        let digits =
            text.strip_suffix(symbol).filter(|rest| symbol.is_empty() || rest.ends_with(' '));
        let decimal = |rest: &str| rest.starts_with(|c: char| c.is_ascii_digit() || c == '-');
        match digits.map(|rest| rest.strip_suffix(' ').unwrap_or(rest)) {
            Some(rest) if decimal(rest) && rest.parse() == Ok(self.number) => text.to_owned(),
            _ => self.standard(),
        }
    }
}

/// Reads a quantity of a dimension known at run time; the result is in SI. A
/// number without a unit is asked about, unless the dimension has none.
///
/// # Errors
/// [`UnitError`] names the text and what would be understood.
pub fn parse_si(dimension: Dimension, text: &str) -> Result<f64, UnitError> {
    read(dimension, text, Bare::Asked(usual(dimension))).map(|read| read.si())
}

/// Reads a quantity as people write it: `28.5 in`, `28 1/2"`, `5' 10"`, `60#`,
/// `285 fps`, `9.3 gpi`, `3 o'clock`, and of an angle `2 in at 40 yd`.
///
/// # Errors
/// [`UnitError`] names the text and what would be understood.
pub fn read(dimension: Dimension, text: &str, bare: Bare) -> Result<Reading, UnitError> {
    let given = || text.to_owned();
    let plain = text.replace('\u{2212}', "-").replace(['\u{a0}', '\u{202f}'], " ");
    let mut plain = plain.trim();
    if bare == Bare::Spine {
        plain = plain.strip_prefix("spine").or(plain.strip_suffix("spine")).unwrap_or(plain).trim();
    }
    if dimension == Dimension::Angle
        && let Some((across, away)) = plain.split_once(" at ")
    {
        let length = |text, unit| {
            read(Dimension::Length, text, Bare::Asked(symbol(Dimension::Length, unit)))
        };
        let degrees = (length(across, "in")?.si() / length(away, "yd")?.si()).atan();
        let unit = symbol(dimension, "deg");
        return finite_reading(text, unit.of_si(degrees), unit);
    }
    let (number, rest) = number(plain)
        .map_err(|ways| UnitError::Unclear { text: given(), ways })?
        .ok_or_else(|| UnitError::NoNumber { text: given() })?;
    let digits = plain[..plain.len() - rest.len()].trim_end();
    let rest = rest.trim();
    let finite = |number: f64, unit| finite_reading(text, number, unit);
    if dimension == Dimension::Angle
        && let Some(hours) = clock(number, rest)
    {
        return finite(hours.rem_euclid(12.0) * 30.0, symbol(dimension, "deg"));
    }
    if dimension == Dimension::Length
        && let Some(inches) = feet_and_inches(number, rest)
    {
        return finite(inches, symbol(dimension, "in"));
    }
    if rest.is_empty() && dimension != Dimension::Ratio {
        return match bare {
            Bare::In(unit) => finite(number, unit),
            Bare::Spine => match spine(number, digits) {
                Some(inches) => finite(inches, symbol(dimension, "in")),
                None => Err(UnitError::Unclear {
                    text: given(),
                    ways: "a spine is written 340, .340, \"0.340 in\" or \"8.6 mm\"".to_owned(),
                }),
            },
            Bare::Asked(unit) => {
                Err(UnitError::NoUnit { text: given(), dimension, like: like(digits, unit) })
            }
        };
    }
    if let Some(ways) = range(digits, rest) {
        return Err(UnitError::Unclear { text: given(), ways });
    }
    if bare == Bare::Spine && Dimension::Force.spelled(rest).is_some() {
        let ways = "a spine in pounds is another reading; write the deflection over 28 in";
        return Err(UnitError::Unclear { text: given(), ways: ways.to_owned() });
    }
    match spelled(dimension, rest) {
        Some(Spelled::Unit(unit)) => finite(number, unit),
        Some(Spelled::Asked(ways)) => {
            Err(UnitError::Unclear { text: given(), ways: ways.to_owned() })
        }
        None => Err(UnitError::UnknownUnit {
            unit: rest.to_owned(),
            dimension,
            allowed: dimension.written().join(", "),
        }),
    }
}

fn finite_reading(text: &str, number: f64, unit: &'static Unit) -> Result<Reading, UnitError> {
    let reading = Reading { number, unit };
    let good = number.is_finite() && reading.si().is_finite();
    if good { Ok(reading) } else { Err(UnitError::NotFinite { text: text.to_owned() }) }
}

/// The same number in the units its users would mean.
pub fn like(number: &str, unit: &Unit) -> String {
    let one = format!("\"{number} {}\"", unit.written());
    match unit.counterpart() {
        Some(other) => format!("{one} or \"{number} {other}\""),
        None => one,
    }
}

/// The unit that archers write for a dimension.
fn usual(dimension: Dimension) -> &'static Unit {
    let usual = match dimension {
        Dimension::Length => "in",
        Dimension::Mass => "gr",
        Dimension::LinearDensity => "gr/in",
        Dimension::Force => "lbf",
        Dimension::Speed => "ft/s",
        Dimension::Angle => "deg",
        Dimension::AngularRate => "turn/s",
        Dimension::Temperature => "degF",
        Dimension::Pressure => "hPa",
        _ => dimension.units()[0].symbol,
    };
    symbol(dimension, usual)
}

/// A unit of the table.
fn symbol(dimension: Dimension, symbol: &str) -> &'static Unit {
    dimension.unit(symbol).unwrap_or(&dimension.units()[0])
}

/// A clock position in hours, noon at the top: `3 o'clock`, `10:30 o'clock`.
fn clock(hours: f64, rest: &str) -> Option<f64> {
    let rest = rest.to_lowercase().replace(['\u{2019}', '\u{2018}'], "'");
    let (minutes, word) = match rest.strip_prefix(':') {
        Some(rest) => rest.split_at_checked(2)?,
        None => ("0", rest.as_str()),
    };
    let minutes = minutes.parse::<u8>().ok().filter(|minutes| *minutes < 60)?;
    let hour = matches!(word.trim(), "o'clock" | "oclock" | "o clock" | "clock");
    (hour && (0.0..=12.0).contains(&hours)).then(|| hours + f64::from(minutes) / 60.0)
}

/// `5' 10"` and `5 ft 10 in` in inches.
fn feet_and_inches(feet: f64, rest: &str) -> Option<f64> {
    let end = rest.find(|c: char| c.is_ascii_digit())?;
    let is = |text: &str, symbol: &str| {
        let unit = spelled(Dimension::Length, text);
        matches!(unit, Some(Spelled::Unit(unit)) if unit.symbol == symbol)
    };
    if !is(&rest[..end], "ft") || feet.fract() != 0.0 || feet < 0.0 {
        return None;
    }
    let (inches, unit) = number(&rest[end..]).ok()??;
    (is(unit, "in") && (0.0..12.0).contains(&inches)).then_some(feet * 12.0 + inches)
}

/// A spine said as the trade says it, in inches. Ends chosen: stiffer and weaker
/// than any arrow shaft that is sold; between them 34 or 8.6 could mean anything. A whole
/// number above them is thousandths all the same, of a slip that the key's range tells.
fn spine(number: f64, digits: &str) -> Option<f64> {
    let whole = digits.bytes().all(|digit| digit.is_ascii_digit());
    // Testers read halves of a thousandth.
    let thousandths = whole || number >= 100.0;
    let inches = if thousandths { number / 1000.0 } else { number };
    (inches >= 0.15 && (thousandths || inches <= 2.0)).then_some(inches)
}

/// `40-45 lb`: a range where one number is wanted.
fn range(low: &str, rest: &str) -> Option<String> {
    let rest = rest.strip_prefix(['-', '\u{2013}']).or_else(|| rest.strip_prefix("to "))?;
    let (_, unit) = number(rest.trim()).ok()??;
    let high = rest.trim()[..rest.trim().len() - unit.len()].trim();
    let unit = unit.trim();
    Some(format!("as a range it is {{ low = \"{low} {unit}\", high = \"{high} {unit}\" }}"))
}

/// The number at the start of a text, and what follows it; none if there is
/// none, and the ways to read it if there are several.
fn number(text: &str) -> Result<Option<(f64, &str)>, String> {
    let sign = usize::from(text.starts_with(['+', '-']));
    let negative = text.starts_with('-');
    let signed = |value: f64| if negative { -value } else { value };
    let body = &text[sign..];
    let whole = digits(body);
    // A fraction of its own: 1/8.
    if let Some((value, rest)) = fraction(body) {
        return Ok(Some((signed(value), rest)));
    }
    // A whole number and a fraction: 28 1/2, 28-1/2, 28½.
    if whole > 0
        && let Some((value, rest)) = fraction(body[whole..].trim_start_matches([' ', '-']))
        && let Ok(ones) = body[..whole].parse::<f64>()
    {
        return Ok(Some((signed(ones + value), rest)));
    }
    let end = decimal(body);
    if end == 0 {
        return Ok(None);
    }
    let (digits_only, rest) = body.split_at(end);
    if let Some(after) = rest.strip_prefix(',') {
        let more = digits(after);
        if more > 0 {
            return comma(signed, digits_only, &after[..more], &after[more..]);
        }
    }
    Ok(digits_only.parse().ok().map(|value| (signed(value), rest)))
}

/// A number with a comma: `28,5` is a decimal comma; `1,250` may be anything.
fn comma<'t>(
    signed: impl Fn(f64) -> f64,
    ones: &str,
    after: &str,
    rest: &'t str,
) -> Result<Option<(f64, &'t str)>, String> {
    let thousands = after.len() == 3 && ones.len() <= 3 && !ones.starts_with('0');
    if thousands || ones.contains(['.', 'e', 'E']) || rest.starts_with(['.', ',']) {
        return Err("write a decimal point, and no mark between thousands".to_owned());
    }
    Ok(format!("{ones}.{after}").parse().ok().map(|value| (signed(value), rest)))
}

/// A proper fraction at the start of a text, and what follows it.
fn fraction(text: &str) -> Option<(f64, &str)> {
    let vulgar = [
        ('\u{bd}', 0.5),
        ('\u{bc}', 0.25),
        ('\u{be}', 0.75),
        ('\u{215b}', 0.125),
        ('\u{215c}', 0.375),
        ('\u{215d}', 0.625),
        ('\u{215e}', 0.875),
    ];
    let first = text.chars().next()?;
    if let Some((mark, value)) = vulgar.iter().find(|(mark, _)| *mark == first) {
        return Some((*value, &text[mark.len_utf8()..]));
    }
    let over = digits(text);
    let rest = text[over..].trim_start().strip_prefix(['/', '\u{2044}'])?;
    let rest = rest.trim_start();
    let under = digits(rest);
    let above: u16 = text[..over].parse().ok()?;
    let below: u16 = rest[..under].parse().ok()?;
    (above < below).then(|| (f64::from(above) / f64::from(below), &rest[under..]))
}

/// How many digits a text begins with.
fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

/// How many bytes at the start of a text are a decimal number.
fn decimal(text: &str) -> usize {
    let bytes = text.as_bytes();
    let ones = digits(text);
    let mut end = ones;
    if bytes.get(end) == Some(&b'.') {
        let after = digits(&text[end + 1..]);
        if ones + after == 0 {
            return 0;
        }
        // The stop of `28.` is its own; that of `28 in.` is the unit's.
        end += 1 + after;
    }
    if end > 0 && matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent = text.get(end + 1 + sign..).map_or(0, digits);
        if exponent > 0 {
            end += 1 + sign + exponent;
        }
    }
    end
}

#[cfg(test)]
mod tests {
    use super::{number, parse_si};
    use crate::Dimension;

    #[test]
    fn exact_the_number_is_told_from_its_unit() {
        for (text, value, rest) in [
            ("29.5 in", 29.5, " in"),
            ("60lbf", 60.0, "lbf"),
            ("-1e-3m", -1e-3, "m"),
            ("28 1/2 in", 28.5, " in"),
            ("-28-1/2\"", -28.5, "\""),
            ("28\u{bd}\"", 28.5, "\""),
            ("1/8in", 0.125, "in"),
            ("2 1/m", 2.0, " 1/m"),
            ("28,5 in", 28.5, " in"),
            ("0,340 in", 0.34, " in"),
        ] {
            assert_eq!(number(text), Ok(Some((value, rest))), "{text}");
        }
        assert!(number("1,250 mm").is_err());
        assert_eq!(number("in"), Ok(None));
    }

    #[test]
    fn exact_an_aim_may_be_said_in_inches_at_a_distance() {
        let aim = parse_si(Dimension::Angle, "2 in at 40 yd");
        assert!(aim.is_ok_and(|si| (si - (2.0_f64 / 1440.0).atan()).abs() < 1e-17));
        assert!(parse_si(Dimension::Angle, "2 at 40 yd").is_err());
        assert!(parse_si(Dimension::Angle, "2 in at 0 yd").is_ok_and(f64::is_finite));
        assert!(parse_si(Dimension::Angle, "0 in at 0 yd").is_err());
    }

    #[test]
    fn exact_an_inch_is_254_tenths_of_a_millimetre() {
        let inch = parse_si(Dimension::Length, "1 in");
        assert!(inch.is_ok_and(|si| (si - 0.0254).abs() < 1e-17));
        assert!(parse_si(Dimension::Length, "1").is_err());
        assert!(parse_si(Dimension::Length, "1 gr").is_err());
    }
}
