//! A fit to what was shot, for the terminal and as JSON.

mod json;
mod say;

use study::{ErrorsFrom, Fitted, What};
use units::{Dimension, Role, Style};

use crate::ReportError;
use crate::show::{alike, plain};
use crate::table::{Cell, Column, Table, wrap};

pub use json::fit_json;
pub use say::fit_seen;

/// The fit for a terminal of `width` characters.
///
/// # Errors
/// As [`fit_json`].
pub fn fit_text(fitted: &Fitted, style: Style, width: usize) -> Result<String, ReportError> {
    fit_json(fitted)?;
    let paragraph = |text: &str| wrap(text, width).join("\n") + "\n";
    let mut out = paragraph(&say::headline(fitted, style));
    out.push('\n');
    out.push_str(&values(fitted, style).lines(width));
    out.push('\n');
    out.push_str(&shots(fitted, style).lines(width));
    for text in say::remarks(fitted, style) {
        out.push('\n');
        out.push_str(&paragraph(&text));
    }
    Ok(out)
}

fn values(fitted: &Fitted, style: Style) -> Table {
    let rows = fitted.values.iter().map(|value| {
        let role = say::role(value.what);
        let all = [value.before, value.value, value.low, value.high];
        let [before, now, low, high] = alike(role, all, style);
        vec![
            Cell::text(value.what.name()),
            Cell::text(before),
            Cell::Interval { value: now, low, high },
            Cell::text(role.symbol(style)),
        ]
    });
    Table {
        columns: vec![
            Column::new("value", ""),
            Column::new("scenario", ""),
            Column::new("fitted, 95 % interval", ""),
            Column::new("unit", ""),
        ],
        rows: rows.collect(),
    }
}

fn shots(fitted: &Fitted, style: Style) -> Table {
    let rows = fitted.rows.iter().map(|row| {
        let (role, scale) = reading(&row.shot.what);
        let number = |si: f64| match scale {
            // A sight's scale is read in millimetres by everyone.
            Scale::Millimetres => format!("{:.2}", 1e3 * si),
            Scale::Usual => role.number(si, style),
        };
        let unit = match scale {
            Scale::Millimetres => "mm",
            Scale::Usual => role.symbol(style),
        };
        let verdict = match (row.studentized, row.agrees) {
            (None, _) => "not judged",
            (Some(_), true) => "agrees",
            (Some(_), false) => "DISAGREES",
        };
        let off = row.shot.what.si() - row.computed;
        vec![
            Cell::text(row.shot.line.to_string()),
            Cell::text(plain(Role::Range, row.shot.distance.si(), style)),
            Cell::text(say::kind(&row.shot.what)),
            Cell::text(number(row.shot.what.si())),
            Cell::text(number(row.computed)),
            Cell::text(number(off)),
            Cell::text(number(row.shot.sigma())),
            Cell::text(unit),
            Cell::text(row.studentized.map_or_else(|| "-".to_owned(), |t| format!("{:.1}", -t))),
            Cell::text(verdict),
        ]
    });
    let heads =
        ["line", "at", "reading", "seen", "fitted", "off", "error", "unit", "off/error", "verdict"];
    Table { columns: heads.map(|head| Column::new(head, "")).into(), rows: rows.collect() }
}

/// How a reading is shown.
enum Scale {
    Usual,
    Millimetres,
}

fn reading(what: &What) -> (Role, Scale) {
    match what {
        What::Speed(_) => (Role::Speed, Scale::Usual),
        What::Mark(_) | What::Gap { .. } => (Role::Part, Scale::Millimetres),
        What::Impact { .. } => (Role::Impact, Scale::Usual),
    }
}

/// A length on a sight, in mm.
fn millimetres(si: f64) -> String {
    let value = Dimension::Length.unit("mm").map_or(si, |unit| unit.of_si(si));
    format!("{value:.2} mm")
}

/// Where the errors come from, in a sentence.
fn spread(fitted: &Fitted) -> &'static str {
    match fitted.spread {
        ErrorsFrom::Stated => "The intervals rest on the errors stated in the file.",
        ErrorsFrom::Residuals => "The intervals rest on how the shots scatter about the fit.",
        ErrorsFrom::Assumed => {
            "The shots are too few to show their own scatter, so the intervals rest on usual \
             errors: 0.5 % of a speed, 0.25 mm of a sight mark, 0.5 mm at every metre of an \
             impact. State your own in error columns, or shoot more."
        }
    }
}
