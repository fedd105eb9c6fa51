//! Numbers as a person writes them.

use units::{Bare, Dimension, Unit, read};

use crate::schema::{Id, Kind, Rows, limits};

/// A number to six significant digits, without trailing zeros.
pub(crate) fn neat(value: f64) -> String {
    let rounded: f64 = format!("{value:.5e}").parse().unwrap_or(value);
    // A negative zero reads as a mistake.
    format!("{}", if rounded == 0.0 { 0.0 } else { rounded })
}

/// An SI value in a unit.
pub(crate) fn quantity(si: f64, unit: &Unit) -> String {
    let number = neat(unit.of_si(si));
    if unit.symbol.is_empty() { number } else { format!("{number} {}", unit.symbol) }
}

/// The unit a well-formed quantity is written in.
pub(crate) fn unit_of(dimension: Dimension, text: &str) -> &'static Unit {
    let si = &dimension.units()[0];
    read(dimension, text, Bare::In(si)).map_or(si, |read| read.unit())
}

/// What a key measures, and the ends of its range as declared.
pub(crate) fn measure(id: Id) -> Option<(Dimension, &'static str, &'static str)> {
    match &id.key().kind {
        Kind::Number(number) => Some((number.dimension, number.low, number.high)),
        Kind::Quantity { dimension, low, high } => Some((*dimension, low, high)),
        Kind::Lengths { low, high } => Some((Dimension::Length, low, high)),
        _ => None,
    }
}

/// The unit in which the table itself speaks of a key.
pub(crate) fn own_unit(id: Id) -> &'static Unit {
    let text = match (&id.key().fallback, measure(id)) {
        (crate::schema::Fallback::Is { usual, .. }, Some((dimension, ..))) => {
            (dimension, usual.text)
        }
        // Of a default by units the last is the trade's own.
        (
            crate::schema::Fallback::By { choice: Id::Units, cases: [.., (_, usual)], .. },
            Some((dimension, ..)),
        ) => (dimension, usual.text),
        (_, Some((dimension, _, high))) => (dimension, high),
        (_, None) => (Dimension::Ratio, "0"),
    };
    unit_of(text.0, text.1.split(',').next().unwrap_or_default())
}

/// The allowed range of a key as the table declares it.
pub(crate) fn declared(id: Id) -> String {
    measure(id).map_or_else(String::new, |(_, low, high)| format!("{low} to {high}"))
}

/// The allowed ranges of the columns of readings.
pub(crate) fn ranges(rows: &Rows) -> String {
    let columns = rows.columns.iter();
    let texts: Vec<String> =
        columns.map(|c| format!("{} {} to {}", c.name, c.low, c.high)).collect();
    texts.join(", ")
}

/// The allowed range of a key in a unit.
pub(crate) fn range(id: Id, unit: &Unit) -> String {
    between(limits(id), unit)
}

/// A range in a unit. Its ends are rounded inward to few figures, so that what is told
/// is allowed.
pub(crate) fn between((low, high): (f64, f64), unit: &Unit) -> String {
    let end = |si: f64, up: bool| {
        let value = unit.of_si(si);
        let allowed = |end: &f64| (low..=high).contains(&unit.to_si(*end));
        let number = neat(inward(value, up, allowed).unwrap_or(value));
        if unit.symbol.is_empty() { number } else { format!("{number} {}", unit.written()) }
    };
    format!("{} to {}", end(low, true), end(high, false))
}

/// Most figures of an end of a range that is told as it is, and of one that is rounded.
/// Chosen: what is read at a glance.
const GLANCE: (usize, i32) = (4, 3);

/// The nearest number of few figures that is allowed, above or below an end of a range.
fn inward(value: f64, up: bool, allowed: impl Fn(&f64) -> bool) -> Option<f64> {
    let shown = |value: f64| neat(value).parse::<f64>().ok();
    let few = |value: &f64| {
        let digits = format!("{value:e}");
        digits
            .split('e')
            .next()
            .is_some_and(|mantissa| mantissa.bytes().filter(u8::is_ascii_digit).count() <= GLANCE.0)
    };
    let round = shown(value).filter(few);
    let step = 10_f64.powf(value.abs().log10().floor() - f64::from(GLANCE.1 - 1));
    let whole = if up { (value / step).ceil() } else { (value / step).floor() };
    let next = if up { whole + 1.0 } else { whole - 1.0 };
    let rounded = [whole, next].into_iter().filter_map(|steps| shown(steps * step));
    round.into_iter().chain(rounded).find(allowed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::schema::KEYS;

    #[test]
    fn exact_ends_are_told_in_few_figures() {
        let told = |id, symbol| {
            let (dimension, ..) = measure(id).expect("a quantity");
            range(id, dimension.unit(symbol).expect("a unit"))
        };
        assert_eq!(told(Id::Distances, "yd"), "1.1 yd to 218 yd");
        assert_eq!(told(Id::Zone, "in"), "0.394 in to 78.7 in");
        assert_eq!(told(Id::PointMass, "g"), "0.648 g to 64.7 g");
        assert_eq!(told(Id::ShaftLength, "mm"), "304.8 mm to 1016 mm");
        assert_eq!(told(Id::BowDrawWeight, "lbf"), "5 lb to 150 lb");
        // An end that rounding puts just outside is not told.
        assert_eq!(told(Id::PointBalance, "cm"), "-10.1 cm to 15.2 cm");
    }

    /// A range once ended at 218.723 yd, which was refused.
    #[test]
    fn regress_what_is_told_as_allowed_is_allowed() {
        for key in KEYS {
            let Some((dimension, ..)) = measure(key.id) else { continue };
            let (low, high) = limits(key.id);
            for unit in dimension.units() {
                let told = range(key.id, unit);
                for end in told.split(" to ") {
                    let si = units::parse_si(dimension, end).expect("a quantity");
                    assert!((low..=high).contains(&si), "{}: {told}", key.path);
                }
            }
        }
    }
}
