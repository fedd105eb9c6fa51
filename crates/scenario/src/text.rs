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

/// A range in a unit.
pub(crate) fn between((low, high): (f64, f64), unit: &Unit) -> String {
    format!("{} to {}", quantity(low, unit), quantity(high, unit))
}
