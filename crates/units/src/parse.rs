use crate::{Dimension, UnitError};

/// Reads a quantity of a dimension known at run time; the result is in SI.
///
/// # Errors
/// [`UnitError`] names the text and the units that are understood.
pub fn parse_si(dimension: Dimension, text: &str) -> Result<f64, UnitError> {
    let trimmed = text.trim();
    let (number, symbol) = split(trimmed);
    if number.is_empty() {
        return Err(UnitError::NoNumber { text: text.to_owned() });
    }
    let value: f64 = number.parse().map_err(|_| UnitError::NoNumber { text: text.to_owned() })?;
    let symbol = symbol.trim();
    if symbol.is_empty() && dimension != Dimension::Ratio {
        return Err(UnitError::NoUnit {
            text: text.to_owned(),
            dimension,
            example: format!("\"{number} {}\"", dimension.units()[0].symbol),
        });
    }
    let unit = dimension.unit(symbol).ok_or_else(|| UnitError::UnknownUnit {
        unit: symbol.to_owned(),
        dimension,
        allowed: allowed(dimension),
    })?;
    let si = unit.to_si(value);
    if si.is_finite() { Ok(si) } else { Err(UnitError::NotFinite { text: text.to_owned() }) }
}

fn allowed(dimension: Dimension) -> String {
    let symbols: Vec<&str> =
        dimension.units().iter().map(|unit| unit.symbol).filter(|s| !s.is_empty()).collect();
    symbols.join(", ")
}

/// The longest prefix that is a decimal number, and the rest.
fn split(text: &str) -> (&str, &str) {
    let bytes = text.as_bytes();
    let digits = |mut at: usize| {
        while at < bytes.len() && bytes[at].is_ascii_digit() {
            at += 1;
        }
        at
    };
    let start = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
    let mut end = digits(start);
    let mut any = end > start;
    if bytes.get(end) == Some(&b'.') {
        let after = digits(end + 1);
        any |= after > end + 1;
        end = after;
    }
    if !any {
        return ("", text);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent = digits(end + 1 + sign);
        if exponent > end + 1 + sign {
            end = exponent;
        }
    }
    text.split_at(end)
}

#[cfg(test)]
mod tests {
    use super::{parse_si, split};
    use crate::Dimension;

    #[test]
    fn exact_the_number_is_told_from_its_unit() {
        for (text, parts) in
            [("29.5 in", ("29.5", " in")), ("60lbf", ("60", "lbf")), ("-1e-3m", ("-1e-3", "m"))]
        {
            assert_eq!(split(text), parts);
        }
    }

    #[test]
    fn exact_an_inch_is_254_tenths_of_a_millimetre() {
        let inch = parse_si(Dimension::Length, "1 in");
        assert!(inch.is_ok_and(|si| (si - 0.0254).abs() < 1e-17));
        assert!(parse_si(Dimension::Length, "1").is_err());
        assert!(parse_si(Dimension::Length, "1 gr").is_err());
    }
}
