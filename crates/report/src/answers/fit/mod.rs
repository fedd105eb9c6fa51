//! A fit to what was shot.

mod words;

use study::{ErrorsFrom, FitRow, Fitted, NextShot, Observed, What};
use target::Estimate;
use units::{Role, Style};

use crate::ReportError;
use crate::document::{Cell, Document, Kind, Part, Table, facts, say, table_of};

pub use words::fit_seen;
use words::{kind, role};

/// What was fitted, what each shot says, and what to shoot next.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn fit(fitted: &Fitted, style: Style) -> Result<Document, ReportError> {
    let mut parts = vec![Part::Table(values(fitted)), Part::Table(shots(fitted))];
    parts.extend(words::remarks(fitted, style).into_iter().map(say));
    parts.extend([correlations(fitted), together(fitted)].map(Part::Data));
    parts.extend(fitted.next.as_ref().map(|of| Part::Data(next(fitted, of))));
    let headline = words::headline(fitted, style);
    let mut short = vec![say(headline.clone()), Part::Table(values(fitted).no_wider(4))];
    short.extend(words::briefly(fitted, style).into_iter().map(say));
    Document::new("fit", "", headline, parts, style)?.shortly(short)
}

fn values(fitted: &Fitted) -> Table {
    table_of("values", &fitted.values)
        .words("value", |v| v.what.name())
        .cells("scenario", Kind::Own, |v| Cell::Quantity(role(v.what), v.before))
        .cells("fitted, 95 % interval", Kind::Own, |v| {
            Cell::Estimate(role(v.what), Estimate { value: v.value, low: v.low, high: v.high })
        })
        .cells("standard error", Kind::Own, |v| Cell::Quantity(role(v.what), v.error))
        .done()
}

/// What a reading is shown as.
fn read_as(what: &What) -> Role {
    match what {
        What::Speed(_) => Role::Speed,
        What::Mark(_) | What::Gap { .. } => Role::Sight,
        What::Impact { .. } => Role::Impact,
    }
}

fn read(row: &FitRow, si: f64) -> Cell {
    Cell::Quantity(read_as(&row.shot.what), si)
}

/// The shots as they agree or not.
fn shots(fitted: &Fitted) -> Table {
    table_of("shots", &fitted.rows)
        .counts("line", "", |row| row.shot.line as u64)
        .words("reading", |row| kind(&row.shot.what))
        .quantity("distance", Role::Range, |row| row.shot.distance.si())
        .quantity("pin", Role::Range, |row| pin(&row.shot))
        .filed()
        .cells("seen", Kind::Own, |row| read(row, row.shot.what.si()))
        .cells("fitted", Kind::Own, |row| read(row, row.computed))
        .cells("off", Kind::Own, |row| read(row, off(row.shot.what.si(), row.computed)))
        .cells("error", Kind::Own, |row| read(row, row.shot.sigma()))
        // Above the fit is positive.
        .quantity("off over error", Role::Number, |row| row.studentized.map(|t| -t))
        .decimals(1)
        .words("agrees", |row| match (row.studentized, row.agrees) {
            (None, _) => "not judged",
            (Some(_), true) => "yes",
            (Some(_), false) => "NO",
        })
        .done()
}

/// The distance that the pin was for.
fn pin(shot: &Observed) -> Option<f64> {
    match shot.what {
        What::Gap { pin, .. } | What::Impact { pin, .. } => Some(pin.si()),
        What::Speed(_) | What::Mark(_) => None,
    }
}

fn correlations(fitted: &Fitted) -> Table {
    table_of("correlations", fitted.values.iter().zip(&fitted.correlations))
        .words("value", |(value, _)| value.what.name())
        .each(fitted.values.iter().enumerate(), |t, (at, other)| {
            t.quantity(other.what.name(), Role::Number, |(_, row)| row[at])
        })
        .done()
}

/// What holds for all shots together.
fn together(fitted: &Fitted) -> Table {
    let number = |si| Cell::Quantity(Role::Number, si);
    let mut rows = vec![("shots beyond the values", Cell::Count(fitted.freedom as u64))];
    rows.extend(fitted.scatter.map(|scatter| ("scatter", number(scatter))));
    rows.extend(fitted.scatter_limit.map(|limit| ("limit of the scatter", number(limit))));
    if let Some(zero) = fitted.scale_zero {
        rows.push(("scale at zero", Cell::Quantity(Role::Sight, zero)));
        rows.push(("scale", if fitted.falling { "falls" } else { "rises" }.into()));
    }
    let spread = match fitted.spread {
        ErrorsFrom::Stated => "stated",
        ErrorsFrom::Residuals => "residuals",
        ErrorsFrom::Assumed => "assumed",
    };
    rows.push(("errors from", spread.into()));
    facts("fit", ["of all shots", "value"], rows)
}

/// The shot that would tell most.
fn next(fitted: &Fitted, next: &NextShot) -> Table {
    let shot = &next.shot;
    let mut rows = vec![
        ("reading".to_owned(), kind(&shot.what).into()),
        ("distance".to_owned(), Cell::Quantity(Role::Range, shot.distance.si())),
        ("seen".to_owned(), Cell::Quantity(read_as(&shot.what), shot.what.si())),
    ];
    rows.extend(pin(shot).map(|pin| ("pin".to_owned(), Cell::Quantity(Role::Range, pin))));
    rows.extend(fitted.values.iter().zip(&next.left).map(|(value, left)| {
        let name = format!("error left of the {}", value.what.name());
        (name, Cell::Quantity(Role::Percent, *left))
    }));
    facts("next", ["next shot", "value"], rows)
}

/// How far a reading is off what was computed; nothing but rounding is none.
fn off(read: f64, computed: f64) -> f64 {
    let off = read - computed;
    if off.abs() < ROUNDING * read.abs() { 0.0 } else { off }
}

/// What a fit that goes through every reading leaves. Chosen: far below any reading.
const ROUNDING: f64 = 1e-9;
